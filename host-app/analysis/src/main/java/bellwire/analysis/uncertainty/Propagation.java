package bellwire.analysis.uncertainty;

import java.util.function.ToDoubleFunction;

/**
 * The law of propagation of uncertainty for several results of the same, possibly correlated,
 * inputs: GUM (JCGM 100:2008) equations (13) and (16), for several results equation (H.9). First
 * order: a model that bends within an input's uncertainty needs propagation of distributions
 * instead (JCGM 101). Not modified after it is made. Theory (24).
 */
public final class Propagation {
  /**
   * A sensitivity is the difference quotient over this share of the input's uncertainty to either
   * side. GUM 5.1.3 takes the whole uncertainty; a small share leaves out the model's bend.
   */
  private static final double STEP = 1.0 / 128;

  /** How far rounded coefficients may take a variance below zero, relative to the inputs' own. */
  private static final double ROUNDING = 1e-9;

  private final double[] values;
  private final double[] u;
  private final double[][] r;

  private Propagation(double[] values, double[] u, double[][] r) {
    this.values = values;
    this.u = u;
    this.r = r;
  }

  /** Independent inputs, in the order in which models take them. */
  public static Propagation of(Quantity... inputs) {
    int n = inputs.length;
    double[] values = new double[n];
    double[] u = new double[n];
    double[][] r = new double[n][n];
    for (int i = 0; i < n; i++) {
      values[i] = inputs[i].value();
      u[i] = inputs[i].u();
      r[i][i] = 1;
    }
    return new Propagation(values, u, r);
  }

  /**
   * The same inputs, two of them correlated.
   *
   * @param coefficient −1 to 1, GUM equation (14)
   */
  public Propagation correlated(int a, int b, double coefficient) {
    if (a == b || !(Math.abs(coefficient) <= 1)) {
      throw new IllegalArgumentException("a=" + a + " b=" + b + " coefficient=" + coefficient);
    }
    double[][] changed = new double[r.length][];
    for (int i = 0; i < r.length; i++) {
      changed[i] = r[i].clone();
    }
    changed[a][b] = coefficient;
    changed[b][a] = coefficient;
    return new Propagation(values, u, changed);
  }

  /** Passes the inputs through one model for each result; sensitivities by central differences. */
  @SafeVarargs
  public final Outcome through(ToDoubleFunction<double[]>... models) {
    double[] results = new double[models.length];
    double[][] sensitivities = new double[models.length][values.length];
    for (int m = 0; m < models.length; m++) {
      results[m] = models[m].applyAsDouble(values.clone());
      for (int i = 0; i < values.length; i++) {
        sensitivities[m][i] = slope(models[m], i);
      }
    }
    return through(results, sensitivities);
  }

  /**
   * The same with sensitivities that are known.
   *
   * @param results m values
   * @param sensitivities m × n: change of each result with each input
   */
  public Outcome through(double[] results, double[][] sensitivities) {
    int m = results.length;
    if (sensitivities.length != m) {
      throw new IllegalArgumentException("results=" + m + " rows=" + sensitivities.length);
    }
    for (double[] row : sensitivities) {
      if (row.length != values.length) {
        throw new IllegalArgumentException("inputs=" + values.length + " columns=" + row.length);
      }
    }
    double[][] covariance = new double[m][m];
    for (int k = 0; k < m; k++) {
      for (int l = 0; l < m; l++) {
        covariance[k][l] = covariance(sensitivities[k], sensitivities[l]);
      }
      if (covariance[k][k] < -ROUNDING * independentVariance(sensitivities[k])) {
        throw new IllegalArgumentException(
            "no variables correlate like that: result=" + k + " variance=" + covariance[k][k]);
      }
    }
    return new Outcome(results.clone(), covariance);
  }

  private double slope(ToDoubleFunction<double[]> model, int i) {
    if (u[i] == 0) {
      return 0; // it contributes nothing, whatever its slope
    }
    double[] above = values.clone();
    double[] below = values.clone();
    above[i] += STEP * u[i];
    below[i] -= STEP * u[i];
    double width = above[i] - below[i];
    if (!(width > 0)) {
      throw new IllegalArgumentException(
          "u is lost in the rounding of value=" + values[i] + " u=" + u[i]);
    }
    return (model.applyAsDouble(above) - model.applyAsDouble(below)) / width;
  }

  private double covariance(double[] c, double[] d) {
    double sum = 0;
    for (int i = 0; i < c.length; i++) {
      for (int j = 0; j < c.length; j++) {
        if (r[i][j] != 0) {
          sum += c[i] * d[j] * u[i] * u[j] * r[i][j];
        }
      }
    }
    return sum;
  }

  private double independentVariance(double[] c) {
    double sum = 0;
    for (int i = 0; i < c.length; i++) {
      sum += c[i] * c[i] * u[i] * u[i];
    }
    return sum;
  }

  /** What came of it, in the order of the models. */
  public static final class Outcome {
    private final double[] results;
    private final double[][] covariance;

    private Outcome(double[] results, double[][] covariance) {
      this.results = results;
      this.covariance = covariance;
    }

    public double value(int k) {
      return results[k];
    }

    /** Combined standard uncertainty. */
    public double u(int k) {
      return Math.sqrt(Math.max(0, covariance[k][k]));
    }

    public double covariance(int k, int l) {
      return covariance[k][l];
    }

    /** Correlation coefficient of two results; NaN where one of them has no uncertainty. */
    public double correlation(int k, int l) {
      return covariance[k][l] / (u(k) * u(l));
    }

    public Quantity quantity(int k, String unit) {
      return new Quantity(results[k], u(k), unit);
    }
  }
}
