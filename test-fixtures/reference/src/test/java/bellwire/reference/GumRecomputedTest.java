package bellwire.reference;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;

/** JCGM 100 H.1 to H.3 and JCGM 101 9.2 to 9.4, from their data by the plain formulae. */
class GumRecomputedTest {

  private static double mean(double[] x) {
    return Arrays.stream(x).average().orElseThrow();
  }

  /** Covariance of two means, JCGM 100 equation 17. */
  private static double meanCovariance(double[] x, double[] y) {
    double sum = 0;
    for (int i = 0; i < x.length; i++) {
      sum += (x[i] - mean(x)) * (y[i] - mean(y));
    }
    return sum / (x.length * (x.length - 1.0));
  }

  private static void near(Row row, String cell, double value, double lastPlaces) {
    assertThat(row.number(cell))
        .as(row.table() + " " + row.cells())
        .isCloseTo(value, within(lastPlaces * row.lastPlace(cell)));
  }

  /** Values, standard uncertainties and covariances of the quantities of H.2 by approach 1. */
  private static Map<String, double[]> h2Gradients(double v, double i, double phi) {
    Map<String, double[]> gradients = new LinkedHashMap<>();
    double c = Math.cos(phi);
    double s = Math.sin(phi);
    gradients.put("V", new double[] {v, 1, 0, 0});
    gradients.put("I", new double[] {i, 0, 1, 0});
    gradients.put("phi", new double[] {phi, 0, 0, 1});
    gradients.put("R", new double[] {v / i * c, c / i, -v / i / i * c, -v / i * s});
    gradients.put("X", new double[] {v / i * s, s / i, -v / i / i * s, v / i * c});
    gradients.put("Z", new double[] {v / i, 1 / i, -v / i / i, 0});
    return gradients;
  }

