package bellwire.analysis.survey;

import bellwire.analysis.survey.TieRound.Loop;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * Joints by loops of two conductors. A joint raises every loop that its conductor is in, a poor
 * clip the one it makes. So of a loop that stands out a conductor is suspect if all of its loops
 * do; one that is in two is blamed before two that are in one each.
 */
final class TieJoints {
  private static final double AGREEING_SIGMAS = 3;

  private final TieRun run;
  private final Map<Loop, Quantity> out = new LinkedHashMap<>();
  private final JointTest test;

  /** Ports that two loops blame, and by how much. */
  final Map<Integer, Quantity> sure = new LinkedHashMap<>();

  /** Loops that stand out and the ports that may be why; none where it is the tie itself. */
  final Map<Loop, List<Integer>> unsure = new LinkedHashMap<>();

  TieJoints(TieRun run, Criteria criteria) {
    this.run = run;
    List<Loop> loops = run.loops();
    Map<Integer, Quantity> ohms = new LinkedHashMap<>();
    for (int k = 0; k < loops.size(); k++) {
      ohms.put(k, loops.get(k).ohms());
    }
    test = new JointTest(ohms, criteria);
    test.standingOut().forEach((k, excess) -> out.put(loops.get(k), excess));
    List<Loop> left = new ArrayList<>(out.keySet());
    for (Loop loop : List.copyOf(left)) {
      Stream.of(loop.a(), loop.b()).filter(this::blamedTwice).forEach(p -> blame(p, left));
    }
    for (Loop loop : left) {
      unsure.put(
          loop,
          Stream.of(loop.a(), loop.b())
              .filter(p -> !sure.containsKey(p) && out.keySet().containsAll(run.loops(p)))
              .toList());
    }
  }

  private boolean blamedTwice(int port) {
    List<Loop> own = run.loops(port);
    if (own.size() < 2 || !out.keySet().containsAll(own)) {
      return false;
    }
    Quantity x = excess(own.get(0));
    Quantity y = excess(own.get(1));
    return Math.abs(x.value() - y.value()) < AGREEING_SIGMAS * Math.hypot(x.u(), y.u());
  }

  private void blame(int port, List<Loop> left) {
    List<Loop> own = run.loops(port);
    if (left.containsAll(own)) {
      left.removeAll(own);
      sure.put(port, excess(own.get(0)));
    }
  }

  Quantity excess(Loop loop) {
    Quantity excess = out.get(loop);
    if (excess == null) {
      throw new IllegalArgumentException("loop=" + loop);
    }
    return excess;
  }

  /**
   * Whether a port's loops have any to be compared with: one that the port itself is not in, as its
   * joint would raise all the others.
   */
  boolean compared(int port) {
    return !run.loops(port).isEmpty() && run.loops(port).size() < run.loops().size();
  }

  /** Half of what the loops have in common. */
  Quantity conductor() {
    Quantity median = test.median();
    return Quantity.ohms(median.value() / 2, median.u() / 2);
  }
}
