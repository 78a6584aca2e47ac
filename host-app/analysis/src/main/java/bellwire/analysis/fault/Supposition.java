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
 * @param positions on the coded plug, from 0, by port; only where it matters
 */
record Supposition(
    List<Pair> bridges,
    Set<Integer> brokenBeyond,
    Set<Integer> brokenAhead,
    Set<Integer> jointsAhead,
    Set<Integer> jointsBeyond,
    Map<Integer, Integer> positions) {

  /** Two ports. */
  record Pair(int a, int b) {}

  static Supposition bridges(List<Pair> bridges) {
    return new Supposition(bridges, Set.of(), Set.of(), Set.of(), Set.of(), Map.of());
  }

  /** With one more conductor broken beyond its bridges. */
  Supposition alsoBroken(int port) {
    Set<Integer> broken = new HashSet<>(brokenBeyond);
    broken.add(port);
    return new Supposition(
        bridges, Set.copyOf(broken), brokenAhead, jointsAhead, jointsBeyond, positions);
  }

  Supposition jointAhead(int port) {
    return new Supposition(
        bridges, brokenBeyond, brokenAhead, Set.of(port), jointsBeyond, positions);
  }

  Supposition jointBeyond(int port) {
    return new Supposition(
        bridges, brokenBeyond, brokenAhead, jointsAhead, Set.of(port), positions);
  }

  Supposition at(Map<Integer, Integer> positions) {
    return new Supposition(
        bridges, brokenBeyond, brokenAhead, jointsAhead, jointsBeyond, Map.copyOf(positions));
  }
}
