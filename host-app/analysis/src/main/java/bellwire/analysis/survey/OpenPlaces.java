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
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;

/** Where conductors without a path to the far end are broken, from what the open phase charged. */
public final class OpenPlaces {
  /**
   * A conductor with so much more or less than the middle of its fellows is no fellow: a second
   * cable under its clamp, another's far part that touches it, a break of its own. Common practice,
   * no source.
   */
  private static final double UNLIKE = 0.35;

  /** The same in robust standard deviations, where there are enough fellows to know them. */
  private static final double UNLIKE_SIGMAS = 6;

  private static final int ENOUGH_FELLOWS = 5;

  /** One that was read worse than this was no plain transient, and says nothing of the others. */
  private static final double UNSURE = 0.01;

  /** Of a length that somebody gave. Common practice, no source. */
  private static final double U_GIVEN_LENGTH = 0.01;

  private OpenPlaces() {}

  /**
   * The same for people.
   *
   * @param plugs those that were measured; a conductor is broken that reached none of them, even
   *     with all that touches it
   * @param beside conductors that are broken and touch one that is not
   * @param length of the run, null if it was not measured
   * @param givenMetres as the technician gave it, NaN if unknown
   */
  static Map<Integer, AlongRun> of(
      OpenResult open,
      List<StarResult> plugs,
      Set<Integer> beside,
      @Nullable Quantity length,
      double givenMetres) {
    // Those that touch others are not placed, but what floats beyond their break counts.
    Set<Integer> broken = new LinkedHashSet<>(beside);
    if (!plugs.isEmpty()) {
      Set<Integer> unreached = new LinkedHashSet<>(open.conductors());
      plugs.forEach(plug -> unreached.removeAll(plug.connected()));
      broken.addAll(unreached);
    }
    Quantity run = run(length, givenMetres);
    Map<Integer, AlongRun> places = new LinkedHashMap<>();
    for (Map.Entry<Integer, Quantity> e : of(open, broken).entrySet()) {
      if (open.hiding(e.getKey()).isEmpty()) {
        places.put(e.getKey(), AlongRun.of(e.getValue(), run));
      }
    }
    return places;
  }

  /** The run's length as it was measured, otherwise as it was given; null without either. */
  static @Nullable Quantity run(@Nullable Quantity length, double givenMetres) {
    return length != null || Double.isNaN(givenMetres)
        ? length
        : new Quantity(givenMetres, U_GIVEN_LENGTH * givenMetres, "m");
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
    Set<Integer> fellows = fellows(open, broken);
    for (int c = 0; c < open.clusters().size(); c++) {
      List<Integer> cluster = open.clusters().get(c);
      Quantity farads = open.clusterFarads().get(c);
      if (farads == null || cluster.contains(Ports.METAL)) {
        continue;
      }
      boolean whole = cluster.stream().noneMatch(broken::contains);
      if (!whole || (cluster.size() == 1 && fellows.contains(cluster.get(0)))) {
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

  /**
   * The whole ones that touch nothing and are like one another. Of a short cable, where none is
   * well known, the vague ones too.
   */
  private static Set<Integer> fellows(OpenResult open, Set<Integer> broken) {
    Map<Integer, Quantity> whole = new LinkedHashMap<>();
    for (int port : open.conductors()) {
      Quantity farads = open.farads(port);
      if (farads != null && !broken.contains(port)) {
        whole.put(port, farads);
      }
    }
    if (whole.values().stream().anyMatch(OpenPlaces::sure)) {
      whole.values().removeIf(f -> !sure(f));
    }
    double middle = median(whole.values().stream().mapToDouble(Quantity::value));
    double band = UNLIKE * middle;
    if (whole.size() >= ENOUGH_FELLOWS) {
      double apart =
          1.4826 * median(whole.values().stream().mapToDouble(f -> Math.abs(f.value() - middle)));
      double pairs = Math.sqrt(3.0 * (open.conductors().size() - 1));
      double spread = BreakPlace.PAIR_SPREAD * middle / pairs;
      double read = median(whole.values().stream().mapToDouble(Quantity::u));
      double least = Math.sqrt(spread * spread + read * read + square(open.strayFarads().u()));
      band = Math.min(band, UNLIKE_SIGMAS * Math.max(least, apart));
    }
    double within = band;
    whole.values().removeIf(f -> Math.abs(f.value() - middle) > within);
    return whole.keySet();
  }

  private static boolean sure(Quantity farads) {
    return farads.u() <= UNSURE * farads.value();
  }

  private static double square(double x) {
    return x * x;
  }

  private static double median(DoubleStream values) {
    double[] sorted = values.sorted().toArray();
    return sorted.length == 0 ? Double.NaN : sorted[sorted.length / 2];
  }
}
