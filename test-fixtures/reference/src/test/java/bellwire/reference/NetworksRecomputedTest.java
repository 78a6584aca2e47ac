package bellwire.reference;

import static bellwire.reference.Elimination.resistance;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.IntPredicate;
import org.junit.jupiter.api.Test;

/** Resistance distances by solving the grounded network, node by node. */
class NetworksRecomputedTest {

  private static final double EXACT = 1e-9;

  /** Nodes joined where their coordinates are as far apart as the nearest pair. */
  private static double[][] nearestNeighbours(double[][] points) {
    double nearest = Double.MAX_VALUE;
    for (int i = 0; i < points.length; i++) {
      for (int j = i + 1; j < points.length; j++) {
        nearest = Math.min(nearest, distance(points[i], points[j]));
      }
    }
    List<double[]> edges = new ArrayList<>();
    for (int i = 0; i < points.length; i++) {
      for (int j = i + 1; j < points.length; j++) {
        if (distance(points[i], points[j]) < nearest * 1.001) {
          edges.add(new double[] {i, j, 1});
        }
      }
    }
    return edges.toArray(double[][]::new);
  }

  private static double distance(double[] p, double[] q) {
    double sum = 0;
    for (int k = 0; k < p.length; k++) {
      sum += (p[k] - q[k]) * (p[k] - q[k]);
    }
    return Math.sqrt(sum);
  }

  /** Every sign of every coordinate, in the three cyclic orders of them. */
  private static List<double[]> signsAndCycles(double a, double b, double c) {
    List<double[]> points = new ArrayList<>();
    for (int signs = 0; signs < 8; signs++) {
      double x = (signs & 1) == 0 ? a : -a;
      double y = (signs & 2) == 0 ? b : -b;
      double z = (signs & 4) == 0 ? c : -c;
      for (double[] p : new double[][] {{x, y, z}, {y, z, x}, {z, x, y}}) {
        if (points.stream().noneMatch(q -> distance(p, q) < 1e-9)) {
          points.add(p);
        }
      }
    }
    return points;
  }

