package bellwire.analysis.ties;

import bellwire.analysis.ties.TieReading.Explanation;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.IntStream;

/**
 * Tells by what was joined in each round which conductor is which. Exact: every set of broken
 * conductors, the smallest first, and every far place of the shorts is tried, and of those that
 * would look as it was seen all the ways to lay the one upon the other are gathered. docs/ties.md.
 */
public final class TieDecoder {
  /** Broken conductors at most; more of them leave hardly anything to tell. */
  private static final int MOST_OPENS = 2;

  /** Explanations tried at most. */
  private static final int MOST_TRIED = 400_000;

  private final TiePlan plan;

  public TieDecoder(TiePlan plan) {
    this.plan = plan;
  }

  /**
   * @param seen as many rounds as the plan has
   * @throws IllegalArgumentException where it has more ports than the plan has conductors
   */
  public TieReading decode(Seen seen) {
    if (seen.ports().size() > plan.conductors() || seen.rounds().size() != plan.rounds().size()) {
      throw new IllegalArgumentException(
          "ports=" + seen.ports().size() + " rounds=" + seen.rounds().size());
    }
    return new Search(seen).reading();
  }

  /** What the near end would see of the plan with these faults; ports are far numbers. */
  Joined wouldSee(List<Integer> opens, List<List<Integer>> shorts, boolean metal) {
    Joined joined = new Joined(plan.conductors(), metal, 1 + plan.rounds().size());
    for (List<Integer> group : shorts) {
      for (int far : group) {
        joined.joinInAll(vertex(group.get(0)), vertex(far));
      }
    }
    for (int r = 0; r < plan.rounds().size(); r++) {
      for (Tie tie : plan.rounds().get(r)) {
        if (!opens.contains(tie.a()) && !opens.contains(tie.b())) {
          joined.join(1 + r, vertex(tie.a()), vertex(tie.b()));
        }
      }
    }
    return joined;
  }

  /** Vertices: conductors from 0, metal last. */
  private int vertex(int far) {
    return far == Tie.METAL ? plan.conductors() : far - 1;
  }

  private final class Search {
    private final Seen given;
    private final boolean metal;
    private final Joined seen;
    private final Map<Integer, SortedSet<Integer>> possible = new LinkedHashMap<>();
    private final SortedSet<Integer> broken = new TreeSet<>();
    private final SortedSet<Integer> maybeBroken = new TreeSet<>();
    private final SortedSet<Integer> notBroken = new TreeSet<>();
    private int tried;
    private boolean explained;

    Search(Seen given) {
      this.given = given;
      metal = given.metal() != Seen.NO_METAL || plan.usesMetal();
      seen = new Joined(plan.conductors(), metal, 1 + plan.rounds().size());
      for (List<Integer> group : given.shorted()) {
        group.forEach(port -> seen.joinInAll(index(group.get(0)), index(port)));
      }
      for (int r = 0; r < given.rounds().size(); r++) {
        for (List<Integer> group : given.rounds().get(r)) {
          for (int port : group) {
            seen.join(1 + r, index(group.get(0)), index(port));
          }
        }
      }
      given.broken().forEach(port -> seen.mark(index(port)));
      given.ports().forEach(port -> possible.put(port, new TreeSet<>()));
    }

    private int index(int port) {
      int index = port == given.metal() ? plan.conductors() : given.ports().indexOf(port);
      if (index < 0) {
        throw new IllegalArgumentException("port=" + port);
      }
      return index;
    }

    TieReading reading() {
      List<Integer> tied =
          IntStream.rangeClosed(1, plan.conductors())
              .filter(f -> !plan.untied().contains(f))
              .boxed()
              .toList();
      try {
        for (int opens = 0; opens <= Math.min(MOST_OPENS, tied.size()); opens++) {
          for (List<Integer> set : subsets(tied, opens)) {
            placeShorts(set, new ArrayList<>());
          }
          if (explained) {
            Explanation how = opens == 0 ? Explanation.AS_PLANNED : Explanation.OPENS;
            return result(how, opens);
          }
        }
        return result(Explanation.UNEXPLAINED, 0);
      } catch (Likeness.Exhausted e) {
        return result(Explanation.TOO_MANY, 0);
      }
    }

    private TieReading result(Explanation how, int opens) {
      boolean none = how == Explanation.UNEXPLAINED || how == Explanation.TOO_MANY;
      if (none) {
        maybeBroken.clear();
        broken.clear();
        possible.values().forEach(SortedSet::clear);
      }
      SortedSet<Integer> surely = new TreeSet<>(maybeBroken);
      surely.removeAll(notBroken);
      return new TieReading(how, opens, possible, broken, maybeBroken, surely);
    }

    /** Every choice of far numbers for the groups that are shorted. */
    private void placeShorts(List<Integer> opens, List<List<Integer>> placed)
        throws Likeness.Exhausted {
      if (placed.size() == given.shorted().size()) {
        tryOne(opens, placed);
        return;
      }
      List<Integer> group = given.shorted().get(placed.size());
      boolean toMetal = group.contains(given.metal());
      List<Integer> free =
          IntStream.rangeClosed(1, plan.conductors())
              .filter(f -> placed.stream().noneMatch(g -> g.contains(f)))
              .boxed()
              .toList();
      for (List<Integer> far : subsets(free, group.size() - (toMetal ? 1 : 0))) {
        List<List<Integer>> more = new ArrayList<>(placed);
        List<Integer> all = new ArrayList<>(far);
        if (toMetal) {
          all.add(Tie.METAL);
        }
        more.add(all);
        placeShorts(opens, more);
      }
    }

    private void tryOne(List<Integer> opens, List<List<Integer>> shorts) throws Likeness.Exhausted {
      if (++tried > MOST_TRIED) {
        throw new Likeness.Exhausted();
      }
      Joined there = wouldSee(opens, shorts, metal);
      if (!given.broken().isEmpty()) {
        opens.forEach(far -> there.mark(vertex(far)));
      }
      boolean[][] may = new Likeness(seen, there).possible();
      if (may == null) {
        return;
      }
      explained = true;
      broken.addAll(opens);
      for (int p = 0; p < plan.conductors(); p++) {
        for (int f = 1; f <= plan.conductors(); f++) {
          if (may[p][f - 1]) {
            gather(p, f, opens.contains(f));
          }
        }
      }
    }

    private void gather(int index, int far, boolean open) {
      // Beyond the ports are conductors without copper at the near end.
      int port = index < given.ports().size() ? given.ports().get(index) : -1 - index;
      if (port >= 0) {
        possible.computeIfAbsent(port, k -> new TreeSet<>()).add(far);
        if (open) {
          maybeBroken.add(port);
        }
      }
      if (!open) {
        notBroken.add(port);
      }
    }
  }

  /** All subsets of a size, at most as many as may be tried. */
  private static List<List<Integer>> subsets(List<Integer> of, int size) throws Likeness.Exhausted {
    List<List<Integer>> subsets = new ArrayList<>();
    gather(of, size, 0, new ArrayList<>(), subsets);
    return subsets;
  }

  private static void gather(
      List<Integer> of, int size, int from, List<Integer> chosen, List<List<Integer>> subsets)
      throws Likeness.Exhausted {
    if (chosen.size() == size) {
      if (subsets.size() >= MOST_TRIED) {
        throw new Likeness.Exhausted();
      }
      subsets.add(List.copyOf(chosen));
      return;
    }
    for (int k = from; k <= of.size() - (size - chosen.size()); k++) {
      chosen.add(of.get(k));
      gather(of, size, k + 1, chosen, subsets);
      chosen.remove(chosen.size() - 1);
    }
  }
}
