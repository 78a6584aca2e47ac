package bellwire.analysis.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.uncertainty.Propagation.Outcome;
import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import bellwire.reference.Table;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;

/**
 * The worked examples of JCGM 100:2008 (GUM), annex H, and of JCGM 101:2008, clause 9, from
 * test-fixtures/reference, gum.yaml, where each table names its source and status.
 */
class PropagationTest {
  private static final List<String> INPUTS = List.of("V", "I", "phi");
  private static final List<String> RESULTS = List.of("R", "X", "Z");

  private static double mean(double[] x) {
    return Arrays.stream(x).sum() / x.length;
  }

  /** Covariance of two means, GUM equation (17). */
  private static double covariance(double[] x, double[] y) {
    double sum = 0;
    for (int i = 0; i < x.length; i++) {
      sum += (x[i] - mean(x)) * (y[i] - mean(y));
    }
    return sum / x.length / (x.length - 1);
  }

  /** Mean and standard uncertainty of the mean of simultaneous readings, and how they correlate. */
  private static Propagation ofReadings(double[]... readings) {
    Quantity[] inputs = new Quantity[readings.length];
    for (int i = 0; i < inputs.length; i++) {
      inputs[i] =
          new Quantity(mean(readings[i]), Math.sqrt(covariance(readings[i], readings[i])), "");
    }
    Propagation all = Propagation.of(inputs);
    for (int i = 0; i < inputs.length; i++) {
      for (int j = 0; j < i; j++) {
        double r = covariance(readings[i], readings[j]) / inputs[i].u() / inputs[j].u();
        all = all.correlated(i, j, r);
      }
    }
    return all;
  }

  private static double[][] impedanceReadings() {
    Table data = ReferenceTables.load("gum/h2-data");
    return new double[][] {
      data.column("volts"), data.column("milliamps"), data.column("phaseRadians")
    };
  }

  private static Outcome impedance(Propagation inputs) {
    return inputs.through(
        x -> 1000 * x[0] / x[1] * Math.cos(x[2]),
        x -> 1000 * x[0] / x[1] * Math.sin(x[2]),
        x -> 1000 * x[0] / x[1]);
  }

  private static Outcome same(Propagation inputs) {
    return inputs.through(x -> x[0], x -> x[1], x -> x[2]);
  }

  /** H.2, approach 1, against a recomputation at full precision: to the last digit it prints. */
  @Test
  void impedanceH2AtFullPrecision() {
    Propagation inputs = ofReadings(impedanceReadings());
    for (Row row : ReferenceTables.load("gum/h2-full-precision").rows()) {
      assertQuantity(row, inputs, 0.51);
    }
    for (Row row : ReferenceTables.load("gum/h2-full-precision-correlations").rows()) {
      assertThat(correlation(row, inputs))
          .as(row.text("between") + row.text("and"))
          .isCloseTo(row.number("coefficient"), within(0.51 * row.lastPlace("coefficient")));
    }
  }

  /** H.2 as printed, to one unit in the last place. */
  @Test
  void impedanceH2AsPublished() {
    Propagation inputs = ofReadings(impedanceReadings());
    for (Row row : ReferenceTables.load("gum/h2-published").rows()) {
      assertQuantity(row, inputs, 1);
    }
    for (Row row : ReferenceTables.load("gum/h2-published-correlations").rows()) {
      assertThat(correlation(row, inputs))
          .isCloseTo(row.number("coefficient"), within(row.lastPlace("coefficient")));
    }
  }

  /** Known sensitivities, GUM H.2.4, give what difference quotients give. */
  @Test
  void suppliedSensitivitiesAgree() {
    Propagation inputs = ofReadings(impedanceReadings());
    Outcome at = same(inputs);
    double v = at.value(0);
    double i = at.value(1) / 1000;
    double phi = at.value(2);
    double r = v / i * Math.cos(phi);
    double x = v / i * Math.sin(phi);
    Outcome supplied =
        inputs.through(
            new double[] {r, x, v / i},
            new double[][] {
              {r / v, -r / i / 1000, -x}, {x / v, -x / i / 1000, r}, {1 / i, -v / i / i / 1000, 0}
            });
    Outcome differences = impedance(inputs);
    for (int k = 0; k < 3; k++) {
      assertThat(differences.u(k)).isCloseTo(supplied.u(k), within(1e-8 * supplied.u(k)));
      for (int l = 0; l < k; l++) {
        assertThat(differences.correlation(k, l))
            .isCloseTo(supplied.correlation(k, l), within(1e-7));
      }
    }
  }

