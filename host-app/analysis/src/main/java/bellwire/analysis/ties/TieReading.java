package bellwire.analysis.ties;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;

/**
 * What two rounds say of each conductor.
 *
 * @param explanation how what was seen agrees with the plan
 * @param opens how many broken conductors it takes; conductors in no tie are not counted
 * @param possible by port, the far numbers that it may have: exactly those for which there is an
 *     explanation with no more broken conductors than {@code opens}
 * @param broken far numbers that are a broken conductor in some explanation
 * @param maybeBroken ports that are a broken conductor in some explanation
 * @param surelyBroken ports that are one in every explanation
 */
public record TieReading(
    Explanation explanation,
    int opens,
    Map<Integer, SortedSet<Integer>> possible,
    SortedSet<Integer> broken,
    SortedSet<Integer> maybeBroken,
    SortedSet<Integer> surelyBroken) {

  /** How what was seen agrees with the plan. */
  public enum Explanation {
    /** As planned, shorts of the cable included. */
    AS_PLANNED,
    /** As planned but for conductors that are broken, or were not in their clips. */
    OPENS,
    /** Not by the plan, whatever one or two conductors may have. */
    UNEXPLAINED,
    /** Too many faults at once to go through all the ways in which they explain it. */
    TOO_MANY
  }

  /** Where either may be the true one. */
  public TieReading or(TieReading other) {
    if (!explained() || !other.explained()) {
      return explained() ? this : other;
    }
    Map<Integer, SortedSet<Integer>> either = new LinkedHashMap<>();
    possible.forEach((port, numbers) -> either.put(port, new TreeSet<>(numbers)));
    other.possible.forEach(
        (port, numbers) -> either.computeIfAbsent(port, p -> new TreeSet<>()).addAll(numbers));
    SortedSet<Integer> surely = new TreeSet<>(surelyBroken);
    surely.retainAll(other.surelyBroken);
    return new TieReading(
        opens == 0 ? explanation : other.explanation,
        Math.min(opens, other.opens),
        either,
        both(broken, other.broken),
        both(maybeBroken, other.maybeBroken),
        surely);
  }

  private static SortedSet<Integer> both(SortedSet<Integer> a, SortedSet<Integer> b) {
    SortedSet<Integer> all = new TreeSet<>(a);
    all.addAll(b);
    return all;
  }

  public boolean explained() {
    return explanation == Explanation.AS_PLANNED || explanation == Explanation.OPENS;
  }

  /** The far number of a port, 0 where more than one is possible or none. */
  public int number(int port) {
    SortedSet<Integer> numbers = possible.get(port);
    return numbers != null && numbers.size() == 1 ? numbers.first() : 0;
  }
}
