package bellwire.analysis.survey;

import bellwire.analysis.fault.BreakPlace;
import bellwire.analysis.fault.BreakPlace.Charged;
import bellwire.analysis.fault.CutCable;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Where conductors without a path to the far end are broken, from what the open phase charged. */
public final class OpenPlaces {
  /**
   * A conductor with so much more or less than the middle of its fellows is no fellow: a second
   * cable under its clamp, or a break of its own. Common practice, no source.
   */
  private static final double UNLIKE = 0.35;

  /** Of a length that somebody gave. Common practice, no source. */
  private static final double U_GIVEN_LENGTH = 0.01;

  private OpenPlaces() {}

  /**
   * The same for people.
   *
   * @param plugs those that were measured; a conductor is broken that reached none of them
   * @param length of the run, null if it was not measured
   * @param givenMetres as the technician gave it, NaN if unknown
   */
  static Map<Integer, OpenAt> of(
      OpenResult open, List<StarResult> plugs, @Nullable Quantity length, double givenMetres) {
    Set<Integer> broken = new LinkedHashSet<>();
    if (!plugs.isEmpty()) {
      broken.addAll(open.conductors());
      plugs.forEach(plug -> broken.removeAll(plug.connected()));
      broken.removeIf(port -> !open.hiding(port).isEmpty());
    }
    Quantity run = length;
    if (run == null && !Double.isNaN(givenMetres)) {
      run = new Quantity(givenMetres, U_GIVEN_LENGTH * givenMetres, "m");
    }
    Map<Integer, OpenAt> places = new LinkedHashMap<>();
    for (Map.Entry<Integer, Quantity> e : of(open, broken).entrySet()) {
      places.put(e.getKey(), OpenAt.of(e.getValue(), run));
    }
    return places;
  }

  /**
   * @param broken ports of conductors that do not reach the far end
   * @return by port, the fraction of the run from the near end; ports of which nothing can be said
   *     are left out, all of them where no conductor is whole
   */
  public static Map<Integer, Quantity> of(OpenResult open, Set<Integer> broken) {
    List<Integer> ports = open.conductors();
    if (ports.size() < 2 || broken.isEmpty()) {
      return Map.of();
    }
    List<Charged> charged = new ArrayList<>();
    double middle = middle(open, broken);
    for (int c = 0; c < open.clusters().size(); c++) {
      List<Integer> cluster = open.clusters().get(c);
      Quantity farads = open.clusterFarads().get(c);
      if (farads == null || cluster.contains(Ports.METAL)) {
        continue;
      }
      boolean fellow = cluster.stream().noneMatch(broken::contains);
      boolean like = cluster.size() == 1 && Math.abs(farads.value() / middle - 1) <= UNLIKE;
      if (!fellow || like) {
        charged.add(new Charged(cluster.stream().map(ports::indexOf).toList(), farads));
      }
    }
    BreakPlace place =
        new BreakPlace(new CutCable(ports.size(), open.metalClipped()), open.strayFarads());
    Map<Integer, Quantity> places = new LinkedHashMap<>();
    place
        .places(charged, broken.stream().sorted().map(ports::indexOf).toList())
        .forEach((index, at) -> places.put(ports.get(index), at));
    return places;
  }

  private static double middle(OpenResult open, Set<Integer> broken) {
    double[] whole =
        open.conductors().stream()
            .filter(p -> !broken.contains(p))
            .map(open::farads)
            .filter(f -> f != null)
            .mapToDouble(Quantity::value)
            .sorted()
            .toArray();
    return whole.length == 0 ? Double.NaN : whole[whole.length / 2];
  }
}
