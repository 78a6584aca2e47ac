package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Budget;
import bellwire.analysis.uncertainty.Budget.Line;
import bellwire.analysis.uncertainty.Budget.Shape;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Current into the return bus, by the difference of a reading with and one without excitation. The
 * silent reading depends on what is returned alone, not on what is driven, so that many readings
 * may share it. Theory (16).
 */
final class CurrentReader {
  /** Mean and standard deviation of the product of two factors that are uniform from 0 to 1. */
  private static final double PRODUCT_MEAN = 0.25;

  private static final double PRODUCT_SIGMA = Math.sqrt(7) / 12;

  /** Current of a coupling of 3 pF to 230 V, 50 Hz. */
  private static final double HUM_AMPS = 2.2e-7;

  /** What the PRECISE pace leaves of hum whose frequency is 0.1 % off. */
  static final double HUM_SHARE = 2e-5;

  /** At the stage, with room for hum: above it the next range is taken. */
  private static final double HIGH_VOLTS = 0.3;

  private static final double MID_VOLTS = 0.55;

  /** Beyond it the diodes across the feedback take what should be read. */
  private static final double DIODE_LIMIT_VOLTS = 0.5;

  /**
   * The high range's gain: more would leave no room for the hum of the returned conductor, less
   * would let hum into the diodes unnoticed.
   */
  private static final int HIGH_GAIN = 8;

  private final BoardModel board;

  CurrentReader(BoardModel board) {
    this.board = board;
  }

  /**
   * The end to read a conductance of about {@code siemens} in, with the excitation's full voltage
   * across it.
   */
  End endFor(double siemens) {
    double amps = Math.abs(siemens) * board.excitationVolts() * 1.3;
    if (amps * board.highReferenceOhms() < HIGH_VOLTS) {
      return End.HIGH;
    }
    return amps * board.midReferenceOhms() < MID_VOLTS ? End.MID : End.LOW;
  }

  /** The reading with excitation; {@link Probe#silent} is the one without. */
  Probe excited(int drive, int returned, int guard, double siemens, End end, int repeats) {
    Look look = end == End.LOW ? Look.REFERENCE : Look.TRANSIMPEDANCE;
    double expected =
        Math.min(Math.abs(siemens) * board.excitationVolts(), 0.005) * board.feedbackOhms(end);
    int gain = end == End.HIGH ? HIGH_GAIN : Probe.gainFor(expected);
    return new Probe(
        drive, returned, guard, true, end, look, gain, Pace.PRECISE, 1000, repeats, false);
  }

  /** The driven terminal's voltage against common in the same state. */
  static Probe voltage(Probe excited) {
    Look terminal = Look.terminal(Integer.numberOfTrailingZeros(excited.drive()));
    return excited.looking(terminal, 1).at(Pace.QUICK, 1);
  }

  /** The voltage from the first driven to the first returned terminal in the same state. */
  static Probe across(Probe excited) {
    int drive = Integer.numberOfTrailingZeros(excited.drive());
    int returned = Integer.numberOfTrailingZeros(excited.returned());
    return excited.looking(Look.pair(drive, returned), 1).at(Pace.QUICK, 1);
  }

  /**
   * @param on reading of {@link #excited}
   * @param terminal reading of {@link #voltage} or {@link #across}
   * @param off reading without excitation, the same ports returned at the same gain
   * @param scatterVolts standard deviation of one reading as seen in repeats, 0 if unknown
   * @return the current and its standard uncertainty; null when overloaded
   */
  @Nullable Measured measured(Reading on, Reading terminal, Reading off, double scatterVolts) {
    if (on.overloaded() || off.overloaded() || terminal.overloaded()) {
      return null;
    }
    Probe probe = on.probe();
    boolean stage = probe.end() != End.LOW;
    if (stage && Math.abs(on.volts()) > DIODE_LIMIT_VOLTS) {
      return null;
    }
    double feedback = board.feedbackOhms(probe.end());
    double volts = terminal.volts();
    // Open switches between the driven ports and the return bus, and between the drive bus and the
    // returned ports.
    int open = Integer.bitCount(probe.drive()) + Integer.bitCount(probe.returned());
    double switchAmps = board.leakageAmps() * board.leakagePerVolt() * Math.abs(volts);
    double amps = (on.volts() - off.volts()) / feedback;
    double diodeShare = 0;
    if (stage) {
      diodeShare = board.stage().diodeShare(on.volts()) - board.stage().diodeShare(off.volts());
      amps = -amps - diodeShare * board.stage().diodeAmps();
    }
    amps -= open * PRODUCT_MEAN * switchAmps;
    double noise = Math.max(scatterVolts, board.noise().rms(probe.gain(), Pace.PRECISE));
    Budget budget =
        Budget.of(
            new Line(
                "converter noise",
                Shape.NORMAL,
                Math.sqrt(2.0 / probe.repeats()) * noise / feedback),
            new Line("hum left", Shape.RECTANGULAR, Math.sqrt(2) * HUM_AMPS * HUM_SHARE),
            new Line(
                "leakage of open switches that follows the excitation",
                Shape.NORMAL,
                Math.sqrt(open) * PRODUCT_SIGMA * switchAmps),
            new Line(
                "reference resistor",
                Shape.RECTANGULAR,
                amps * board.referenceTolerance(probe.end())),
            new Line(
                "reference's temperature",
                Shape.PRODUCT,
                amps * board.referenceTemperature(probe.end())),
            new Line(
                "range's switch",
                Shape.RECTANGULAR,
                stage ? amps * board.stage().switchOhms() / feedback : 0),
            new Line(
                "diodes across the feedback",
                Shape.RECTANGULAR,
                diodeShare * board.stage().diodeTolerance()),
            new Line("hum in the diodes", Shape.RECTANGULAR, stage ? rectifiedAmps(on) : 0),
            new Line(
                "converter gains", Shape.RECTANGULAR, Math.sqrt(2) * amps * board.gainTolerance()));
    return new Measured(amps, volts, budget.u());
  }

  /** With as much hum as there may be, or as the converter takes without an overload. */
  private double rectifiedAmps(Reading on) {
    double room = board.converterVolts() / on.probe().gain() - Math.abs(on.volts());
    double peak =
        Math.min(Math.sqrt(2) * HUM_AMPS * board.feedbackOhms(on.probe().end()), Math.max(0, room));
    return board.stage().humShare(on.volts(), peak) * board.stage().diodeAmps();
  }

  /**
   * @param amps current that the excitation sends into the return bus
   * @param volts voltage of the driven terminal, against what {@code terminal} was read against
   * @param u standard uncertainty of the current
   */
  record Measured(double amps, double volts, double u) {}

  /**
   * Pooled standard deviation of one reading over sets of repeats, in volts at the input; 0 without
   * any.
   */
  static double pooledScatter(List<Reading> readings) {
    double sum = 0;
    int n = 0;
    for (Reading reading : readings) {
      if (!Double.isNaN(reading.scatterVolts()) && !reading.overloaded()) {
        sum += reading.scatterVolts() * reading.scatterVolts();
        n++;
      }
    }
    return n == 0 ? 0 : Math.sqrt(sum / n);
  }
}
