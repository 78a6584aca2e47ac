package bellwire.analysis.attached;

import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.StarResult;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * What a survey in place saw of a landing, as far as it can be compared with another.
 *
 * @param ports with copper on them
 * @param joined resistance of pairs that something joins, ohm
 * @param attached what it is
 * @param farads capacitance of conductors that nothing joins to others, by port
 * @param arms from each port to the tie plug's common point, by port; empty without one
 */
public record Landing(
    List<Integer> ports,
    List<Joined> joined,
    List<Attachment> attached,
    Map<Integer, Double> farads,
    Map<Integer, Quantity> arms) {

  /** What hangs on a plug at all is less: a fit that says more has not told the arm. */
  private static final double NO_ARM_OHMS = 3000;

  /** Two ports, the lower first, and what lies between them. */
  public record Joined(int a, int b, double ohms, double u) {}

  public Landing {
    ports = List.copyOf(ports);
    joined = List.copyOf(joined);
    attached = List.copyOf(attached);
    farads = Map.copyOf(farads);
    arms = Map.copyOf(arms);
  }

  /**
   * @param tie null without a tie plug
   */
  public static Landing of(OpenResult open, List<Attachment> attached, @Nullable StarResult tie) {
    List<Joined> joined = new ArrayList<>();
    Map<Integer, Double> farads = new LinkedHashMap<>();
    for (int a : open.ports()) {
      for (int b : open.ports()) {
        Quantity ohms = open.distances()[a][b];
        if (a < b && ohms != null) {
          joined.add(new Joined(a, b, ohms.value(), ohms.u()));
        }
      }
    }
    for (int port : open.conductors()) {
      Quantity charged = open.farads(port);
      if (charged != null) {
        farads.put(port, charged.value());
      }
    }
    Map<Integer, Quantity> arms = new LinkedHashMap<>();
    if (tie != null) {
      tie.arms()
          .forEach(
              (port, arm) ->
                  arms.put(port, arm.value() < NO_ARM_OHMS ? arm : Quantity.ohms(1, NO_ARM_OHMS)));
    }
    return new Landing(open.ports(), joined, attached, farads, arms);
  }

  /** Resistance between two ports; infinite where nothing joins them. */
  double ohms(int a, int b) {
    for (Joined pair : joined) {
      if (pair.a() == Math.min(a, b) && pair.b() == Math.max(a, b)) {
        return Math.max(pair.ohms(), 0);
      }
    }
    return Double.POSITIVE_INFINITY;
  }

  double u(int a, int b) {
    for (Joined pair : joined) {
      if (pair.a() == Math.min(a, b) && pair.b() == Math.max(a, b)) {
        return pair.u();
      }
    }
    return 0;
  }
}
