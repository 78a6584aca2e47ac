package bellwire.analysis.survey;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Budget;
import bellwire.analysis.uncertainty.Budget.Line;
import bellwire.analysis.uncertainty.Budget.Shape;
import java.util.List;

/**
 * Current into the return bus, by the difference of a reading with and one without excitation in
 * the same switch state. Four probes: current with excitation, the driven terminal's voltage,
 * current without.
 */
final class CurrentReader {
  static final int PROBES = 3;
  private static final int REPEATS = 3;

  /**
   * Hum that the PRECISE pace leaves of a coupling of 3 pF to 230 V, 50 Hz, 0.1 % off its nominal
   * frequency.
   */
  private static final double HUM_AMPS = 2.2e-7 * 2e-4;

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
    if (amps * board.highReferenceOhms() < 0.35) {
      return End.HIGH;
    }
    return amps * board.midReferenceOhms() < 0.55 ? End.MID : End.LOW;
  }

  /**
   * What the converter's filter leaves of the hum, its frequency 0.1 % off; QUICK may be tuned to
   * the other mains.
   */
  private static double humAmps(Pace pace) {
    return HUM_AMPS * (pace == Pace.PRECISE ? 2e-4 : 0.2);
  }

  List<Probe> probes(int drive, int returned, int guard, double siemens, End end) {
    return probes(drive, returned, guard, siemens, end, Pace.PRECISE, REPEATS);
  }

  List<Probe> probes(
      int drive, int returned, int guard, double siemens, End end, Pace pace, int repeats) {
    Look look = end == End.LOW ? Look.REFERENCE : Look.TRANSIMPEDANCE;
    double expected =
        Math.min(Math.abs(siemens) * board.excitationVolts(), 0.005) * board.feedbackOhms(end);
    // The high range also carries the hum current of the driven conductor.
    int gain = end == End.HIGH ? Math.min(8, Probe.gainFor(expected)) : Probe.gainFor(expected);
    Probe on = new Probe(drive, returned, guard, true, end, look, gain, pace, 1000, repeats, false);
    int sensed = Integer.numberOfTrailingZeros(drive);
    Probe volts = on.looking(Look.terminal(sensed), 1).at(Pace.QUICK, 1);
    return List.of(on, volts, on.silent());
  }

  /**
   * @param readings the three answers
   * @param commonVoltsPerAmp what the return bus rises by, to be taken off the driven voltage
   * @return conductance from the driven ports to the returned ones and its standard uncertainty;
   *     null when overloaded
   */
  @org.jspecify.annotations.Nullable
  Measured measured(List<Reading> readings, double noiseVolts) {
    Reading on = readings.get(0);
    Reading off = readings.get(2);
    if (on.overloaded() || off.overloaded() || readings.get(1).overloaded()) {
      return null;
    }
    Probe probe = on.probe();
    double feedback = board.feedbackOhms(probe.end());
    double sign = probe.end() == End.LOW ? 1 : -1;
    double amps = sign * (on.volts() - off.volts()) / feedback;
    double volts = readings.get(1).volts();
    double noise =
        Math.max(noiseVolts, board.noise().rms(probe.gain(), probe.pace()))
            / Math.sqrt(probe.repeats());
    int driven = Integer.bitCount(probe.drive());
    Budget budget =
        Budget.of(
            new Line("converter noise", Shape.NORMAL, Math.sqrt(2) * noise / feedback),
            new Line("hum left", Shape.RECTANGULAR, Math.sqrt(2) * humAmps(probe.pace()) * driven),
            new Line(
                "leakage that follows the driven voltage",
                Shape.PRODUCT,
                Math.sqrt(driven) * board.leakageAmps() * board.leakagePerVolt() * Math.abs(volts)),
            new Line(
                "reference resistor",
                Shape.RECTANGULAR,
                amps * board.referenceTolerance(probe.end())),
            new Line(
                "converter gains", Shape.RECTANGULAR, Math.sqrt(2) * amps * board.gainTolerance()));
    return new Measured(amps, volts, budget.u());
  }

  /**
   * @param amps current that the excitation sends into the return bus
   * @param volts voltage of the driven terminal against common
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
