package bellwire.analysis.fault;

import bellwire.analysis.uncertainty.Quantity;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;
import org.jspecify.annotations.Nullable;

/**
 * Where cut conductors are cut: the capacitance of their near stubs against whole fellows, by least
 * squares over all readings. The capacitance per metre drops out; how unlike conductors are is
 * taken from the whole ones themselves, with a prior. Theory (28) and (29).
 */
public final class BreakPlace {
  /**
   * Share of a conductor's capacitance that is to metal, without one's knowing the cable. Common
   * practice, no source.
   */
  public static final double METAL_SHARE = 0.07;

  private static final double U_METAL_SHARE = 0.04;

  /** Spread of a pair's capacitance, relative half-width. Common practice, no source. */
  public static final double PAIR_SPREAD = 0.02;

  /** What the prior of the spread counts for, in degrees of freedom. */
  private static final double SPREAD_FREEDOM = 3;

  /** Anywhere on the run. */
  private static final double ANYWHERE = 0.5;

  private static final double LEAST_REACH = -0.2;
  private static final double MOST_REACH = 1 - 1e-5;
  private static final double STEP = 1e-6;
  private static final int ROUNDS = 3;
  private static final int STEPS = 60;

  /**
   * Conductors charged together, and what they showed.
   *
   * @param conductors by their index in the cable
   * @param farads to all the others at common, the ports' stray capacitance included
   */
  public record Charged(List<Integer> conductors, Quantity farads) {}

  private final CutCable cable;
  private final double strayFarads;
  private final double uStrayFarads;

  /**
   * @param stray of one port to common
   */
  public BreakPlace(CutCable cable, Quantity stray) {
    this.cable = cable;
    strayFarads = stray.value();
    uStrayFarads = stray.u();
  }

  /**
   * What a charge of these conductors together should show.
   *
   * @param wholeFarads of a whole conductor to all others and metal at common, without stray
   * @param reach where each conductor is cut, as a fraction; 1 for a whole one
   * @param pairSpread relative half-width of a pair's capacitance
   * @return the figure with the uncertainty that spread and stray leave, noise not included
   */
  public Quantity expected(
      List<Integer> conductors, double wholeFarads, double[] reach, double pairSpread) {
    Charged charged = new Charged(conductors, new Quantity(0, 0, "F"));
    double[] value = values(List.of(charged), wholeFarads, reach, METAL_SHARE);
    DMatrixRMaj covariance =
        covariance(List.of(charged), wholeFarads, reach, METAL_SHARE, pairSpread / Math.sqrt(3));
    return new Quantity(value[0], Math.sqrt(covariance.get(0, 0)), "F");
  }

  /**
   * The places that fit best.
   *
   * @param charged all that was read, of whole conductors too
   * @param cut conductors that are known to be cut, by index
   * @return by conductor, the fraction of the run from the near end, 0 to 1; empty where no whole
   *     conductor was read by itself, or nothing fits; a cut conductor that was not read is left
   *     out
   */
  public Map<Integer, Quantity> places(List<Charged> charged, List<Integer> cut) {
    double whole = wholeFarads(charged, cut);
    if (Double.isNaN(whole) || cut.isEmpty()) {
      return Map.of();
    }
    double[] point = new double[cut.size() + 2];
    point[1] = METAL_SHARE;
    for (int i = 0; i < cut.size(); i++) {
      point[i + 2] = firstGuess(charged, cut.get(i), whole);
    }
    double spread = PAIR_SPREAD / Math.sqrt(3);
    Fit fit = null;
    int freedom = Math.max(0, charged.size() - 1 - readCuts(charged, cut));
    for (int round = 0; round < ROUNDS; round++) {
      fit = new Fit(charged, cut, whole, point, spread);
      double[] solved = fit.solve(point);
      if (solved == null) {
        return Map.of();
      }
      point = solved;
      double squares = fit.squares(point);
      spread *= Math.sqrt((SPREAD_FREEDOM + squares) / (SPREAD_FREEDOM + freedom));
      spread = Math.max(spread, 0.1 * PAIR_SPREAD);
    }
    // A standard deviation from few is less certain than its figure: the variance of Student's t.
    double widening = Math.sqrt((SPREAD_FREEDOM + freedom) / (SPREAD_FREEDOM + freedom - 2));
    double[] u = new Fit(charged, cut, whole, point, widening * spread).uncertainties(point);
    Map<Integer, Quantity> places = new LinkedHashMap<>();
    for (int i = 0; i < cut.size(); i++) {
      if (read(charged, cut.get(i))) {
        double at = Math.max(0, Math.min(1, point[i + 2]));
        places.put(cut.get(i), new Quantity(at, u[i + 2], "of the run"));
      }
    }
    return places;
  }

