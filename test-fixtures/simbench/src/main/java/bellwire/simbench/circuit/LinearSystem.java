package bellwire.simbench.circuit;

import org.ejml.data.DMatrixRMaj;
import org.ejml.dense.row.factory.DecompositionFactory_DDRM;
import org.ejml.interfaces.decomposition.EigenDecomposition_F64;

/**
 * One switch state of a circuit: C·dv/dt = −G·v + i(t), solved by the modes of G·φ = λ·C·φ with
 * Φᵀ·C·Φ = 1. All λ are positive, as G and C are symmetric and positive definite.
 *
 * <p>Only the observed nodes' voltages are kept; inside, a state is the voltages of the n nodes
 * with capacitance, in the order given.
 */
public final class LinearSystem {
  private final double[] omegas;
  private final double[] lambda;
  private final double[][] l;
  private final double[][] q;
  private final double[][] phi;
  private final double[][] observedModes;
  private final double[][] constant;
  private final double[][] observedConstant;
  private final double[][] toneVolts;
  private final double[][] observedTones;

  /**
   * @param graph reduced to the dynamic nodes; is used up
   * @param observedMark the graph's mark from which on its eliminated nodes may be observed
   * @param dynamic node numbers, n of them
   * @param cholesky lower factor of their capacitance matrix, n × n; kept
   * @param observed node numbers
   * @param nodeLimit one more than the largest node number
   * @param omegas tones, rad/s
   */
  public LinearSystem(
      ConductanceGraph graph,
      int observedMark,
      int[] dynamic,
      double[][] cholesky,
      int[] observed,
      int nodeLimit,
      double[] omegas) {
    int n = dynamic.length;
    int staticMark = graph.mark();
    this.omegas = omegas;
    l = cholesky;
    DMatrixRMaj a = new DMatrixRMaj(congruence(graph.matrix(dynamic)));
    EigenDecomposition_F64<DMatrixRMaj> eig = DecompositionFactory_DDRM.eig(n, true, true);
    if (!eig.decompose(a)) {
      throw new IllegalStateException("eigenvalues did not converge: n=" + n);
    }
    Integer[] byDecay = new Integer[n];
    for (int k = 0; k < n; k++) {
      byDecay[k] = k;
    }
    java.util.Arrays.sort(
        byDecay,
        (x, y) -> Double.compare(eig.getEigenvalue(x).getReal(), eig.getEigenvalue(y).getReal()));
    lambda = new double[n];
    q = new double[n][n];
    for (int k = 0; k < n; k++) {
      // Rounding may leave the slowest mode of a floating group at or below zero.
      lambda[k] = Math.max(eig.getEigenvalue(byDecay[k]).getReal(), 1e-9);
      DMatrixRMaj vector = eig.getEigenVector(byDecay[k]);
      for (int i = 0; i < n; i++) {
        q[i][k] = vector.data[i];
      }
    }
    phi = backSubstituted(q);

    double[] volts = new double[nodeLimit];
    observedModes = modesSeen(graph, observedMark, staticMark, dynamic, observed, volts);
    toneVolts = new double[2 * omegas.length][];
    observedTones = new double[2 * omegas.length][];
    for (int tone = 0; tone < omegas.length; tone++) {
      solveTone(graph, tone, dynamic);
      for (int part = 0; part < 2; part++) {
        set(volts, dynamic, toneVolts[2 * tone + part]);
        graph.complete(volts, observedMark, staticMark, 2 + 2 * tone + part);
        observedTones[2 * tone + part] = get(volts, observed);
      }
    }
    for (int node : dynamic) {
      graph.eliminate(node);
    }
    constant = new double[2][];
    observedConstant = new double[2][];
    for (int column = 0; column < 2; column++) {
      graph.complete(volts, observedMark, graph.mark(), column);
      constant[column] = get(volts, dynamic);
      observedConstant[column] = get(volts, observed);
    }
  }

  /** Number of dynamic nodes. */
  public int order() {
    return lambda.length;
  }

  public int tones() {
    return omegas.length;
  }

  double omega(int tone) {
    return omegas[tone];
  }

  double lambda(int mode) {
    return lambda[mode];
  }

  /** How much of a mode an observed node sees. */
  double[] observedModes(int observed) {
    return observedModes[observed];
  }

  double observedConstant(int observed, double excitation) {
    return observedConstant[0][observed] + excitation * observedConstant[1][observed];
  }

  /** Real (part 0) or imaginary (part 1) part of a tone at an observed node. */
  double observedTone(int observed, int tone, int part) {
    return observedTones[2 * tone + part][observed];
  }

  /** The state that the sources alone keep up, without any decaying mode. */
  double[] forced(double excitation, double seconds) {
    int n = lambda.length;
    double[] v = new double[n];
    for (int i = 0; i < n; i++) {
      v[i] = constant[0][i] + excitation * constant[1][i];
    }
    for (int tone = 0; tone < omegas.length; tone++) {
      double cos = Math.cos(omegas[tone] * seconds);
      double sin = Math.sin(omegas[tone] * seconds);
      double[] re = toneVolts[2 * tone];
      double[] im = toneVolts[2 * tone + 1];
      for (int i = 0; i < n; i++) {
        v[i] += re[i] * cos - im[i] * sin;
      }
    }
    return v;
  }

