package bellwire.simbench.circuit;

/**
 * One switch state of a circuit: C·dv/dt = −G·v + i(t), solved by the modes of G·φ = λ·C·φ with
 * Φᵀ·C·Φ = 1. All λ are positive, as G and C are symmetric and positive definite.
 *
 * <p>Only the observed nodes' voltages are kept; inside, a state is the voltages of the n nodes
 * with capacitance, in the order given.
 */
public final class LinearSystem extends ModalSystem {
  private final double[] omegas;
  private final SymmetricModes modes;
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
    int staticMark = graph.mark();
    this.omegas = omegas;
    modes = new SymmetricModes(graph.matrix(dynamic), cholesky);

    double[] volts = new double[nodeLimit];
    observedModes = modes.seen(graph, observedMark, staticMark, dynamic, observed, volts);
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

  @Override
  public int order() {
    return modes.lambda.length;
  }

  @Override
  public int tones() {
    return omegas.length;
  }

  @Override
  double omega(int tone) {
    return omegas[tone];
  }

  @Override
  double lambda(int mode) {
    return modes.lambda[mode];
  }

  @Override
  double[] observedModes(int observed) {
    return observedModes[observed];
  }

  @Override
  double observedConstant(int observed, double excitation) {
    return observedConstant[0][observed] + excitation * observedConstant[1][observed];
  }

  @Override
  double observedTone(int observed, int tone, int part) {
    return observedTones[2 * tone + part][observed];
  }

  @Override
  double[] forced(double excitation, double seconds) {
    int n = modes.lambda.length;
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

  /** Real (part 0) or imaginary (part 1) part of a tone in the state that the sources keep up. */
  double[] toneState(int tone, int part) {
    return toneVolts[2 * tone + part].clone();
  }

  @Override
  double[] amplitudes(double[] deviation) {
    return modes.amplitudes(deviation);
  }

  @Override
  void addModes(double[] amplitudes, int count, double[] state) {
    for (int i = 0; i < state.length; i++) {
      for (int k = 0; k < count; k++) {
        state[i] += modes.phi[i][k] * amplitudes[k];
      }
    }
  }

  private void solveTone(ConductanceGraph graph, int tone, int[] dynamic) {
    int n = modes.lambda.length;
    double[] re = graph.currents(dynamic, 2 + 2 * tone);
    double[] im = graph.currents(dynamic, 3 + 2 * tone);
    double[] vRe = new double[n];
    double[] vIm = new double[n];
    double omega = omegas[tone];
    for (int k = 0; k < n; k++) {
      double iRe = 0;
      double iIm = 0;
      for (int i = 0; i < n; i++) {
        iRe += modes.phi[i][k] * re[i];
        iIm += modes.phi[i][k] * im[i];
      }
      double scale = 1 / (modes.lambda[k] * modes.lambda[k] + omega * omega);
      double zRe = (iRe * modes.lambda[k] + iIm * omega) * scale;
      double zIm = (iIm * modes.lambda[k] - iRe * omega) * scale;
      for (int i = 0; i < n; i++) {
        vRe[i] += modes.phi[i][k] * zRe;
        vIm[i] += modes.phi[i][k] * zIm;
      }
    }
    toneVolts[2 * tone] = vRe;
    toneVolts[2 * tone + 1] = vIm;
  }

  static void set(double[] volts, int[] nodes, double[] values) {
    for (int i = 0; i < nodes.length; i++) {
      volts[nodes[i]] = values[i];
    }
  }

  static double[] get(double[] volts, int[] nodes) {
    double[] values = new double[nodes.length];
    for (int i = 0; i < nodes.length; i++) {
      values[i] = volts[nodes[i]];
    }
    return values;
  }
}
