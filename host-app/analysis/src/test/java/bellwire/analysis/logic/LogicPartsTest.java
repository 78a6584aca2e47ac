package bellwire.analysis.logic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Signals, bounds, horizons and formulas by themselves: what they hold and what they refuse. */
class LogicPartsTest {
  private static final double INFINITY = Double.POSITIVE_INFINITY;

  @Test
  void aSignalHoldsEachValueFromItsChangeOn() {
    Signal signal =
        Signal.builder(3).until(5, 1.0).until(7, 1.0).until(9, new Robustness(-2, 3)).build();
    assertThat(signal.pieces()).as("neighbours of equal value").isEqualTo(2);
    assertThat(signal.beginMicros()).isEqualTo(3);
    assertThat(signal.endMicros()).isEqualTo(9);
    assertThat(signal.at(3)).isEqualTo(Robustness.exactly(1));
    assertThat(signal.at(6)).isEqualTo(Robustness.exactly(1));
    assertThat(signal.at(7)).isEqualTo(new Robustness(-2, 3));
    assertThat(signal.at(8)).isEqualTo(new Robustness(-2, 3));
    assertThat(signal).hasToString("3:[1.0,1.0] 7:[-2.0,3.0] end 9");
    for (long outside : new long[] {2, 9}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> signal.at(outside))
          .withMessage("micros=" + outside + " beginMicros=3 endMicros=9");
    }
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Signal.builder(3).until(3, true))
        .withMessage("toMicros=3 endMicros=3");
    assertThatIllegalStateException().isThrownBy(() -> Signal.builder(3).build());
  }

  @Test
  void signalsAreEqualWhereTheyAreAtEveryMoment() {
    Signal.Builder long1 = Signal.builder(0);
    for (int i = 1; i <= 20; i++) { // more than the builder begins with
      long1.until(i, i % 2 == 0);
    }
    Signal signal = long1.build();
    assertThat(signal.pieces()).isEqualTo(20);
    assertThat(signal.at(18)).isEqualTo(Robustness.FALSE);
    assertThat(signal.at(19)).isEqualTo(Robustness.TRUE);
    Signal one = Signal.builder(0).until(5, true).build();
    assertThat(one).isEqualTo(Signal.builder(0).until(2, true).until(5, true).build());
    assertThat(one).hasSameHashCodeAs(Signal.builder(0).until(2, true).until(5, true).build());
    for (Signal other :
        List.of(
            Signal.builder(0).until(6, true).build(),
            Signal.builder(1).until(5, true).build(),
            Signal.builder(0).until(5, false).build())) {
      assertThat(one).isNotEqualTo(other);
    }
    assertThat(one).isNotEqualTo("5");
  }

  @Test
  void aRobustnessIsAnInterval() {
    assertThat(new Robustness(0.1, 3).verdict()).isEqualTo(Verdict.KEPT);
    assertThat(new Robustness(0, 3).verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(new Robustness(-3, 0).verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(new Robustness(-3, -0.1).verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(new Robustness(-0.0, -0.0)).as("one zero").isEqualTo(Robustness.exactly(0));
    Robustness wide = new Robustness(-1, 2);
    assertThat(wide.contains(wide)).isTrue();
    assertThat(wide.contains(new Robustness(-1.1, 2))).isFalse();
    assertThat(wide.contains(new Robustness(-1, 2.1))).isFalse();
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Robustness(2, 1))
        .withMessage("low=2.0 high=1.0");
    assertThatIllegalArgumentException().isThrownBy(() -> new Robustness(Double.NaN, 1));
  }

  @Test
  void boundsAreUpTo31Years() {
    long most = Bounds.LONGEST_MICROS;
    assertThat(new Bounds(most, most).bounded()).isTrue();
    assertThat(new Bounds(most, Bounds.UNBOUNDED).bounded()).isFalse();
    for (long[] bad : new long[][] {{-1, 3}, {4, 3}, {0, most + 1}, {most + 1, Long.MAX_VALUE}}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new Bounds(bad[0], bad[1]))
          .withMessage("fromMicros=" + bad[0] + " toMicros=" + bad[1]);
    }
  }

  /** Sums along each branch, the longer branch counts; past and future by themselves. */
  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "a & x < 3; 0; 0",
        "F[1 us,3 us] a; 0; 3",
        "G[0,2 us] F[0,3 us] a & G[0,4 us] b; 0; 5",
        "a U[1 us,7 us] F[0,2 us] b; 0; 9",
        "a W[1 us,7 us] b; 0; 7",
        "a S[1 us,4 us] O[0,2 us] b; 6; 0",
        "H[0,2 us] F[0,5 us] a; 2; 5",
        "rise(a) & fall(O[0,3 us] a); 4; 0",
        "!(a -> O[2 us,6 us] b); 6; 0"
      })
  void aHorizonIsTheSumOfTheBounds(String text, long past, long future) throws BadFormula {
    assertThat(Horizon.of(FormulaParser.parse(text))).isEqualTo(new Horizon(past, future));
  }

  @ParameterizedTest
  @ValueSource(strings = {"F a", "F[0,2 us] G a", "a U b", "a W b", "F (a U[0,3 us] b)"})
  void withoutABoundTheFutureHasNone(String text) throws BadFormula {
    assertThat(Horizon.of(FormulaParser.parse(text))).isEqualTo(new Horizon(0, Bounds.UNBOUNDED));
  }

  @ParameterizedTest
  @ValueSource(strings = {"O a", "H[0,2 us] O a", "a S b", "rise(a S b)"})
  void withoutABoundThePastHasNone(String text) throws BadFormula {
    assertThat(Horizon.of(FormulaParser.parse(text))).isEqualTo(new Horizon(Bounds.UNBOUNDED, 0));
  }

  @Test
  void formulasOfManyAndOfNone() {
    Formula a = Formula.atom("a");
    Formula b = Formula.atom("b");
    Formula x = Formula.threshold("x", Formula.Relation.BELOW, 3);
    assertThat(Formula.all(List.of())).isEqualTo(Formula.constant(true));
    assertThat(Formula.any(List.of())).isEqualTo(Formula.constant(false));
    assertThat(Formula.all(List.of(a, b, x))).hasToString("a & b & x < 3");
    assertThat(Formula.any(List.of(a, b, x))).hasToString("a | b | x < 3");
    assertThat(Formula.xor(b, a)).hasToString("b xor a");
    assertThat(Formula.until(x, Formula.since(b, a)).signals()).containsExactly("a", "b", "x");
    assertThat(Formula.historically(a)).hasToString("H a");
    assertThat(Formula.once(a)).hasToString("O a");
    for (String name : List.of("", "  ", "a\"b", "a\tb")) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> Formula.atom(name))
          .withMessage("signal=" + name);
      assertThatIllegalArgumentException()
          .isThrownBy(() -> Formula.threshold(name, Formula.Relation.BELOW, 3));
    }
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Formula.threshold("x", Formula.Relation.BELOW, INFINITY))
        .withMessage("limit=Infinity");
  }

  /** In seconds with decimals below ten minutes, else in the largest unit that divides it. */
  @ParameterizedTest
  @CsvSource({
    "1, 1 us",
    "1500, 1500 us",
    "999000, 999 ms",
    "1000000, 1 s",
    "1000500, 1000500 us",
    "1001000, 1.001 s",
    "599999000, 599.999 s",
    "600000000, 10 min",
    "601000000, 601 s",
    "3600000000, 1 h",
    "5400000000, 90 min"
  })
  void timesArePrintedInTheirUnit(long micros, String printed) {
    assertThat(Formula.once(Bounds.within(micros), Formula.atom("a")))
        .hasToString("O[0," + printed + "] a");
  }

  @ParameterizedTest
  @CsvSource({
    "3, 3",
    "-3, -3",
    "0.25, 0.25",
    "999999999999999, 999999999999999",
    "1e15, 1.0E15",
    "-1e15, -1.0E15",
    "-2.5e-7, -2.5E-7"
  })
  void limitsArePrintedWithoutNeedlessDecimals(double limit, String printed) throws BadFormula {
    Formula formula = Formula.threshold("x", Formula.Relation.ABOVE, limit);
    assertThat(formula).hasToString("x > " + printed);
    assertThat(FormulaParser.parse(formula.toString())).isEqualTo(formula);
  }

  /** Of several signals, from what each is at the beginning to before the end. */
  @Test
  void aReplayTellsAllChangesInOrder() {
    Signal early = Signal.builder(-5).until(-2, true).until(3, false).until(8, true).build();
    Signal late = Signal.builder(2).until(6, 1.0).until(20, 2.0).until(30, 3.0).build();
    List<Replay.Change> changes = Replay.of(Map.of("e", early, "l", late), 0, 20).changes();
    assertThat(changes)
        .containsExactly(
            new Replay.Change("e", 0, Robustness.FALSE),
            new Replay.Change("l", 2, Robustness.exactly(1)),
            new Replay.Change("e", 3, Robustness.TRUE),
            new Replay.Change("l", 6, Robustness.exactly(2)),
            new Replay.Change("e", 8, Robustness.UNKNOWN));
  }

  @Test
  void ofSeveralChangesAtOneMomentTheLastCounts() throws BadFormula {
    List<String> told = new ArrayList<>();
    LogicMonitor monitor =
        new LogicMonitor(
            FormulaParser.parse("a"),
            5,
            (from, to, value) -> told.add(from + " " + to + " " + value.verdict()));
    monitor.change(0, 5, true);
    monitor.change(0, 5, false);
    monitor.change(0, 8, true);
    monitor.unknown(0, 9);
    monitor.finish(11, TraceEnd.CUT);
    assertThat(told).containsExactly("5 8 BROKEN", "8 9 KEPT", "9 11 UNDECIDED");
  }

  @Test
  void aMonitorsTimesAreBounded() {
    Formula a = Formula.atom("a");
    long most = Bounds.LONGEST_MICROS;
    for (long begin : new long[] {-most - 1, most + 1}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new LogicMonitor(a, begin))
          .withMessage("beginMicros=" + begin);
    }
    new LogicMonitor(a, -most);
    LogicMonitor monitor = new LogicMonitor(a, most);
    monitor.advance(4 * most);
    assertThatThrownBy(() -> monitor.advance(4 * most + 1)).hasMessageContaining("finished=false");
    LogicMonitor short1 = new LogicMonitor(a, 7);
    assertThatThrownBy(() -> short1.finish(7, TraceEnd.CUT)).hasMessage("micros=7 beginMicros=7");
    short1.change(0, 7, true);
    assertThat(short1.soFar()).as("no moment has passed").isEqualTo(Robustness.UNKNOWN);
    short1.advance(8);
    assertThat(short1.soFar()).isEqualTo(Robustness.TRUE);
  }

  /** Equal parts of a formula are one: said ten times it costs what it costs once, and a join. */
  @Test
  void equalPartsAreHeldOnce() throws BadFormula {
    String part = "O[0,60 s] (x > 0)";
    int once = held(part);
    int tenTimes = held("(" + part + ")" + (" & (" + part + ")").repeat(9));
    assertThat(once).isGreaterThan(50);
    assertThat(tenTimes).isLessThan(2 * once);
  }

  /** While a value falls and falls each of the last minute is the greatest from there on. */
  private static int held(String text) throws BadFormula {
    LogicMonitor monitor = new LogicMonitor(FormulaParser.parse(text), 0, (from, to, value) -> {});
    for (int second = 0; second < 300; second++) {
      monitor.change(0, second * 1_000_000L, -second);
    }
    return monitor.held();
  }

  /** Real values, none of which decides by itself: final once the bound is known, and not later. */
  @Test
  void isSettledWithinTheHorizonOfRealSignalsToo() throws BadFormula {
    for (String text :
        new String[] {
          "x > 0 U[2 us,5 us] y > 0",
          "x > 0 W[2 us,5 us] y > 0",
          "G[2 us,5 us] (x > 0)",
          "F[2 us,5 us] (y > 0)"
        }) {
      for (RobustnessSink sink : new RobustnessSink[] {null, (from, to, value) -> {}}) {
        LogicMonitor monitor = new LogicMonitor(FormulaParser.parse(text), 0, sink);
        for (String signal : List.of("x", "y")) {
          if (monitor.number(signal) >= 0) {
            monitor.change(monitor.number(signal), 0, signal.equals("x") ? 5.0 : 1.0);
          }
        }
        monitor.advance(5);
        assertThat(monitor.settled()).as(text).isEqualTo(Robustness.UNKNOWN);
        monitor.advance(6);
        assertThat(monitor.settled().low()).as(text).isIn(1.0, 5.0);
        assertThat(monitor.settled().high()).as(text).isEqualTo(monitor.settled().low());
      }
    }
  }
}
