package bellwire.analysis.rules;

import static bellwire.analysis.rules.Truth.FALSE;
import static bellwire.analysis.rules.Truth.TRUE;
import static bellwire.analysis.rules.Truth.UNKNOWN;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.logic.Verdict;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Cases that can be worked out by hand. */
final class RuleMonitorTest {
  private static final long SECOND = 1_000_000;
  private static final Expression Y1 = new Expression.Fact("Y1");
  private static final Expression G = new Expression.Fact("G");
  private static final List<String> FACTS = List.of("Y1", "G");
  private static final Pattern REST = new Pattern.AtLeast(new Expression.Not(Y1), 300 * SECOND);

  private static RuleMonitor monitor(Pattern pattern, double clockPpm) {
    Rule rule = new Rule("rule", "", pattern, new Scope.Globally());
    RuleMonitor monitor = new RuleMonitor(List.of(rule), FACTS, clockPpm);
    monitor.change(0, FALSE, 0, 0);
    monitor.change(1, FALSE, 0, 0);
    return monitor;
  }

  /** A rest of so long between edges known to ± so many. */
  private static Ruling rest(long micros, long error, double clockPpm) {
    RuleMonitor monitor = monitor(REST, clockPpm);
    monitor.change(0, TRUE, 10 * SECOND, 10 * SECOND);
    monitor.change(0, FALSE, 60 * SECOND - error, 60 * SECOND + error);
    monitor.advance(100 * SECOND);
    long again = 60 * SECOND + micros;
    monitor.change(0, TRUE, again - error, again + error);
    return monitor.finish(again + 10 * SECOND).get(0);
  }

