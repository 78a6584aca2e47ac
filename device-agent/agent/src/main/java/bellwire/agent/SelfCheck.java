package bellwire.agent;

import bellwire.agent.board.Reading;
import bellwire.board.BoardDescription;
import bellwire.link.Check;
import bellwire.link.Message.Samples;
import bellwire.link.Range;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.link.Tap;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * The board measured against its own check resistors, relays open: 1 kohm against the low
 * reference, 10 Mohm through the transimpedance stage. Every voltage is read with the excitation on
 * and off and the difference taken, so that offsets and leakages of open switches drop out; both
 * voltages of a ratio are read at gain 1, so that the converter's gain and reference drop out too.
 *
 * <p>A ratio may be off by twice the sum of the relative half-widths of all that is in it: both
 * resistors, two closed switches, and for the high range the share of the open switches' leakage
 * that follows the excitation. The factor of two allows for temperature and years. That is about 1
 * %: enough to find a broken switch, range or resistor, and not meant to calibrate. The current
 * that flows is looked at once, by the converter's own reference: a shorted limiter shows in
 * nothing else.
 */
final class SelfCheck implements ScanRun.Readings {
  static final String NOT_YET = "not yet run: it follows the first arming of the interlock";
  private static final int SETTLE_MICROS = 4000;
  private static final double ALLOWANCE = 2;
  private static final int PER_CHECK = 4;
  private static final double CODES_PER_REFERENCE = 1 << 23;

  private final BoardDescription board;
  private final List<Integer> codes = new ArrayList<>();
  private boolean overloaded;

  SelfCheck(BoardDescription board) {
    this.board = board;
  }

  /**
   * What to measure; the readings go to {@link #take}. The test load keeps what mains wiring does
   * to a floating cable inside the window, which is narrow while the excitation is on and for a
   * while after it; the last step is longer than that.
   */
  static List<ScanStep> steps() {
    List<ScanStep> steps = new ArrayList<>();
    for (Check check : List.of(Check.LOW, Check.HIGH)) {
      boolean low = check == Check.LOW;
      for (boolean excite : new boolean[] {true, false}) {
        steps.add(step(check, excite, Tap.DRIVE_BUS, Tap.RETURN_BUS));
        steps.add(
            low
                ? step(check, excite, Tap.REFERENCE_HIGH, Tap.REFERENCE_LOW)
                : step(check, excite, Tap.COMMON, Tap.TRANSIMPEDANCE));
      }
    }
    return steps;
  }

  private static ScanStep step(Check check, boolean excite, Tap plus, Tap minus) {
    Range range = check == Check.LOW ? Range.LOW : Range.HIGH;
    return new ScanStep(
        0, 0, 0, excite, range, check, true, plus, minus, 1, Rate.SPS_20, SETTLE_MICROS, 1);
  }

  @Override
  public void take(int step, Reading reading, long nowMicros) {
    codes.add(reading.code());
    overloaded |= (reading.flags() & Samples.OVERLOAD) != 0;
  }

  /** Empty when the board passed, otherwise why not. Call it once all steps are done. */
  String verdict() {
    if (codes.size() != 2 * PER_CHECK) {
      throw new IllegalStateException("readings=" + codes.size());
    }
    if (overloaded) {
      return "self-check: an amplifier is overloaded by the board's own check resistors";
    }
    String low = judge(0, "low", "low-reference-ohms", "check-low-ohms", 0);
    if (low.isEmpty()) {
      low = limited();
    }
    return low.isEmpty()
        ? judge(PER_CHECK, "high", "high-reference-ohms", "check-high-ohms", leakageShare())
        : low;
  }

  /**
   * Both limiters are there. With one of them shorted every ratio is right all the same, and a
   * fault of the other would put more on a conductor than the board may; the low check resistor
   * then has a quarter more across it.
   */
  private String limited() {
    double check = board.nominal("check-low-ohms") + board.nominal("switch-ohms");
    double others =
        board.nominal("limiter-ohms")
            + board.nominal("switch-ohms")
            + board.nominal("low-reference-ohms");
    double expected = excitationCodes() * check / (check + others);
    double off =
        ALLOWANCE
            * (relative("excitation-volts")
                + relative("limiter-ohms")
                + relative("converter-reference-volts"));
    double seen = codes.get(0) - (double) codes.get(2);
    if (seen <= expected * (1 + off)) {
      return "";
    }
    return String.format(
        Locale.ROOT,
        "self-check: the excitation's limiters let too much pass, one of them may be shorted; do not"
            + " use the board: milliamps=%.2f expected=%.2f within=%.1f %%",
        1000 * volts(seen) / check,
        1000 * volts(expected) / check,
        100 * off);
  }

  private double excitationCodes() {
    return board.nominal("excitation-volts")
        / board.nominal("converter-reference-volts")
        * CODES_PER_REFERENCE;
  }

  private double volts(double atConverter) {
    return atConverter / CODES_PER_REFERENCE * board.nominal("converter-reference-volts");
  }

  private String judge(int at, String name, String reference, String check, double extra) {
    double checkCodes = codes.get(at) - (double) codes.get(at + 2);
    double referenceCodes = codes.get(at + 1) - (double) codes.get(at + 3);
    // Half of the excitation or more falls across either check resistor: half of that is too
    // little.
    if (checkCodes < excitationCodes() / 4) {
      return String.format(
          Locale.ROOT,
          "self-check: the excitation does not reach the %s check resistor: volts=%.3f",
          name,
          volts(checkCodes));
    }
    double expected = board.nominal(check) / board.nominal(reference);
    double switches = 2 * (board.nominal("switch-ohms") + board.value("switch-ohms").tolerance());
    double off =
        ALLOWANCE
            * (relative(check) + relative(reference) + switches / board.nominal(check) + extra);
    double ratio = checkCodes / referenceCodes;
    if (ratio >= expected * (1 - off) && ratio <= expected * (1 + off)) {
      return "";
    }
    return String.format(
        Locale.ROOT,
        "self-check: the %s range measures its check resistor wrongly: ratio=%.4f expected=%.4f"
            + " within=%.1f %%",
        name,
        ratio,
        expected,
        100 * off);
  }

  private double relative(String value) {
    return board.value(value).tolerance() / board.nominal(value);
  }

  private double leakageShare() {
    double leakage = board.value("switch-leakage-amps").tolerance() * ScanStep.PORTS;
    double perVolt = board.value("switch-leakage-per-volt").tolerance();
    double volts = board.nominal("excitation-volts");
    return leakage * perVolt * volts / (volts / board.nominal("check-high-ohms"));
  }
}
