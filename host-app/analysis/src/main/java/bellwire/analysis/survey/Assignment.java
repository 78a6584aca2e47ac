package bellwire.analysis.survey;

import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.Set;
import org.jgrapht.Graph;
import org.jgrapht.alg.matching.KuhnMunkresMinimalWeightBipartitePerfectMatching;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleWeightedGraph;

/**
 * The cheapest one-to-one assignment of rows to columns, solved by the Kuhn–Munkres algorithm of a
 * library, and for each row how much dearer the cheapest assignment is that gives it any other
 * column.
 *
 * <p>Two assignments differ by rows that pass their columns round in circles. In the cheapest no
 * circle gains anything, so the second best for a row is one circle away, the cheapest through that
 * row. Theory (14).
 */
public final class Assignment {
  /** Costs are rounded to this, so that all sums and differences are exact. */
  private static final double GRAIN = 1.0 / (1 << 20);

  private static final double MOST = 1e4;

  private final int rows;
  private final int columns;

  /** Square: rows beyond the real ones cost nothing. */
  private final double[][] cost;

  private final int[] columnOf;
  private final double[] margins;

  /**
   * @param cost rows × columns, rows ≤ columns, each from 0 to 1e4
   */
  public Assignment(double[][] cost) {
    rows = cost.length;
    columns = rows == 0 ? 0 : cost[0].length;
    if (rows > columns) {
      throw new IllegalArgumentException("rows=" + rows + " columns=" + columns);
    }
    this.cost = new double[columns][columns];
    for (int row = 0; row < rows; row++) {
      for (int column = 0; column < columns; column++) {
        double c = cost[row][column];
        if (!(c >= 0 && c <= MOST)) {
          throw new IllegalArgumentException("row=" + row + " column=" + column + " cost=" + c);
        }
        this.cost[row][column] = Math.rint(c / GRAIN) * GRAIN;
      }
    }
    columnOf = solve();
    margins = circles();
  }

  /** Column of each row in the cheapest assignment. */
  public int[] columns() {
    return Arrays.copyOf(columnOf, rows);
  }

  public double cost() {
    double sum = 0;
    for (int row = 0; row < rows; row++) {
      sum += cost[row][columnOf[row]];
    }
    return sum;
  }

  /**
   * Extra cost of the second-best assignment, the best among those where {@code row} gets another
   * column; infinite where there is no other.
   */
  public double margin(int row) {
    return margins[row];
  }

  private int[] solve() {
    int[] chosen = new int[columns];
    if (columns == 0) {
      return chosen;
    }
    // Vertices 0 to columns − 1 are rows, the rest are columns.
    Graph<Integer, DefaultWeightedEdge> graph =
        new SimpleWeightedGraph<>(DefaultWeightedEdge.class);
    Set<Integer> left = new LinkedHashSet<>();
    Set<Integer> right = new LinkedHashSet<>();
    for (int i = 0; i < columns; i++) {
      left.add(i);
      right.add(columns + i);
      graph.addVertex(i);
      graph.addVertex(columns + i);
    }
    for (int row = 0; row < columns; row++) {
      for (int column = 0; column < columns; column++) {
        graph.setEdgeWeight(graph.addEdge(row, columns + column), cost[row][column]);
      }
    }
    for (DefaultWeightedEdge edge :
        new KuhnMunkresMinimalWeightBipartitePerfectMatching<>(graph, left, right)
            .getMatching()
            .getEdges()) {
      chosen[graph.getEdgeSource(edge)] = graph.getEdgeTarget(edge) - columns;
    }
    return chosen;
  }

  /**
   * The cheapest circle through each row, by Floyd and Warshall's all shortest paths: {@code
   * dearer[i][j]} is what it costs more to give row i the column of row j, those between moving up.
   */
  private double[] circles() {
    double[][] dearer = new double[columns][columns];
    for (int i = 0; i < columns; i++) {
      for (int j = 0; j < columns; j++) {
        dearer[i][j] =
            i == j ? Double.POSITIVE_INFINITY : cost[i][columnOf[j]] - cost[i][columnOf[i]];
      }
    }
    for (int via = 0; via < columns; via++) {
      for (int i = 0; i < columns; i++) {
        for (int j = 0; j < columns; j++) {
          dearer[i][j] = Math.min(dearer[i][j], dearer[i][via] + dearer[via][j]);
        }
      }
    }
    double[] least = new double[rows];
    Arrays.setAll(least, row -> dearer[row][row]);
    return least;
  }
}
