package bellwire.analysis.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import bellwire.analysis.logic.Verdict;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Words, facts, letters and times of rules by themselves; and what a monitor refuses. */
class RulePartsTest {
  private static final long SECOND = 1_000_000;
  private static final Expression A = new Expression.Fact("a");
  private static final Expression B = new Expression.Fact("b");
  private static final Scope ALWAYS = new Scope.Globally();

  private static Rule rule(Pattern pattern) {
    return new Rule("r", "", pattern, ALWAYS);
  }

  private static BadExpression bad(String text, List<String> known) {
    return catchThrowableOfType(BadExpression.class, () -> Expression.parse(text, known));
  }

  @ParameterizedTest
  @CsvSource({
    "1, 0.001 ms",
    "250000, 250 ms",
    "999999, 999.999 ms",
    "1000000, 1 s",
    "2500000, 2.5 s",
    "300000000, 300 s"
  })
  void timesInWords(long micros, String words) {
    assertThat(Duration.words(micros)).isEqualTo(words);
  }

  /** A third of its letters may be wrong, one always; the first of equally near ones is meant. */
  @ParameterizedTest
  @CsvSource({
    "g, G",
    "X, G",
    "realesed y1, released Y1",
    "relesd 1, released Y1",
    "rlsd 1, ",
    "Y9, Y1",
    "mode haet, mode heat",
    "mode cold, mode cool",
    "cool, ",
    "zz, "
  })
  void theNearestNameIsMeant(String written, String meant) {
    List<String> known = List.of("G", "Y1", "Y2", "released Y1", "mode heat", "mode cool");
    assertThat(Spelling.nearest(written, known)).isEqualTo(meant);
  }

