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
 * @param testLoad whether the test load is on every port; only with no port on a bus
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
    int repeats,
    boolean testLoad) {

  /**
   * What the return bus ends in; SOFT feeds the low reference, and with it the returned port, from
   * the excitation through the low check resistor: 0.1 V behind 95 ohm. CHECK_HIGH feeds the bus
   * from the excitation through the high check resistor instead.
   */
  public enum End {
    NONE,
    LOW,
    MID,
    HIGH,
    CHECK_HIGH,
    SOFT
  }

  /**
   * PRECISE rejects 50 and 60 Hz, QUICK takes a third of the time and rejects one of them; WAVE
   * follows the mains, INSTANT is the fastest.
   */
  public enum Pace {
    PRECISE,
    QUICK,
    WAVE,
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
    public static final Look REFERENCE_REVERSED = new Look(Kind.REFERENCE_REVERSED, -1, -1);
    public static final Look TRANSIMPEDANCE = new Look(Kind.TRANSIMPEDANCE, -1, -1);

    public static Look pair(int a, int b) {
      return new Look(Kind.PAIR, a, b);
    }

    public static Look monitor(int a) {
      return new Look(Kind.MONITOR, a, -1);
    }

    public static Look monitorPair(int a, int b) {
      return new Look(Kind.MONITOR_PAIR, a, b);
    }

    public static Look terminal(int a) {
      return new Look(Kind.TERMINAL, a, -1);
    }
  }

  /**
   * REFERENCE: across the low reference resistor; REFERENCE_REVERSED with the converter's inputs
   * exchanged. TRANSIMPEDANCE: the stage's output. PAIR: from one terminal to another. TERMINAL:
   * from a terminal to board common. MONITOR and MONITOR_PAIR: the same behind the interlock's
   * dividers, which stand any voltage the board is made for and stay readable with the relays open.
   */
  public enum Kind {
    REFERENCE,
    REFERENCE_REVERSED,
    TRANSIMPEDANCE,
    PAIR,
    TERMINAL,
    MONITOR,
    MONITOR_PAIR
  }

  /** A look at the interlock's dividers with every relay open. */
  public static Probe monitor(Look look, int repeats, boolean testLoad) {
    return new Probe(0, 0, 0, false, End.NONE, look, 1, Pace.WAVE, 4000, repeats, testLoad);
  }

  public Probe looking(Look at, int withGain) {
    return new Probe(
        drive, returned, guard, excite, end, at, withGain, pace, settleMicros, repeats, testLoad);
  }

  Probe settling(int micros) {
    return new Probe(
        drive, returned, guard, excite, end, look, gain, pace, micros, repeats, testLoad);
  }

  public Probe silent() {
    return new Probe(
        drive, returned, guard, false, end, look, gain, pace, settleMicros, repeats, testLoad);
  }

  public Probe at(Pace other, int times) {
    return new Probe(
        drive, returned, guard, excite, end, look, gain, other, settleMicros, times, testLoad);
  }

  /**
   * Peak of the hum in a loop of two conductors that a reading leaves room for: 10 mV each, 1.5
   * times, in opposition.
   */
  private static final double HUM_VOLTS = 0.03;

  /** The largest gain that leaves room for {@code peakVolts} and for hum on top. */
  public static int gainFor(double peakVolts) {
    int gain = 128;
    while (gain > 1 && (Math.abs(peakVolts) * 1.2 + HUM_VOLTS) * gain > 2.4) {
      gain /= 2;
    }
    return gain;
  }
}
