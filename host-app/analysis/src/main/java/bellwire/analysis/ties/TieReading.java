package bellwire.analysis.ties;

import java.util.Map;
import java.util.SortedSet;

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

  public boolean explained() {
    return explanation == Explanation.AS_PLANNED || explanation == Explanation.OPENS;
  }

  /** The far number of a port, 0 where more than one is possible or none. */
  public int number(int port) {
    SortedSet<Integer> numbers = possible.get(port);
    return numbers != null && numbers.size() == 1 ? numbers.first() : 0;
  }
}
