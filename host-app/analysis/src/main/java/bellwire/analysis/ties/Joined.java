package bellwire.analysis.ties;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Who is joined to whom: with nothing on the far end (layer 0), and in each round. Vertices are
 * conductors from 0; the last may be bare metal, which is not to be taken for a conductor.
 */
final class Joined {
  final int vertices;
  final boolean metal;

  /** First vertex of the group that each vertex is in, by layer. */
  private final int[][] group;

  private final int[][] size;
  private final boolean[] marked;

  Joined(int conductors, boolean metal, int layers) {
    this.metal = metal;
    vertices = conductors + (metal ? 1 : 0);
    group = new int[layers][vertices];
    size = new int[layers][vertices];
    marked = new boolean[vertices];
    for (int[] layer : group) {
      Arrays.setAll(layer, v -> v);
    }
    for (int[] layer : size) {
      Arrays.fill(layer, 1);
    }
  }

  int layers() {
    return group.length;
  }

  void join(int layer, int a, int b) {
    int[] of = group[layer];
    int keep = Math.min(of[a], of[b]);
    int drop = Math.max(of[a], of[b]);
    if (keep != drop) {
      size[layer][keep] += size[layer][drop];
      for (int v = 0; v < vertices; v++) {
        of[v] = of[v] == drop ? keep : of[v];
      }
    }
  }

  /** What is shorted stays so in every round. */
  void joinInAll(int a, int b) {
    for (int layer = 0; layer < group.length; layer++) {
      join(layer, a, b);
    }
  }

  boolean together(int layer, int a, int b) {
    return group[layer][a] == group[layer][b];
  }

  int groupSize(int layer, int v) {
    return size[layer][group[layer][v]];
  }

  /** Tells a vertex from those that are not marked. */
  void mark(int v) {
    marked[v] = true;
  }

  boolean isMarked(int v) {
    return marked[v];
  }

  boolean isMetal(int v) {
    return metal && v == vertices - 1;
  }

  /** How many groups of each size, by layer: equal in any two that are alike. */
  long[] census() {
    long[] counts = new long[group.length];
    for (int layer = 0; layer < group.length; layer++) {
      for (int v = 0; v < vertices; v++) {
        if (group[layer][v] == v) {
          long s = size[layer][v];
          counts[layer] += s * s * s;
        }
      }
    }
    return counts;
  }

  /** Vertices that layers join, directly or by way of others. */
  List<List<Integer>> components() {
    Joined all = new Joined(metal ? vertices - 1 : vertices, metal, 1);
    for (int[] layer : group) {
      for (int v = 0; v < vertices; v++) {
        all.join(0, v, layer[v]);
      }
    }
    return all.groups(0);
  }

  /** All groups of a layer, those of one included. */
  List<List<Integer>> groups(int layer) {
    List<List<Integer>> groups = new ArrayList<>();
    for (int first = 0; first < vertices; first++) {
      if (group[layer][first] == first) {
        List<Integer> members = new ArrayList<>();
        for (int v = first; v < vertices; v++) {
          if (group[layer][v] == first) {
            members.add(v);
          }
        }
        groups.add(members);
      }
    }
    return groups;
  }
}
