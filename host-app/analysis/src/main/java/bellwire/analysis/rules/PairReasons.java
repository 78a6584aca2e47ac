package bellwire.analysis.rules;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Why two rules in the same scope can't both be kept once they are put to the test. */
final class PairReasons {

  /** A bound on the stretches of a statement. */
  private record Bound(Expression what, long micros) {}

  private PairReasons() {}

  /**
   * @param standing what is the case at every moment
   * @return null if nothing was found in this order of the two
   */
  static @Nullable String reason(Rule a, Rule b, Moments moments, List<Expression> standing) {
    String reason = bounds(a.pattern(), b.pattern(), moments);
    if (reason == null) {
      reason = answers(a.pattern(), b.pattern(), moments, standing);
    }
    return reason == null ? order(a, b, moments, standing) : reason;
  }

  private static @Nullable String bounds(Pattern a, Pattern b, Moments moments) {
    Bound least = least(a);
    Bound most = most(b);
    if (least == null || most == null || least.micros() <= most.micros()) {
      return null;
    }
    if (!moments.same(least.what(), most.what())) {
      return null;
    }
    return "'%s' can't last at least %s and at most %s"
        .formatted(least.what(), Duration.words(least.micros()), Duration.words(most.micros()));
  }

  private static @Nullable Bound least(Pattern pattern) {
    if (pattern instanceof Pattern.AtLeast p) {
      return new Bound(p.what(), p.micros());
    }
    return pattern instanceof Pattern.Holds p ? new Bound(p.then(), p.forMicros()) : null;
  }

  private static @Nullable Bound most(Pattern pattern) {
    if (pattern instanceof Pattern.AtMost p) {
      return new Bound(p.what(), p.micros());
    }
    return pattern instanceof Pattern.Recurs p
        ? new Bound(new Expression.Not(p.what()), p.withinMicros())
        : null;
  }

  /** One thing for some time, and meanwhile another that excludes it. */
  private static @Nullable String answers(
      Pattern a, Pattern b, Moments moments, List<Expression> standing) {
    if (a instanceof Pattern.Holds h
        && b instanceof Pattern.Response r
        && r.withinMicros() != null
        && r.withinMicros() <= h.forMicros()
        && moments.same(h.when(), r.when())
        && moments.possible(h.when())
        && !together(h.then(), r.then(), moments, standing)) {
      return "after '%s', '%s' for %s leaves no time for '%s' within %s"
          .formatted(
              h.when(),
              h.then(),
              Duration.words(h.forMicros()),
              r.then(),
              Duration.words(r.withinMicros()));
    }
    return null;
  }

  /** Each only after the other. */
  private static @Nullable String order(
      Rule a, Rule b, Moments moments, List<Expression> standing) {
    if (a.pattern() instanceof Pattern.OnlyAfter p
        && b.pattern() instanceof Pattern.OnlyAfter q
        && a.name().compareTo(b.name()) < 0
        && moments.same(p.what(), q.first())
        && moments.same(q.what(), p.first())
        && moments.possible(p.what())
        && !together(p.what(), q.what(), moments, standing)) {
      return "neither '%s' nor '%s' can come first".formatted(p.what(), q.what());
    }
    return null;
  }

  private static boolean together(
      Expression a, Expression b, Moments moments, List<Expression> standing) {
    List<Expression> all = new ArrayList<>(standing);
    all.add(a);
    all.add(b);
    return moments.possible(all);
  }
}
