package bellwire.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import org.junit.jupiter.api.Test;

/**
 * CUSUM run lengths by the integral equation L(x) = 1 + L(0) F(k - x - m) + int L(y) f(y + k - x -
 * m) dy over 0..h, solved with Simpson's rule; the Nile's change point by trying every year.
 */
class ChangePointsRecomputedTest {

  private static final int NODES = 241;

  /** Bound on the relative error: with so many nodes 4e-7 from a 400-point Gauss-Legendre rule. */
  private static final double SOLUTION = 1e-6;

  private static double density(double x) {
    return Math.exp(-x * x / 2) / Math.sqrt(2 * Math.PI);
  }

  /** Normal distribution by Simpson's rule, good to 1e-12 in the range used here. */
  private static double below(double x) {
    if (x < -12) {
      return 0;
    }
    int steps = 2000;
    double width = (Math.min(x, 12) + 12) / steps;
    double sum = 0;
    for (int i = 0; i <= steps; i++) {
      sum += simpson(i, steps) * density(-12 + i * width);
    }
    return sum * width / 3;
  }

  private static double simpson(int i, int last) {
    return i == 0 || i == last ? 1 : i % 2 == 1 ? 4 : 2;
  }

  /** Average run lengths of a one-sided CUSUM, by where in 0..h it starts. */
  private static double[] runLengths(double k, double h, double mean) {
    double width = h / (NODES - 1);
    double[][] a = new double[NODES][NODES];
    double[] ones = new double[NODES];
    for (int i = 0; i < NODES; i++) {
      double x = i * width;
      ones[i] = 1;
      a[i][i] += 1;
      a[i][0] -= below(k - x - mean);
      for (int j = 0; j < NODES; j++) {
        double weight = simpson(j, NODES - 1) * width / 3;
        a[i][j] -= weight * density(j * width + k - x - mean);
      }
    }
    return Elimination.solve(a, ones);
  }

  private static double twoSided(double k, double h, double mean, double headstart) {
    double[] up = runLengths(k, h, mean);
    double[] down = runLengths(k, h, -mean);
    int start = (int) Math.round(headstart / h * (NODES - 1));
    // Lucas and Crosier: while one sum stands above its headstart the other has come back to 0.
    return (up[start] * down[0] + down[start] * up[0] - up[0] * down[0]) / (up[0] + down[0]);
  }

  @Test
  void twoSidedRunLengths() {
    for (Row row : ReferenceTables.load("change-points/cusum-two-sided-computed").rows()) {
      double headstart = row.has("headstart") ? row.number("headstart") : 0;
      checkTwoSided(row, headstart, 0.51);
    }
    for (Row row : ReferenceTables.load("change-points/cusum-two-sided").rows()) {
      double headstart = row.has("headstart") ? row.number("headstart") : 0;
      checkTwoSided(row, headstart, 1.01);
    }
  }

  private static void checkTwoSided(Row row, double headstart, double lastPlaces) {
    double[] means = row.numbers("means");
    for (int i = 0; i < means.length; i++) {
      var printed = row.exacts("runLengths").get(i);
      assertThat(printed.doubleValue())
          .as(row.table() + " h=" + row.text("h") + " mean=" + means[i])
          .isCloseTo(
              twoSided(0.5, row.number("h"), means[i], headstart),
              within(lastPlaces * printed.ulp().doubleValue() + SOLUTION * printed.doubleValue()));
    }
  }

  @Test
  void oneSidedRunLengths() {
    for (String table : new String[] {"cusum-one-sided", "cusum-one-sided-computed"}) {
      for (Row row : ReferenceTables.load("change-points/" + table).rows()) {
        String cell = row.has("computed") ? "computed" : "runLengths";
        double[] means = row.numbers("means");
        for (int i = 0; i < means.length; i++) {
          var printed = row.exacts(cell).get(i);
          assertThat(printed.doubleValue())
              .as(row.text("k") + " " + row.text("h") + " mean=" + means[i])
              .isCloseTo(
                  runLengths(row.number("k"), row.number("h"), means[i])[0],
                  within(0.51 * printed.ulp().doubleValue() + SOLUTION * printed.doubleValue()));
          assertThat(row.numbers("runLengths")[i])
              .isCloseTo(printed.doubleValue(), within(0.005 * printed.doubleValue()));
        }
      }
    }
  }

  @Test
  void furtherRunLengths() {
    for (Row row : ReferenceTables.load("change-points/cusum-further").rows()) {
      double k = row.number("k");
      double h = row.number("h");
      double headstart = row.number("headstart");
      double mean = row.number("mean");
      int start = (int) Math.round(headstart / h * (NODES - 1));
      double length =
          row.integer("sides") == 2
              ? twoSided(k, h, mean, headstart)
              : runLengths(k, h, mean)[start];
      double computed = row.number("computed");
      assertThat(computed)
          .as(row.text("source"))
          .isCloseTo(length, within(0.51 * row.lastPlace("computed") + SOLUTION * computed));
      assertThat(row.number("runLength")).isCloseTo(computed, within(0.001 * computed));
    }
  }