  private static double covariance(double[] g, double[] h, double[][] of) {
    double sum = 0;
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < 3; j++) {
        sum += g[i + 1] * h[j + 1] * of[i][j];
      }
    }
    return sum;
  }

  @Test
  void h2Approach1() {
    Table data = ReferenceTables.load("gum/h2-data");
    double[][] x = {
      data.column("volts"),
      Arrays.stream(data.column("milliamps")).map(a -> a / 1000).toArray(),
      data.column("phaseRadians")
    };
    double[][] cov = new double[3][3];
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < 3; j++) {
        cov[i][j] = meanCovariance(x[i], x[j]);
      }
    }
    Map<String, double[]> g = h2Gradients(mean(x[0]), mean(x[1]), mean(x[2]));
    for (String table : new String[] {"gum/h2-published", "gum/h2-full-precision"}) {
      for (Row row : ReferenceTables.load(table).rows()) {
        String quantity = row.text("quantity");
        double scale = quantity.equals("I") ? 1000 : 1;
        double[] gradient = g.get(quantity);
        near(row, "value", gradient[0] * scale, 0.51);
        // The published u(X) is that of approach 2, one unit of its last place below.
        near(row, "uncertainty", Math.sqrt(covariance(gradient, gradient, cov)) * scale, 1.01);
      }
      for (Row row : ReferenceTables.load(table + "-correlations").rows()) {
        double[] p = g.get(row.text("between"));
        double[] q = g.get(row.text("and"));
        double r = covariance(p, q, cov) / Math.sqrt(covariance(p, p, cov) * covariance(q, q, cov));
        near(row, "coefficient", r, 1.01);
      }
    }
    double[][] diagonal = {{cov[0][0], 0, 0}, {0, cov[1][1], 0}, {0, 0, cov[2][2]}};
    for (Row row : ReferenceTables.load("gum/h2-correlations-neglected").rows()) {
      if (row.has("quantity")) {
        double[] gradient = g.get(row.text("quantity"));
        near(row, "uncertainty", Math.sqrt(covariance(gradient, gradient, diagonal)), 1.01);
      }
    }
  }

  @Test
  void h2Approach2() {
    Table data = ReferenceTables.load("gum/h2-data");
    Map<String, double[]> perRow = new LinkedHashMap<>();
    for (String quantity : new String[] {"R", "X", "Z"}) {
      perRow.put(
          quantity,
          data.rows().stream()
              .mapToDouble(
                  row ->
                      h2Gradients(
                              row.number("volts"),
                              row.number("milliamps") / 1000,
                              row.number("phaseRadians"))
                          .get(quantity)[0])
              .toArray());
    }
    for (Row row : ReferenceTables.load("gum/h2-approach-2").rows()) {
      double[] z = perRow.get(row.text("quantity"));
      near(row, "value", mean(z), 0.51);
      near(row, "uncertainty", Math.sqrt(meanCovariance(z, z)), 0.51);
      assertThat(row.numbers("observations")).containsExactly(z, within(0.00051));
    }
    for (Row row : ReferenceTables.load("gum/h2-approach-2-correlations").rows()) {
      double[] p = perRow.get(row.text("between"));
      double[] q = perRow.get(row.text("and"));
      near(
          row,
          "coefficient",
          meanCovariance(p, q) / Math.sqrt(meanCovariance(p, p) * meanCovariance(q, q)),
          0.51);
    }
  }

  @Test
  void h1CombinesItsComponents() {
    Table inputs = ReferenceTables.load("gum/h1-inputs");
    double length = inputs.row("quantity", "standardLengthNm").number("value");
    Row difference = inputs.row("quantity", "differenceNm");
    double squares = Arrays.stream(difference.numbers("parts")).map(u -> u * u).sum();
    near(difference, "uncertainty", Math.sqrt(squares), 0.6);
    Row expansion = inputs.row("quantity", "expansionDifferencePerKelvin");
    Row deviation = inputs.row("quantity", "deviationKelvin");
    Row temperature = inputs.row("quantity", "temperatureDifferenceKelvin");
    double fromExpansion =
        length * deviation.number("value") * expansion.number("halfWidth") / Math.sqrt(3);
    double fromTemperature =
        length
            * inputs.row("quantity", "expansionPerKelvin").number("value")
            * temperature.number("halfWidth")
            / Math.sqrt(3);
    near(expansion, "contributionNm", Math.abs(fromExpansion), 0.51);
    near(temperature, "contributionNm", fromTemperature, 0.51);
    Row result = ReferenceTables.load("gum/h1-results").only();
    double standard = inputs.row("quantity", "standardLengthNm").number("uncertainty");
    double combined =
        Math.sqrt(
            standard * standard
                + squares
                + fromExpansion * fromExpansion
                + fromTemperature * fromTemperature);
    near(result, "uncertaintyNmMoreDigits", combined, 0.6);
    assertThat(length + difference.number("value")).isEqualTo(result.number("lengthNm"));
    double halfWidth = deviation.number("partArcsineHalfWidth");
    near(
        deviation,
        "uncertainty",
        Math.hypot(deviation.number("partNormal"), halfWidth / Math.sqrt(2)),
        0.51);
    double degrees =
        Math.pow(combined, 4)
            / (Math.pow(standard, 4) / 18
                + Math.pow(Math.sqrt(squares), 4) / 25.6
                + Math.pow(fromExpansion, 4) / 50
                + Math.pow(fromTemperature, 4) / 2);
    near(result, "effectiveDegreesOfFreedomMoreDigits", degrees, 1.01);
  }

  @Test
  void h3FitsItsLine() {
    Row data = ReferenceTables.load("gum/h3-data").only();
    double reference = data.number("referenceCelsius");
    double[] x = Arrays.stream(data.numbers("celsius")).map(t -> t - reference).toArray();
    double[] y = data.numbers("correctionCelsius");
    int n = x.length;
    double sxx = 0;
    double sxy = 0;
    for (int i = 0; i < n; i++) {
      sxx += (x[i] - mean(x)) * (x[i] - mean(x));
      sxy += (x[i] - mean(x)) * (y[i] - mean(y));
    }
    double slope = sxy / sxx;
    double intercept = mean(y) - slope * mean(x);
    double residual = 0;
    for (int i = 0; i < n; i++) {
      residual += Math.pow(y[i] - intercept - slope * x[i], 2);
    }
    double s = Math.sqrt(residual / (n - 2));
    double slopeU = s / Math.sqrt(sxx);
    double interceptU = s * Math.sqrt(1.0 / n + mean(x) * mean(x) / sxx);
    for (String table : new String[] {"gum/h3-published", "gum/h3-full-precision"}) {
      Row row = ReferenceTables.load(table).only();
      near(row, "y1", intercept, 0.51);
      near(row, "y1Uncertainty", interceptU, 0.51);
      near(row, "y2", slope, 0.51);
      near(row, "y2Uncertainty", slopeU, 0.51);
      near(row, "correlation", -mean(x) * slopeU * slopeU / (slopeU * interceptU), 0.51);
      near(row, "residualDeviation", s, 0.51);
      near(row, "at30", intercept + 10 * slope, 0.51);
      near(row, "at30Uncertainty", s * Math.sqrt(1.0 / n + Math.pow(10 - mean(x), 2) / sxx), 0.51);
    }
  }

  /** JCGM 101 9.2: a sum of four rectangular variables has a piecewise cubic distribution. */
  @Test
  void additiveModels() {
    for (Row row : ReferenceTables.load("gum/jcgm-101-additive").rows()) {
      double[] u = row.numbers("deviations");
      double combined = Math.sqrt(Arrays.stream(u).map(d -> d * d).sum());
      near(row, "uncertainty", combined, 0.51);
      double high =
          row.text("inputs").equals("four normal")
              ? 1.959964 * combined
              : bisect(x -> rectangularSumBelow(u, x) - 0.975, 0, 4 * combined);
      near(row, "high", high, 0.51);
      if (row.has("highByPropagation")) {
        near(row, "highByPropagation", 1.959964 * combined, 0.51);
      }
    }
  }

  /**
   * Probability that the sum of centred rectangular variables is at most x (inclusion-exclusion).
   */
  private static double rectangularSumBelow(double[] deviations, double x) {
    int n = deviations.length;
    double[] half = Arrays.stream(deviations).map(d -> d * Math.sqrt(3)).toArray();
    double total = Arrays.stream(half).sum();
    double sum = 0;
    double volume = 1;
    for (double h : half) {
      volume *= 2 * h;
    }
    for (int subset = 0; subset < 1 << n; subset++) {
      double reach = x + total;
      for (int k = 0; k < n; k++) {
        reach -= (subset >> k & 1) == 0 ? 0 : 2 * half[k];
      }
      double sign = Integer.bitCount(subset) % 2 == 0 ? 1 : -1;
      sum += sign * Math.pow(Math.max(0, reach), n);
    }
    return sum / (24 * volume);
  }

  private static double bisect(DoubleUnaryOperator f, double low, double high) {
    double a = low;
    double b = high;
    for (int i = 0; i < 100; i++) {
      double middle = (a + b) / 2;
      if (f.applyAsDouble(middle) < 0) {
        a = middle;
      } else {
        b = middle;
      }
    }
    return a;
  }

  @Test
  void lossMomentsAndMassToFirstOrder() {
    double u = 0.005;
    for (Row row : ReferenceTables.load("gum/jcgm-101-loss-moments").rows()) {
      double x1 = row.number("x1");
      near(row, "meanMillionths", 1e6 * (x1 * x1 + 2 * u * u), 0.51);
      near(
          row,
          "deviationMillionths",
          1e6 * Math.sqrt(4 * x1 * x1 * u * u + 4 * Math.pow(u, 4)),
          0.51);
      if (row.has("highMillionths")) {
        near(row, "highMillionths", -2e6 * u * u * Math.log(0.05), 0.51);
      }
    }
    Table mass = ReferenceTables.load("gum/jcgm-101-mass-inputs");
    double first =
        Math.hypot(
            mass.row("quantity", "mRcMg").number("uncertainty"),
            mass.row("quantity", "dmRcMg").number("uncertainty"));
    Row result = ReferenceTables.load("gum/jcgm-101-mass-results").row("method", "first order");
    near(result, "uncertaintyMg", first, 0.51);
    near(result, "highMg", 1.234 + 1.959964 * first, 1.01);
  }
}
