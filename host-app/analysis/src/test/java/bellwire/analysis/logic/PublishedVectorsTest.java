package bellwire.analysis.logic;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.logic.Formula.Relation;
import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

/**
 * The robustness vectors of rtamt (nickovic/rtamt @5e30b7bc, tables temporal-logic/*), every row.
 *
 * <p>Discrete time is read as one sample a microsecond, which is this logic's step, and bounds in
 * microseconds. Some rows are named there by operators that differ from ours, and are stated here
 * by what they are defined as; each says how.
 */
class PublishedVectorsTest {

  private static final String[] NAMES = {"a", "b"};

  @Test
  void everyDiscreteRow() throws BadFormula {
    Row row = ReferenceTables.load("temporal-logic/discrete-signals").only();
    Map<String, Signal> signals = new LinkedHashMap<>();
    double[] a = row.numbers("a");
    double[] b = row.numbers("b");
    signals.put("a", samples(a));
    signals.put("b", samples(b));
    signals.put("difference", samples(difference(a, b)));
    int rows = 0;
    for (Row each : ReferenceTables.load("temporal-logic/discrete").rows()) {
      assertThat(each.status().decides()).isTrue();
      Formula formula = FormulaParser.parse(discrete(each.text("formula")));
      Signal result = LogicMonitor.evaluate(formula, signals, 0, a.length, TraceEnd.CUT);
      assertThat(result)
          .as(each.text("formula") + " as " + formula)
          .isEqualTo(samples(each.numbers("robustness")));
      rows++;
    }
    assertThat(rows).isEqualTo(26);
  }

  /** What a row means in this notation. */
  private static String discrete(String formula) {
    return switch (formula) {
      // A relation of two signals is one of their difference and a number.
      case "a <= b" -> "difference <= 0";
      case "a >= b" -> "difference >= 0";
      // There iff is the equality of two numbers, -|a - b|, which calls two that both hold by
      // different margins unlike; ours is that of two formulas, and keeps its sign.
      case "a iff b" -> "difference <= 0 and difference >= 0";
      case "a xor b" -> "not (difference <= 0 and difference >= 0)";
      // There an edge at the first sample is one against a sample that was neither true nor
      // false; ours needs a sample before (edgesAgreeBehindTheFirstSample).
      case "rise(a)" -> "a and historically[1,1 us] not a";
      case "fall(a)" -> "not a and historically[1,1 us] a";
      case "prev a" -> "historically[1,1 us] a";
      case "next a" -> "always[1,1 us] a";
      default -> formula.replace("]", " us]");
    };
  }

  @Test
  void edgesAgreeBehindTheFirstSample() throws BadFormula {
    Row row = ReferenceTables.load("temporal-logic/discrete-signals").only();
    Map<String, Signal> signals = Map.of("a", samples(row.numbers("a")));
    for (String edge : new String[] {"rise(a)", "fall(a)"}) {
      double[] expected =
          ReferenceTables.load("temporal-logic/discrete")
              .row("formula", edge)
              .numbers("robustness")
              .clone();
      expected[0] = Double.NEGATIVE_INFINITY;
      Signal result =
          LogicMonitor.evaluate(
              FormulaParser.parse(edge), signals, 0, expected.length, TraceEnd.CUT);
      assertThat(result).as(edge).isEqualTo(samples(expected));
    }
  }