  @Test
  void aRestShortByLessThanItsErrorIsUndecided() {
    // Too close to tell: 299.98 s against 300 s with each duration known to ± 0.02 s.
    Ruling ruling = rest(299_980_000, 10_000, 0);
    assertThat(ruling.verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(ruling.marginMicros()).isEqualTo(new Span(-40_000, 0));
    assertThat(rest(299_979_999, 10_000, 0).verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(rest(300_020_000, 10_000, 0).verdict()).isEqualTo(Verdict.KEPT);
    assertThat(rest(300_019_999, 10_000, 0).verdict()).isEqualTo(Verdict.UNDECIDED);
  }

  @Test
  void exactlyTheBoundIsEnough() {
    assertThat(rest(300 * SECOND, 0, 0).verdict()).isEqualTo(Verdict.KEPT);
    assertThat(rest(300 * SECOND - 1, 0, 0).verdict()).isEqualTo(Verdict.BROKEN);
  }

  @Test
  void theClocksErrorCounts() {
    // 100 ppm of 300 s is 30 ms.
    assertThat(rest(300_030_000, 0, 100).verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(rest(300_030_004, 0, 100).verdict()).isEqualTo(Verdict.KEPT);
    assertThat(rest(299_970_004, 0, 100).verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(rest(299_970_000, 0, 100).verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(rest(300_030_000, 0, 100).telling().get(0).measuredMicros())
        .isEqualTo(new Span(299_999_997, 300_060_003));
  }

  @Test
  void lostSamplesMayHideACall() {
    RuleMonitor monitor = monitor(REST, 0);
    monitor.change(0, TRUE, SECOND, SECOND);
    monitor.change(0, FALSE, 2 * SECOND, 2 * SECOND);
    monitor.change(0, UNKNOWN, 100 * SECOND, 100 * SECOND);
    monitor.change(0, FALSE, 101 * SECOND, 101 * SECOND);
    monitor.change(0, TRUE, 400 * SECOND, 400 * SECOND);
    assertThat(monitor.finish(500 * SECOND).get(0).verdict()).isEqualTo(Verdict.UNDECIDED);
  }

  @Test
  void lostSamplesWithinACallLeaveTheRestMeasured() {
    RuleMonitor monitor = monitor(REST, 0);
    monitor.change(0, TRUE, SECOND, SECOND);
    monitor.change(0, FALSE, 2 * SECOND, 2 * SECOND);
    monitor.change(0, TRUE, 402 * SECOND, 402 * SECOND);
    monitor.change(1, UNKNOWN, 403 * SECOND, 403 * SECOND);
    monitor.change(1, FALSE, 404 * SECOND, 404 * SECOND);
    Ruling ruling = monitor.finish(500 * SECOND).get(0);
    assertThat(ruling.verdict()).isEqualTo(Verdict.KEPT);
    assertThat(ruling.marginMicros()).isEqualTo(new Span(100 * SECOND, 100 * SECOND));
  }

  @Test
  void neverCalledIsNotExercised() {
    Ruling ruling = monitor(REST, 0).finish(SECOND).get(0);
    assertThat(ruling.verdict()).isEqualTo(Verdict.KEPT);
    assertThat(ruling.occasions()).isZero();
    assertThat(ruling.marginMicros()).isNull();
  }

  @Test
  void aFanThatDoesNotComeBreaksTheRuleWhenItsTimeIsOver() {
    RuleMonitor monitor = monitor(new Pattern.Response(Y1, G, 2 * SECOND), 0);
    monitor.change(0, TRUE, SECOND, SECOND + 1000);
    monitor.advance(3 * SECOND + 1000);
    assertThat(monitor.rulings().get(0).verdict()).isEqualTo(Verdict.UNDECIDED);
    monitor.advance(3 * SECOND + 1001);
    assertThat(monitor.rulings().get(0).verdict()).isEqualTo(Verdict.BROKEN);
    monitor.change(1, TRUE, 4 * SECOND, 4 * SECOND);
    Ruling ruling = monitor.finish(5 * SECOND).get(0);
    assertThat(ruling.verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(ruling.telling())
        .containsExactly(
            new Occasion(
                SECOND,
                4 * SECOND,
                Verdict.BROKEN,
                new Span(2_999_000, 3 * SECOND),
                new Span(-SECOND, -999_000)));
  }

  @Test
  void callsThatMayHaveMetAreUndecided() {
    RuleMonitor monitor = monitor(new Pattern.Never(new Expression.All(List.of(Y1, G))), 0);
    monitor.change(0, TRUE, SECOND, SECOND);
    monitor.change(0, FALSE, 2 * SECOND, 2 * SECOND + 8000);
    monitor.change(1, TRUE, 2 * SECOND + 4000, 2 * SECOND + 12_000);
    Ruling ruling = monitor.finish(3 * SECOND).get(0);
    assertThat(ruling.verdict()).isEqualTo(Verdict.UNDECIDED);
    assertThat(ruling.telling().get(0).earliestMicros()).isEqualTo(2 * SECOND + 4000);
    assertThat(ruling.telling().get(0).latestMicros()).isEqualTo(2 * SECOND + 8000);
  }

  @Test
  void whatChangesTogetherDoesNotMeet() {
    RuleMonitor monitor = monitor(new Pattern.Never(new Expression.All(List.of(Y1, G))), 0);
    monitor.change(0, TRUE, SECOND, SECOND);
    monitor.change(Map.of(0, FALSE, 1, TRUE), 2 * SECOND, 2 * SECOND + 8000);
    assertThat(monitor.finish(3 * SECOND).get(0).verdict()).isEqualTo(Verdict.KEPT);
  }

  @Test
  void sixteenTerminalsThatDropOutInTheSameHalfCycleStayBounded() {
    List<String> facts = TwentyRules.FACTS;
    Expression any =
        new Expression.Any(facts.stream().<Expression>map(Expression.Fact::new).toList());
    Rule rule = new Rule("rest", "", new Pattern.AtMost(any, 10 * SECOND), new Scope.Globally());
    RuleMonitor monitor = new RuleMonitor(List.of(rule), facts, 0);
    for (int fact = 0; fact < 16; fact++) {
      monitor.change(fact, FALSE, 0, 0);
    }
    for (int fact = 0; fact < 16; fact++) {
      monitor.change(fact, TRUE, SECOND, SECOND + 8000);
    }
    monitor.advance(2 * SECOND);
    for (int fact = 0; fact < 16; fact++) {
      monitor.change(fact, FALSE, 3 * SECOND + fact, 3 * SECOND + fact + 8000);
    }
    Ruling ruling = monitor.finish(4 * SECOND).get(0);
    assertThat(ruling.verdict()).isEqualTo(Verdict.KEPT);
    assertThat(ruling.marginMicros()).isNotNull();
    assertThat(ruling.marginMicros().lowMicros()).isEqualTo(8 * SECOND - 8015);
  }

  @Test
  void onlyTheMostTellingOccasionsAreKept() {
    RuleMonitor monitor = monitor(new Pattern.AtMost(Y1, SECOND), 0);
    for (int i = 0; i < 1000; i++) {
      long at = (2 * i + 2) * SECOND;
      monitor.advance(at);
      monitor.change(0, TRUE, at, at);
      monitor.change(0, FALSE, at + SECOND - 1000 + i, at + SECOND - 1000 + i);
    }
    Ruling ruling = monitor.finish(5000 * SECOND).get(0);
    assertThat(ruling.verdict()).isEqualTo(Verdict.KEPT);
    assertThat(ruling.occasions()).isEqualTo(1000);
    assertThat(ruling.marginMicros()).isEqualTo(new Span(1, 1));
    assertThat(ruling.telling()).hasSize(8);
    assertThat(ruling.telling().get(7).marginMicros()).isEqualTo(new Span(8, 8));
  }

  @Test
  void changesOutOfOrderAreRefused() {
    RuleMonitor monitor = monitor(REST, 0);
    monitor.advance(SECOND);
    assertThatThrownBy(() -> monitor.change(0, TRUE, SECOND - 1, 2 * SECOND))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("earliestMicros=999999");
  }

  /** A day of calls, and a day in which every contact chatters and samples get lost. */
  @Test
  void whatIsHeldDoesNotGrowWithTheTrace() throws BadExpression {
    long seed = 23;
    System.out.println("seed=" + seed);
    for (int changes : new int[] {2, 120}) {
      RuleMonitor monitor = new RuleMonitor(TwentyRules.rules(), TwentyRules.FACTS, 100);
      WordFeed feed = new WordFeed(monitor, 16);
      int[] words = TwentyRules.words(1 << 16, changes, seed);
      int most = 0;
      int early = 0;
      for (int block = 0; block < (changes == 2 ? 1320 : 60); block++) {
        for (int i = 0; i < words.length; i++) {
          feed.sample(1000L * (block * (long) words.length + i), words[i]);
        }
        most = Math.max(most, monitor.held());
        early = block < 10 ? most : early;
      }
      System.out.printf("held: %d after 11 min, %d at most%n", early, most);
      assertThat(most).isLessThanOrEqualTo(early + 20);
    }
  }
}
