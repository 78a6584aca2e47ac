package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * Round after round the resistance of each conductor by itself, far ends tied or in a plug: current
 * through it and another one, the voltage from its near end to a third that carries none. With two
 * conductors only, of both together. All other ports float: one of them may be tied to these at its
 * far end, and held at common it would take part of the current. Theory (3), (4) and (10).
 */
public final class TrendPlan {
  /** Readings that make one resistance. */
  public static final int READINGS_EACH = RatioReader.PROBES;

  private static final int SETTLE_MICROS = 1000;

  /** What the four readings of a resistance show. */
  public enum Shown {
    RESISTANCE,

    /** The conductor is open, or far from what was expected. */
    NONE,

    /** It left its range one way round and not the other: it changed meanwhile. */
    UNSTEADY,

    /** It left its range against its current, which no resistance does. */
    DISTURBED
  }

  private final RatioReader reader;
  private final List<Integer> conductors;
  private final List<Probe> probes = new ArrayList<>();

  /**
   * @param ports with a conductor, two or more, bit 0 for P1
   * @param expectedOhms of one conductor and what is on its far end, about; several times as much
   *     overloads
   */
  public TrendPlan(BoardModel board, int ports, double expectedOhms) {
    reader = new RatioReader(board);
    conductors = Ports.list(ports);
    int n = conductors.size();
    if (n < 2 || !(expectedOhms > 0)) {
      throw new IllegalArgumentException("ports=" + ports + " expectedOhms=" + expectedOhms);
    }
    for (int i = 0; i < readings(); i++) {
      int a = conductors.get(i);
      int b = conductors.get((i + 1) % n);
      int k = conductors.get((i + 2) % n);
      Look look = Look.pair(a, n == 2 ? b : k);
      double ohms = n == 2 ? 2 * expectedOhms : expectedOhms;
      probes.addAll(reader.probes(a, b, 0, look, ohms, Pace.PRECISE, SETTLE_MICROS));
    }
  }

  /** Resistances in a round: one a conductor, of two conductors one in all. */
  public int readings() {
    return conductors.size() == 2 ? 1 : conductors.size();
  }

  /** The port of a round's resistance, from 0; of two conductors the first. */
  public int port(int reading) {
    return conductors.get(reading);
  }

  /** A round, {@link #READINGS_EACH} for each resistance, in order. */
  public List<Probe> probes() {
    return List.copyOf(probes);
  }

  /**
   * A resistance with the converter's uncertainty; what was overloaded, or carried no current, has
   * none: the conductor is open, or far from what was expected.
   *
   * @param readings the four
   */
  public Optional<Quantity> ohms(List<Reading> readings) {
    return Optional.ofNullable(reader.ohms(readings));
  }

  /**
   * What the four show. Theory (128).
   *
   * @param readings the four
   */
  public Shown shown(List<Reading> readings) {
    int over = 0;
    for (int i = 0; i < READINGS_EACH; i++) {
      Reading reading = readings.get(i);
      boolean forward = i < READINGS_EACH / 2;
      if (reading.overloaded() && (forward ? reading.volts() < 0 : reading.volts() > 0)) {
        return Shown.DISTURBED;
      }
      over |= reading.overloaded() ? 1 << i : 0;
    }
    boolean bothWays = over == Integer.reverse(over) >>> Integer.SIZE - READINGS_EACH;
    if (!bothWays) {
      return Shown.UNSTEADY;
    }
    return ohms(readings).isPresent() ? Shown.RESISTANCE : Shown.NONE;
  }
}
