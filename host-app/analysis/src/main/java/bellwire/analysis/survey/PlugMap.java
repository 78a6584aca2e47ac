package bellwire.analysis.survey;

import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.hipparchus.special.Erf;
import org.jspecify.annotations.Nullable;

/**
 * Which conductor sits in which position of the coded plug, by likelihood. What an arm's reading
 * leaves over the plug's resistor is the conductor: alike for all conductors of a cable, more with
 * a joint in it, never less. Theory (13) and (14).
 */
public final class PlugMap {
  /**
   * Prior probability that a conductor has a joint that stands out; its size exponential or spread
   * over decades.
   */
  private static final double JOINT = 0.02;

  private static final double WIDE_JOINT = 1e-3;
  private static final double JOINT_OHMS = 0.5;
  private static final double DECADES = Math.log(1e4);
  private static final double WORST = 600;

  /**
   * Prior probability that a reading is neither a sound conductor's nor a joint's: where a
   * conductor does not reach the plug its far part may touch another one beyond the break, and lend
   * it its arm.
   */
  private static final double UNEXPLAINED_BESIDE_A_BREAK = 1e-3;

  /** With all conductors on the plug nothing known does that. */
  private static final double UNEXPLAINED = 1e-12;

  /** An unexplained reading may lie anywhere among the plug's arms. */
  private static final double ARMS_OHMS = 700;

  /**
   * A conductor's place on the plug.
   *
   * @param position 1 to 16
   * @param odds how much likelier this place is than the best assignment that puts the conductor
   *     elsewhere, or than no explanation at all
   */
  public record Place(int position, double odds) {}

  private final Plug plug;
  private final Criteria criteria;

  public PlugMap(Plug plug, Criteria criteria) {
    this.plug = plug;
    this.criteria = criteria;
  }

  /**
   * @param arms readings with the coded plug, by port
   * @param conductors resistance of the conductor alone where another phase has read it, by port
   * @param broken whether a conductor of the cable does not reach the plug
   * @return a place for each port of {@code arms}
   */
  public Map<Integer, Place> places(
      Map<Integer, Quantity> arms, Map<Integer, Quantity> conductors, boolean broken) {
    double unexplained = (broken ? UNEXPLAINED_BESIDE_A_BREAK : UNEXPLAINED) / ARMS_OHMS;
    List<Integer> ports = new ArrayList<>(arms.keySet());
    double common = commonOhms(arms);
    double[][] cost = new double[ports.size()][plug.positions()];
    for (int i = 0; i < ports.size(); i++) {
      Quantity arm = Objects.requireNonNull(arms.get(ports.get(i)));
      Quantity known = conductors.get(ports.get(i));
      for (int p = 0; p < plug.positions(); p++) {
        cost[i][p] = Math.min(WORST, -logLikelihood(arm, p, known, common));
      }
      double least = Arrays.stream(cost[i]).min().orElse(0);
      for (int p = 0; p < plug.positions(); p++) {
        cost[i][p] -= least;
      }
    }
    Assignment assignment = new Assignment(cost);
    int[] columns = assignment.columns();
    Map<Integer, Place> places = new LinkedHashMap<>();
    for (int i = 0; i < ports.size(); i++) {
      Quantity arm = Objects.requireNonNull(arms.get(ports.get(i)));
      double fit = logLikelihood(arm, columns[i], conductors.get(ports.get(i)), common);
      double margin = Math.min(assignment.margin(i), fit - Math.log(unexplained));
      double odds = Math.exp(Math.min(WORST, margin));
      places.put(ports.get(i), new Place(columns[i] + 1, odds));
    }
    return places;
  }

  /** The pairs of positions that could make up the sum of two conductors' arms. */
  public List<int[]> pairsFor(Quantity loop, double mostConductorOhms) {
    List<int[]> pairs = new ArrayList<>();
    for (int p = 0; p < plug.positions(); p++) {
      for (int q = p + 1; q < plug.positions(); q++) {
        double left = loop.value() - plug.armOhms()[p] - plug.armOhms()[q];
        double u = Math.hypot(loop.u(), Math.hypot(plug.u(p), plug.u(q)));
        if (left > -4 * u && left < 2 * mostConductorOhms) {
          pairs.add(new int[] {p + 1, q + 1});
        }
      }
    }
    return pairs;
  }

  /**
   * What the conductors have in common: the median of what each leaves over the nearest arm below
   * it.
   */
  private double commonOhms(Map<Integer, Quantity> arms) {
    double[] left =
        arms.values().stream()
            .mapToDouble(
                s -> {
                  double over = s.value();
                  for (int p = 0; p < plug.positions(); p++) {
                    double rest = s.value() - plug.armOhms()[p];
                    if (rest > -3 * Math.hypot(s.u(), plug.u(p)) && rest < over) {
                      over = rest;
                    }
                  }
                  return Math.max(over, 0);
                })
            .sorted()
            .toArray();
    return left.length == 0 ? 0 : left[(left.length - 1) / 2];
  }

  private double logLikelihood(Quantity arm, int p, @Nullable Quantity known, double common) {
    double contacts = 2 * criteria.contactHalfWidthOhms() / Math.sqrt(3);
    double u = Math.hypot(Math.hypot(arm.u(), plug.u(p)), contacts);
    double left = arm.value() - plug.armOhms()[p];
    double expected = known == null ? common : known.value() + 2 * criteria.contactOhms();
    double width =
        known == null ? Math.hypot(u, Math.max(0.03, 0.02 * common)) : Math.hypot(u, known.u());
    double z = (left - expected) / width;
    double core = (1 - JOINT) * Math.exp(-z * z / 2) / (width * Math.sqrt(2 * Math.PI));
    double over = left - expected;
    double joint = 0;
    if (over > -5 * width) {
      double reach = 0.5 * Erf.erfc(-over / (width * Math.sqrt(2)));
      double size = Math.max(over, width);
      // With the conductor known from the tie plug, only a contact that has changed since can add
      // to it.
      double weight = known == null ? 1 : 0.01;
      joint =
          weight
              * reach
              * (JOINT * Math.exp(-size / JOINT_OHMS) / JOINT_OHMS + WIDE_JOINT / (size * DECADES));
    }
    double likelihood = core + joint;
    return likelihood > 0 ? Math.log(likelihood) : -WORST;
  }
}
