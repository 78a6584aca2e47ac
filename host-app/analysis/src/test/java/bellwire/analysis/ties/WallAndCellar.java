package bellwire.analysis.ties;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * A cable with its ties, told in sets of far numbers and without any of the product's code: what is
 * joined in each layer (nothing on the far end, round 1, round 2).
 */
final class WallAndCellar {
  final int conductors;
  final List<Set<Set<Integer>>> layers = new ArrayList<>();

  /**
   * @param ties by round, pairs of far numbers; 0 is bare metal
   * @param opens far numbers of broken conductors
   * @param shorts groups of far numbers
   */
  WallAndCellar(
      int conductors,
      List<List<Set<Integer>>> ties,
      Collection<Integer> opens,
      Collection<Set<Integer>> shorts) {
    this.conductors = conductors;
    layers.add(closure(shorts));
    for (List<Set<Integer>> round : ties) {
      List<Set<Integer>> all = new ArrayList<>(shorts);
      round.stream().filter(t -> t.stream().noneMatch(opens::contains)).forEach(all::add);
      layers.add(closure(all));
    }
  }

  static List<List<Set<Integer>>> ties(TiePlan plan) {
    return plan.rounds().stream()
        .map(r -> r.stream().map(t -> Set.of(t.a(), t.b())).toList())
        .toList();
  }

  /** Sets that overlap made one. */
  private static Set<Set<Integer>> closure(Collection<Set<Integer>> sets) {
    List<Set<Integer>> groups = new ArrayList<>();
    for (Set<Integer> set : sets) {
      Set<Integer> merged = new HashSet<>(set);
      // One pass may merge what then overlaps another.
      for (boolean again = true; again; ) {
        again = groups.removeIf(g -> g.stream().anyMatch(merged::contains) && absorb(merged, g));
      }
      groups.add(merged);
    }
    groups.removeIf(g -> g.size() < 2);
    return new HashSet<>(groups);
  }

  private static boolean absorb(Set<Integer> into, Set<Integer> group) {
    into.addAll(group);
    return true;
  }

  /** What the near end sees, far number f being on port {@code port[f]}; metal is port 99. */
  Seen seenFrom(int[] port) {
    List<Integer> ports =
        IntStream.rangeClosed(1, conductors).map(f -> port[f]).sorted().boxed().toList();
    List<List<List<Integer>>> groups =
        layers.stream()
            .map(
                layer ->
                    layer.stream()
                        .map(g -> g.stream().map(f -> f == 0 ? 99 : port[f]).toList())
                        .toList())
            .toList();
    return new Seen(ports, 99, groups.get(0), groups.subList(1, groups.size()));
  }

  /**
   * Colours of rooted refinement (Weisfeiler and Leman, one dimension): two conductors of two such
   * cables get the same where nothing tells them apart, as far as refinement sees. The bipartite
   * graph of conductors and groups is refined with one conductor marked.
   */
  List<String> rootedForms() {
    return IntStream.rangeClosed(1, conductors).mapToObj(this::rootedForm).toList();
  }

  private String rootedForm(int root) {
    Map<Integer, String> colour = new HashMap<>();
    for (int f = 0; f <= conductors; f++) {
      colour.put(f, f == 0 ? "m" : f == root ? "r" : "c");
    }
    StringBuilder history = new StringBuilder();
    for (int before = 0, colours = 1; colours > before; ) {
      before = colours;
      Map<Integer, String> next = new HashMap<>();
      for (int f = 0; f <= conductors; f++) {
        StringBuilder about = new StringBuilder(colour.get(f));
        for (Set<Set<Integer>> layer : layers) {
          about.append('|');
          for (Set<Integer> group : layer) {
            if (group.contains(f)) {
              about.append(group.stream().map(colour::get).sorted().toList());
            }
          }
        }
        next.put(f, about.toString());
      }
      // Short names, the same in every cable that has the same history.
      List<String> sorted = next.values().stream().distinct().sorted().toList();
      colours = sorted.size();
      history.append(next.values().stream().sorted().toList());
      next.replaceAll((f, s) -> "" + sorted.indexOf(s));
      colour = next;
    }
    return Integer.toHexString(history.toString().hashCode()) + history.length();
  }
}
