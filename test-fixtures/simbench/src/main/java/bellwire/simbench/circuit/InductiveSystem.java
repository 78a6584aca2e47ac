package bellwire.simbench.circuit;

import java.util.List;
import org.hipparchus.complex.Complex;
import org.hipparchus.complex.ComplexField;
import org.hipparchus.linear.Array2DRowFieldMatrix;
import org.hipparchus.linear.ArrayFieldVector;
import org.hipparchus.linear.FieldLUDecomposition;
import org.hipparchus.linear.FieldMatrix;
import org.hipparchus.linear.FieldVector;

/**
 * One switch state of a circuit with inductors: C·dv/dt = −G·v − A·i + i(t), H·di/dt = Aᵀ·v − R·i.
 * A state is the voltages of the n nodes with capacitance, then the m inductors' currents. The
 * circuit without its inductors is solved as {@link LinearSystem} does; its modes and the currents
 * then make a small general eigenproblem.
 */
public final class InductiveSystem extends ModalSystem {
  private final int n;
  private final int m;
  private final double[] omegas;
  private final List<Inductor> inductors;
  private final SymmetricModes bare;
  private final InductiveModes modes;
  private final double[] rootHenries;
  private final double[][] observedModes;
  private final double[][] constant = new double[2][];
  private final double[][] observedConstant = new double[2][];
  private final double[][] toneState;
  private final double[][] observedTones;

  /** Parameters as of {@link LinearSystem}; inductors end at dynamic nodes or at common. */
  public InductiveSystem(
      ConductanceGraph graph,
      int observedMark,
      int[] dynamic,
      double[][] cholesky,
      List<Inductor> inductors,
      int[] observed,
      int nodeLimit,
      double[] omegas) {
    int staticMark = graph.mark();
    this.omegas = omegas;
    this.inductors = List.copyOf(inductors);
    n = dynamic.length;
    m = inductors.size();
    bare = new SymmetricModes(graph.matrix(dynamic), cholesky);
    rootHenries = new double[m];
    int[] place = new int[nodeLimit];
    for (int i = 0; i < n; i++) {
      place[dynamic[i]] = i;
    }
    double[][] k = new double[n][m];
    double[] d = new double[m];
    for (int j = 0; j < m; j++) {
      Inductor coil = inductors.get(j);
      rootHenries[j] = Math.sqrt(coil.henries());
      d[j] = coil.ohms() / coil.henries();
      for (int mode = 0; mode < n && coil.joined(); mode++) {
        double a = coil.a() == Netlist.COMMON ? 0 : bare.phi[place[coil.a()]][mode];
        double b = coil.b() == Netlist.COMMON ? 0 : bare.phi[place[coil.b()]][mode];
        k[mode][j] = (a - b) / rootHenries[j];
      }
    }
    modes = new InductiveModes(bare.lambda, k, d);
    double[] volts = new double[nodeLimit];
    double[][] seen = bare.seen(graph, observedMark, staticMark, dynamic, observed, volts);
    observedModes = times(seen, modes.shape);
    toneState = new double[2 * omegas.length][];
    observedTones = new double[2 * omegas.length][];
    for (int tone = 0; tone < omegas.length; tone++) {
      solveTone(graph, tone, dynamic, k, d);
      for (int part = 0; part < 2; part++) {
        LinearSystem.set(volts, dynamic, toneState[2 * tone + part]);
        graph.complete(volts, observedMark, staticMark, 2 + 2 * tone + part);
        observedTones[2 * tone + part] = LinearSystem.get(volts, observed);
      }
    }
    rest(graph, observedMark, dynamic, observed, volts);
  }

  /** At rest an inductor is its resistance. */
  private void rest(
      ConductanceGraph graph, int observedMark, int[] dynamic, int[] observed, double[] volts) {
    for (Inductor coil : inductors) {
      if (coil.joined()) {
        graph.resistor(coil.a(), coil.b(), coil.ohms());
      }
    }
    for (int node : dynamic) {
      graph.eliminate(node);
    }
    for (int column = 0; column < 2; column++) {
      graph.complete(volts, observedMark, graph.mark(), column);
      double[] state = java.util.Arrays.copyOf(LinearSystem.get(volts, dynamic), n + m);
      for (int j = 0; j < m; j++) {
        Inductor coil = inductors.get(j);
        double a = coil.a() == Netlist.COMMON ? 0 : volts[coil.a()];
        double b = coil.b() == Netlist.COMMON ? 0 : volts[coil.b()];
        state[n + j] = coil.joined() ? (a - b) / coil.ohms() : 0;
      }
      constant[column] = state;
      observedConstant[column] = LinearSystem.get(volts, observed);
    }
  }

