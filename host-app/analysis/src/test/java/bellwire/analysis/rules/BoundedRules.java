package bellwire.analysis.rules;

import java.util.function.LongUnaryOperator;

/** Rules with other bounds. */
final class BoundedRules {
  private BoundedRules() {}

  /** 0 for a rule without one. */
  static long bound(Rule rule) {
    Pattern pattern = rule.pattern();
    if (pattern instanceof Pattern.Response p) {
      return p.withinMicros() == null ? 0 : p.withinMicros();
    } else if (pattern instanceof Pattern.AtMost p) {
      return p.micros();
    } else if (pattern instanceof Pattern.Recurs p) {
      return p.withinMicros();
    } else if (pattern instanceof Pattern.AtLeast p) {
      return p.micros();
    }
    return pattern instanceof Pattern.Holds p ? p.forMicros() : 0;
  }

  /** Harder to keep by so much, if there is as much; easier for less than 0. */
  static Rule tighten(Rule rule, long micros) {
    return bounded(rule, c -> Math.max(1, c - micros), c -> Math.max(1, Math.min(60, c + micros)));
  }

  /**
   * As the device's clock sees it: whole numbers of its time against a true bound.
   *
   * @param rate true time for each unit of the device's
   */
  static Rule clocked(Rule rule, double rate) {
    return bounded(
        rule, c -> (long) Math.floor(c / rate + 1e-9), c -> (long) Math.ceil(c / rate - 1e-9));
  }

  private static Rule bounded(Rule rule, LongUnaryOperator most, LongUnaryOperator least) {
    Pattern p = rule.pattern();
    long c = bound(rule);
    if (c > 0) {
      p = bounded(p, most.applyAsLong(c), least.applyAsLong(c));
    }
    return new Rule(rule.name(), rule.says(), p, rule.scope());
  }

  private static Pattern bounded(Pattern pattern, long most, long least) {
    if (pattern instanceof Pattern.Response p) {
      return new Pattern.Response(p.when(), p.then(), most);
    } else if (pattern instanceof Pattern.Holds p) {
      return new Pattern.Holds(p.when(), p.then(), least);
    } else if (pattern instanceof Pattern.AtLeast p) {
      return new Pattern.AtLeast(p.what(), least);
    } else if (pattern instanceof Pattern.AtMost p) {
      return new Pattern.AtMost(p.what(), most);
    }
    return new Pattern.Recurs(((Pattern.Recurs) pattern).what(), most);
  }
}
