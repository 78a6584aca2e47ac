package bellwire.analysis.network;

/** Graphs of the literature, every edge one ohm. */
final class Graphs {
  private Graphs() {}

  static Network named(String name) {
    return switch (name) {
      case "tetrahedron" -> complete(4);
      case "cube" -> hypercube(3);
      case "hypercube4" -> hypercube(4);
      case "octahedron" -> octahedron();
      case "icosahedron" -> icosahedron();
      // Generalised Petersen graphs G(n, k): an n-cycle, spokes, an inner cycle by steps of k.
      case "dodecahedron" -> petersen(10, 2);
      case "petersen" -> petersen(5, 2);
      case "bipartite33" -> bipartite(3, 3);
      default -> throw new IllegalArgumentException("graph=" + name);
    };
  }

  static Network complete(int n) {
    Network net = new Network(n);
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < i; j++) {
        net.join(i, j, 1);
      }
    }
    return net;
  }

  static Network path(int n) {
    Network net = new Network(n);
    for (int i = 1; i < n; i++) {
      net.join(i - 1, i, 1);
    }
    return net;
  }

  static Network cycle(int n) {
    return path(n).join(n - 1, 0, 1);
  }

  static Network grid(int side) {
    Network net = new Network(side * side);
    for (int x = 0; x < side; x++) {
      for (int y = 0; y < side; y++) {
        if (x + 1 < side) {
          net.join(x * side + y, (x + 1) * side + y, 1);
        }
        if (y + 1 < side) {
          net.join(x * side + y, x * side + y + 1, 1);
        }
      }
    }
    return net;
  }

  private static Network hypercube(int dimensions) {
    int n = 1 << dimensions;
    Network net = new Network(n);
    for (int i = 0; i < n; i++) {
      for (int bit = 1; bit < n; bit <<= 1) {
        if ((i & bit) == 0) {
          net.join(i, i | bit, 1);
        }
      }
    }
    return net;
  }

  private static Network octahedron() {
    Network net = new Network(6);
    for (int i = 0; i < 6; i++) {
      for (int j = 0; j < i; j++) {
        if (i / 2 != j / 2) { // opposite corners are 2k and 2k + 1
          net.join(i, j, 1);
        }
      }
    }
    return net;
  }

  /** Two poles, each over a ring of five, the rings joined in zigzag. */
  private static Network icosahedron() {
    Network net = new Network(12);
    for (int i = 0; i < 5; i++) {
      int next = (i + 1) % 5;
      net.join(10, i, 1).join(11, 5 + i, 1);
      net.join(i, next, 1).join(5 + i, 5 + next, 1);
      net.join(i, 5 + i, 1).join(i, 5 + next, 1);
    }
    return net;
  }

  private static Network petersen(int n, int k) {
    Network net = new Network(2 * n);
    for (int i = 0; i < n; i++) {
      net.join(i, (i + 1) % n, 1).join(i, n + i, 1).join(n + i, n + (i + k) % n, 1);
    }
    return net;
  }

  private static Network bipartite(int left, int right) {
    Network net = new Network(left + right);
    for (int i = 0; i < left; i++) {
      for (int j = 0; j < right; j++) {
        net.join(i, left + j, 1);
      }
    }
    return net;
  }

  /** Least number of edges between nodes; −1 where none lead there. */
  static int[] steps(Network net, int from) {
    int n = net.nodes();
    int[] steps = new int[n];
    java.util.Arrays.fill(steps, -1);
    steps[from] = 0;
    for (int round = 0; round < n; round++) {
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          if (steps[i] == round && steps[j] < 0 && i != j && net.between(i, j) > 0) {
            steps[j] = round + 1;
          }
        }
      }
    }
    return steps;
  }
}
