package bellwire.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import org.assertj.core.data.Percentage;
import org.junit.jupiter.api.Test;

/** NIST StRD at forty digits: the certified values have fifteen. */
class StrdRecomputedTest {

  private static final MathContext FORTY = new MathContext(40);
  private static final Percentage FOURTEEN_DIGITS = Percentage.withPercentage(1e-12);

  private static BigDecimal sum(List<BigDecimal> values) {
    return values.stream().reduce(BigDecimal.ZERO, BigDecimal::add);
  }

  private static BigDecimal mean(List<BigDecimal> values) {
    return sum(values).divide(BigDecimal.valueOf(values.size()), FORTY);
  }

  /** Sum of products of deviations from the means, the second series shifted by a lag. */
  private static BigDecimal products(List<BigDecimal> x, List<BigDecimal> y, int lag) {
    BigDecimal mx = mean(x);
    BigDecimal my = mean(y);
    BigDecimal total = BigDecimal.ZERO;
    for (int i = lag; i < x.size(); i++) {
      total = total.add(x.get(i).subtract(mx).multiply(y.get(i - lag).subtract(my)));
    }
    return total;
  }

  private static List<BigDecimal> values(Row row) {
    if (row.has("values")) {
      return row.exacts("values");
    }
    List<BigDecimal> values = new ArrayList<>(List.of(row.exact("first")));
    for (int i = 0; i < row.integer("cycles"); i++) {
      values.addAll(row.exacts("cycle"));
    }
    return values;
  }

  @Test
  void univariateSets() {
    for (Row row : ReferenceTables.load("strd/univariate").rows()) {
      List<BigDecimal> values = values(row);
      BigDecimal squares = products(values, values, 0);
      BigDecimal variance = squares.divide(BigDecimal.valueOf(values.size() - 1L), FORTY);
      String set = row.text("set");
      assertThat(mean(values).doubleValue()).as(set).isCloseTo(row.number("mean"), FOURTEEN_DIGITS);
      assertThat(variance.sqrt(FORTY).doubleValue())
          .as(set)
          .isCloseTo(row.number("deviation"), FOURTEEN_DIGITS);
      assertThat(products(values, values, 1).divide(squares, FORTY).doubleValue())
          .as(set)
          .isCloseTo(row.number("lag1"), FOURTEEN_DIGITS);
    }
  }

  @Test
  void norris() {
    Row data = ReferenceTables.load("strd/norris-data").only();
    Row certified = ReferenceTables.load("strd/norris-certified").only();
    List<BigDecimal> x = data.exacts("x");
    List<BigDecimal> y = data.exacts("y");
    assertThat(x).hasSize(36);
    BigDecimal sxx = products(x, x, 0);
    BigDecimal slope = products(x, y, 0).divide(sxx, FORTY);
    BigDecimal intercept = mean(y).subtract(slope.multiply(mean(x)));
    BigDecimal regression = slope.multiply(slope).multiply(sxx);
    BigDecimal residual = products(y, y, 0).subtract(regression);
    BigDecimal meanSquare = residual.divide(BigDecimal.valueOf(34), FORTY);
    check(certified, "slope", slope);
    check(certified, "intercept", intercept);
    check(certified, "regressionSumOfSquares", regression);
    check(certified, "residualSumOfSquares", residual);
    check(certified, "residualMeanSquare", meanSquare);
    check(certified, "residualDeviation", meanSquare.sqrt(FORTY));
    check(certified, "slopeDeviation", meanSquare.divide(sxx, FORTY).sqrt(FORTY));
    BigDecimal perMean =
        mean(x).pow(2).divide(sxx, FORTY).add(BigDecimal.ONE.divide(BigDecimal.valueOf(36), FORTY));
    check(certified, "interceptDeviation", meanSquare.multiply(perMean).sqrt(FORTY));
    check(certified, "rSquared", regression.divide(products(y, y, 0), FORTY));
  }

  @Test
  void withoutIntercept() {
    for (Row row : ReferenceTables.load("strd/no-intercept").rows()) {
      double[] x = row.numbers("x");
      double[] y = row.numbers("y");
      double xx = 0;
      double xy = 0;
      double yy = 0;
      for (int i = 0; i < x.length; i++) {
        xx += x[i] * x[i];
        xy += x[i] * y[i];
        yy += y[i] * y[i];
      }
      double residual = yy - xy * xy / xx;
      assertThat(xy / xx).isCloseTo(row.number("slope"), within(1e-14));
      assertThat(Math.sqrt(residual / (x.length - 1) / xx))
          .isCloseTo(row.number("slopeDeviation"), within(1e-12));
      assertThat(1 - residual / yy).isCloseTo(row.number("rSquared"), within(1e-13));
    }
  }

  private static void check(Row certified, String cell, BigDecimal value) {
    assertThat(value.doubleValue()).as(cell).isCloseTo(certified.number(cell), FOURTEEN_DIGITS);
  }
}