  @Test
  void namesThatWouldNotReadBackAreQuoted() throws BadExpression {
    for (String plain : List.of("W1", "released W1", "step heat-1", "android")) {
      assertThat(new Expression.Fact(plain)).hasToString(plain);
    }
    for (String odd : List.of("a and b", "NOT", "a  b", " a", "a(1)", "a\tb")) {
      assertThat(new Expression.Fact(odd)).hasToString('"' + odd + '"');
      assertThat(Expression.parse("not \"" + odd + "\"", List.of(odd)))
          .isEqualTo(new Expression.Not(new Expression.Fact(odd)));
    }
    for (String none : List.of("", " ", "a\"b")) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new Expression.Fact(none))
          .withMessage("name=" + none);
    }
  }

  @Test
  void expressionsOfNoneAndOfMany() throws BadExpression {
    Expression all = new Expression.All(List.of());
    Expression any = new Expression.Any(List.of());
    assertThat(all).hasToString("always");
    assertThat(any).hasToString("never");
    assertThat(all.evaluate(f -> Truth.FALSE)).isEqualTo(Truth.TRUE);
    assertThat(any.evaluate(f -> Truth.TRUE)).isEqualTo(Truth.FALSE);
    Expression mixed =
        Expression.parse("b and (a or not c) and not (a and b)", List.of("a", "b", "c"));
    assertThat(mixed).hasToString("b and (a or not c) and not (a and b)");
    assertThat(mixed.facts()).containsExactly("b", "a", "c");
    // One that stands for several is replaced by what it means, everywhere.
    assertThat(mixed.replace(f -> f.name().equals("a") ? new Expression.Any(List.of(B, f)) : f))
        .hasToString("b and ((b or a) or not c) and not ((b or a) and b)");
    for (Expression one : List.of(new Expression.All(List.of(A)), new Expression.Any(List.of(A)))) {
      assertThat(new Expression.Not(one)).hasToString("not a");
    }
    assertThat(new Expression.Not(all)).hasToString("not always");
    assertThat(Truth.UNKNOWN.not()).isEqualTo(Truth.UNKNOWN);
  }

  @Test
  void textsHaveTheirLimits() throws BadExpression {
    List<String> a = List.of("a");
    assertThat(Expression.parse("a" + " ".repeat(1_999), a)).isEqualTo(A);
    BadExpression lengthy = bad("a" + " ".repeat(2_000), a);
    assertThat(lengthy).hasMessage("too long: at most 2000 characters");
    assertThat(lengthy.position()).isEqualTo(2_000);
    assertThat(Expression.parse("not ".repeat(49) + "a", a).facts()).containsExactly("a");
    assertThat(bad("not ".repeat(50) + "a", a).problem()).contains("too many parentheses");
    // Side by side they are not within another.
    assertThat(Expression.parse("(a) and (not a) or ".repeat(60) + "a", a).facts()).hasSize(1);
    assertThat(bad("(a (a))", a)).hasMessage("'(' follows a fact: join the two by 'and' or 'or'");
    assertThat(bad("(a (a))", a).position()).isEqualTo(3);
    assertThat(bad("", List.of()).remedy()).isEqualTo("write a fact, such as W1");
    List<String> many = IntStream.range(10, 23).mapToObj(i -> "fact " + i).toList();
    assertThat(bad("elephant", many.subList(0, 12)).remedy()).endsWith("fact 20, fact 21");
    assertThat(bad("elephant", many).remedy()).endsWith("fact 20, fact 21 and 1 more");
  }

  @Test
  void aPatternsTimesAreOneMicrosecondToAYear() {
    for (long micros : new long[] {0, -1, Pattern.LONGEST_MICROS + 1}) {
      for (Runnable pattern :
          List.<Runnable>of(
              () -> new Pattern.Response(A, B, micros),
              () -> new Pattern.Holds(A, B, micros),
              () -> new Pattern.AtLeast(A, micros),
              () -> new Pattern.AtMost(A, micros),
              () -> new Pattern.Recurs(A, micros))) {
        assertThatIllegalArgumentException()
            .isThrownBy(pattern::run)
            .withMessage("micros=" + micros);
      }
    }
    assertThat(new Pattern.AtLeast(A, 1).micros()).isEqualTo(1);
    assertThat(new Pattern.AtLeast(A, Pattern.LONGEST_MICROS).expressions()).containsExactly(A);
    assertThat(Pattern.LONGEST_MICROS).isEqualTo(366L * 24 * 3_600 * SECOND);
  }

  @Test
  void spansAndOccasionsRunForward() {
    assertThat(new Span(1, 3).hull(new Span(-2, 2))).isEqualTo(new Span(-2, 3));
    assertThat(new Span(5, 5).lowMicros()).isEqualTo(5);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Span(3, 2))
        .withMessage("lowMicros=3 highMicros=2");
    assertThat(new Occasion(5, 5, Verdict.KEPT, null, null).latestMicros()).isEqualTo(5);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Occasion(3, 2, Verdict.KEPT, null, null))
        .withMessage("earliestMicros=3 latestMicros=2");
  }

  /** With every value of the unknown facts, up to ten; beyond, each expression by itself. */
  @Test
  void whatARuleSeesOfUnknownFacts() {
    List<Expression> facts =
        IntStream.range(0, 12).<Expression>mapToObj(i -> new Expression.Fact("f" + i)).toList();
    Expression first = new Expression.All(facts.subList(0, 6));
    Expression other = new Expression.Not(facts.get(0));
    Letters letters = new Letters(rule(new Pattern.Response(first, other, null)));
    int scope = Letters.SCOPE;
    // All six and not the first at once: never.
    int dependent = 1 << scope | 1 << (scope | Letters.FIRST) | 1 << (scope | Letters.SECOND);
    assertThat(letters.possible(0, 0b111111)).isEqualTo(dependent);
    assertThat(letters.possible(0b111111, 0)).isEqualTo(1 << (scope | Letters.FIRST));
    assertThat(letters.possible(0b111110, 1))
        .isEqualTo(1 << (scope | Letters.FIRST) | 1 << (scope | Letters.SECOND));
    Letters wide = new Letters(rule(new Pattern.Response(new Expression.All(facts), other, null)));
    assertThat(wide.possible(0, 0b11_1111_1111))
        .isEqualTo(1 << scope | 1 << (scope | Letters.SECOND));
    assertThat(wide.possible(0, 0b111_1111_1111))
        .isEqualTo(1 << scope | 1 << (scope | Letters.SECOND));
    int all = dependent | 1 << (scope | Letters.FIRST | Letters.SECOND);
    assertThat(wide.possible(0, 0xFFF)).as("taken as independent").isEqualTo(all);
    assertThat(wide.possible(0xC00, 0x3FF)).as("ten unknown").isEqualTo(dependent);
    assertThat(wide.possible(0x800, 0x7FF)).as("eleven unknown").isEqualTo(all);
    assertThat(letters.possible(0b011110, 0b100001)).as("not neighbours").isEqualTo(dependent);
  }

  @Test
  void aRuleReadsSixtyFourFactsAtMost() {
    List<Expression> facts = new ArrayList<>();
    for (int i = 0; i < 64; i++) {
      facts.add(new Expression.Fact("f" + i));
    }
    Rule most = rule(new Pattern.Always(new Expression.All(facts)));
    assertThat(new Letters(most).of(-1)).isEqualTo(Letters.SCOPE | Letters.FIRST);
    assertThat(new Letters(most).of(Long.MAX_VALUE)).isEqualTo(Letters.SCOPE);
    facts.add(A);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Letters(rule(new Pattern.Always(new Expression.All(facts)))))
        .withMessage("rule=r facts=65");
  }

  @Test
  void aMonitorRefusesWhatCannotBe() {
    List<Rule> rules = List.of(rule(new Pattern.Never(A)));
    for (double ppm : new double[] {-1, 100_000, Double.NaN}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new RuleMonitor(rules, List.of("a"), ppm))
          .withMessage("clockPpm=" + ppm);
    }
    new RuleMonitor(rules, List.of("a"), 99_999);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new RuleMonitor(rules, List.of("b"), 0))
        .withMessage("rule=r facts=[b]");
    RuleMonitor monitor = new RuleMonitor(rules, List.of("a", "b"), 0);
    monitor.change(0, Truth.FALSE, 10, 20);
    for (long[] edge : new long[][] {{31, 30}, {9, 30}, {10, 10}, {5, 5}}) {
      assertThatThrownBy(() -> monitor.change(0, Truth.TRUE, edge[0], edge[1]))
          .hasMessage("fact=0 earliestMicros=" + edge[0] + " latestMicros=" + edge[1]);
    }
    monitor.change(1, Truth.TRUE, 5, 5); // another fact's
    monitor.change(0, Truth.TRUE, 10, 11);
    monitor.advance(40);
    assertThatThrownBy(() -> monitor.change(Map.of(1, Truth.FALSE), 39, 50))
        .hasMessage("fact=1 earliestMicros=39 latestMicros=50");
    assertThat(monitor.finish(50).get(0).verdict()).isEqualTo(Verdict.BROKEN);
  }

  /** A fact told again is no change: the stop-watch goes on. */
  @Test
  void whatAFactAlreadyIsChangesNothing() {
    RuleMonitor monitor =
        new RuleMonitor(List.of(rule(new Pattern.AtMost(A, 5 * SECOND))), List.of("a"), 0);
    monitor.change(0, Truth.FALSE, 0, 0);
    monitor.change(0, Truth.TRUE, SECOND, SECOND);
    monitor.change(0, Truth.TRUE, 4 * SECOND, 4 * SECOND);
    monitor.change(Map.of(0, Truth.TRUE), 5 * SECOND, 5 * SECOND);
    monitor.change(0, Truth.FALSE, 7 * SECOND, 7 * SECOND);
    Ruling ruling = monitor.finish(8 * SECOND).get(0);
    assertThat(ruling.verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(ruling.marginMicros()).isEqualTo(new Span(-SECOND, -SECOND));
    assertThat(monitor.rulings().get(0)).as("asking changes nothing").isEqualTo(ruling);
  }

  @Test
  void whatChangesTogetherHasChanged() {
    Rule both = rule(new Pattern.Never(new Expression.All(List.of(A, B))));
    RuleMonitor monitor = new RuleMonitor(List.of(both), List.of("a", "b"), 0);
    monitor.change(Map.of(0, Truth.TRUE, 1, Truth.FALSE), 0, 0);
    monitor.change(Map.of(0, Truth.FALSE, 1, Truth.TRUE), 1_000, 1_008);
    assertThat(monitor.held()).isPositive();
    monitor.advance(2_000);
    monitor.advance(1_500); // told already
    assertThatThrownBy(() -> monitor.change(0, Truth.TRUE, 1_999, 3_000))
        .hasMessageContaining("earliestMicros=1999");
    assertThat(monitor.rulings().get(0).verdict()).isEqualTo(Verdict.KEPT);
    monitor.change(0, Truth.TRUE, 3_000, 3_000);
    monitor.change(0, Truth.FALSE, 3_000, 3_000); // at one moment the last counts
    assertThat(monitor.finish(3_500).get(0).verdict()).isEqualTo(Verdict.KEPT);
    monitor.change(0, Truth.TRUE, 4_000, 4_000);
    assertThat(monitor.finish(5_000).get(0).verdict()).isEqualTo(Verdict.BROKEN);
  }

  /** What a first word says is known from there on, noughts too; thirty-two facts fit in. */
  @Test
  void aFirstWordTellsEveryFact() {
    List<String> facts = IntStream.range(0, 32).mapToObj(i -> "f" + i).toList();
    Rule last = rule(new Pattern.Never(new Expression.Fact("f31")));
    Rule first = rule(new Pattern.Never(new Expression.Fact("f0")));
    RuleMonitor monitor = new RuleMonitor(List.of(first, last), facts, 0);
    WordFeed feed = new WordFeed(monitor, 32);
    feed.sample(1_000, 0);
    feed.sample(2_000, 0);
    monitor.advance(2_000);
    assertThat(monitor.rulings()).extracting(Ruling::verdict).containsOnly(Verdict.KEPT);
    feed.sample(3_000, 1 << 31);
    feed.sample(4_000, 0);
    feed.sample(5_000, 1 << 31);
    // Told up to the sample before the change.
    assertThat(monitor.rulings())
        .extracting(Ruling::verdict)
        .containsExactly(Verdict.KEPT, Verdict.BROKEN);
    RuleMonitor one = new RuleMonitor(List.of(first), facts, 0);
    new WordFeed(one, 1).sample(0, 0);
    assertThat(one.finish(5).get(0).verdict()).isEqualTo(Verdict.KEPT);
  }

  @Test
  void wordsAreFedAsTheFactsTheyAre() {
    Rule both = rule(new Pattern.Never(new Expression.All(List.of(A, B))));
    for (int facts : new int[] {0, 33}) {
      RuleMonitor any = new RuleMonitor(List.of(both), List.of("a", "b"), 0);
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new WordFeed(any, facts))
          .withMessage("facts=" + facts);
    }
    RuleMonitor monitor = new RuleMonitor(List.of(both), List.of("a", "b", "c"), 0);
    WordFeed feed = new WordFeed(monitor, 2);
    feed.sample(1_000, 0b00);
    feed.sample(2_000, 0b01);
    feed.sample(3_000, 0b01);
    feed.sample(4_000, 0b100); // c is not among them
    feed.sample(5_000, 0b110);
    feed.sample(6_000, 0b111);
    Ruling ruling = monitor.finish(7_000).get(0);
    assertThat(ruling.verdict()).isEqualTo(Verdict.BROKEN);
    assertThat(ruling.telling())
        .containsExactly(new Occasion(5_000, 6_000, Verdict.BROKEN, null, null));
    assertThat(both.facts()).isEqualTo(Set.of("a", "b"));
  }
}
