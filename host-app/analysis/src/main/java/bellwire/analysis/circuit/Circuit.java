package bellwire.analysis.circuit;

import java.util.Arrays;
import org.hipparchus.complex.Complex;

/**
 * A circuit of impedances and sources of one frequency, to be built and solved; {@link #clear}
 * makes it empty for the next, and keeps its memory. Elements are numbered from 0 as they are
 * added. Nodes that nothing joins are separate islands. Not for several threads.
 *
 * <p>Node voltages follow from loop currents in a tree of least impedances, theory (59) to (66):
 * milliohms and megohms side by side cost no digits.
 */
public final class Circuit {
  private static final int MOST_ELEMENTS = 1 << SpanningForest.INDEX_BITS;

  int nodes;
  int elements;
  int[] a = new int[64];
  int[] b = new int[64];

  /** Impedance and open-circuit voltage of an element, real and imaginary part side by side. */
  double[] ohms = new double[128];

  double[] volts = new double[128];

  private final SpanningForest forest = new SpanningForest();
  private final LoopEquations equations = new LoopEquations();

  /**
   * @param nodes count of them: 0 to nodes − 1
   */
  public Circuit(int nodes) {
    clear(nodes);
  }

  /** Removes all elements. */
  public void clear(int nodeCount) {
    if (nodeCount < 0 || nodeCount > MOST_ELEMENTS) {
      throw new IllegalArgumentException("nodes=" + nodeCount);
    }
    nodes = nodeCount;
    elements = 0;
  }

  /**
   * @param ohms finite; zero for a short
   * @return number of the element
   */
  public int impedance(int from, int to, Complex ohms) {
    return add(from, to, 0, 0, ohms.getRealPart(), ohms.getImaginaryPart());
  }

  /** A resistance. */
  public int resistance(int from, int to, double ohms) {
    return add(from, to, 0, 0, ohms, 0);
  }

  /**
   * A Thévenin source.
   *
   * @param positive node where openVolts is positive
   * @param openVolts its voltage with no current
   * @param ohms in series with it, finite
   * @return number of the element
   */
  public int source(int positive, int negative, Complex openVolts, Complex ohms) {
    return add(
        positive,
        negative,
        openVolts.getRealPart(),
        openVolts.getImaginaryPart(),
        ohms.getRealPart(),
        ohms.getImaginaryPart());
  }

  private int add(int from, int to, double er, double ei, double zr, double zi) {
    check("node", from, from >= 0 && from < nodes);
    check("node", to, to >= 0 && to < nodes);
    check("element", elements, elements < MOST_ELEMENTS);
    if (!Double.isFinite(zr + zi) || !Double.isFinite(er + ei)) {
      throw new IllegalArgumentException(
          "ohms=" + new Complex(zr, zi) + " openVolts=" + new Complex(er, ei));
    }
    if (elements == a.length) {
      a = Arrays.copyOf(a, 2 * elements);
      b = Arrays.copyOf(b, 2 * elements);
      ohms = Arrays.copyOf(ohms, 4 * elements);
      volts = Arrays.copyOf(volts, 4 * elements);
    }
    a[elements] = from;
    b[elements] = to;
    ohms[2 * elements] = zr;
    ohms[2 * elements + 1] = zi;
    volts[2 * elements] = er;
    volts[2 * elements + 1] = ei;
    return elements++;
  }

  private static void check(String name, int value, boolean holds) {
    if (!holds) {
      throw new IllegalArgumentException(name + "=" + value);
    }
  }

  /**
   * Voltages and currents; the circuit can be added to afterwards.
   *
   * @throws IllegalArgumentException if it has no definite solution: a loop of zero ohms, or
   *     reactances that cancel one another
   */
  public Solution solve() {
    forest.grow(this);
    double[] amps = equations.amps(this, forest);
    return new Solution(forest.islands(), forest.nodeVolts(this, amps), amps, elements);
  }

  /** Of the last solution: how far from indefinite, {@link LoopEquations#margin}. */
  double margin() {
    return equations.margin;
  }
}