  private static boolean read(List<Charged> charged, int conductor) {
    return charged.stream().anyMatch(c -> c.conductors().contains(conductor));
  }

  private static int readCuts(List<Charged> charged, List<Integer> cut) {
    return (int) cut.stream().filter(c -> read(charged, c)).count();
  }

  /** Median of the whole ones read by themselves, NaN without any. */
  private double wholeFarads(List<Charged> charged, List<Integer> cut) {
    double[] whole =
        charged.stream()
            .filter(c -> c.conductors().size() == 1 && !cut.contains(c.conductors().get(0)))
            .mapToDouble(c -> c.farads().value() - strayFarads)
            .sorted()
            .toArray();
    return whole.length == 0 || !(whole[whole.length / 2] > 0)
        ? Double.NaN
        : whole[whole.length / 2];
  }

  private double firstGuess(List<Charged> charged, int conductor, double whole) {
    return charged.stream()
        .filter(c -> c.conductors().equals(List.of(conductor)))
        .mapToDouble(c -> (c.farads().value() - strayFarads) / whole)
        .map(x -> Math.max(0.01, Math.min(0.99, x)))
        .findFirst()
        .orElse(0.5);
  }

  private double[] values(List<Charged> charged, double whole, double[] reach, double metalShare) {
    double[][] matrix = cable.matrix(reach, metalShare);
    double[] values = new double[charged.size()];
    for (int r = 0; r < values.length; r++) {
      List<Integer> together = charged.get(r).conductors();
      values[r] = strayFarads * together.size();
      for (int i : together) {
        for (int j : together) {
          values[r] += whole * matrix[i][j];
        }
      }
    }
    return values;
  }

  /**
   * Of the readings: noise, stray, and each pair's own deviation, which the two readings that it
   * belongs to share.
   *
   * @param spread relative standard deviation of a pair's capacitance, and of one to metal
   */
  private DMatrixRMaj covariance(
      List<Charged> charged, double whole, double[] reach, double metalShare, double spread) {
    int n = charged.size();
    DMatrixRMaj covariance = new DMatrixRMaj(n, n);
    double pair = spread * whole * (1 - metalShare) / (cable.conductors() - 1);
    double metal = spread * whole * metalShare;
    for (int r = 0; r < n; r++) {
      List<Integer> own = charged.get(r).conductors();
      double u = charged.get(r).farads().u();
      double variance = u * u + own.size() * uStrayFarads * uStrayFarads;
      for (int i : own) {
        variance += square(metal * near(reach, i));
        for (int j = 0; j < reach.length; j++) {
          variance += own.contains(j) ? 0 : square(pair * Math.min(near(reach, i), near(reach, j)));
        }
        for (int s = 0; s < n; s++) {
          for (int j : s == r ? List.<Integer>of() : charged.get(s).conductors()) {
            covariance.add(r, s, square(pair * Math.min(near(reach, i), near(reach, j))));
          }
        }
      }
      covariance.add(r, r, variance);
    }
    return covariance;
  }

  private static double near(double[] reach, int i) {
    return Math.max(0, Math.min(1, reach[i]));
  }

  private static double square(double x) {
    return x * x;
  }

  /**
   * Unknowns: ln of the whole capacitance over the first guess, share to metal, the places. With
   * the weights of one point.
   */
  private final class Fit implements MultivariateJacobianFunction {
    private final List<Charged> charged;
    private final List<Integer> cut;
    private final double whole;
    private final DMatrixRMaj whitening;

