package bellwire.analysis.rules;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.rules.Pattern.AtLeast;
import bellwire.analysis.rules.Pattern.AtMost;
import bellwire.analysis.rules.Pattern.Holds;
import bellwire.analysis.rules.Pattern.Never;
import bellwire.analysis.rules.Pattern.OnlyAfter;
import bellwire.analysis.rules.Pattern.Recurs;
import bellwire.analysis.rules.Pattern.Response;
import bellwire.analysis.rules.Pattern.Sometime;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * When a rule was put to the test, docs/rules.md, section 3: each drawn trace has a place for each
 * microsecond, '#' where a fact is the case.
 */
class OccasionsTest {
  private static final Expression A = new Expression.Fact("a");
  private static final Expression B = new Expression.Fact("b");
  private static final Scope ALWAYS = new Scope.Globally();
  private static final Scope WHILE = new Scope.While(new Expression.Fact("in"));

  /** Verdict, begin, end and room of each; of an open end, what room there is at most or least. */
  private static String occasions(Pattern pattern, String in, String a, String b) {
    Rule rule = new Rule("r", "", pattern, in.isEmpty() ? ALWAYS : WHILE);
    List<String> facts = List.of("in", "a", "b");
    RuleMonitor monitor = new RuleMonitor(List.of(rule), facts, 0);
    for (int at = 0; at < a.length(); at++) {
      int word = bit(in, at) | bit(a, at) << 1 | bit(b, at) << 2;
      monitor.advance(at);
      for (int fact = 0; fact < 3; fact++) {
        monitor.change(fact, Truth.of((word >> fact & 1) != 0), at, at);
      }
    }
    Ruling ruling = monitor.finish(a.length()).get(0);
    assertThat(ruling.occasions()).isEqualTo(ruling.telling().size());
    return ruling.verdict()
        + ruling.telling().stream()
            .map(OccasionsTest::words)
            .collect(Collectors.joining(", ", ": ", ""));
  }

  private static int bit(String drawn, int at) {
    return at < drawn.length() && drawn.charAt(at) == '#' ? 1 : 0;
  }

  private static String words(Occasion o) {
    String words = o.verdict() + " " + o.earliestMicros() + "-" + o.latestMicros();
    Span room = o.marginMicros();
    if (room == null) {
      return words;
    }
    if (room.lowMicros() == Long.MIN_VALUE) {
      return words + " room <= " + room.highMicros();
    }
    boolean exact = room.lowMicros() == room.highMicros();
    return words + " room " + (exact ? "" : ">= ") + room.lowMicros();
  }

  @Test
  void neverIsTestedInEachStretchOfItsScopeAndByEachOffence() {
    String in = ".##..######.##";
    String a = "......#..#....";
    assertThat(occasions(new Never(A), in, a, ""))
        .isEqualTo("BROKEN: BROKEN 6-6, BROKEN 9-9, KEPT 1-3, KEPT 12-14");
    assertThat(occasions(new Never(A), "", ".....", "")).isEqualTo("KEPT: KEPT 0-5");
  }

  @Test
  void whatMustComeIsTestedInEachStretch() {
    String in = ".####.###..##";
    String a = "...#.........";
    assertThat(occasions(new Sometime(A), in, a, ""))
        .isEqualTo("BROKEN: BROKEN 6-9, UNDECIDED 11-13, KEPT 1-3");
  }

  @Test
  void eachComingIsTestedForWhatMustComeFirst() {
    String a = ".##..#..#..";
    String b = "......##...";
    assertThat(occasions(new OnlyAfter(A, B), "", a, b))
        .isEqualTo("BROKEN: BROKEN 1-1, BROKEN 5-5, KEPT 8-8");
  }

  /** Answered, answered at once, cut off by the scope's end, and by the trace's. */
  @Test
  void eachCallIsTestedForItsAnswer() {
    String in = "###########.####.##";
    String a = ".#...##......#...#.";
    String b = "...#.##............";
    assertThat(occasions(new Response(A, B, null), in, a, b))
        .isEqualTo("BROKEN: BROKEN 13-16, UNDECIDED 17-19, KEPT 1-3, KEPT 5-5");
  }

  /** The one at 8 is cut off in time: no occasion. That at 12 is cut off too late. */
  @Test
  void eachCallIsTestedForAnAnswerInTime() {
    String in = "##########.#######.###";
    String a = ".#...#..#...#.......#.";
    String b = "...#.#................";
    assertThat(occasions(new Response(A, B, 3L), in, a, b))
        .isEqualTo(
            "BROKEN: BROKEN 12-18 room -3, UNDECIDED 20-22 room <= 1, KEPT 1-3 room 1,"
                + " KEPT 5-5 room 3");
    assertThat(occasions(new Response(A, B, 3L), "", ".#....", "......"))
        .isEqualTo("BROKEN: BROKEN 1-6 room <= -2");
  }

  /** What is cut off before its time, by the scope's end or the next call, is no occasion. */
  @Test
  void whatMustHoldOnIsTestedAfterEachCall() {
    String in = "############################..####..####";
    String a = ".##......##....#..#....#......##.....#..";
    String b = ".######..####..###################...###";
    assertThat(occasions(new Holds(A, B, 3), in, a, b))
        .isEqualTo(
            "BROKEN: BROKEN 11-13 room -1, UNDECIDED 38-40 room >= -1, KEPT 3-7 room 1,"
                + " KEPT 19-23 room >= 1, KEPT 24-28 room >= 1");
    assertThat(occasions(new Holds(A, B, 3), "", ".#.......##", ".####....##"))
        .isEqualTo("UNDECIDED: UNDECIDED 11-11 room >= -3, KEPT 2-5 room 0");
  }

  /** Lost during the call, missing from its beginning twice, gone with its end. */
  @Test
  void whatDoesNotHoldIsToldOnceForEachCall() {
    String a = ".###..##.#..##.....";
    String b = ".#..........##..#..";
    assertThat(occasions(new Holds(A, B, 3), "", a, b))
        .isEqualTo(
            "BROKEN: BROKEN 2-2 room -3, BROKEN 6-6 room -3, BROKEN 9-9 room -3,"
                + " BROKEN 14-14 room -3");
  }

  /** Of the first the scope misses the beginning, of the fourth it cuts the end off. */
  @Test
  void eachStretchThatBeginsWithinTheScopeIsTimed() {
    String in = "..################..#####..###";
    String a = ".###..####..##..###..#####..##";
    assertThat(occasions(new AtLeast(A, 3), in, a, ""))
        .isEqualTo(
            "BROKEN: BROKEN 12-14 room -1, UNDECIDED 28-30 room >= -1, KEPT 6-10 room 1,"
                + " KEPT 21-25 room >= 1");
    assertThat(occasions(new AtMost(A, 3), in, a, ""))
        .isEqualTo(
            "BROKEN: BROKEN 6-10 room -1, BROKEN 21-25 room -1, UNDECIDED 28-30 room <= 1,"
                + " KEPT 12-14 room 1");
  }

  @Test
  void eachAbsenceWithinTheScopeIsTimed() {
    String in = "###########.#####.#####";
    String a = "##.....##...........#..";
    assertThat(occasions(new Recurs(A, 3), in, a, ""))
        .isEqualTo(
            "BROKEN: BROKEN 2-7 room -2, BROKEN 12-17 room -2, UNDECIDED 21-23 room <= 1,"
                + " KEPT 18-20 room 1, KEPT 0-0 room 3");
  }
}
