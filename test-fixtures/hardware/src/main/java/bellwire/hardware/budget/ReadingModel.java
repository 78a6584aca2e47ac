package bellwire.hardware.budget;

import bellwire.board.BoardDescription;
import bellwire.hardware.budget.PairCircuit.End;
import bellwire.hardware.budget.PairCircuit.Volts;
import java.util.Map;

/**
 * What the host makes of the converter's readings of two ports, by theory (3) and (16): the circuit
 * with its true components in front, the estimator with nominal ones behind.
 */
final class ReadingModel {
  private final BoardDescription board;
  private final PairCircuit circuit;
  private final End end;
  private final int gain;
  private final int referenceGain;

  /**
   * @param gain of the voltage, or of the current's two readings
   * @param referenceGain of the reference, or of the voltage beside the current
   */
  ReadingModel(BoardDescription board, double ohms, End end, int gain, int referenceGain) {
    this.board = board;
    this.end = end;
    this.gain = gain;
    this.referenceGain = referenceGain;
    circuit = new PairCircuit(board, ohms);
  }

  /** Four readings, the current reversed. Theory (3). */
  double ratio(Map<String, Double> d) {
    return ratio(
        across(d, true, "voltage, forward") - across(d, false, "voltage, back"),
        reference(d, true) + reference(d, false));
  }

  /** Forward alone. */
  double ratioAlone(Map<String, Double> d) {
    return ratio(across(d, true, "voltage, forward"), reference(d, true));
  }

  private double ratio(double volts, double referenceVolts) {
    double low = board.nominal("low-reference-ohms");
    return volts * low / referenceVolts / (1 + (low + pathOhms()) / dividerOhms());
  }

  /** The reference, with the converter's inputs exchanged where the current goes back. */
  private double reference(Map<String, Double> d, boolean forward) {
    double volts = circuit.solve(d, forward, true, End.LOW).end();
    return forward
        ? read(volts, referenceGain, "reference, forward", d)
        : -read(-volts, referenceGain, "reference, back", d);
  }

  private double across(Map<String, Double> d, boolean forward, String reading) {
    double hum = PairCircuit.of("hum left in the " + reading, d);
    return read(tapped(circuit.solve(d, forward, true, end), d) + hum, gain, reading, d);
  }

  /** Reading with excitation less one without. Theory (16). */
  double difference(Map<String, Double> d) {
    return difference(d, true);
  }

  double differenceAlone(Map<String, Double> d) {
    return difference(d, false);
  }

  private double difference(Map<String, Double> d, boolean subtracted) {
    Volts on = circuit.solve(d, true, true, end);
    double volts = read(tapped(on, d), referenceGain, "voltage, forward", d);
    double amps = current(on, "current, excited", d);
    if (subtracted) {
      amps -= current(circuit.solve(d, true, false, end), "current, silent", d);
    }
    amps -= 2 * PairCircuit.leakSiemens(board) / 4 * volts;
    double bus = end == End.LOW ? board.nominal("low-reference-ohms") : 0;
    return volts / (amps * (1 + (bus + pathOhms()) / dividerOhms()));
  }

  private double current(Volts state, String reading, Map<String, Double> d) {
    double seen = read(state.end(), gain, reading, d);
    double hum = PairCircuit.of("hum left in the " + reading, d);
    return hum
        + switch (end) {
          case LOW -> seen / board.nominal("low-reference-ohms");
          case MID -> stageAmps(seen, board.nominal("mid-reference-ohms"));
          case HIGH -> stageAmps(seen, board.nominal("high-reference-ohms"));
        };
  }

  private double stageAmps(double volts, double feedbackOhms) {
    double scale = board.nominal("feedback-diode-volts");
    double unit = board.nominal("feedback-diode-amps") / Math.sinh(0.35 / scale);
    return -volts / feedbackOhms - unit * Math.sinh(volts / scale);
  }

  /** Terminals a and b through sense taps and multiplexers. */
  private static double tapped(Volts state, Map<String, Double> d) {
    double a = state.a() * (1 - PairCircuit.of("tap leakage of a, its change per volt", d));
    double b = state.b() * (1 - PairCircuit.of("tap leakage of b, its change per volt", d));
    double constant =
        PairCircuit.of("tap leakage of a", d)
            - PairCircuit.of("tap leakage of b", d)
            + PairCircuit.of("thermal EMF of a", d)
            - PairCircuit.of("thermal EMF of b", d);
    return a - b + constant;
  }

  private double read(double volts, int atGain, String reading, Map<String, Double> d) {
    double error = PairCircuit.of("converter gain error at " + atGain, d);
    double offset = PairCircuit.of("converter offset at " + atGain, d);
    return volts * (1 + error) + offset + PairCircuit.of("noise of the " + reading, d);
  }

  private double pathOhms() {
    return board.nominal("relay-ohms") + board.nominal("switch-ohms");
  }

  private double dividerOhms() {
    return board.nominal("divider-top-ohms") + board.nominal("divider-bottom-ohms");
  }
}