  private static double[][] graph(String name) {
    double golden = (1 + Math.sqrt(5)) / 2;
    return switch (name) {
      case "tetrahedron" -> complete(4);
      case "cube" -> nearestNeighbours(signsAndCycles(1, 1, 1).toArray(double[][]::new));
      case "octahedron" -> nearestNeighbours(signsAndCycles(1, 0, 0).toArray(double[][]::new));
      case "icosahedron" ->
          nearestNeighbours(signsAndCycles(0, 1, golden).toArray(double[][]::new));
      case "dodecahedron" -> {
        List<double[]> points = signsAndCycles(1, 1, 1);
        points.addAll(signsAndCycles(0, 1 / golden, golden));
        yield nearestNeighbours(points.toArray(double[][]::new));
      }
      case "hypercube4" -> {
        double[][] points = new double[16][4];
        for (int i = 0; i < 16; i++) {
          for (int k = 0; k < 4; k++) {
            points[i][k] = i >> k & 1;
          }
        }
        yield nearestNeighbours(points);
      }
      case "petersen" -> {
        List<double[]> edges = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
          edges.add(new double[] {i, (i + 1) % 5, 1});
          edges.add(new double[] {i, i + 5, 1});
          edges.add(new double[] {5 + i, 5 + (i + 2) % 5, 1});
        }
        yield edges.toArray(double[][]::new);
      }
      case "bipartite33" -> {
        List<double[]> edges = new ArrayList<>();
        for (int i = 0; i < 9; i++) {
          int left = i / 3;
          edges.add(new double[] {left, 3 + i % 3, 1});
        }
        yield edges.toArray(double[][]::new);
      }
      default -> throw new IllegalArgumentException("graph=" + name);
    };
  }

  private static double[][] complete(int n) {
    List<double[]> edges = new ArrayList<>();
    for (int i = 0; i < n; i++) {
      for (int j = i + 1; j < n; j++) {
        edges.add(new double[] {i, j, 1});
      }
    }
    return edges.toArray(double[][]::new);
  }

  private static double[][] chain(int n, boolean closed) {
    List<double[]> edges = new ArrayList<>();
    for (int i = 0; i < (closed ? n : n - 1); i++) {
      edges.add(new double[] {i, (i + 1) % n, 1});
    }
    return edges.toArray(double[][]::new);
  }

  private static int nodes(double[][] edges) {
    return 1 + (int) Arrays.stream(edges).mapToDouble(e -> Math.max(e[0], e[1])).max().orElse(-1);
  }

  /** Steps from node 0 to every node. */
  private static int[] steps(double[][] edges) {
    int[] steps = new int[nodes(edges)];
    Arrays.fill(steps, -1);
    steps[0] = 0;
    ArrayDeque<Integer> open = new ArrayDeque<>(List.of(0));
    while (!open.isEmpty()) {
      int at = open.remove();
      IntPredicate unseen = node -> steps[node] < 0;
      for (double[] edge : edges) {
        int to = edge[0] == at ? (int) edge[1] : edge[1] == at ? (int) edge[0] : at;
        if (unseen.test(to)) {
          steps[to] = steps[at] + 1;
          open.add(to);
        }
      }
    }
    return steps;
  }

  @Test
  void platonicSolidsAndOthersByDistance() {
    for (Row row : ReferenceTables.load("resistance-distance/by-distance").rows()) {
      double[][] edges = graph(row.text("graph"));
      double[][] expected = row.matrix("ohms");
      int[] steps = steps(edges);
      assertThat(Arrays.stream(steps).max().orElse(0)).isEqualTo(expected.length);
      for (int to = 1; to < steps.length; to++) {
        double[] fraction = expected[steps[to] - 1];
        assertThat(resistance(steps.length, edges, 0, to))
            .as(row.text("graph") + " distance=" + steps[to])
            .isCloseTo(fraction[0] / fraction[1], within(EXACT));
      }
    }
  }

  @Test
  void platonicSolidsBetweenNeighbours() {
    for (Row row : ReferenceTables.load("resistance-distance/platonic-adjacent").rows()) {
      double n = row.number("nodes");
      double[] fraction = row.numbers("ohms");
      assertThat(2 / row.number("degree") * (1 - 1 / n))
          .isCloseTo(fraction[0] / fraction[1], within(EXACT));
      double[][] edges = graph(row.text("graph"));
      assertThat(nodes(edges)).isEqualTo(row.integer("nodes"));
      assertThat(resistance(nodes(edges), edges, (int) edges[0][0], (int) edges[0][1]))
          .isCloseTo(fraction[0] / fraction[1], within(EXACT));
    }
  }

  @Test
  void familiesAndKirchhoffIndices() {
    for (Row row : ReferenceTables.load("resistance-distance/families").rows()) {
      int n = row.integer("nodes");
      double[] fraction = row.numbers("ohms");
      double[][] edges =
          row.text("graph").equals("complete")
              ? complete(n)
              : chain(n, row.text("graph").equals("cycle"));
      assertThat(resistance(n, edges, 0, row.integer("distance")))
          .isCloseTo(fraction[0] / fraction[1], within(EXACT));
    }
    for (Row row : ReferenceTables.load("resistance-distance/kirchhoff-index").rows()) {
      double[][] edges =
          switch (row.text("graph")) {
            case "complete" -> complete(row.integer("nodes"));
            case "path" -> chain(row.integer("nodes"), false);
            default ->
                Arrays.stream(row.matrix("edges"))
                    .map(e -> new double[] {e[0] - 1, e[1] - 1, 1})
                    .toArray(double[][]::new);
          };
      int n = nodes(edges);
      double sum = 0;
      for (int i = 0; i < n; i++) {
        for (int j = i + 1; j < n; j++) {
          sum += resistance(n, edges, i, j);
        }
      }
      assertThat(sum).as(row.text("graph")).isCloseTo(row.number("index"), within(EXACT));
      if (row.has("ohms")) {
        assertThat(resistance(n, edges, 0, 2)).isCloseTo(row.number("ohms"), within(EXACT));
      }
    }
  }

  @Test
  void fourCycles() {
    for (Row row : ReferenceTables.load("resistance-distance/four-cycle").rows()) {
      double[] r = row.numbers("edgeOhms");
      double[][] edges = {{0, 1, r[0]}, {1, 2, r[1]}, {2, 3, r[2]}, {3, 0, r[3]}};
      int[] between = row.integers("between");
      assertThat(resistance(4, edges, between[0] - 1, between[1] - 1))
          .isCloseTo(row.number("ohms"), within(EXACT));
    }
  }

  @Test
  void infiniteGridFollowsItsClosedFormsAndTheMeanOfNeighbours() {
    Table table = ReferenceTables.load("resistance-distance/infinite-grid");
    double[][] grid = new double[6][6];
    for (Row row : table.rows()) {
      int x = row.integer("x");
      int y = row.integer("y");
      grid[x][y] = row.number("ohms");
      grid[y][x] = grid[x][y];
      if (row.has("perPi")) {
        double[] rational = row.numbers("rational");
        double[] perPi = row.numbers("perPi");
        double closed = rational[0] / rational[1] + perPi[0] / perPi[1] / Math.PI;
        assertThat(grid[x][y]).isCloseTo(closed, within(1e-9));
      }
    }
    for (int[] p : new int[][] {{1, 1}, {2, 0}, {2, 1}, {2, 2}, {3, 0}, {3, 1}, {4, 0}}) {
      double neighbours =
          grid[p[0] + 1][p[1]]
              + grid[p[0] - 1][p[1]]
              + grid[p[0]][p[1] + 1]
              + grid[p[0]][Math.abs(p[1] - 1)];
      assertThat(neighbours).as(Arrays.toString(p)).isCloseTo(4 * grid[p[0]][p[1]], within(1e-8));
    }
  }
}
