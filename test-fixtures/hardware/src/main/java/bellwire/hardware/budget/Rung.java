package bellwire.hardware.budget;

import bellwire.board.BoardDescription;
import bellwire.hardware.budget.PairCircuit.End;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The budget of a resistance between two ports, as seen at their terminals, clamps included: two
 * conductors and M on the board, three repeats. Hum: 5 mV in each conductor, 3 pF to 230 V, 0.1 %
 * off the converter's notch.
 *
 * @param range low, by ratio; low, by difference; mid; high
 * @param gain of the voltage, or of the current's two readings
 * @param referenceGain of the reference, or of the voltage beside the current
 */
public record Rung(String range, double ohms, int gain, int referenceGain, ErrorBudget budget) {
  public static final double[] LADDER = {
    0, 0.1, 1, 10, 100, 1e3, 10e3, 40e3, 47e3, 100e3, 1e6, 7e6, 10e6, 50e6
  };

  /** Below it two ports are one cluster and the current is reversed. */
  private static final double RATIO_OHMS = 984;

  /** Room that the range leaves above the current expected, and what the stage may then give. */
  private static final double ROOM = 1.3;

  private static final double HIGH_VOLTS = 0.3;
  private static final double MID_VOLTS = 0.55;
  private static final int HIGH_GAIN = 8;

  /** 3 pF to 230 V at 50 Hz, and what the filter leaves of it 0.1 % off its notch. */
  private static final double HUM_AMPS = 2.2e-7;

  private static final double HUM_VOLTS = 5e-3;
  private static final double HUM_SHARE = 2e-5;

  /** Repeats of a current, and the degrees of freedom that two sets of them leave. */
  private static final int REPEATS = 3;

  private static final int FREEDOM = 4;

  public static List<Rung> ladder(BoardDescription board) {
    List<Rung> rungs = new ArrayList<>();
    for (double ohms : LADDER) {
      rungs.add(of(board, ohms));
    }
    return rungs;
  }

  public static Rung of(BoardDescription board, double ohms) {
    return ohms < RATIO_OHMS ? ratio(board, ohms) : difference(board, ohms);
  }

  private static Rung ratio(BoardDescription board, double ohms) {
    double excitation = board.nominal("excitation-volts");
    double low = board.nominal("low-reference-ohms");
    double path = board.nominal("relay-ohms") + board.nominal("switch-ohms");
    double loop = sourceOhms(board);
    // What the survey leaves room for: its coarse look takes M, on the return bus beside b, for
    // half
    // of the way back.
    double expected = 2 * (ohms + path / 2) + 5;
    int gain = gainFor(excitation * expected / (loop + expected));
    int referenceGain = gainFor(excitation * low / loop);
    ReadingModel model = new ReadingModel(board, ohms, End.LOW, gain, referenceGain);
    List<Input> inputs = paths(board);
    inputs.addAll(References.inputs(board, "low"));
    inputs.addAll(converter(board, gain, referenceGain));
    double noise = noiseVolts(board, gain);
    double referenceNoise = noiseVolts(board, referenceGain);
    for (String way : List.of("forward", "back")) {
      inputs.add(new Input("noise of the voltage, " + way, Shape.NORMAL, noise, "V"));
      inputs.add(new Input("noise of the reference, " + way, Shape.NORMAL, referenceNoise, "V"));
      inputs.add(
          new Input(
              "hum left in the voltage, " + way, Shape.RECTANGULAR, HUM_VOLTS * HUM_SHARE, "V"));
    }
    return new Rung(
        "low, reversed",
        ohms,
        gain,
        referenceGain,
        ErrorBudget.of(inputs, model::ratio, model::ratioAlone));
  }

  private static Rung difference(BoardDescription board, double ohms) {
    double amps = board.nominal("excitation-volts") / (ohms + sourceOhms(board));
    End end = endFor(board, amps);
    String range = end.name().toLowerCase(Locale.ROOT);
    double feedback = board.nominal(range + "-reference-ohms");
    int gain = end == End.HIGH ? HIGH_GAIN : gainFor(amps * feedback);
    ReadingModel model = new ReadingModel(board, ohms, end, gain, 1);
    List<Input> inputs = paths(board);
    inputs.addAll(References.inputs(board, range));
    inputs.addAll(converter(board, gain, 1));
    if (end != End.LOW) {
      inputs.addAll(stage(board, end, amps * feedback, gain));
    }
    double noise = noiseVolts(board, gain) / Math.sqrt(REPEATS);
    for (String when : List.of("excited", "silent")) {
      inputs.add(new Input("noise of the current, " + when, Shape.NORMAL, noise, "V", FREEDOM));
      inputs.add(
          new Input(
              "hum left in the current, " + when, Shape.RECTANGULAR, HUM_AMPS * HUM_SHARE, "A"));
    }
    // One reading at the quick pace, which leaves √3 of the noise.
    double voltageNoise = Math.sqrt(3) * noiseVolts(board, 1);
    inputs.add(new Input("noise of the voltage, forward", Shape.NORMAL, voltageNoise, "V"));
    return new Rung(
        range + (end == End.LOW ? ", subtracted" : ""),
        ohms,
        gain,
        1,
        ErrorBudget.of(inputs, model::difference, model::differenceAlone));
  }

