package bellwire.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Small enough to try every assignment; and the partitions by their defining property. */
class AssignmentRecomputedTest {

  private static double best(double[][] cost, int row, int usedColumns) {
    if (row == cost.length) {
      return 0;
    }
    double least = Double.POSITIVE_INFINITY;
    for (int column = 0; column < cost[row].length; column++) {
      if ((usedColumns >> column & 1) == 0) {
        least = Math.min(least, cost[row][column] + best(cost, row + 1, usedColumns | 1 << column));
      }
    }
    return least;
  }

  @Test
  void everyOptimumIsTheBestOfAllAssignments() {
    for (Row row : ReferenceTables.load("assignment/optima").rows()) {
      double[][] cost = row.matrix("cost");
      double sign = row.truth("maximise") ? -1 : 1;
      for (double[] line : cost) {
        for (int j = 0; j < line.length; j++) {
          line[j] *= sign;
        }
      }
      assertThat(sign * best(cost, 0, 0)).isEqualTo(row.number("optimum"));
      int[] columns = row.integers("columns");
      double sum = 0;
      Set<Integer> used = new HashSet<>();
      for (int i = 0; i < columns.length; i++) {
        sum += sign * cost[i][columns[i]];
        used.add(columns[i]);
      }
      assertThat(used).hasSize(cost.length);
      assertThat(sum).isCloseTo(row.number("optimum"), within(0.0));
    }
  }

  @Test
  void partitionsTellEveryConductorApart() {
    for (Row row : ReferenceTables.load("wire-identification/partitions").rows()) {
      int n = row.integer("n");
      int[] a = blockSizes(n, row.matrix("a"));
      int[] b = blockSizes(n, row.matrix("b"));
      Set<Integer> pairs = new HashSet<>();
      for (int i = 1; i <= n; i++) {
        assertThat(pairs.add(1000 * a[i] + b[i])).as("n=" + n + " element=" + i).isTrue();
      }
    }
  }

  private static int[] blockSizes(int n, double[][] blocks) {
    int[] sizes = new int[n + 1];
    for (double[] block : blocks) {
      for (double element : block) {
        assertThat(sizes[(int) element]).as("element in two blocks=" + element).isZero();
        sizes[(int) element] = block.length;
      }
    }
    for (int i = 1; i <= n; i++) {
      assertThat(sizes[i]).as("element in no block=" + i).isPositive();
    }
    return sizes;
  }
}
