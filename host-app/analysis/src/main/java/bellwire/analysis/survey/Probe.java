package bellwire.analysis.survey;

/**
 * One thing to measure: a switch state of the board and what the converter looks at in it.
 *
 * @param drive mask of driven ports
 * @param returned mask of ports on the return bus
 * @param guard mask of ports held at board common
 * @param excite whether the excitation is up
 * @param end what the return bus ends in
 * @param look what the converter reads
 * @param gain converter gain, a power of two from 1 to 128
 * @param pace how fast to convert
 * @param settleMicros least time from the switching to the reading
 * @param repeats readings to take
 */
public record Probe(
    int drive,
    int returned,
    int guard,
    boolean excite,
    End end,
    Look look,
    int gain,
    Pace pace,
    int settleMicros,
    int repeats) {

  /**
   * What the return bus ends in; CHECK_HIGH feeds it from the excitation through the high check
   * resistor instead.
   */
  public enum End {
    NONE,
    LOW,
    MID,
    HIGH,
    CHECK_HIGH
  }

  /**
   * PRECISE rejects 50 and 60 Hz, QUICK takes a third of the time and rejects one of them, INSTANT
   * neither.
   */
  public enum Pace {
    PRECISE,
    QUICK,
    INSTANT
  }

  /**
   * What the converter reads.
   *
   * @param kind of reading
   * @param a port, where the kind has one
   * @param b second port, where the kind has one
   */
  public record Look(Kind kind, int a, int b) {
    public static final Look REFERENCE = new Look(Kind.REFERENCE, -1, -1);
    public static final Look TRANSIMPEDANCE = new Look(Kind.TRANSIMPEDANCE, -1, -1);

    public static Look pair(int a, int b) {
      return new Look(Kind.PAIR, a, b);
    }

    public static Look terminal(int a) {
      return new Look(Kind.TERMINAL, a, -1);
    }
  }

  /**
   * REFERENCE: across the low reference resistor. TRANSIMPEDANCE: the stage's output. PAIR: from
   * one terminal to another. TERMINAL: from a terminal to board common.
   */
  public enum Kind {
    REFERENCE,
    TRANSIMPEDANCE,
    PAIR,
    TERMINAL
  }

  public Probe looking(Look at, int withGain) {
    return new Probe(
        drive, returned, guard, excite, end, at, withGain, pace, settleMicros, repeats);
  }

  public Probe silent() {
    return new Probe(drive, returned, guard, false, end, look, gain, pace, settleMicros, repeats);
  }

  public Probe at(Pace other, int times) {
    return new Probe(drive, returned, guard, excite, end, look, gain, other, settleMicros, times);
  }

  /** The largest gain that leaves room for {@code peakVolts} and for hum on top. */
  public static int gainFor(double peakVolts) {
    int gain = 128;
    while (gain > 1 && (Math.abs(peakVolts) * 1.2 + 0.012) * gain > 2.4) {
      gain /= 2;
    }
    return gain;
  }
}