    Fit(List<Charged> charged, List<Integer> cut, double whole, double[] point, double spread) {
      this.charged = charged;
      this.cut = cut;
      this.whole = whole;
      whitening = covariance(charged, whole * Math.exp(point[0]), reach(point), point[1], spread);
      Whitening.replaceByInverseFactor(whitening);
    }

    private double[] reach(double[] point) {
      double[] reach = new double[cable.conductors()];
      Arrays.fill(reach, 1);
      for (int i = 0; i < cut.size(); i++) {
        reach[cut.get(i)] = point[i + 2];
      }
      return reach;
    }

    double @Nullable [] solve(double[] start) {
      try {
        return new LevenbergMarquardtOptimizer()
            .optimize(
                new LeastSquaresBuilder()
                    .model(this)
                    .target(new double[charged.size() + start.length - 1])
                    .start(start)
                    .parameterValidator(Fit::bounded)
                    .maxEvaluations(STEPS)
                    .maxIterations(STEPS)
                    .build())
            .getPoint()
            .toArray();
      } catch (MathIllegalStateException e) {
        return null;
      }
    }

    private static RealVector bounded(RealVector point) {
      RealVector bounded = point.copy();
      bounded.setEntry(1, Math.max(0, Math.min(0.5, point.getEntry(1))));
      for (int i = 2; i < point.getDimension(); i++) {
        bounded.setEntry(i, Math.max(LEAST_REACH, Math.min(MOST_REACH, point.getEntry(i))));
      }
      return bounded;
    }

    /** Of the readings alone, without the priors. */
    double squares(double[] point) {
      double sum = 0;
      double[] residuals = residuals(point);
      for (int r = 0; r < charged.size(); r++) {
        sum += residuals[r] * residuals[r];
      }
      return sum;
    }

    private double[] residuals(double[] point) {
      double[] values = values(charged, whole * Math.exp(point[0]), reach(point), point[1]);
      DMatrixRMaj off = new DMatrixRMaj(values.length, 1);
      for (int r = 0; r < values.length; r++) {
        off.set(r, 0, values[r] - charged.get(r).farads().value());
      }
      DMatrixRMaj white = new DMatrixRMaj(values.length, 1);
      CommonOps_DDRM.mult(whitening, off, white);
      double[] residuals = Arrays.copyOf(white.getData(), values.length + point.length - 1);
      residuals[values.length] = (point[1] - METAL_SHARE) / U_METAL_SHARE;
      for (int i = 2; i < point.length; i++) {
        residuals[values.length + i - 1] = (point[i] - 0.5) / ANYWHERE;
      }
      return residuals;
    }

    private double[][] jacobian(double[] point) {
      double[] here = residuals(point);
      double[][] jacobian = new double[here.length][point.length];
      for (int p = 0; p < point.length; p++) {
        double[] beside = point.clone();
        beside[p] -= STEP; // downwards: a place may stand at the far end
        double[] there = residuals(beside);
        for (int r = 0; r < here.length; r++) {
          jacobian[r][p] = (here[r] - there[r]) / STEP;
        }
      }
      return jacobian;
    }

    @Override
    public Pair<RealVector, org.hipparchus.linear.RealMatrix> value(RealVector at) {
      double[] point = at.toArray();
      return new Pair<>(
          new ArrayRealVector(residuals(point), false),
          new Array2DRowRealMatrix(jacobian(point), false));
    }

    double[] uncertainties(double[] point) {
      DMatrixRMaj normal = new DMatrixRMaj(point.length, point.length);
      CommonOps_DDRM.multInner(new DMatrixRMaj(jacobian(point)), normal);
      double[] u = new double[point.length];
      Arrays.fill(u, Double.POSITIVE_INFINITY);
      if (CommonOps_DDRM.invert(normal)) {
        for (int p = 0; p < u.length; p++) {
          u[p] = Math.sqrt(Math.max(0, normal.get(p, p)));
        }
      }
      return u;
    }
  }
}
