package bellwire.analysis.logic;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Map;
import org.junit.jupiter.api.Test;

/** What the monitor promises beside its values: when it tells, what it holds, what it refuses. */
class LogicMonitorTest {

  private static final long SECOND = 1_000_000;

  private static LogicMonitor monitor(String formula) throws BadFormula {
    return new LogicMonitor(FormulaParser.parse(formula), 0);
  }

  @Test
  void tellsABrokenPromiseAtOnceAndSettlesItWithinTheHorizon() throws BadFormula {
    LogicMonitor monitor = monitor("G(fall(Y1) -> G[0,300 s] !Y1)");
    int y1 = monitor.number("Y1");
    monitor.change(y1, 0, true);
    monitor.change(y1, 10 * SECOND, false);
    monitor.change(y1, 200 * SECOND, true);
    assertThat(monitor.soFar().verdict()).isEqualTo(Verdict.UNDECIDED);
    monitor.advance(200 * SECOND + 1);
    assertThat(monitor.soFar().verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(monitor.settled()).isEqualTo(Robustness.UNKNOWN);
    monitor.advance(310 * SECOND + 1);
    assertThat(monitor.settled().verdict()).isEqualTo(Verdict.BROKEN);
  }

  @Test
  void isSettledAsSoonAsTheHorizonIsKnown() throws BadFormula {
    for (String text :
        new String[] {"a U[1,3 us] b", "F[1,3 us] b", "G[0,3 us] a", "a W[2,3 us] b"}) {
      for (RobustnessSink sink : new RobustnessSink[] {null, (from, to, value) -> {}}) {
        Formula formula = FormulaParser.parse(text);
        LogicMonitor monitor = new LogicMonitor(formula, 0, sink);
        for (String signal : formula.signals()) {
          monitor.change(monitor.number(signal), 0, signal.equals("a"));
        }
        // Known up to and including the moment three microseconds on.
        assertThat(Horizon.of(formula).futureMicros()).isEqualTo(3);
        monitor.advance(3);
        assertThat(monitor.settled()).as(text).isEqualTo(Robustness.UNKNOWN);
        monitor.advance(4);
        assertThat(monitor.settled()).as(text).isNotEqualTo(Robustness.UNKNOWN);
      }
    }
  }

  @Test
  void theEndCutsOrLeavesOpen() throws BadFormula {
    for (TraceEnd end : TraceEnd.values()) {
      LogicMonitor response = monitor("G(Y1 -> F[0,2 s] G1)");
      response.change(response.number("Y1"), 0, false);
      response.change(response.number("G1"), 0, false);
      response.change(response.number("Y1"), 9 * SECOND, true);
      assertThat(response.finish(10 * SECOND, end).verdict())
          .isEqualTo(end == TraceEnd.CUT ? Verdict.BROKEN : Verdict.UNDECIDED);
      LogicMonitor always = monitor("G Y1");
      always.change(0, 0, true);
      assertThat(always.finish(SECOND, end).verdict())
          .isEqualTo(end == TraceEnd.OPEN ? Verdict.UNDECIDED : Verdict.KEPT);
    }
  }

  @Test
  void exactlyOnTheLimitIsUndecided() throws BadFormula {
    LogicMonitor monitor = monitor("x >= 3");
    monitor.change(0, 0, 3.0);
    assertThat(monitor.finish(1, TraceEnd.CUT).verdict()).isEqualTo(Verdict.UNDECIDED);
  }

  @Test
  void whatItHoldsFollowsTheHorizonAndNotTheTrace() throws BadFormula {
    String text =
        "G((rise(a) -> F[0,60 s] b) & (a -> O[0,30 s] b) & (x < 5 | a U[1 s,20 s] b) & G[0,9 s] (x < 9))";
    LogicMonitor monitor = monitor(text);
    int inFirstHour = 0;
    int later = 0;
    long second = 0;
    for (; second < 24 * 3600; second++) {
      monitor.change(monitor.number("a"), second * SECOND, second % 7 < 3);
      monitor.change(monitor.number("b"), second * SECOND, second % 5 == 0);
      monitor.change(monitor.number("x"), second * SECOND, second % 11 - second % 3);
      if (second < 3600) {
        inFirstHour = Math.max(inFirstHour, monitor.held());
      } else {
        later = Math.max(later, monitor.held());
      }
    }
    // The longest look is 60 s; some thirty places that hold at most a piece a change each.
    assertThat(inFirstHour).isBetween(60, 60 * 30);
    assertThat(later).isLessThanOrEqualTo(inFirstHour);
    assertThat(monitor.finish(second * SECOND, TraceEnd.PENDING)).isNotNull();
  }

  @Test
  void aBooleanTailHoldsTwoPiecesABound() throws BadFormula {
    LogicMonitor monitor = new LogicMonitor(FormulaParser.parse("F a"), 0, (from, to, value) -> {});
    for (int i = 0; i < 10_000; i++) {
      monitor.change(0, i, false);
      assertThat(monitor.held()).isLessThan(6);
    }
    monitor.change(0, 10_000, true);
    assertThat(monitor.finish(10_001, TraceEnd.CUT)).isEqualTo(Robustness.TRUE);
  }

  @Test
  void aResponseWithoutABoundHoldsFewPiecesHoweverLongItWaits() throws BadFormula {
    for (String text :
        new String[] {
          "G(a -> F b)", "G((a -> F b) & (b -> a W c))", "F(a & G !b)", "G(!a | (c U b))"
        }) {
      LogicMonitor monitor = monitor(text);
      for (String constant : new String[] {"b", "c"}) {
        if (monitor.number(constant) >= 0) {
          monitor.change(monitor.number(constant), 0, constant.equals("c"));
        }
      }
      for (int i = 0; i < 10_000; i++) {
        monitor.change(monitor.number("a"), i, i % 2 == 0);
        assertThat(monitor.held()).as(text).isLessThan(24);
      }
      assertThat(monitor.finish(10_000, TraceEnd.OPEN).verdict())
          .as(text)
          .isEqualTo(Verdict.UNDECIDED);
    }
  }

  @Test
  void refusesToHoldWithoutEnd() throws BadFormula {
    // While b does not come, every a waits for it, and what F b is joined with inside.
    LogicMonitor monitor = monitor("G(a -> (c & F b))");
    monitor.change(monitor.number("c"), 0, true);
    monitor.change(monitor.number("b"), 0, false);
    assertThatThrownBy(
            () -> {
              for (int i = 0; i < 2 * PieceQueue.MOST; i++) {
                monitor.change(monitor.number("a"), i, i % 2 == 0);
              }
            })
        .isInstanceOf(TooMuchPending.class)
        .hasMessageContaining("give it a bound")
        .hasMessageEndingWith("pendingPieces=1048576");
  }

  @Test
  void askingChangesNothing() throws BadFormula {
    LogicMonitor monitor = monitor("a U[2 us,9 us] b");
    monitor.change(monitor.number("a"), 0, true);
    monitor.change(monitor.number("b"), 0, false);
    monitor.advance(3);
    for (int i = 0; i < 3; i++) {
      assertThat(monitor.soFar()).isEqualTo(Robustness.UNKNOWN);
    }
    monitor.change(monitor.number("b"), 5, true);
    monitor.advance(6);
    assertThat(monitor.soFar()).isEqualTo(Robustness.TRUE);
  }

  @Test
  void aCallersMistakesThrow() throws BadFormula {
    LogicMonitor monitor = monitor("a");
    monitor.change(0, 10, true);
    assertThat(monitor.number("b")).isEqualTo(-1);
    assertThatThrownBy(() -> monitor.change(0, 9, true)).hasMessageContaining("nowMicros=10");
    assertThatThrownBy(() -> monitor.change(0, 11, Double.NaN)).hasMessageContaining("low=NaN");
    assertThatThrownBy(() -> monitor.change(0, 11, 2, 1)).hasMessageContaining("low=2.0 high=1.0");
    assertThatThrownBy(() -> monitor.finish(0, TraceEnd.CUT)).hasMessageContaining("micros=0");
    monitor.finish(11, TraceEnd.CUT);
    assertThatThrownBy(() -> monitor.advance(12)).hasMessageContaining("finished=true");
    assertThatThrownBy(() -> new Bounds(2, 1)).hasMessageContaining("fromMicros=2 toMicros=1");
  }

  @Test
  void aSignalThatEndsEarlyIsUnknownFromThere() throws BadFormula {
    Signal shortOne = Signal.builder(0).until(5, true).build();
    Signal result =
        LogicMonitor.evaluate(FormulaParser.parse("a"), Map.of("a", shortOne), 0, 9, TraceEnd.CUT);
    assertThat(result)
        .isEqualTo(Signal.builder(0).until(5, true).until(9, Robustness.UNKNOWN).build());
  }
}
