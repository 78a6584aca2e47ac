package bellwire.analysis.landing;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.loop.Installation;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * One mistake made on one installation, and what it is to do.
 *
 * @param where the installation, in words
 * @param mistake in words
 * @param made the installation with the mistake
 * @param expected every fault, in order
 * @param notices that must be among the notices
 */
record Made(
    Mechanism mechanism,
    String where,
    String mistake,
    Installation made,
    List<Expected> expected,
    List<Expected> notices) {

  static Made made(
      Mechanism mechanism, String where, Installation base, Mistake mistake, Expected... expected) {
    Installation made = mistake.in(base);
    if (made.equals(base)) {
      throw new IllegalArgumentException("mistake=" + mistake.words() + ", where=" + where);
    }
    return new Made(mechanism, where, mistake.words(), made, List.of(expected), List.of());
  }

  /** A mistake that is none of {@link Mistakes}. */
  static Made other(
      Mechanism mechanism, String where, String mistake, Installation made, Expected... expected) {
    return new Made(mechanism, where, mistake, made, List.of(expected), List.of());
  }

  /**
   * @param states all it shows in, empty for every one
   * @param figures reckoned by hand, each with where it stands in the words
   */
  record Expected(LoopFinding kind, List<String> states, List<Figure> figures) {
    Expected figure(String pattern, double value, double relative) {
      List<Figure> more = new ArrayList<>(figures);
      more.add(new Figure(Pattern.compile(pattern), value, relative));
      return new Expected(kind, states, more);
    }
  }

  /**
   * @param pattern its first group is the figure
   * @param relative tolerance: what the reckoning by hand leaves out
   */
  record Figure(Pattern pattern, double value, double relative) {
    double in(String words) {
      Matcher matcher = pattern.matcher(words);
      if (!matcher.find()) {
        throw new AssertionError("pattern=" + pattern + ", words=" + words);
      }
      return Double.parseDouble(matcher.group(1));
    }
  }

  static Expected in(LoopFinding kind, String... states) {
    return new Expected(kind, List.of(states), List.of());
  }

  static Expected always(LoopFinding kind) {
    return new Expected(kind, List.of(), List.of());
  }

  Made notice(Expected expectedNotice) {
    List<Expected> more = new ArrayList<>(notices);
    more.add(expectedNotice);
    return new Made(mechanism, where, mistake, made, expected, more);
  }

  List<Found> found() {
    return LandingCheck.check(made);
  }

  @Override
  public String toString() {
    return where + ": " + mistake;
  }
}
