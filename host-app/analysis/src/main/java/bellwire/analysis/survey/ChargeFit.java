package bellwire.analysis.survey;

import bellwire.analysis.survey.ChargeModel.Common;
import bellwire.analysis.survey.ChargeModel.Solved;
import bellwire.analysis.survey.ChargeModel.Transient;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.CommonOps_DDRM;
import org.jspecify.annotations.Nullable;

/**
 * Fits all charging transients at once: each has its time constant, its final voltage and its hum;
 * the start of the converter's windows and the mains frequency are common to all. What is no plain
 * transient has no say in those. Theory (26).
 */
final class ChargeFit {
  private static final double[] MAINS_HERTZ = {50, 60};

  /** A wider one is no reading of τ but a bound. */
  private static final double TELLING = 0.3;

  private static final double LEAST_TAU = 3e-6;
  private static final double MOST_TAU = 0.1;
  private static final int GRID = 60;

  /** Beyond so many of its u a transient is not one exponential, or starts at another time. */
  private static final double DISTURBED = 4;

  private static final double START_SLACK_SECONDS = 0.5e-6;

  /** A start known worse than this share of its prior's u says nothing of the others'. */
  private static final double TELLING_START = 0.3;

  /** Of the converter, rectangular. */
  private static final double OFFSET_VOLTS = 5e-6;

  /** A bound above this says nothing. */
  private static final double MOST_BOUND_FARADS = 150e-12;

  private final double sourceAmps;
  private final double noiseVolts;
  private final double offsetVolts;
  private final double uLogSource;
  private final List<Transient> transients = new ArrayList<>();
  private double omega;

  ChargeFit(BoardModel board, int gain) {
    sourceAmps = board.excitationVolts() / (board.checkHighOhms() + board.limiterOhms());
    noiseVolts = board.noise().rms(gain, Pace.WAVE);
    offsetVolts = OFFSET_VOLTS / Math.sqrt(3);
    // The open switches' leakage adds to the source's current, alike for all but for one's own.
    uLogSource = board.leakageAmps() / Math.sqrt(3) / sourceAmps;
  }

  /**
   * @param windows number of each conversion after the switching, the first is 0
   * @param volts one for each
   */
  void add(int key, int[] windows, double[] volts) {
    transients.add(new Transient(key, windows, volts));
  }

  @Nullable Quantity farads(int key) {
    for (Transient t : transients) {
      if (t.key == key) {
        return t.farads;
      }
    }
    return null;
  }

  void solve() {
    if (transients.isEmpty()) {
      return;
    }
    begin();
    List<Solved> alone = transients.stream().map(t -> solve(List.of(t), Common.NOTHING)).toList();
    List<Transient> plain = plain(alone);
    Common common = Common.NOTHING;
    if (!plain.isEmpty()) {
      Solved together = solve(plain, Common.NOTHING);
      read(together);
      common = together.common();
    }
    for (Transient t : transients) {
      if (!plain.contains(t)) {
        read(solve(List.of(t), common));
      }
    }
  }

  private Solved solve(List<Transient> some, Common prior) {
    return ChargeModel.solve(some, prior, omega, noiseVolts);
  }

  /** Those that are one exponential with hum and begin when the others do. */
  private List<Transient> plain(List<Solved> alone) {
    double start = commonStart(alone);
    double[] scatters = alone.stream().mapToDouble(s -> s.scatter[0]).sorted().toArray();
    double usual = scatters[scatters.length / 2];
    double slack = START_SLACK_SECONDS / ChargeModel.U_START_SECONDS;
    List<Transient> plain = new ArrayList<>();
    for (int i = 0; i < transients.size(); i++) {
      Solved solved = alone.get(i);
      double apart = Math.abs(solved.point[1] - start);
      if (solved.scatter[0] <= DISTURBED * usual
          && apart <= DISTURBED * (usual * solved.uStart() + slack)) {
        plain.add(transients.get(i));
      }
    }
    return plain;
  }

