package bellwire.analysis.fault;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What is supposed to be wrong with a group of conductors that bridges join, and where on the coded
 * plug each of them is.
 *
 * @param bridges two ports each, metal allowed as the second
 * @param brokenBeyond conductors broken beyond all of their bridges
 * @param brokenAhead conductors broken ahead of all of their bridges
 * @param jointsAhead conductors with a joint ahead of all of their bridges
 * @param jointsBeyond conductors with a joint beyond them
 * @param lent conductors to which the far part of a broken one that touches them may lend its arm:
 *     what they have to the plug is not known
 * @param positions on the coded plug, from 0, by port; only where it matters
 */
record Supposition(
    List<Pair> bridges,
    Set<Integer> brokenBeyond,
    Set<Integer> brokenAhead,
    Set<Integer> jointsAhead,
    Set<Integer> jointsBeyond,
    Set<Integer> lent,
    Map<Integer, Integer> positions) {

  /** Two ports. */
  record Pair(int a, int b) {}

  static Supposition bridges(List<Pair> bridges) {
    return new Supposition(bridges, Set.of(), Set.of(), Set.of(), Set.of(), Set.of(), Map.of());
  }

  /** With one more conductor broken beyond its bridges. */
  Supposition alsoBroken(int port) {
    return new Supposition(
        bridges, with(brokenBeyond, port), brokenAhead, jointsAhead, jointsBeyond, lent, positions);
  }

  Supposition jointAhead(int port) {
    return new Supposition(
        bridges, brokenBeyond, brokenAhead, with(jointsAhead, port), jointsBeyond, lent, positions);
  }

  Supposition jointBeyond(int port) {
    return new Supposition(
        bridges, brokenBeyond, brokenAhead, jointsAhead, with(jointsBeyond, port), lent, positions);
  }

  Supposition at(Map<Integer, Integer> positions) {
    return new Supposition(
        bridges, brokenBeyond, brokenAhead, jointsAhead, jointsBeyond, lent, Map.copyOf(positions));
  }

  /** With the arm of one more conductor unknown. */
  Supposition lentTo(int port) {
    return new Supposition(
        bridges, brokenBeyond, brokenAhead, jointsAhead, jointsBeyond, with(lent, port), positions);
  }

  private static Set<Integer> with(Set<Integer> ports, int port) {
    Set<Integer> more = new HashSet<>(ports);
    more.add(port);
    return Set.copyOf(more);
  }
}