  @Test
  void pettittTable() {
    Row row = ReferenceTables.load("change-points/pettitt-1979").only();
    double[] x = row.numbers("values");
    int before = 0;
    double most = 0;
    for (int split = 1; split < x.length; split++) {
      double signs = 0;
      for (int i = 0; i < split; i++) {
        for (int j = split; j < x.length; j++) {
          signs += Math.signum(x[i] - x[j]);
        }
      }
      before = Math.abs(signs) > most ? split : before;
      most = Math.max(most, Math.abs(signs));
    }
    assertThat(most).isEqualTo(row.number("statistic"));
    assertThat(before).isEqualTo(row.integer("before"));
    double cubed = Math.pow(x.length, 3) + Math.pow(x.length, 2);
    assertThat(row.number("chance"))
        .isCloseTo(2 * Math.exp(-6 * most * most / cubed), within(0.000051));
  }

  @Test
  void handbookSeriesSumsAndAlarm() {
    double[] values =
        ReferenceTables.load("change-points/handbook-series").only().numbers("values");
    double[] sums = ReferenceTables.load("change-points/handbook-sums").only().numbers("sums");
    Row tabular = ReferenceTables.load("change-points/handbook-tabular").only();
    double k = tabular.number("k");
    double sum = 0;
    double high = 0;
    int alarm = 0;
    for (int i = 0; i < values.length; i++) {
      sum += values[i] - 325;
      assertThat(sums[i]).isCloseTo(sum, within(1e-9));
      high = Math.max(0, high + values[i] - 325 - k);
      if (i >= 12) {
        assertThat(tabular.numbers("high")[i - 12]).isCloseTo(high, within(1e-9));
      }
      alarm = alarm == 0 && high > tabular.number("h") ? i + 1 : alarm;
    }
    assertThat(alarm).isEqualTo(tabular.integer("firstAlarm"));
  }

  @Test
  void nile() {
    double[] flow = ReferenceTables.load("change-points/nile-data").only().numbers("flow");
    Row said = ReferenceTables.load("change-points/nile-computed").only();
    double mean = Arrays.stream(flow).average().orElseThrow();
    assertThat(Arrays.stream(flow).sum()).isEqualTo(said.number("sum"));
    assertThat(Math.sqrt(squares(flow, 0, 100) / 99))
        .isCloseTo(said.number("deviation"), within(5.1e-6));
    assertThat(squares(flow, 0, 100)).isCloseTo(said.number("unsplitSumOfSquares"), within(0.0051));
    int best = 1;
    int pettittYear = 0;
    double pettitt = 0;
    double cumulative = 0;
    double greatest = 0;
    for (int split = 1; split < 100; split++) {
      best = splitSquares(flow, split) < splitSquares(flow, best) ? split : best;
      cumulative += flow[split - 1] - mean;
      greatest = Math.max(greatest, Math.abs(cumulative));
      double signs = 0;
      for (int i = 0; i < split; i++) {
        for (int j = split; j < 100; j++) {
          signs += Math.signum(flow[i] - flow[j]);
        }
      }
      if (Math.abs(signs) > pettitt) {
        pettitt = Math.abs(signs);
        pettittYear = 1870 + split;
      }
    }
    assertThat(1870 + best).isEqualTo(said.integer("splitYear"));
    assertThat(splitSquares(flow, best))
        .isCloseTo(said.number("splitSumOfSquares"), within(5.1e-5));
    assertThat(greatest).isCloseTo(said.number("greatestCumulativeDeviation"), within(0.051));
    assertThat(pettitt).isEqualTo(said.number("pettitt"));
    assertThat(pettittYear)
        .isEqualTo(ReferenceTables.load("change-points/nile-change").only().integer("year"));
    int[] years = said.integers("runnersUpYears");
    for (int i = 0; i < years.length; i++) {
      assertThat(splitSquares(flow, years[i] - 1870))
          .isCloseTo(said.numbers("runnersUpSumsOfSquares")[i], within(0.0051));
    }
  }

  private static double splitSquares(double[] x, int split) {
    return squares(x, 0, split) + squares(x, split, x.length);
  }

  private static double squares(double[] x, int from, int to) {
    double mean = Arrays.stream(x, from, to).average().orElseThrow();
    return Arrays.stream(x, from, to).map(v -> (v - mean) * (v - mean)).sum();
  }
}