  /** (Λ + jω)·z = b − K·i, (D + jω)·i = Kᵀ·z: the currents first. */
  private void solveTone(
      ConductanceGraph graph, int tone, int[] dynamic, double[][] k, double[] d) {
    double[] re = graph.currents(dynamic, 2 + 2 * tone);
    double[] im = graph.currents(dynamic, 3 + 2 * tone);
    Complex[] driven = new Complex[n];
    Complex[] admittance = new Complex[n];
    for (int mode = 0; mode < n; mode++) {
      double sumRe = 0;
      double sumIm = 0;
      for (int i = 0; i < n; i++) {
        sumRe += bare.phi[i][mode] * re[i];
        sumIm += bare.phi[i][mode] * im[i];
      }
      admittance[mode] = new Complex(bare.lambda[mode], omegas[tone]).reciprocal();
      driven[mode] = new Complex(sumRe, sumIm).multiply(admittance[mode]);
    }
    FieldVector<Complex> currents = currents(driven, admittance, k, d, omegas[tone]);
    double[] stateRe = new double[n + m];
    double[] stateIm = new double[n + m];
    for (int mode = 0; mode < n; mode++) {
      Complex z = driven[mode];
      for (int j = 0; j < m; j++) {
        z = z.subtract(admittance[mode].multiply(currents.getEntry(j)).multiply(k[mode][j]));
      }
      for (int i = 0; i < n; i++) {
        stateRe[i] += bare.phi[i][mode] * z.getRealPart();
        stateIm[i] += bare.phi[i][mode] * z.getImaginaryPart();
      }
    }
    for (int j = 0; j < m; j++) {
      stateRe[n + j] = currents.getEntry(j).getRealPart() / rootHenries[j];
      stateIm[n + j] = currents.getEntry(j).getImaginaryPart() / rootHenries[j];
    }
    toneState[2 * tone] = stateRe;
    toneState[2 * tone + 1] = stateIm;
  }

  private FieldVector<Complex> currents(
      Complex[] driven, Complex[] admittance, double[][] k, double[] d, double omega) {
    FieldMatrix<Complex> a = new Array2DRowFieldMatrix<>(ComplexField.getInstance(), m, m);
    FieldVector<Complex> b = new ArrayFieldVector<>(ComplexField.getInstance(), m);
    for (int i = 0; i < m; i++) {
      a.addToEntry(i, i, new Complex(d[i], omega));
      for (int mode = 0; mode < n; mode++) {
        b.setEntry(i, b.getEntry(i).add(driven[mode].multiply(k[mode][i])));
        for (int j = 0; j < m; j++) {
          a.addToEntry(i, j, admittance[mode].multiply(k[mode][i] * k[mode][j]));
        }
      }
    }
    return new FieldLUDecomposition<>(a).getSolver().solve(b);
  }

  @Override
  public int order() {
    return n + m;
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
    return modes.decay[mode];
  }

  @Override
  double beta(int mode) {
    return modes.beta[mode];
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
    double[] state = new double[n + m];
    for (int i = 0; i < n + m; i++) {
      state[i] = constant[0][i] + excitation * constant[1][i];
    }
    for (int tone = 0; tone < omegas.length; tone++) {
      double cos = Math.cos(omegas[tone] * seconds);
      double sin = Math.sin(omegas[tone] * seconds);
      for (int i = 0; i < n + m; i++) {
        state[i] += toneState[2 * tone][i] * cos - toneState[2 * tone + 1][i] * sin;
      }
    }
    return state;
  }

  @Override
  double[] amplitudes(double[] deviation) {
    double[] j = new double[m];
    for (int i = 0; i < m; i++) {
      j[i] = rootHenries[i] * deviation[n + i];
    }
    return modes.amplitudes(bare.amplitudes(java.util.Arrays.copyOf(deviation, n)), j);
  }

  @Override
  void addModes(double[] amplitudes, int count, double[] state) {
    double[] z = new double[n];
    for (int mode = 0; mode < count; mode++) {
      for (int i = 0; i < n; i++) {
        z[i] += modes.shape[i][mode] * amplitudes[mode];
      }
      for (int i = 0; i < m; i++) {
        state[n + i] += modes.shape[n + i][mode] * amplitudes[mode] / rootHenries[i];
      }
    }
    for (int i = 0; i < n; i++) {
      for (int mode = 0; mode < n; mode++) {
        state[i] += bare.phi[i][mode] * z[mode];
      }
    }
  }

  /** Observed × n times the first n rows of the modes' shapes. */
  private static double[][] times(double[][] seen, double[][] shape) {
    double[][] product = new double[seen.length][shape.length];
    for (int o = 0; o < seen.length; o++) {
      for (int i = 0; i < seen[o].length; i++) {
        for (int mode = 0; mode < shape.length && seen[o][i] != 0; mode++) {
          product[o][mode] += seen[o][i] * shape[i][mode];
        }
      }
    }
    return product;
  }
}