  /**
   * The middle of what each transient says by itself. Where something hangs on a conductor behind a
   * resistance, its charge comes in two parts, which pass for a late start.
   */
  private static double commonStart(List<Solved> alone) {
    double[] starts =
        alone.stream()
            .filter(s -> s.uStart() < TELLING_START)
            .mapToDouble(s -> s.point[1])
            .sorted()
            .toArray();
    return starts.length == 0 ? 0 : starts[starts.length / 2];
  }

  /** The mains frequency that fits better, and for it each τ on a grid. */
  private void begin() {
    double least = Double.POSITIVE_INFINITY;
    for (double hertz : MAINS_HERTZ) {
      double cost = 0;
      for (Transient t : transients) {
        cost += scan(t, 2 * Math.PI * hertz);
      }
      if (cost < least) {
        least = cost;
        omega = 2 * Math.PI * hertz;
      }
    }
    transients.forEach(t -> scan(t, omega));
  }

  /** Sets the best τ of a grid with the voltages that go with it; its sum of squares. */
  private double scan(Transient t, double omega) {
    ChargeCurve curve = ChargeModel.NOMINAL;
    double least = Double.POSITIVE_INFINITY;
    for (int g = 0; g <= GRID; g++) {
      double tau = LEAST_TAU * Math.pow(MOST_TAU / LEAST_TAU, (double) g / GRID);
      DMatrixRMaj basis = new DMatrixRMaj(t.volts.length, 3);
      for (int k = 0; k < t.volts.length; k++) {
        double lacking = curve.lacking(t.windows[k], tau);
        basis.set(k, 0, 1 - lacking);
        basis.set(k, 1, curve.cosine(t.windows[k], omega) - lacking);
        basis.set(k, 2, curve.sine(t.windows[k], omega));
      }
      DMatrixRMaj volts = new DMatrixRMaj(t.volts.length, 1, true, t.volts);
      DMatrixRMaj found = new DMatrixRMaj(3, 1);
      if (!CommonOps_DDRM.solve(basis, volts, found)) {
        continue;
      }
      DMatrixRMaj left = volts.copy();
      CommonOps_DDRM.multAdd(-1, basis, found, left);
      double squares = 0;
      for (double r : left.getData()) {
        squares += r * r;
      }
      if (squares < least) {
        least = squares;
        t.tau = tau;
        t.linear = found.getData().clone();
      }
    }
    return least;
  }

  private void read(Solved solved) {
    DMatrixRMaj covariance = solved.covariance;
    if (covariance == null) {
      return;
    }
    for (int i = 0; i < solved.some.size(); i++) {
      Transient t = solved.some.get(i);
      t.farads = farads(solved.point, ChargeModel.column(i), covariance, solved.scatter[i]);
    }
  }

  /** C = τ I/V, the initial slope: what leaks changes τ and V alike. Theory (26). */
  private @Nullable Quantity farads(
      double[] point, int column, DMatrixRMaj covariance, double scatter) {
    double tau = Math.exp(point[column]);
    double full = point[column + 1];
    double uLogTau = scatter * Math.sqrt(Math.max(0, covariance.get(column, column)));
    double uLogFull =
        Math.hypot(
                scatter * Math.sqrt(Math.max(0, covariance.get(column + 1, column + 1))),
                offsetVolts)
            / Math.abs(full);
    double both = -scatter * scatter * 2 * covariance.get(column, column + 1) / full;
    if (!(full > 0) || uLogFull > TELLING) {
      return null;
    }
    double farads = tau * sourceAmps / full;
    if (uLogTau < TELLING) {
      double relative = Math.sqrt(Math.max(0, uLogTau * uLogTau + uLogFull * uLogFull + both));
      relative = Math.hypot(relative, uLogSource);
      return new Quantity(farads, farads * relative, "F");
    }
    double bound = bound(full, scatter) * sourceAmps / full;
    return bound > MOST_BOUND_FARADS ? null : new Quantity(bound / 2, bound / Math.sqrt(12), "F");
  }

  /** The τ of which the first window would still show three times its noise. */
  private double bound(double full, double scatter) {
    ChargeCurve curve = ChargeModel.NOMINAL;
    double tau = LEAST_TAU;
    while (tau < MOST_TAU && full * curve.lacking(0, tau) < 3 * scatter * noiseVolts) {
      tau *= 1.05;
    }
    return tau;
  }
}
