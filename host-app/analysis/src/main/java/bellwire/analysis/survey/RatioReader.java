package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Budget;
import bellwire.analysis.uncertainty.Budget.Line;
import bellwire.analysis.uncertainty.Budget.Shape;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Four-terminal resistance as a ratio against the low reference resistor, with the current reversed
 * and the reference read both ways round: offsets, thermal EMF and the leakage of the sense taps
 * drop out of the differences. Theory (3) and (4).
 */
final class RatioReader {
  static final int PROBES = 4;

  /**
   * Thermal EMF of two paths, two taps' leakage through 20 kohm, a divider's current in a joint.
   */
  private static final double OFFSET_VOLTS = 200e-6;

  /** The same where arms of hundreds of ohms carry a divider's current of 1 µA. */
  private static final double WIDE_OFFSET_VOLTS = 1.5e-3;

  private static final int WIDE_GAIN = 16;

  /** In the loop through two conductors; what is left of it differs from reading to reading. */
  private static final double HUM_VOLTS = 5e-3;

  /** The other ports' dividers load the two polarities unequally: 0.4 % was seen with 16 ports. */
  private static final double OFFSET_SHARE = 8e-3;

  /** The switches of the two ways may differ by 2 ohm of some 900; the dividers add to it. */
  private static final double AMPS_SHARE = 8e-3;

  private final BoardModel board;

  RatioReader(BoardModel board) {
    this.board = board;
  }

  /**
   * @param a driven, then returned port
   * @param b returned, then driven port
   * @param guard mask of ports to hold at common; all others float
   * @param look the voltage to compare with the reference
   * @param expectedOhms about what that voltage is of the current
   */
  List<Probe> probes(
      int a, int b, int guard, Look look, double expectedOhms, Pace pace, int settleMicros) {
    double loop = board.limiterOhms() + board.lowReferenceOhms() + 2 * board.pathOhms();
    double volts = board.excitationVolts() * expectedOhms / (loop + expectedOhms);
    double amps = board.excitationVolts() / loop;
    int gain = Probe.gainFor(volts);
    Probe forward = probe(a, b, guard, look, gain, pace, settleMicros);
    Probe back = probe(b, a, guard, look, gain, pace, settleMicros);
    int referenceGain = Probe.gainFor(amps * board.lowReferenceOhms());
    return List.of(
        forward,
        forward.looking(Look.REFERENCE, referenceGain),
        back.looking(Look.REFERENCE_REVERSED, referenceGain),
        back);
  }

  private static Probe probe(
      int drive, int returned, int guard, Look look, int gain, Pace pace, int settleMicros) {
    return new Probe(
        Ports.bit(drive),
        Ports.bit(returned),
        guard,
        true,
        End.LOW,
        look,
        gain,
        pace,
        settleMicros,
        1,
        false);
  }

  /** The ratio of the four readings in ohms; null when one overloaded or no current flowed. */
  @Nullable Quantity ohms(List<Reading> readings) {
    for (Reading reading : readings) {
      if (reading.overloaded()) {
        return null;
      }
    }
    double volts = readings.get(0).volts() - readings.get(3).volts();
    double amps = (readings.get(1).volts() - readings.get(2).volts()) / board.lowReferenceOhms();
    if (amps < 1e-7) {
      return null;
    }
    return Quantity.ohms(volts / amps, budget(readings, volts / amps, amps / 2).u());
  }

  /**
   * Whether a voltage of another's came or went among the four, too small for the interlock: an
   * offset that neither thermal EMF nor the taps' leakage explains, or two currents that differ by
   * more than the two ways through the switches do. A constant one drops out of the ratio and does
   * no harm: what looks the same when read again is not disturbed.
   */
  boolean disturbed(List<Reading> readings, double ohms) {
    double forwardAmps = readings.get(1).volts() / board.lowReferenceOhms();
    double backAmps = -readings.get(2).volts() / board.lowReferenceOhms();
    double across = ohms * (forwardAmps + backAmps) / 2;
    double offset =
        (readings.get(0).volts() + readings.get(3).volts() - ohms * (forwardAmps - backAmps)) / 2;
    Probe probe = readings.get(0).probe();
    double noise = 6 * board.noise().rms(probe.gain(), probe.pace());
    double allowed = probe.gain() > WIDE_GAIN ? OFFSET_VOLTS : WIDE_OFFSET_VOLTS;
    return Math.abs(offset) > allowed + noise + OFFSET_SHARE * Math.abs(across)
        || Math.abs(forwardAmps - backAmps) > AMPS_SHARE * Math.abs(forwardAmps + backAmps) / 2;
  }

  /**
   * The budget of one ratio.
   *
   * @param ohms the ratio
   * @param amps current in one direction
   */
  Budget budget(List<Reading> readings, double ohms, double amps) {
    Probe probe = readings.get(0).probe();
    Probe reference = readings.get(1).probe();
    double noise = board.noise().rms(probe.gain(), probe.pace());
    double referenceNoise = board.noise().rms(reference.gain(), reference.pace());
    double swing = Math.abs(ohms) * amps;
    return Budget.of(
        new Line("converter noise", Shape.NORMAL, noise / Math.sqrt(2) / amps),
        new Line(
            "converter noise at the reference",
            Shape.NORMAL,
            referenceNoise / Math.sqrt(2) / amps * ohms / board.lowReferenceOhms()),
        new Line(
            "hum left",
            Shape.RECTANGULAR,
            HUM_VOLTS * CurrentReader.HUM_SHARE / Math.sqrt(2) / amps),
        new Line("reference resistor", Shape.RECTANGULAR, ohms * board.lowReferenceTolerance()),
        new Line(
            "reference's temperature", Shape.PRODUCT, ohms * board.referenceTemperature(End.LOW)),
        new Line("gain of the voltage", Shape.RECTANGULAR, ohms * gainTolerance(probe, reference)),
        new Line(
            "gain of the reference", Shape.RECTANGULAR, ohms * gainTolerance(probe, reference)),
        new Line(
            "tap leakage that follows its voltage",
            Shape.PRODUCT,
            Math.sqrt(2)
                * board.tapLeakageAmps()
                * board.tapOhms()
                * board.leakagePerVolt()
                * swing
                / 2
                / amps));
  }

  /** One gain for both readings cancels its error. */
  private double gainTolerance(Probe probe, Probe reference) {
    return probe.gain() == reference.gain() ? 0 : board.gainTolerance();
  }
}
