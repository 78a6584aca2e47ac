package bellwire.analysis.attached;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.survey.Reading;
import bellwire.analysis.survey.Rests;
import bellwire.analysis.survey.SoftReader;
import java.util.ArrayList;
import java.util.List;

/**
 * One pair of ports looked at as a two-terminal element: the current as it comes up, at rest in
 * both directions, and as it dies away through the low reference. Theory (41).
 */
final class LoadLook {
  /** Delays from the switching to the converter, and what its own overhead adds. */
  private static final int[] RISE_MICROS = {3, 250, 1000};

  private static final int[] FALL_MICROS = {3, 250, 1000, 4000};
  private static final double PERIOD_SECONDS = 3.90625e-6;
  private static final double OVERHEAD_SECONDS = 40 * PERIOD_SECONDS;

  /** An INSTANT reading averages over this, a QUICK one over 1/60 s or 1/50 s. */
  static final double INSTANT_SECONDS = 250e-6;

  static final double QUICK_SECONDS = 17e-3;
  private static final int STEADY_MICROS = 16_000;

  /** Start of each rise reading's window after the excitation came on. */
  static final double[] RISE_SECONDS = starts(RISE_MICROS);

  static final double[] FALL_SECONDS = starts(FALL_MICROS);

  /** Start of the steady readings' window. */
  static final double STEADY_SECONDS = STEADY_MICROS * 1e-6 + 400e-6;

  /** How long the excitation has been on when the current is left to die. */
  static final double CHARGED_SECONDS = STEADY_SECONDS + QUICK_SECONDS;

  private final BoardModel board;
  final int a;
  final int b;
  private final Probe forward;
  private final Probe back;
  private final boolean soft;

  /**
   * @param floating mask of the ports that something joins to the two; all others are held. With
   *     any the look is a soft one, so that none of them rings
   */
  LoadLook(BoardModel board, int a, int b, int floating) {
    this.board = board;
    this.a = a;
    this.b = b;
    int pair = Ports.bit(a) | Ports.bit(b);
    soft = (floating & ~pair) != 0;
    int guard = Ports.ALL & ~(floating | pair);
    Look look = Look.REFERENCE;
    forward = soft ? SoftReader.fed(a, b, floating, look, 16, Pace.QUICK) : steady(a, b, guard);
    back = soft ? SoftReader.fed(b, a, floating, look, 16, Pace.QUICK) : steady(b, a, guard);
  }

  boolean soft() {
    return soft;
  }

  private static double[] starts(int[] micros) {
    double[] periods = {1, 14, 25, 64, 256, 1024, 2048, 4096};
    double[] starts = new double[micros.length];
    for (int i = 0; i < starts.length; i++) {
      int k = 0;
      while (periods[k] * PERIOD_SECONDS < micros[i] * 1e-6 - 1e-12) {
        k++;
      }
      starts[i] = periods[k] * PERIOD_SECONDS + OVERHEAD_SECONDS;
    }
    return starts;
  }

  private static Probe steady(int drive, int returned, int guard) {
    return new Probe(
        Ports.bit(drive),
        Ports.bit(returned),
        guard,
        true,
        End.LOW,
        Look.REFERENCE,
        4,
        Pace.QUICK,
        STEADY_MICROS,
        1,
        false);
  }

  private static Probe instant(Probe like, int gain, int settleMicros) {
    return new Probe(
        like.drive(),
        like.returned(),
        like.guard(),
        like.excite(),
        like.end(),
        Look.REFERENCE,
        gain,
        Pace.INSTANT,
        settleMicros,
        1,
        false);
  }

  /** A first look: the early rise, and the steady current in both directions. */
  List<Probe> first() {
    List<Probe> probes = new ArrayList<>();
    probes.add(instant(forward, forward.gain(), RISE_MICROS[0]));
    probes.add(Rests.after(forward));
    probes.add(forward);
    probes.add(Rests.after(forward));
    probes.add(back);
    probes.add(Rests.after(back));
    return probes;
  }

  /** Whether a first look found anything that conducts or charges. */
  boolean found(List<Reading> readings) {
    return Math.max(fed(readings.get(0)), Math.max(fed(readings.get(2)), fed(readings.get(4))))
        > LEAST_AMPS;
  }

  /**
   * Hum in a loop through a capacitor stays below it; 0.1 µF still charges with 120 µA at the first
   * reading.
   */
  private static final double LEAST_AMPS = 80e-6;

  /** All of it. */
  List<Probe> probes() {
    List<Probe> probes = new ArrayList<>();
    for (int micros : RISE_MICROS) {
      probes.add(instant(forward, forward.gain(), micros));
      probes.add(Rests.after(forward));
    }
    for (int micros : FALL_MICROS) {
      probes.add(forward);
      probes.add(forward.looking(Look.pair(a, b), soft ? 16 : 1));
      probes.add(instant(Rests.after(forward), 1, micros));
      probes.add(Rests.after(forward));
    }
    probes.add(back);
    probes.add(back.looking(Look.pair(b, a), soft ? 16 : 1));
    probes.add(Rests.after(back));
    return probes;
  }

  /**
   * @param readings of {@link #probes}; null where one overloaded
   */
  LoadEvidence evidence(List<Reading> readings) {
    double[] rise = new double[RISE_MICROS.length];
    double[] fall = new double[FALL_MICROS.length];
    int at = 0;
    for (int i = 0; i < rise.length; i++, at += 2) {
      rise[i] = fed(readings.get(at));
    }
    double amps = 0;
    double volts = 0;
    for (int i = 0; i < fall.length; i++, at += 4) {
      amps += fed(readings.get(at)) / fall.length;
      volts += readings.get(at + 1).volts() / fall.length;
      fall[i] = amps(readings.get(at + 2));
    }
    return new LoadEvidence(
        rise, fall, amps, volts, fed(readings.get(at)), readings.get(at + 1).volts());
  }

  /** Current through the pair while it is fed. */
  private double fed(Reading reading) {
    return soft ? new SoftReader(board).amps(reading.volts()) : amps(reading);
  }

  private double amps(Reading reading) {
    return reading.volts() / board.lowReferenceOhms();
  }
}