  /** What H.2 gives when its correlations are left out, table H.5. */
  @Test
  void impedanceH2WithoutCorrelations() {
    Propagation given = ofReadings(impedanceReadings());
    Outcome at = same(given);
    Propagation inputs =
        Propagation.of(at.quantity(0, "V"), at.quantity(1, "mA"), at.quantity(2, "rad"));
    Outcome outcome = impedance(inputs);
    Table table = ReferenceTables.load("gum/h2-correlations-neglected");
    assertThat(table.status().decides()).isTrue();
    for (Row row : table.rows()) {
      if (row.has("quantity")) {
        assertThat(outcome.u(RESULTS.indexOf(row.text("quantity"))))
            .isCloseTo(row.number("uncertainty"), within(row.lastPlace("uncertainty")));
      } else {
        assertThat(correlation(row, inputs))
            .isCloseTo(row.number("coefficient"), within(row.lastPlace("coefficient")));
      }
    }
  }

  private static void assertQuantity(Row row, Propagation inputs, double places) {
    String name = row.text("quantity");
    Quantity q =
        INPUTS.contains(name)
            ? same(inputs).quantity(INPUTS.indexOf(name), "")
            : impedance(inputs).quantity(RESULTS.indexOf(name), "");
    assertThat(q.value())
        .as(name)
        .isCloseTo(row.number("value"), within(places * row.lastPlace("value")));
    assertThat(q.u())
        .as("u of " + name)
        .isCloseTo(row.number("uncertainty"), within(places * row.lastPlace("uncertainty")));
  }

  private static double correlation(Row row, Propagation inputs) {
    String a = row.text("between");
    String b = row.text("and");
    return INPUTS.contains(a)
        ? same(inputs).correlation(INPUTS.indexOf(a), INPUTS.indexOf(b))
        : impedance(inputs).correlation(RESULTS.indexOf(a), RESULTS.indexOf(b));
  }

  /** H.1, the end gauge: first order, zero-valued inputs among them. */
  @Test
  void endGaugeH1() {
    Table table = ReferenceTables.load("gum/h1-inputs");
    Quantity[] inputs =
        table.rows().stream()
            .map(
                row ->
                    new Quantity(
                        row.number("value"),
                        row.has("halfWidth")
                            ? row.number("halfWidth") / Math.sqrt(3)
                            : row.number("uncertainty"),
                        ""))
            .toArray(Quantity[]::new);
    ToDoubleFunction<double[]> length =
        x -> x[0] + x[1] - x[0] * (x[4] * x[3] + x[2] * x[5]); // GUM equation (H.3)
    Outcome outcome = Propagation.of(inputs).through(length);
    Row expected = ReferenceTables.load("gum/h1-results").only();
    assertThat(outcome.value(0))
        .isCloseTo(expected.number("lengthNm"), within(expected.lastPlace("lengthNm")));
    assertThat(outcome.u(0))
        .isCloseTo(
            expected.number("uncertaintyNmMoreDigits"),
            within(expected.lastPlace("uncertaintyNmMoreDigits")));
    for (int i = 4; i < 6; i++) {
      Quantity[] alone = inputs.clone();
      for (int j = 0; j < alone.length; j++) {
        alone[j] = j == i ? inputs[j] : new Quantity(inputs[j].value(), 0, "");
      }
      Row row = table.rows().get(i);
      assertThat(Propagation.of(alone).through(length).u(0))
          .isCloseTo(row.number("contributionNm"), within(row.lastPlace("contributionNm")));
    }
  }

