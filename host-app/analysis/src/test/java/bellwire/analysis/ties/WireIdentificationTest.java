package bellwire.analysis.ties;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * The published problem (Knowlton and Graham): groups of any size, and the far reader sees only how
 * large the group of each conductor is. Tables in {@code wire-identification}.
 */
class WireIdentificationTest {

  /** At most one conductor lies in an A-block of one size and a B-block of another. */
  @Test
  void publishedPartitionsTellEveryConductorBySizesAlone() {
    for (Row row : ReferenceTables.load("wire-identification/partitions").rows()) {
      int[] a = sizes(row.matrix("a"));
      int[] b = sizes(row.matrix("b"));
      Set<List<Integer>> pairs = new HashSet<>();
      for (int i = 1; i <= row.integer("n"); i++) {
        assertThat(pairs.add(List.of(a[i], b[i]))).as("n=%d i=%d", row.integer("n"), i).isTrue();
      }
    }
  }

  /** And who sees which ports are joined sees their sizes: the decoder finds everyone. */
  @Test
  void publishedPartitionsHaveNoSymmetryEither() {
    for (Row row : ReferenceTables.load("wire-identification/partitions").rows()) {
      int n = row.integer("n");
      Joined joined = new Joined(n, false, 2);
      String[] names = {"a", "b"};
      for (int layer = 0; layer < 2; layer++) {
        for (double[] block : row.matrix(names[layer])) {
          for (double element : block) {
            joined.join(layer, (int) block[0] - 1, (int) element - 1);
          }
        }
      }
      boolean[][] possible;
      try {
        possible = new Likeness(joined, joined).possible();
      } catch (Likeness.Exhausted e) {
        throw new AssertionError(e);
      }
      assertThat(possible).isNotNull();
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          assertThat(possible[i][j]).as("n=%d %d %d", n, i, j).isEqualTo(i == j);
        }
      }
    }
  }

  private static int[] sizes(double[][] blocks) {
    int[] sizes = new int[100];
    for (double[] block : blocks) {
      for (double element : block) {
        sizes[(int) element] = block.length;
      }
    }
    return sizes;
  }

  /**
   * Knuth's lemma 1: a 0/1 matrix with row sums r(j) divisible by j, column sums c(k) divisible by
   * k and total n; by Gale and Ryser there is one where the conjugate of the one sequence dominates
   * the other.
   */
  @Test
  void publishedExceptionsAreTheOnlyOnes() {
    Row row = ReferenceTables.load("wire-identification/existence-computed").only();
    List<Integer> without = new ArrayList<>();
    for (int n = 1; n <= row.integer("upTo"); n++) {
      if (!exists(n)) {
        without.add(n);
      }
    }
    assertThat(without).containsExactlyElementsOf(ints(row));
    Row published = ReferenceTables.load("wire-identification/existence").only();
    assertThat(without).containsExactlyElementsOf(ints(published));
  }

  private static List<Integer> ints(Row row) {
    return Arrays.stream(row.integers("exceptions")).boxed().toList();
  }

  private static boolean exists(int n) {
    List<int[]> margins = new ArrayList<>();
    margins(n, 1, n, new int[n + 1], margins);
    for (int[] rows : margins) {
      for (int[] columns : margins) {
        if (galeRyser(rows, columns)) {
          return true;
        }
      }
    }
    return false;
  }

  /** Sequences m(1..n), m(j) divisible by j, with this sum, sorted falling. */
  private static void margins(int left, int j, int n, int[] m, List<int[]> all) {
    if (left == 0) {
      int[] sorted = m.clone();
      Arrays.sort(sorted);
      int[] falling = new int[n];
      for (int i = 0; i < n; i++) {
        falling[i] = sorted[n - i];
      }
      if (all.stream().noneMatch(other -> Arrays.equals(other, falling))) {
        all.add(falling);
      }
      return;
    }
    if (j > n || j > left) {
      return;
    }
    for (int value = 0; value <= left; value += j) {
      m[j] = value;
      margins(left - value, j + 1, n, m, all);
    }
    m[j] = 0;
  }

  private static boolean galeRyser(int[] rows, int[] columns) {
    int rowSum = 0;
    for (int k = 1; k <= rows.length; k++) {
      rowSum += rows[k - 1];
      int most = 0;
      for (int c : columns) {
        most += Math.min(c, k);
      }
      if (rowSum > most) {
        return false;
      }
    }
    return true;
  }
}
