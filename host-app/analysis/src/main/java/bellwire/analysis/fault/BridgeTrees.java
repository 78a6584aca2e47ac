package bellwire.analysis.fault;

import bellwire.analysis.fault.Supposition.Pair;
import java.util.ArrayList;
import java.util.List;
import org.jgrapht.alg.spanning.KruskalMinimumSpanningTree;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleWeightedGraph;

/**
 * The ways in which bridges may join a group: within each cluster all trees of a small one, its
 * ring, and that of the nearest neighbours of a larger one; between clusters every leakage, from
 * any of the ports it may come from.
 */
final class BridgeTrees {
  private static final int LARGEST_ENUMERATED = 3;
  private static final int MOST_WAYS = 12;

  private BridgeTrees() {}

  /**
   * @param siemens conductances between the ports as seen from the near end
   * @return each a list of bridges, at most twelve of them
   */
  static List<List<Pair>> of(Evidence.Group group, double[][] siemens) {
    List<List<Pair>> ways = List.of(List.of());
    for (List<Integer> cluster : group.clusters()) {
      ways = product(ways, within(cluster, siemens));
    }
    for (Evidence.Leakage leak : group.leaks()) {
      List<List<Pair>> ends = new ArrayList<>();
      for (int a : leak.ports()) {
        leak.others().forEach(b -> ends.add(List.of(new Pair(a, b))));
      }
      ways = product(ways, ends);
    }
    return ways.subList(0, Math.min(MOST_WAYS, ways.size()));
  }

  private static List<List<Pair>> product(List<List<Pair>> left, List<List<Pair>> right) {
    List<List<Pair>> all = new ArrayList<>();
    for (List<Pair> some : left) {
      for (List<Pair> more : right) {
        List<Pair> both = new ArrayList<>(some);
        both.addAll(more);
        all.add(both);
      }
    }
    return all;
  }

  private static List<List<Pair>> within(List<Integer> cluster, double[][] siemens) {
    List<Pair> pairs = new ArrayList<>();
    for (int i = 0; i < cluster.size(); i++) {
      for (int j = i + 1; j < cluster.size(); j++) {
        pairs.add(new Pair(cluster.get(i), cluster.get(j)));
      }
    }
    if (cluster.size() <= 2) {
      return List.of(pairs);
    }
    if (cluster.size() > LARGEST_ENUMERATED) {
      return List.of(nearest(pairs, siemens));
    }
    List<List<Pair>> trees = new ArrayList<>();
    for (Pair left : pairs) {
      trees.add(pairs.stream().filter(p -> p != left).toList());
    }
    trees.add(pairs); // all three touch one another
    return trees;
  }

  /** The spanning tree of the largest conductances. */
  private static List<Pair> nearest(List<Pair> pairs, double[][] siemens) {
    SimpleWeightedGraph<Integer, DefaultWeightedEdge> graph =
        new SimpleWeightedGraph<>(DefaultWeightedEdge.class);
    for (Pair pair : pairs) {
      graph.addVertex(pair.a());
      graph.addVertex(pair.b());
      graph.setEdgeWeight(graph.addEdge(pair.a(), pair.b()), -siemens[pair.a()][pair.b()]);
    }
    return new KruskalMinimumSpanningTree<>(graph)
        .getSpanningTree().getEdges().stream()
            .map(edge -> new Pair(graph.getEdgeSource(edge), graph.getEdgeTarget(edge)))
            .toList();
  }
}
