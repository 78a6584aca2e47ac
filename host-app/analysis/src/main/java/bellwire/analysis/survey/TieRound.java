package bellwire.analysis.survey;

import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;

/**
 * One round of ties as measured from the near end.
 *
 * @param joined ports that are joined, in groups of two and more, M among them; what the cable's
 *     own shorts join included
 * @param loops what was read of each tie that joins two ports and nothing else
 */
public record TieRound(List<List<Integer>> joined, List<Loop> loops) {
  /** A tie, its two conductors and their joints together; a broken one has more. */
  public static final double TIED_OHMS = 80;

  /** A short of the cable, at the limit of what the verdict calls touching. */
  private static final double SHORTED_OHMS = 100;

  private static final int CONTACTS = 4;

  /**
   * Two conductors in series.
   *
   * @param a lower port
   * @param b higher port, possibly M
   * @param ohms together, without the two clamps and the two contacts at the tie
   */
  public record Loop(int a, int b, Quantity ohms) {}

  /**
   * From the readings of a phase that is over.
   *
   * @param open what was joined with nothing on the far end
   */
  public static TieRound of(OpenResult open, TiePhase phase, Criteria criteria) {
    List<List<Integer>> shorted = shorted(open);
    List<List<Integer>> joined = shorted(open);
    List<Loop> loops = new ArrayList<>();
    for (List<Integer> group : phase.groups()) {
      for (int a : group) {
        for (int b : group) {
          Quantity ohms = phase.ohms(a, b);
          if (a < b && ohms != null && ohms.value() < TIED_OHMS) {
            join(joined, a, b);
            loops.add(new Loop(a, b, withoutContacts(ohms, criteria)));
          }
        }
      }
    }
    joined.forEach(group -> group.sort(null));
    loops.removeIf(
        loop -> {
          List<Integer> group = groupOf(joined, loop.a());
          return group.size() != 2 || shorted.contains(group);
        });
    return new TieRound(joined, loops);
  }

  /** Groups of two and more that the cable itself joins. */
  public static List<List<Integer>> shorted(OpenResult open) {
    List<List<Integer>> groups = new ArrayList<>();
    for (List<Integer> cluster : open.clusters()) {
      for (int a : cluster) {
        for (int b : cluster) {
          Quantity ohms = open.distances()[a][b];
          if (a < b && (ohms == null || ohms.value() < SHORTED_OHMS)) {
            join(groups, a, b);
          }
        }
      }
    }
    groups.forEach(group -> group.sort(null));
    return groups;
  }

  private static Quantity withoutContacts(Quantity read, Criteria criteria) {
    double contacts = Math.sqrt(CONTACTS) * criteria.contactHalfWidthOhms() / Math.sqrt(3);
    return Quantity.ohms(
        read.value() - CONTACTS * criteria.contactOhms(), Math.hypot(read.u(), contacts));
  }

  private static void join(List<List<Integer>> groups, int a, int b) {
    List<Integer> first = groupOf(groups, a);
    List<Integer> second = groupOf(groups, b);
    if (first != second) {
      first.addAll(second);
      groups.removeIf(g -> g == second);
    }
  }

  /** The group that a port is in; a new one of its own where it is in none. */
  private static List<Integer> groupOf(List<List<Integer>> groups, int port) {
    for (List<Integer> group : groups) {
      if (group.contains(port)) {
        return group;
      }
    }
    List<Integer> alone = new ArrayList<>(List.of(port));
    groups.add(alone);
    return alone;
  }

  /** Whether the round joins these two. */
  public boolean joins(int a, int b) {
    return joined.stream().anyMatch(g -> g.contains(a) && g.contains(b));
  }
}
