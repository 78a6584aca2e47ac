package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import java.time.Duration;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;

/** Published optima (test-fixtures/reference, assignment.yaml), and every permutation tried. */
class AssignmentTest {
  private static final long SEED = 16_16;

  @Test
  void publishedOptima() {
    Row[] rows = ReferenceTables.load("assignment/optima").rows().toArray(Row[]::new);
    assertThat(rows).hasSize(10);
    for (Row row : rows) {
      double[][] cost = row.matrix("cost");
      double turned = 0;
      if (row.truth("maximise")) {
        turned = Arrays.stream(cost).flatMapToDouble(Arrays::stream).max().orElseThrow();
        for (double[] line : cost) {
          for (int j = 0; j < line.length; j++) {
            line[j] = turned - line[j];
          }
        }
      }
      Assignment assignment = new Assignment(cost);
      double total = turned > 0 ? cost.length * turned - assignment.cost() : assignment.cost();
      assertThat(total).as(row.text("source")).isEqualTo(row.number("optimum"));
      Best best = new Best(cost, -1, -1);
      if (best.ways == 1) {
        assertThat(assignment.columns()).isEqualTo(row.integers("columns"));
      }
    }
  }

  /** Cheapest assignment by trying all. */
  private static final class Best {
    private final double[][] cost;
    private final int forbiddenRow;
    private final int forbiddenColumn;
    private double least = Double.POSITIVE_INFINITY;
    private int ways;

    Best(double[][] cost, int forbiddenRow, int forbiddenColumn) {
      this.cost = cost;
      this.forbiddenRow = forbiddenRow;
      this.forbiddenColumn = forbiddenColumn;
      place(0, new boolean[cost[0].length], 0);
    }

    private void place(int row, boolean[] taken, double sum) {
      if (row == cost.length) {
        ways = sum < least - 1e-9 ? 1 : sum < least + 1e-9 ? ways + 1 : ways;
        least = Math.min(least, sum);
        return;
      }
      for (int column = 0; column < taken.length; column++) {
        if (!taken[column] && !(row == forbiddenRow && column == forbiddenColumn)) {
          taken[column] = true;
          place(row + 1, taken, sum + cost[row][column]);
          taken[column] = false;
        }
      }
    }
  }

  private static double[][] draw(SplittableRandom random, int rows, int columns, double most) {
    double[][] cost = new double[rows][columns];
    for (double[] row : cost) {
      // One in four is a whole number of hundreds, so that ties occur.
      Arrays.setAll(
          row,
          j ->
              random.nextInt(4) == 0
                  ? Math.min(most, 100 * random.nextInt(7))
                  : random.nextDouble(0, most));
    }
    return cost;
  }

  /** Optimum and every margin, square, rectangular and with ties. */
  @Test
  void marginsAgainstAllPermutations() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int draw = 0; draw < 300; draw++) {
      int columns = 2 + random.nextInt(6);
      int rows = 1 + random.nextInt(columns);
      double[][] cost = draw(random, rows, columns, draw % 2 == 0 ? 600 : 5);
      Assignment assignment = new Assignment(cost);
      String name = "seed=" + SEED + " draw=" + draw;
      double least = new Best(cost, -1, -1).least;
      assertThat(assignment.cost()).as(name).isCloseTo(least, within(2e-5));
      int[] chosen = assignment.columns();
      assertThat(chosen).as(name).doesNotHaveDuplicates();
      for (int row = 0; row < rows; row++) {
        double second = new Best(cost, row, chosen[row]).least;
        assertThat(assignment.margin(row))
            .as(name + " row=" + row)
            .isCloseTo(second - least, within(4e-5));
      }
    }
  }

  @Test
  void tiesHaveNoMargin() {
    Assignment assignment = new Assignment(new double[][] {{3, 3}, {7, 7}});
    assertThat(assignment.cost()).isEqualTo(10);
    assertThat(assignment.margin(0)).isZero();
    assertThat(assignment.margin(1)).isZero();
  }

  /** Of what has no second there is no doubt. */
  @Test
  void alone() {
    assertThat(new Assignment(new double[][] {{4}}).margin(0)).isInfinite();
    assertThat(new Assignment(new double[][] {{4, 6, 5}}).margin(0)).isEqualTo(1);
    assertThat(new Assignment(new double[0][]).columns()).isEmpty();
    assertThatThrownBy(() -> new Assignment(new double[][] {{1}, {2}}))
        .hasMessage("rows=2 columns=1");
  }

  /** A cost that is no number would have the solver search for ever. */
  @Test
  void refusesCostsItCannotCompare() {
    for (double bad : new double[] {Double.NaN, Double.POSITIVE_INFINITY, -1, 1.1e4}) {
      assertThatThrownBy(() -> new Assignment(new double[][] {{1, bad}, {2, 3}}))
          .hasMessage("row=0 column=1 cost=" + bad);
    }
  }

  /** A second best that costs more than a single place may. */
  @Test
  void dearSecondBestIsStillFound() {
    double[][] cost = new double[16][16];
    for (int i = 0; i < 16; i++) {
      Arrays.fill(cost[i], 1e4);
      cost[i][i] = 0;
    }
    assertThat(new Assignment(cost).margin(3)).isEqualTo(2e4);
    for (int i = 0; i < 16; i++) {
      // Row 0 leaves for the cheaper 1, whose row then has only dear ones to go to.
      Arrays.fill(cost[i], 9e3);
      cost[i][i] = 0;
      cost[i][(i + 1) % 16] = 8e3;
    }
    assertThat(new Assignment(cost).margin(0)).isEqualTo(17e3);
  }

  /**
   * Sums of rounded differences have kept such solvers going round for ever: capped costs and ties,
   * as the plug's map makes them. The limit is a guard against that, thousands of times what is
   * needed.
   */
  @Test
  void twoThousandFullPlugsComeToAnEnd() {
    SplittableRandom random = new SplittableRandom(SEED + 1);
    Assertions.assertTimeoutPreemptively(
        Duration.ofSeconds(120),
        () -> {
          for (int draw = 0; draw < 2000; draw++) {
            double[][] cost = draw(random, 16, 16, 600);
            for (double[] row : cost) {
              double least = Arrays.stream(row).min().orElse(0);
              Arrays.setAll(row, j -> row[j] - least);
            }
            Assignment assignment = new Assignment(cost);
            int row = random.nextInt(16);
            assertThat(assignment.margin(row))
                .as("seed=" + (SEED + 1) + " draw=" + draw)
                .isGreaterThanOrEqualTo(0);
          }
        });
  }
}
