package bellwire.analysis.rules;

import static bellwire.analysis.rules.Truth.FALSE;
import static bellwire.analysis.rules.Truth.TRUE;
import static bellwire.analysis.rules.Truth.UNKNOWN;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import bellwire.analysis.logic.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** What is kept in mind of edges and facts in doubt, docs/rules.md, sections 3 and 4. */
class DoubtsTest {
  private static final Expression A = new Expression.Fact("f0");
  private static final Pattern EIGHT = new Pattern.AtLeast(A, 8);

  private static List<String> facts(int count) {
    return IntStream.range(0, count).mapToObj(i -> "f" + i).toList();
  }

  private static Expression all(int count) {
    return new Expression.All(facts(count).stream().<Expression>map(Expression.Fact::new).toList());
  }

  private static RuleMonitor monitor(Pattern pattern, int facts) {
    Rule rule = new Rule("r", "", pattern, new Scope.Globally());
    return new RuleMonitor(List.of(rule), facts(facts), 0);
  }

  private static RuleMonitor begun(Pattern pattern, int facts) {
    RuleMonitor monitor = monitor(pattern, facts);
    for (int fact = 0; fact < facts; fact++) {
      monitor.change(fact, FALSE, 0, 0);
    }
    monitor.advance(1);
    return monitor;
  }

  private static Verdict verdict(RuleMonitor monitor, long end) {
    return monitor.finish(end).get(0).verdict();
  }

  @Test
  void aFactIsUnknownUntilItIsTold() {
    RuleMonitor two = monitor(new Pattern.Never(A), 2);
    two.change(1, FALSE, 0, 0);
    assertThat(verdict(two, 10)).isEqualTo(Verdict.UNDECIDED);
    two.change(0, FALSE, 10, 10);
    assertThat(verdict(two, 20)).as("it was unknown").isEqualTo(Verdict.UNDECIDED);
    RuleMonitor many = monitor(new Pattern.Always(all(64)), 64);
    many.change(0, TRUE, 0, 0);
    assertThat(verdict(many, 10)).isEqualTo(Verdict.UNDECIDED);
  }

  @Test
  void beforeTheTraceBeginsNothingIsKnown() {
    RuleMonitor monitor = monitor(new Pattern.Never(A), 1);
    assertThat(monitor.rulings())
        .extracting(Ruling::verdict, Ruling::occasions, Ruling::marginMicros)
        .containsExactly(tuple(Verdict.UNDECIDED, 0L, null));
    monitor.change(0, TRUE, 5, 5);
    assertThat(verdict(monitor, 5)).as("at its very beginning").isEqualTo(Verdict.UNDECIDED);
    assertThat(verdict(monitor, 6)).isEqualTo(Verdict.BROKEN);
  }

  /** At one moment the last counts. */
  @Test
  void whatBecomesUnknownAtTheBeginningIsUnknown() {
    RuleMonitor monitor = monitor(new Pattern.Never(A), 1);
    monitor.change(0, FALSE, 0, 0);
    monitor.change(0, UNKNOWN, 0, 0);
    assertThat(verdict(monitor, 10)).isEqualTo(Verdict.UNDECIDED);
  }

  /** So the trace begins where something is told. */
  @Test
  void tellingThatAFactIsUnknownIsNoChange() {
    RuleMonitor monitor = monitor(new Pattern.Never(A), 1);
    monitor.change(0, UNKNOWN, 5, 5);
    monitor.change(0, FALSE, 10, 10);
    assertThat(verdict(monitor, 20)).isEqualTo(Verdict.KEPT);
  }

  @Test
  void aFactToldAgainMayChangeBefore() {
    RuleMonitor monitor = begun(new Pattern.AtMost(A, 5), 1);
    monitor.change(0, TRUE, 10, 10);
    monitor.change(0, TRUE, 14, 14);
    monitor.change(0, FALSE, 13, 13);
    Ruling ruling = monitor.finish(20).get(0);
    assertThat(ruling.marginMicros()).isEqualTo(new Span(2, 2));
  }

  /** It may have gone and come once more, for less than eight microseconds. */
  @Test
  void lostSamplesMayHideTwoEdges() {
    RuleMonitor monitor = begun(EIGHT, 1);
    monitor.change(0, UNKNOWN, 10, 10);
    monitor.change(0, TRUE, 12, 12);
    monitor.change(0, FALSE, 30, 30);
    assertThat(verdict(monitor, 40)).isEqualTo(Verdict.UNDECIDED);
  }

  /** On from the beginning it is exempt; it may have gone and come twice. */
  @Test
  void lostSamplesMayHideFourEdges() {
    RuleMonitor monitor = monitor(EIGHT, 1);
    monitor.change(0, TRUE, 0, 0);
    monitor.change(0, UNKNOWN, 10, 10);
    monitor.change(0, TRUE, 12, 12);
    monitor.change(0, FALSE, 30, 30);
    assertThat(verdict(monitor, 40)).isEqualTo(Verdict.UNDECIDED);
  }