  /** What lies in the loop beside the resistance, on the low range. */
  private static double sourceOhms(BoardDescription board) {
    return board.nominal("limiter-ohms")
        + board.nominal("low-reference-ohms")
        + 2 * (board.nominal("relay-ohms") + board.nominal("switch-ohms"));
  }

  private static End endFor(BoardDescription board, double amps) {
    if (ROOM * amps * board.nominal("high-reference-ohms") < HIGH_VOLTS) {
      return End.HIGH;
    }
    boolean mid = ROOM * amps * board.nominal("mid-reference-ohms") < MID_VOLTS;
    return mid ? End.MID : End.LOW;
  }

  /** The largest gain with 20 % and 30 mV of room. */
  private static int gainFor(double volts) {
    int gain = 128;
    while (gain > 1 && (1.2 * volts + 0.03) * gain > 2.4) {
      gain /= 2;
    }
    return gain;
  }

  private static double noiseVolts(BoardDescription board, int gain) {
    return Math.hypot(
        board.nominal("converter-output-noise-volts") / gain,
        board.nominal("converter-input-noise-volts"));
  }

  /** What lies between source, terminals and buses, on both ports. */
  private static List<Input> paths(BoardDescription board) {
    List<Input> inputs = new ArrayList<>();
    inputs.add(toleranceOf(board, "excitation", "excitation-volts", "V"));
    inputs.add(toleranceOf(board, "limiters", "limiter-ohms", "ohm"));
    double divider =
        (board.value("divider-top-ohms").tolerance()
                + board.value("divider-bottom-ohms").tolerance())
            / (board.nominal("divider-top-ohms") + board.nominal("divider-bottom-ohms"));
    double tap = board.value("tap-leakage-amps").tolerance() * board.nominal("sense-tap-ohms");
    double change = tap * board.value("switch-leakage-per-volt").tolerance();
    for (String port : List.of("a", "b")) {
      inputs.add(toleranceOf(board, "relay of " + port, "relay-ohms", "ohm"));
      inputs.add(toleranceOf(board, "drive switch of " + port, "switch-ohms", "ohm"));
      inputs.add(toleranceOf(board, "return switch of " + port, "switch-ohms", "ohm"));
      inputs.add(new Input("divider of " + port, Shape.RECTANGULAR, divider, ""));
      inputs.add(new Input("tap leakage of " + port, Shape.RECTANGULAR, tap, "V"));
      inputs.add(
          new Input(
              "tap leakage of " + port + ", its change per volt", Shape.PRODUCT, change, "/V"));
      inputs.add(toleranceOf(board, "thermal EMF of " + port, "thermal-emf-volts", "V"));
      double siemens = PairCircuit.leakSiemens(board);
      inputs.add(new Input("open drive switch of " + port, Shape.SHARE, siemens, "S"));
      inputs.add(new Input("open return switch of " + port, Shape.SHARE, siemens, "S"));
    }
    // Sixteen ports are not on the return bus.
    double leak = 4 * Shape.RECTANGULAR.u(board.value("switch-leakage-amps").tolerance());
    inputs.add(
        new Input("open switches, what they leak without excitation", Shape.NORMAL, leak, "A"));
    return inputs;
  }

  private static List<Input> converter(BoardDescription board, int gain, int other) {
    List<Input> inputs = new ArrayList<>();
    for (int each : gain == other ? List.of(gain) : List.of(gain, other)) {
      inputs.add(toleranceOf(board, "converter gain error at " + each, "converter-gain-error", ""));
      inputs.add(toleranceOf(board, "converter offset at " + each, "converter-offset-volts", "V"));
    }
    return inputs;
  }

  /** The transimpedance stage: its switch, its gain, its diodes, and hum in them. */
  private static List<Input> stage(BoardDescription board, End end, double volts, int gain) {
    double scale = board.nominal("feedback-diode-volts");
    double unit = board.nominal("feedback-diode-amps") / Math.sinh(0.35 / scale);
    double feedback = board.nominal(end == End.HIGH ? "high-reference-ohms" : "mid-reference-ohms");
    // As much hum as there may be, or as the converter takes without an overload.
    double room = board.nominal("converter-reference-volts") / gain - volts;
    double hum = Math.min(Math.sqrt(2) * HUM_AMPS * feedback, Math.max(0, room));
    double rectified = unit * Math.sinh(volts / scale) * (bessel(hum / scale) - 1);
    return List.of(
        toleranceOf(board, "range's switch", "switch-ohms", "ohm"),
        new Input("amplifier's gain", Shape.RECTANGULAR, 0.5, ""),
        new Input(
            "feedback diodes",
            Shape.RECTANGULAR,
            board.value("feedback-diode-amps").tolerance(),
            "A"),
        new Input("hum in the feedback diodes", Shape.RECTANGULAR, rectified, "A"));
  }

  /** I₀, the mean of exp(x cos φ), by its series. */
  private static double bessel(double x) {
    double term = 1;
    double sum = 1;
    for (int k = 1; term > 1e-16 * sum; k++) {
      term *= x * x / (4.0 * k * k);
      sum += term;
    }
    return sum;
  }

  private static Input toleranceOf(BoardDescription board, String name, String value, String unit) {
    return new Input(name, Shape.RECTANGULAR, board.value(value).tolerance(), unit);
  }
}
