package bellwire.reference;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Discrete robustness by the definition: every sample of the window, no algorithm. */
class TemporalLogicRecomputedTest {

  private static final Pattern TIMED =
      Pattern.compile("(always|eventually|historically|once)(?:\\[(\\d),(\\d)])? a");
  private static final Pattern BINARY = Pattern.compile("a (since|until)(?:\\[(\\d),(\\d)])? b");
  private static final int FOREVER = 1000;

  @Test
  void everyDiscreteRowFollowsFromTheDefinitions() {
    Row signals = ReferenceTables.load("temporal-logic/discrete-signals").only();
    double[] a = signals.numbers("a");
    double[] b = signals.numbers("b");
    for (Row row : ReferenceTables.load("temporal-logic/discrete").rows()) {
      double[] expected = row.numbers("robustness");
      for (int t = 0; t < a.length; t++) {
        assertThat(robustness(row.text("formula"), a, b, t))
            .as(row.text("formula") + " at " + t)
            .isEqualTo(expected[t]);
      }
    }
  }

  private static double robustness(String formula, double[] a, double[] b, int t) {
    Matcher timed = TIMED.matcher(formula);
    if (timed.matches()) {
      return window(timed.group(1), a, t, bound(timed.group(2), 0), bound(timed.group(3), FOREVER));
    }
    Matcher binary = BINARY.matcher(formula);
    if (binary.matches()) {
      return witness(
          binary.group(1).equals("until") ? 1 : -1,
          a,
          b,
          t,
          bound(binary.group(2), 0),
          bound(binary.group(3), FOREVER));
    }
    double now = a[t];
    double before = t == 0 ? Double.POSITIVE_INFINITY : a[t - 1];
    return switch (formula) {
      case "a and b" -> Math.min(now, b[t]);
      case "a or b" -> Math.max(now, b[t]);
      case "a implies b" -> Math.max(-now, b[t]);
      case "a iff b" -> -Math.abs(now - b[t]);
      case "a xor b" -> Math.abs(now - b[t]);
      case "not a" -> -now;
      case "a <= b" -> b[t] - now;
      case "a >= b" -> now - b[t];
      // A rise is a sample that holds after one that did not; the first has none before it.
      case "rise(a)" -> t == 0 ? now : Math.min(-before, now);
      case "fall(a)" -> t == 0 ? -now : Math.min(before, -now);
      case "prev a" -> before;
      case "next a" -> t + 1 < a.length ? a[t + 1] : Double.POSITIVE_INFINITY;
      default -> throw new IllegalArgumentException("formula=" + formula);
    };
  }

  private static int bound(String text, int otherwise) {
    return text == null ? otherwise : Integer.parseInt(text);
  }

  private static double window(String operator, double[] a, int t, int from, int to) {
    boolean all = operator.equals("always") || operator.equals("historically");
    int direction = operator.equals("always") || operator.equals("eventually") ? 1 : -1;
    double result = all ? Double.POSITIVE_INFINITY : Double.NEGATIVE_INFINITY;
    for (int i = 0; i < a.length; i++) {
      int ahead = direction * (i - t);
      if (ahead >= from && ahead <= to) {
        result = all ? Math.min(result, a[i]) : Math.max(result, a[i]);
      }
    }
    return result;
  }

  private static double witness(int direction, double[] a, double[] b, int t, int from, int to) {
    double best = Double.NEGATIVE_INFINITY;
    double held = Double.POSITIVE_INFINITY;
    for (int i = t; i >= 0 && i < a.length; i += direction) {
      int ahead = direction * (i - t);
      if (ahead >= from && ahead <= to) {
        // Until: a over [t, i); since: a over (i, t].
        best = Math.max(best, Math.min(b[i], held));
      }
      held = Math.min(held, a[i]);
    }
    return best;
  }
}
