package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import java.util.ArrayList;
import java.util.List;

/**
 * Lets the current of a coil die away before its way is taken from it. A winding that carries 2 mA
 * and is switched onto the excitation's 766 ohm, or left floating, leaves the interlock's window
 * with nothing foreign on the cable. So after a look that drives a port which something joins to
 * others, the current goes on along the same way, with the excitation off and the low reference in
 * place of the source: τ = H/(R + 132 ohm), no voltage above 0.3 V. A capacitor empties itself in
 * the same way. Theory (40).
 */
public final class Rests {
  private static final int SETTLE_MICROS = 16_000;

  /** Readings of 50 ms that let loops of low resistance run down once, before anything floats. */
  private static final int LONG_READINGS = 6;

  private final int joined;
  private int asked;
  private final List<Integer> kept = new ArrayList<>();

  /**
   * @param joined mask of the ports that something joins to others; with none nothing is added
   */
  public Rests(int joined) {
    this.joined = joined;
  }

  /** The same looks with rests between them, where they are needed. */
  public List<Probe> between(List<Probe> probes) {
    List<Probe> rested = new ArrayList<>();
    kept.clear();
    for (int i = 0; i < probes.size(); i++) {
      Probe probe = probes.get(i);
      Probe before = i == 0 ? null : probes.get(i - 1);
      if (before == null && floats(probes)) {
        rested.add(all(probe));
      } else if (before != null && loaded(before) && !sameState(before, probe)) {
        rested.add(after(before));
      }
      kept.add(rested.size());
      rested.add(loaded(probe) ? settled(probe) : probe);
    }
    if (!probes.isEmpty() && loaded(probes.get(probes.size() - 1))) {
      rested.add(after(probes.get(probes.size() - 1)));
    }
    asked = rested.size();
    return rested;
  }

  /** The readings of the looks themselves, out of those of the last {@link #between}. */
  public List<Reading> without(List<Reading> readings) {
    if (readings.size() != asked) {
      throw new IllegalArgumentException("readings=" + readings.size() + " asked=" + asked);
    }
    return kept.stream().map(readings::get).toList();
  }

  private boolean floats(List<Probe> probes) {
    return probes.stream().anyMatch(p -> (joined & ~(p.drive() | p.returned() | p.guard())) != 0);
  }

  private boolean loaded(Probe probe) {
    return probe.excite() && (source(probe) & joined) != 0;
  }

  /** The ports that the excitation feeds. */
  private static int source(Probe probe) {
    return probe.end() == End.SOFT ? probe.returned() : probe.drive();
  }

  /** A coil of 1 H behind the limiters takes 1.2 ms to be but its resistance. */
  private static Probe settled(Probe p) {
    return p.settling(SETTLE_MICROS);
  }

  private static boolean sameState(Probe a, Probe b) {
    return a.drive() == b.drive()
        && a.returned() == b.returned()
        && a.guard() == b.guard()
        && a.excite() == b.excite()
        && a.end() == b.end();
  }

  /** The driven ports on the low reference, the returned ones at common, what floated floats on. */
  public static Probe after(Probe loaded) {
    int source = source(loaded);
    return new Probe(
        0,
        source,
        (loaded.returned() | loaded.guard()) & ~source,
        false,
        End.LOW,
        Look.REFERENCE,
        1,
        Pace.PRECISE,
        SETTLE_MICROS,
        1,
        false);
  }

  /** Everything at common, for as long as it takes. */
  private static Probe all(Probe like) {
    Pace pace = Pace.PRECISE;
    return new Probe(
        0,
        0,
        Ports.ALL,
        false,
        End.NONE,
        like.look().kind() == Probe.Kind.TERMINAL ? like.look() : Look.terminal(0),
        1,
        pace,
        SETTLE_MICROS,
        LONG_READINGS,
        false);
  }
}
