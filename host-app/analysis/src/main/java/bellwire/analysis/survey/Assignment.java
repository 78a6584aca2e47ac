package bellwire.analysis.survey;

import java.util.LinkedHashSet;
import java.util.Set;
import org.jgrapht.Graph;
import org.jgrapht.alg.matching.KuhnMunkresMinimalWeightBipartitePerfectMatching;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleWeightedGraph;

/**
 * The cheapest one-to-one assignment of rows to columns, and for each row how much dearer the
 * cheapest assignment is that gives it any other column. Solved by the Kuhn–Munkres algorithm of a
 * library. Theory (14).
 */
public final class Assignment {
  /** Costs are rounded to this, so that the solver's sums and differences are exact. */
  private static final double GRAIN = 1.0 / (1 << 20);

  private static final double MOST = 1e4;

  /** Dearer than any assignment of what may be. */
  private static final double FORBIDDEN = 1e6;

  private final double[][] cost;
  private final int columns;
  private final int[] columnOf;
  private final double total;

  /**
   * @param cost rows × columns, rows ≤ columns ≤ 64, each from 0 to 1e4
   */
  public Assignment(double[][] cost) {
    this.cost = cost;
    columns = cost.length == 0 ? 0 : cost[0].length;
    if (cost.length > columns) {
      throw new IllegalArgumentException("rows=" + cost.length + " columns=" + columns);
    }
    for (int row = 0; row < cost.length; row++) {
      for (int column = 0; column < columns; column++) {
        if (!(cost[row][column] >= 0 && cost[row][column] <= MOST)) {
          throw new IllegalArgumentException(
              "row=" + row + " column=" + column + " cost=" + cost[row][column]);
        }
      }
    }
    columnOf = solve(-1, -1);
    total = total(columnOf);
  }

  /** Column of each row in the cheapest assignment. */
  public int[] columns() {
    return columnOf.clone();
  }

  public double cost() {
    return total;
  }

  /**
   * Extra cost of the second-best assignment, the best among those where {@code row} gets another
   * column.
   */
  public double margin(int row) {
    int[] other = solve(row, columnOf[row]);
    double second = total(other);
    return other[row] == columnOf[row] ? FORBIDDEN : second - total;
  }

  private double total(int[] chosen) {
    double sum = 0;
    for (int row = 0; row < chosen.length; row++) {
      sum += cost[row][chosen[row]];
    }
    return sum;
  }

  private int[] solve(int forbiddenRow, int forbiddenColumn) {
    int[] chosen = new int[cost.length];
    if (cost.length == 0) {
      return chosen;
    }
    // Vertices 0 to columns − 1 are rows, those beyond the real ones costing nothing; the rest are
    // columns.
    Graph<Integer, DefaultWeightedEdge> graph =
        new SimpleWeightedGraph<>(DefaultWeightedEdge.class);
    Set<Integer> rows = new LinkedHashSet<>();
    Set<Integer> cols = new LinkedHashSet<>();
    for (int i = 0; i < columns; i++) {
      rows.add(i);
      cols.add(columns + i);
      graph.addVertex(i);
      graph.addVertex(columns + i);
    }
    for (int row = 0; row < columns; row++) {
      for (int column = 0; column < columns; column++) {
        double c = row < cost.length ? cost[row][column] : 0;
        if (row == forbiddenRow && column == forbiddenColumn) {
          c = FORBIDDEN;
        }
        graph.setEdgeWeight(graph.addEdge(row, columns + column), Math.rint(c / GRAIN) * GRAIN);
      }
    }
    for (DefaultWeightedEdge edge :
        new KuhnMunkresMinimalWeightBipartitePerfectMatching<>(graph, rows, cols)
            .getMatching()
            .getEdges()) {
      int row = graph.getEdgeSource(edge);
      if (row < cost.length) {
        chosen[row] = graph.getEdgeTarget(edge) - columns;
      }
    }
    return chosen;
  }
}
