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
 * A resistance by a source of 0.1 V: the excitation through the low check resistor into the low
 * reference. Nothing that floats on a winding then rings beyond the interlock's window. Theory
 * (44).
 */
public final class SoftReader {
  /** Thermal EMF of two paths and the taps' leakage, with nothing reversed. */
  private static final double OFFSET_VOLTS = 12e-6;

  /** Of the current: excitation 1 %, limiters 1 %, at the 1766 ohm that lies behind it. */
  private static final double AMPS_SHARE = 0.015;

  private final BoardModel board;

  public SoftReader(BoardModel board) {
    this.board = board;
  }

  /** The state: a port fed, another at common, some floating, the rest at common. */
  public static Probe fed(int a, int b, int floating, Look look, int gain, Pace pace) {
    int held = Ports.ALL & ~(floating | Ports.bit(a)) | Ports.bit(b);
    return new Probe(
        0, Ports.bit(a), held & ~Ports.bit(a), true, End.SOFT, look, gain, pace, 16_000, 1, false);
  }

  /** The voltage across the pair, and the reference's. */
  static List<Probe> probes(int a, int b, int floating, Pace pace) {
    return List.of(
        fed(a, b, floating, Look.pair(a, b), 16, pace),
        fed(a, b, floating, Look.REFERENCE, 16, pace));
  }

  /** Current into the fed port, by the voltage at the reference. */
  public double amps(double referenceVolts) {
    return (board.excitationVolts() - referenceVolts) / (board.limiterOhms() + board.checkLowOhms())
        - referenceVolts / board.lowReferenceOhms();
  }

  @Nullable Quantity ohms(Reading across, Reading reference) {
    double amps = amps(reference.volts());
    if (across.overloaded() || reference.overloaded() || amps < 20e-6) {
      return null;
    }
    double ohms = across.volts() / amps;
    double fed = board.excitationVolts() / (board.limiterOhms() + board.checkLowOhms());
    Budget budget =
        Budget.of(
            new Line("offsets", Shape.RECTANGULAR, OFFSET_VOLTS / amps),
            new Line("current", Shape.RECTANGULAR, ohms * AMPS_SHARE * fed / amps),
            new Line(
                "converter noise",
                Shape.NORMAL,
                board.noise().rms(across.probe().gain(), across.probe().pace()) / amps));
    return Quantity.ohms(ohms, budget.u());
  }
}