  /** Amplitudes of the modes that make up a deviation from the forced state: Φᵀ·C·d = Qᵀ·Lᵀ·d. */
  double[] amplitudes(double[] deviation) {
    int n = lambda.length;
    double[] y = new double[n];
    for (int j = 0; j < n; j++) {
      for (int i = j; i < n; i++) {
        y[j] += l[i][j] * deviation[i];
      }
    }
    double[] z = new double[n];
    for (int i = 0; i < n; i++) {
      for (int k = 0; k < n; k++) {
        z[k] += q[i][k] * y[i];
      }
    }
    return z;
  }

  /** Adds the modes' voltages to a state. */
  void addModes(double[] amplitudes, int modes, double[] state) {
    for (int i = 0; i < state.length; i++) {
      for (int k = 0; k < modes; k++) {
        state[i] += phi[i][k] * amplitudes[k];
      }
    }
  }

  private void solveTone(ConductanceGraph graph, int tone, int[] dynamic) {
    int n = lambda.length;
    double[] re = graph.currents(dynamic, 2 + 2 * tone);
    double[] im = graph.currents(dynamic, 3 + 2 * tone);
    double[] vRe = new double[n];
    double[] vIm = new double[n];
    double omega = omegas[tone];
    for (int k = 0; k < n; k++) {
      double iRe = 0;
      double iIm = 0;
      for (int i = 0; i < n; i++) {
        iRe += phi[i][k] * re[i];
        iIm += phi[i][k] * im[i];
      }
      double scale = 1 / (lambda[k] * lambda[k] + omega * omega);
      double zRe = (iRe * lambda[k] + iIm * omega) * scale;
      double zIm = (iIm * lambda[k] - iRe * omega) * scale;
      for (int i = 0; i < n; i++) {
        vRe[i] += phi[i][k] * zRe;
        vIm[i] += phi[i][k] * zIm;
      }
    }
    toneVolts[2 * tone] = vRe;
    toneVolts[2 * tone + 1] = vIm;
  }

  private double[][] modesSeen(
      ConductanceGraph graph,
      int observedMark,
      int staticMark,
      int[] dynamic,
      int[] observed,
      double[] volts) {
    int n = dynamic.length;
    double[][] modes = new double[observed.length][n];
    for (int i = 0; i < n; i++) {
      for (int node : dynamic) {
        volts[node] = 0;
      }
      volts[dynamic[i]] = 1;
      graph.complete(volts, observedMark, staticMark, -1);
      for (int o = 0; o < observed.length; o++) {
        double weight = volts[observed[o]];
        if (weight != 0) {
          for (int k = 0; k < n; k++) {
            modes[o][k] += weight * phi[i][k];
          }
        }
      }
    }
    return modes;
  }

  /** L⁻¹·G·L⁻ᵀ. */
  private double[][] congruence(double[][] g) {
    int n = g.length;
    for (int pass = 0; pass < 2; pass++) {
      // Rows first; the transpose makes the second pass do the columns.
      for (int i = 0; i < n; i++) {
        double[] row = g[i];
        for (int k = 0; k < i; k++) {
          double factor = l[i][k];
          if (factor != 0) {
            double[] above = g[k];
            for (int j = 0; j < n; j++) {
              row[j] -= factor * above[j];
            }
          }
        }
        for (int j = 0; j < n; j++) {
          row[j] /= l[i][i];
        }
      }
      transpose(g);
    }
    return g;
  }

  private static void transpose(double[][] m) {
    for (int i = 0; i < m.length; i++) {
      for (int j = 0; j < i; j++) {
        double keep = m[i][j];
        m[i][j] = m[j][i];
        m[j][i] = keep;
      }
    }
  }

  /** L⁻ᵀ·Q. */
  private double[][] backSubstituted(double[][] right) {
    int n = right.length;
    double[][] x = new double[n][];
    for (int i = n - 1; i >= 0; i--) {
      double[] row = right[i].clone();
      for (int k = i + 1; k < n; k++) {
        double factor = l[k][i];
        if (factor != 0) {
          for (int j = 0; j < n; j++) {
            row[j] -= factor * x[k][j];
          }
        }
      }
      for (int j = 0; j < n; j++) {
        row[j] /= l[i][i];
      }
      x[i] = row;
    }
    return x;
  }

  private static void set(double[] volts, int[] nodes, double[] values) {
    for (int i = 0; i < nodes.length; i++) {
      volts[nodes[i]] = values[i];
    }
  }

  private static double[] get(double[] volts, int[] nodes) {
    double[] values = new double[nodes.length];
    for (int i = 0; i < nodes.length; i++) {
      values[i] = volts[nodes[i]];
    }
    return values;
  }
}
