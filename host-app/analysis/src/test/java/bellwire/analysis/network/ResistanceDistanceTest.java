package bellwire.analysis.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import bellwire.reference.Table;
import org.junit.jupiter.api.Test;

/**
 * Resistance distances of known graphs: test-fixtures/reference, resistance-distance.yaml, where
 * each table names its source and status.
 */
class ResistanceDistanceTest {
  private static final double EXACT = 1e-12;

  private static Table table(String name) {
    return ReferenceTables.load("resistance-distance/" + name);
  }

  private static double fraction(double[] parts) {
    return parts[0] / parts[1];
  }

  /** Complete graphs, cycles and paths, after Klein and Randić, J. Math. Chem. 12 (1993) 81. */
  @Test
  void families() {
    for (Row row : table("families").rows()) {
      int n = row.integer("nodes");
      Network net =
          switch (row.text("graph")) {
            case "complete" -> Graphs.complete(n);
            case "cycle" -> Graphs.cycle(n);
            case "path" -> Graphs.path(n);
            default -> throw new IllegalArgumentException("graph=" + row.text("graph"));
          };
      assertThat(net.resistanceDistance(0, row.integer("distance")))
          .as(row.toString())
          .isCloseTo(fraction(row.numbers("ohms")), within(EXACT));
    }
  }

  /** Any edge of a Platonic solid: (2/degree)(1 − 1/n). */
  @Test
  void edgesOfThePlatonicSolids() {
    for (Row row : table("platonic-adjacent").rows()) {
      Network net = Graphs.named(row.text("graph"));
      assertThat(net.nodes()).isEqualTo(row.integer("nodes"));
      int edges = 0;
      for (int i = 0; i < net.nodes(); i++) {
        for (int j = 0; j < i; j++) {
          if (net.between(i, j) > 0) {
            edges++;
            assertThat(net.resistanceDistance(i, j))
                .as(row.text("graph"))
                .isCloseTo(fraction(row.numbers("ohms")), within(EXACT));
          }
        }
      }
      assertThat(2 * edges).isEqualTo(net.nodes() * row.integer("degree"));
    }
  }

  /** Every pair of nodes, by its distance in edges: solids, Petersen, K3,3, four-cube. */
  @Test
  void byDistance() {
    for (Row row : table("by-distance").rows()) {
      assertThat(row.status().decides()).isTrue();
      Network net = Graphs.named(row.text("graph"));
      double[][] ohms = row.matrix("ohms");
      int farthest = 0;
      for (int i = 0; i < net.nodes(); i++) {
        int[] steps = Graphs.steps(net, i);
        for (int j = 0; j < net.nodes(); j++) {
          farthest = Math.max(farthest, steps[j]);
          double expected = i == j ? 0 : fraction(ohms[steps[j] - 1]);
          assertThat(net.resistanceDistance(i, j))
              .as(row.text("graph") + " " + i + " to " + j)
              .isCloseTo(expected, within(EXACT));
        }
      }
      assertThat(farthest).as(row.text("graph")).isEqualTo(ohms.length);
    }
  }

  /**
   * The infinite square grid (Atkinson and van Steenwijk, Am. J. Phys. 67 (1999) 486) between two
   * finite ones. Cutting resistors out can only add resistance (Rayleigh), joining all of the
   * border into one node can only take it away. What the border does to two nodes falls with the
   * square of their distance over the side, as the field of a dipole does at its images.
   */
  @Test
  void infiniteGridBetweenTwoFiniteOnes() {
    int side = 27;
    int middle = side / 2;
    Network cut = Graphs.grid(side);
    Network joined = Graphs.grid(side);
    for (int k = 1; k < side; k++) {
      joined.join(k - 1, k, 1e6).join((k - 1) * side, k * side, 1e6);
      int last = side - 1;
      joined.join(last * side + k - 1, last * side + k, 1e6);
      joined.join((k - 1) * side + last, k * side + last, 1e6);
    }
    for (Row row : table("infinite-grid").rows()) {
      int x = row.integer("x");
      int y = row.integer("y");
      // Centred on the pair, so that both ends are as far from the border as can be.
      int from = (middle - x / 2) * side + middle - y / 2;
      int to = from + x * side + y;
      double above = cut.resistanceDistance(from, to);
      double below = joined.resistanceDistance(from, to);
      assertThat(row.number("ohms")).as(row.toString()).isBetween(below, above);
      assertThat(above - below)
          .as(row.toString())
          .isLessThan(1.5 * (x * x + y * y) / (side * side));
    }
  }

  /** networkx's own tests: sums over all pairs, and single distances with unequal edges. */
  @Test
  void kirchhoffIndexAndFourCycle() {
    for (Row row : table("kirchhoff-index").rows()) {
      Network net =
          switch (row.text("graph")) {
            case "complete" -> Graphs.complete(row.integer("nodes"));
            case "path" -> Graphs.path(row.integer("nodes"));
            default -> ofEdges(row.matrix("edges"), 6);
          };
      double sum = 0;
      int first = row.text("graph").equals("edges") ? 1 : 0;
      for (int i = first; i < net.nodes(); i++) {
        for (int j = first; j < i; j++) {
          sum += net.resistanceDistance(i, j);
        }
      }
      assertThat(sum).as(row.toString()).isCloseTo(row.number("index"), within(1e-10));
      if (row.has("between")) {
        int[] ends = row.integers("between");
        assertThat(net.resistanceDistance(ends[0], ends[1]))
            .isCloseTo(row.number("ohms"), within(EXACT));
      }
    }
    for (Row row : table("four-cycle").rows()) {
      double[] ohms = row.numbers("edgeOhms");
      Network net = new Network(4);
      for (int k = 0; k < 4; k++) {
        net.join(k, (k + 1) % 4, 1 / ohms[k]);
      }
      int[] ends = row.integers("between");
      assertThat(net.resistanceDistance(ends[0] - 1, ends[1] - 1))
          .isCloseTo(row.number("ohms"), within(EXACT));
    }
  }

  private static Network ofEdges(double[][] edges, int nodes) {
    Network net = new Network(nodes);
    for (double[] edge : edges) {
      net.join((int) edge[0], (int) edge[1], 1);
    }
    return net;
  }

  @Test
  void nothingJoinsSeparateParts() {
    Network net = new Network(4).join(0, 1, 1).join(2, 3, 1);
    assertThat(net.resistanceDistance(0, 2)).isInfinite();
    assertThat(net.resistanceDistance(0, 0)).isZero();
    assertThat(net.resistanceDistance(3, 2)).isCloseTo(1, within(EXACT));
  }
}