  /** H.3, a thermometer's line: intercept and slope from eleven corrections, then used at 30 °C. */
  @Test
  void calibrationLineH3() {
    Row data = ReferenceTables.load("gum/h3-data").only();
    double[] theta =
        Arrays.stream(data.numbers("celsius"))
            .map(t -> t - data.number("referenceCelsius"))
            .toArray();
    double[] b = data.numbers("correctionCelsius");
    ToDoubleFunction<double[]> slope =
        y -> {
          double top = 0;
          double bottom = 0;
          for (int i = 0; i < theta.length; i++) {
            top += (theta[i] - mean(theta)) * y[i];
            bottom += (theta[i] - mean(theta)) * (theta[i] - mean(theta));
          }
          return top / bottom;
        };
    ToDoubleFunction<double[]> intercept = y -> mean(y) - slope.applyAsDouble(y) * mean(theta);
    double squares = 0;
    for (int i = 0; i < theta.length; i++) {
      double left = b[i] - intercept.applyAsDouble(b) - slope.applyAsDouble(b) * theta[i];
      squares += left * left;
    }
    double s = Math.sqrt(squares / (theta.length - 2));
    Outcome line =
        Propagation.of(
                Arrays.stream(b).mapToObj(x -> new Quantity(x, s, "K")).toArray(Quantity[]::new))
            .through(intercept, slope);
    Quantity at30 =
        Propagation.of(line.quantity(0, "K"), line.quantity(1, "K/K"))
            .correlated(0, 1, line.correlation(0, 1))
            .through(y -> y[0] + y[1] * (30 - data.number("referenceCelsius")))
            .quantity(0, "K");
    double[] got = {
      line.value(0),
      line.u(0),
      line.value(1),
      line.u(1),
      line.correlation(0, 1),
      s,
      at30.value(),
      at30.u()
    };
    List<String> names =
        List.of(
            "y1",
            "y1Uncertainty",
            "y2",
            "y2Uncertainty",
            "correlation",
            "residualDeviation",
            "at30",
            "at30Uncertainty");
    for (String table : List.of("gum/h3-published", "gum/h3-full-precision")) {
      Row expected = ReferenceTables.load(table).only();
      for (int i = 0; i < got.length; i++) {
        assertThat(got[i])
            .as(table + " " + names.get(i))
            .isCloseTo(
                expected.number(names.get(i)), within(0.51 * expected.lastPlace(names.get(i))));
      }
    }
  }

  /** JCGM 101, 9.3: the first order, which the standard shows to be too little. */
  @Test
  void massCalibration101ToFirstOrder() {
    Quantity[] inputs =
        ReferenceTables.load("gum/jcgm-101-mass-inputs").rows().stream()
            .map(
                row ->
                    row.has("mean")
                        ? new Quantity(row.number("mean"), row.number("uncertainty"), "mg")
                        : new Quantity(
                            (row.number("low") + row.number("high")) / 2,
                            (row.number("high") - row.number("low")) / 2 / Math.sqrt(3),
                            "kg/m3"))
            .toArray(Quantity[]::new);
    Outcome outcome =
        Propagation.of(inputs)
            .through(x -> (x[0] + x[1]) * (1 + (x[2] - 1.2) * (1 / x[3] - 1 / x[4])) - 100_000);
    Row expected = ReferenceTables.load("gum/jcgm-101-mass-results").row("method", "first order");
    assertThat(outcome.value(0))
        .isCloseTo(expected.number("valueMg"), within(expected.lastPlace("valueMg")));
    assertThat(outcome.u(0))
        .isCloseTo(expected.number("uncertaintyMg"), within(expected.lastPlace("uncertaintyMg")));
  }

  /**
   * JCGM 101, 9.4: near a vertex the first order is known to fail, far from it agrees with the
   * exact deviation √(4 x1² u² + 4 u⁴) as well as u²/(2 x1²) lets it.
   */
  @Test
  void comparisonLoss101ToFirstOrder() {
    double u = 0.005;
    for (Row row : ReferenceTables.load("gum/jcgm-101-loss-moments").rows()) {
      double x1 = row.number("x1");
      double first =
          1e6
              * Propagation.of(new Quantity(x1, u, ""), new Quantity(0, u, ""))
                  .through(x -> x[0] * x[0] + x[1] * x[1])
                  .u(0);
      double exact = row.number("deviationMillionths");
      assertThat(first).isLessThan(exact);
      if (x1 == 0) {
        assertThat(first).isCloseTo(0, within(1e-9));
      } else {
        assertThat(first).isCloseTo(exact, within(exact * u * u / (2 * x1 * x1) + 0.01));
      }
    }
  }

