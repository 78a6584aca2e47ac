package bellwire.analysis.survey;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.StarPhase.Observation;
import bellwire.analysis.uncertainty.Quantity;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.ejml.data.DMatrixRMaj;
import org.hipparchus.exception.MathIllegalStateException;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.DiagonalMatrix;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresBuilder;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresOptimizer.Optimum;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresProblem;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.optim.nonlinear.vector.leastsquares.MultivariateJacobianFunction;
import org.hipparchus.util.Pair;
import org.jspecify.annotations.Nullable;

/**
 * Fits the arms of the star to all its readings at once, with the bridges that the open phase found
 * and the board's own dividers in the circuit. Theory (11) and (12). Where along the run a bridge
 * sits is not known: the fit is made with all of them at the near end and again with all at the far
 * end, and the difference widens the uncertainty. In place they are the equipment, at the near end.
 */
final class StarFit {
  private static final double PRIOR_OHMS = 1000;
  private static final int STEPS = 100;
  private static final int ROUNDS = 20;

  private final BoardModel board;
  private final Network bridges;
  private final List<Integer> ports;
  private final List<Observation> observations;
  private final int guard;
  private final boolean landed;
  private final Map<Integer, Integer> index = new LinkedHashMap<>();

  /**
   * @param landed whether what joins ports is known to be at the near end
   */
  StarFit(
      BoardModel board,
      OpenResult open,
      int guard,
      List<Observation> observations,
      boolean landed) {
    this.landed = landed;
    this.board = board;
    this.bridges = landed ? asRead(open) : open.network();
    this.ports = open.ports();
    this.observations = observations;
    this.guard = guard;
    for (Observation o : observations) {
      index.putIfAbsent(o.a(), index.size());
    }
    for (Observation o : observations) {
      index.putIfAbsent(o.b(), index.size());
    }
  }

  /**
   * What the equipment joins, its elements scaled until the distances between their ends are those
   * read: beside a jumper of a few milliohm the errors of distances would make a secondary's
   * resistance half or twice what it is.
   */
  private static Network asRead(OpenResult open) {
    Network network = open.network();
    for (int round = 0; round < ROUNDS; round++) {
      Network next = new Network(Ports.COUNT);
      for (int a = 0; a < Ports.COUNT; a++) {
        for (int b = a + 1; b < Ports.COUNT; b++) {
          double siemens = network.between(a, b);
          Quantity read = open.distances()[a][b];
          if (siemens > 0) {
            boolean told = read != null && read.value() > read.u();
            double share = told ? network.resistanceDistance(a, b) / read.value() : 1;
            next.join(a, b, siemens * share);
          }
        }
      }
      network = next;
    }
    return network;
  }

  /**
   * Fits all arms. Each conductor was read as the first of a triple, so there are as many readings
   * as arms or more. Where no arms explain the readings, each is as uncertain as the prior.
   */
  Map<Integer, Quantity> arms() {
    double[] near = fit(null);
    double[] far = near == null || landed || !bridged() ? near : fit(along(near));
    Map<Integer, Quantity> arms = new LinkedHashMap<>();
    if (near == null || far == null) {
      observations.forEach(o -> arms.put(o.a(), Quantity.ohms(o.ohms().value(), PRIOR_OHMS)));
      return arms;
    }
    double[] u = uncertainties(near);
    for (Map.Entry<Integer, Integer> e : index.entrySet()) {
      int i = e.getValue();
      // The truth lies between the two places, and the reading does not say where. Half their
      // distance counts as one
      // standard uncertainty, more than a rectangle's: a position on the plug must not rest on it.
      double place = Math.abs(near[i] - far[i]) / 2;
      arms.put(e.getKey(), Quantity.ohms((near[i] + far[i]) / 2, Math.hypot(u[i], place)));
    }
    return arms;
  }

  private boolean bridged() {
    for (int a : ports) {
      for (int b : ports) {
        if (a != b && bridges.between(a, b) > 0) {
          return true;
        }
      }
    }
    return false;
  }

  private static double[] along(double[] near) {
    double most = leastAlong(near);
    return Arrays.stream(near).map(s -> Math.min(s, most)).toArray();
  }

  /**
   * Conductor resistance to assume ahead of a bridge at the far end: no more than 6 ohm, no more
   * than the least arm.
   */
  private static double leastAlong(double[] near) {
    double least = 6;
    for (double s : near) {
      least = Math.min(least, 0.9 * s);
    }
    return Math.max(least, 0);
  }

  private double @Nullable [] fit(double @Nullable [] along) {
    Optimum optimum = solve(along);
    return optimum == null ? null : optimum.getPoint().toArray();
  }

  /**
   * From the inverse of the normal matrix. A weak prior keeps it regular: an arm that the readings
   * do not tell from another's is left as uncertain as the prior.
   */
  private double[] uncertainties(double[] point) {
    double[][] jacobian = model(null).at(point).jacobian();
    int n = point.length;
    DMatrixRMaj normal = new DMatrixRMaj(n, n);
    for (int k = 0; k < jacobian.length; k++) {
      double u = observations.get(k).ohms().u();
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          normal.add(i, j, jacobian[k][i] * jacobian[k][j] / (u * u));
        }
      }
    }
    for (int i = 0; i < n; i++) {
      normal.add(i, i, 1 / (PRIOR_OHMS * PRIOR_OHMS));
    }
    DMatrixRMaj covariance = StarModel.inverse(normal);
    double[] u = new double[n];
    for (int i = 0; i < n; i++) {
      u[i] = Math.sqrt(covariance.get(i, i));
    }
    return u;
  }

  /** Null where no arms explain the readings. */
  private @Nullable Optimum solve(double @Nullable [] along) {
    int n = index.size();
    double[] target = new double[observations.size()];
    double[] weight = new double[target.length];
    double[] start = new double[n];
    Arrays.fill(start, 1);
    for (int k = 0; k < target.length; k++) {
      Observation o = observations.get(k);
      target[k] = o.ohms().value();
      weight[k] = 1 / (o.ohms().u() * o.ohms().u());
      Integer i = index.get(o.a());
      if (i != null) {
        start[i] = Math.max(target[k], 0.01);
      }
    }
    StarModel circuit = model(along);
    MultivariateJacobianFunction model =
        point -> {
          StarModel.Readings at = circuit.at(point.toArray());
          return new Pair<>(
              new ArrayRealVector(at.values(), false),
              new Array2DRowRealMatrix(at.jacobian(), false));
        };
    LeastSquaresProblem problem =
        new LeastSquaresBuilder()
            .model(model)
            .target(target)
            .weight(new DiagonalMatrix(weight))
            .start(start)
            .maxEvaluations(STEPS)
            .maxIterations(STEPS)
            .build();
    try {
      return new LevenbergMarquardtOptimizer().optimize(problem);
    } catch (MathIllegalStateException e) {
      return null;
    }
  }

  private StarModel model(double @Nullable [] along) {
    return new StarModel(board, bridges, ports, guard, index, observations, along);
  }
}