  /** On from the beginning it is exempt; it may have gone and come again. */
  @Test
  void lostSamplesAtTheEndMayHideTwoEdges() {
    RuleMonitor monitor = monitor(EIGHT, 1);
    monitor.change(0, TRUE, 0, 0);
    assertThat(verdict(monitor, 9)).isEqualTo(Verdict.KEPT);
    monitor.change(0, UNKNOWN, 10, 10);
    assertThat(verdict(monitor, 12)).isEqualTo(Verdict.UNDECIDED);
  }

  /** One hypothesis, its occasions, and what is pending. */
  @Test
  void whatIsHeldIsCounted() {
    RuleMonitor monitor = monitor(new Pattern.AtMost(A, 5), 1);
    assertThat(monitor.held()).isZero();
    monitor.change(0, FALSE, 0, 0);
    assertThat(monitor.held()).as("an edge").isEqualTo(1);
    monitor.advance(1);
    assertThat(monitor.held()).as("a hypothesis").isEqualTo(1);
    monitor.change(0, TRUE, 10, 12);
    assertThat(monitor.held()).as("and an edge").isEqualTo(2);
    monitor.advance(20);
    assertThat(monitor.held()).isEqualTo(1);
    monitor.change(0, FALSE, 20, 20);
    monitor.advance(21);
    assertThat(monitor.held()).as("and an occasion").isEqualTo(2);
    monitor.change(0, TRUE, 30, 30);
    assertThat(monitor.held()).as("and an edge").isEqualTo(3);
  }

  /** Each is settled by itself, as its edges are in no doubt. */
  @Test
  void everyOccasionIsCounted() {
    RuleMonitor monitor = begun(new Pattern.AtMost(A, 5), 1);
    for (int i = 1; i <= 20; i++) {
      monitor.advance(10 * i);
      monitor.change(0, TRUE, 10 * i, 10 * i);
      monitor.advance(10 * i + 4);
      monitor.change(0, FALSE, 10 * i + 4, 10 * i + 4);
    }
    Ruling ruling = monitor.finish(300).get(0);
    assertThat(ruling.occasions()).isEqualTo(20);
    assertThat(ruling.telling()).hasSize(8);
  }

  @Test
  void moreThanTwentyFourEdgesInDoubtAreTakenAsOne() {
    RuleMonitor monitor = begun(new Pattern.Never(all(30)), 30);
    for (int fact = 0; fact < 24; fact++) {
      monitor.change(fact, TRUE, 100 + fact, 200);
    }
    assertThat(monitor.held()).isEqualTo(24 + 1);
    monitor.change(24, TRUE, 124, 210);
    assertThat(monitor.held()).isEqualTo(1 + 1);
    assertThat(verdict(monitor, 300)).as("five are not the case").isEqualTo(Verdict.KEPT);
  }

  @Test
  void edgesInDoubtBeforeTheTraceBeginsAreTakenAsOneToo() {
    RuleMonitor monitor = monitor(new Pattern.Never(all(30)), 30);
    monitor.change(29, FALSE, 0, 0);
    for (int fact = 0; fact < 29; fact++) {
      monitor.change(fact, FALSE, fact, 50 + fact);
    }
    assertThat(monitor.held()).isLessThan(24);
    assertThat(verdict(monitor, 100)).isEqualTo(Verdict.UNDECIDED);
  }

  /**
   * Nine edges of which one must lie before 103 are more than can be followed: until 108 nothing is
   * known of them. Then the first fact changes once more before that.
   */
  private static RuleMonitor blurred(List<Long> again) {
    RuleMonitor monitor = begun(new Pattern.Never(all(10)), 10);
    for (int fact = 0; fact < 9; fact++) {
      monitor.change(fact, TRUE, 100, fact == 0 ? 102 : 108);
    }
    monitor.advance(103);
    monitor.change(0, FALSE, again.get(0), again.get(1));
    return monitor;
  }

  @Test
  void aFactInDoubtMayChangeOnceMore() {
    List<List<Long>> places = new ArrayList<>();
    places.add(List.of(104L, 105L));
    places.add(List.of(104L, 120L));
    places.add(List.of(108L, 108L));
    places.add(List.of(108L, 110L));
    places.add(List.of(109L, 110L));
    for (List<Long> again : places) {
      assertThat(verdict(blurred(again), 150)).as("the tenth is not").isEqualTo(Verdict.KEPT);
      RuleMonitor monitor = blurred(again);
      monitor.advance(150);
      monitor.change(9, TRUE, 150, 150);
      assertThat(verdict(monitor, 160)).as("the first is not").isEqualTo(Verdict.KEPT);
      monitor.change(0, TRUE, 160, 160);
      assertThat(verdict(monitor, 170)).isEqualTo(Verdict.BROKEN);
    }
  }
}