  @Test
  void everyDenseRow() throws BadFormula {
    int rows = 0;
    for (Row row : ReferenceTables.load("temporal-logic/dense").rows()) {
      assertThat(row.status().decides()).isTrue();
      double[][] expected = row.matrix("robustness");
      long begin = 0;
      long last = micros(expected[expected.length - 1][0]);
      for (String name : NAMES) {
        if (row.has(name)) {
          // Where one signal is not there yet, or no longer, there is nothing to evaluate.
          double[][] input = row.matrix(name);
          begin = Math.max(begin, micros(input[0][0]));
          last = Math.max(last, micros(input[input.length - 1][0]));
        }
      }
      // The last sample is a moment of the trace, the last value its own from there on.
      long end = last + 1;
      Map<String, Signal> signals = new LinkedHashMap<>();
      for (String name : NAMES) {
        if (row.has(name)) {
          signals.put(name, steps(row.matrix(name), end));
        }
      }
      Formula formula = FormulaParser.parse(dense(row.text("formula")));
      Signal result = LogicMonitor.evaluate(formula, signals, begin, end, TraceEnd.CUT);
      compare(row.text("formula"), result, steps(expected, end), begin, expected);
      rows++;
    }
    assertThat(rows).isEqualTo(18);
  }

  /**
   * The dense rows of until and since have the left side hold at the right side's moment as well,
   * which the discrete rows, the README and this logic do not ask; it shows at 6.2 s.
   */
  private static String dense(String formula) {
    return formula.replace("]", " s]").replaceAll("(until|since)(.*) b", "$1$2 (a and b)");
  }

  /** At every change of either, and a moment before, as far as the published signal goes. */
  private static void compare(
      String formula, Signal result, Signal published, long begin, double[][] points) {
    long last = micros(points[points.length - 1][0]);
    TreeSet<Long> moments = new TreeSet<>();
    for (Signal signal : new Signal[] {result, published}) {
      for (int i = 0; i < signal.pieces(); i++) {
        moments.add(signal.fromMicros(i));
        moments.add(signal.fromMicros(i) - 1);
      }
    }
    moments.add(last);
    moments.add(begin);
    for (long t : moments.subSet(begin, true, last, true)) {
      assertThat(result.at(t)).as(formula + " at " + t + " us").isEqualTo(published.at(t));
    }
  }

  @Test
  void arithmeticBesideAThreshold() {
    Row row = ReferenceTables.load("temporal-logic/arithmetic").only();
    double[] a = row.numbers("a");
    double[] b = row.numbers("b");
    double[] sum = new double[a.length];
    for (int i = 0; i < a.length; i++) {
      sum[i] = a[i] + b[i];
    }
    Signal result =
        LogicMonitor.evaluate(
            Formula.threshold("c", Relation.AT_LEAST, -2),
            Map.of("c", samples(sum)),
            0,
            a.length,
            TraceEnd.CUT);
    // The README: c = 120, 1, 8 and d = 122, 3, 10.
    assertThat(sum).containsExactly(120, 1, 8);
    assertThat(result).isEqualTo(samples(new double[] {122, 3, 10}));
  }

  @Test
  void horizonBelowAnUnboundedAlways() throws BadFormula {
    Row row = ReferenceTables.load("temporal-logic/horizon").only();
    Formula formula = FormulaParser.parse(row.text("formula").replace("]", " s]"));
    assertThat(Horizon.of(formula).futureMicros()).isEqualTo(Bounds.UNBOUNDED);
    assertThat(Horizon.of(formula.operands().get(0)).futureMicros())
        .isEqualTo(1_000_000L * row.integer("belowAlways"));
  }

  private static double[] difference(double[] a, double[] b) {
    double[] result = new double[a.length];
    for (int i = 0; i < a.length; i++) {
      result[i] = a[i] - b[i];
    }
    return result;
  }

  private static Signal samples(double[] values) {
    Signal.Builder signal = Signal.builder(0);
    for (int i = 0; i < values.length; i++) {
      signal.until(i + 1, values[i]);
    }
    return signal.build();
  }

  private static long micros(double seconds) {
    return Math.round(seconds * 1e6);
  }

  private static Signal steps(double[][] points, long end) {
    Signal.Builder signal = Signal.builder(micros(points[0][0]));
    for (int i = 0; i < points.length; i++) {
      long to = i + 1 < points.length ? micros(points[i + 1][0]) : end;
      if (to > micros(points[i][0])) {
        signal.until(to, points[i][1]);
      }
    }
    return signal.build();
  }
}