  /** Any linear model of random correlated inputs: C Σ Cᵀ by plain matrix multiplication. */
  @Test
  void linearModelsAsTheMatrixProduct() {
    SplittableRandom random = new SplittableRandom(20_240_611);
    for (int draw = 0; draw < 200; draw++) {
      int n = 2 + random.nextInt(5);
      double[][] mix = gaussian(n, n, random);
      double[][] sigma = times(mix, transposed(mix));
      double[][] c = gaussian(2, n, random);
      Quantity[] inputs = new Quantity[n];
      for (int i = 0; i < n; i++) {
        inputs[i] = new Quantity(random.nextGaussian(), Math.sqrt(sigma[i][i]), "");
      }
      Propagation all = Propagation.of(inputs);
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < i; j++) {
          all = all.correlated(i, j, sigma[i][j] / Math.sqrt(sigma[i][i] * sigma[j][j]));
        }
      }
      double[][] expected = times(times(c, sigma), transposed(c));
      Outcome outcome = all.through(x -> dot(c[0], x), x -> dot(c[1], x));
      double size = Math.sqrt(expected[0][0] * expected[1][1]);
      for (int k = 0; k < 2; k++) {
        for (int l = 0; l < 2; l++) {
          assertThat(outcome.covariance(k, l))
              .as("draw=" + draw)
              .isCloseTo(expected[k][l], within(1e-9 * (size + n * n)));
        }
      }
    }
  }

  @Test
  void refusesWhatNoVariablesCanDo() {
    Quantity one = new Quantity(1, 1, "");
    assertThatThrownBy(() -> Propagation.of(one, one).correlated(0, 1, 1.5))
        .hasMessageContaining("coefficient=1.5");
    Propagation impossible =
        Propagation.of(one, one, one)
            .correlated(0, 1, -0.9)
            .correlated(0, 2, -0.9)
            .correlated(1, 2, -0.9);
    assertThatThrownBy(() -> impossible.through(x -> x[0] + x[1] + x[2]))
        .hasMessageContaining("variance=-");
    assertThatThrownBy(() -> Propagation.of(new Quantity(1e20, 1, "")).through(x -> x[0]))
        .hasMessageContaining("value=1.0E20");
    assertThat(Propagation.of(one, one).correlated(0, 1, -1).through(x -> x[0] + x[1]).u(0))
        .isZero();
  }

  /**
   * Three variables can correlate by −1/2 each at the least: their sum is then certain. Rounding of
   * the coefficients takes the sum's variance, −6 times what they are off by, below zero: in the
   * eleventh place that is rounding, in the sixth a mistake, whatever the units.
   */
  @Test
  void coefficientsMayBeOffByTheirRoundingOnly() {
    for (double u : new double[] {1e-6, 1e-3, 1, 1e3}) {
      for (double slope : new double[] {1e-3, 1, 1e3}) {
        double[][] c = {{slope, slope, slope}};
        Outcome rounded = thirds(u, -0.50000000001).through(new double[1], c);
        assertThat(rounded.u(0)).as("u=%s slope=%s", u, slope).isZero();
        assertThat(rounded.covariance(0, 0)).isNegative();
        Propagation mistaken = thirds(u, -0.500001);
        assertThatThrownBy(() -> mistaken.through(new double[1], c))
            .as("u=%s slope=%s", u, slope)
            .hasMessageContaining("result=0 variance=-");
      }
    }
  }

  private static Propagation thirds(double u, double coefficient) {
    Quantity one = new Quantity(0, u, "");
    return Propagation.of(one, one, one)
        .correlated(0, 1, coefficient)
        .correlated(0, 2, coefficient)
        .correlated(1, 2, coefficient);
  }

  /** What nothing is known of leaves its sum unknown, not without a number. */
  @Test
  void anInputThatNothingIsKnownOfMakesItsSumUnknown() {
    Propagation inputs = Propagation.of(Quantity.ohms(1, 0.1), Quantity.ohms(2, 1 / 0.0));
    Outcome outcome = inputs.through(new double[] {3}, new double[][] {{1, 1}});
    assertThat(outcome.u(0)).isInfinite();
    assertThat(outcome.quantity(0, "ohm")).hasToString("3.00000 ± Infinity ohm");
  }

  @Test
  void refusesSensitivitiesOfAnotherShape() {
    Propagation two = Propagation.of(Quantity.ohms(1, 0.1), Quantity.ohms(2, 0.1));
    double[][] row = {{1, 1}};
    assertThatThrownBy(() -> two.through(new double[] {3, 4}, row))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("results=2 rows=1");
    assertThatThrownBy(() -> two.through(new double[0], row)).hasMessage("results=0 rows=1");
    assertThatThrownBy(() -> two.through(new double[] {3}, new double[][] {{1, 1, 1}}))
        .hasMessage("inputs=2 columns=3");
    assertThatThrownBy(() -> two.through(new double[] {3, 4}, new double[][] {{1, 1}, {1}}))
        .hasMessage("inputs=2 columns=1");
  }

  private static double[][] gaussian(int rows, int columns, SplittableRandom random) {
    double[][] out = new double[rows][columns];
    for (double[] row : out) {
      Arrays.setAll(row, i -> random.nextGaussian());
    }
    return out;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  private static double[][] transposed(double[][] a) {
    double[][] out = new double[a[0].length][a.length];
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < a[0].length; j++) {
        out[j][i] = a[i][j];
      }
    }
    return out;
  }

  private static double[][] times(double[][] a, double[][] b) {
    double[][] columns = transposed(b);
    double[][] out = new double[a.length][columns.length];
    for (int i = 0; i < a.length; i++) {
      for (int j = 0; j < columns.length; j++) {
        out[i][j] = dot(a[i], columns[j]);
      }
    }
    return out;
  }
}
