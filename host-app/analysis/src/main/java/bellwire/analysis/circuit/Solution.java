package bellwire.analysis.circuit;

import org.hipparchus.complex.Complex;

/**
 * Voltages and currents of a circuit, in the units and with the phase of its sources. Immutable.
 */
public final class Solution {
  private final int[] islands;
  private final double[] volts;
  private final double[] amps;
  private final int elements;

  Solution(int[] islands, double[] volts, double[] amps, int elements) {
    this.islands = islands;
    this.volts = volts;
    this.amps = amps;
    this.elements = elements;
  }

  /** Whether elements join two nodes, in whatever way. */
  public boolean joined(int a, int b) {
    return islands[a] == islands[b];
  }

  /** Voltage of node a against node b; NaN where nothing joins them. */
  public Complex volts(int a, int b) {
    return joined(a, b)
        ? new Complex(volts[2 * a] - volts[2 * b], volts[2 * a + 1] - volts[2 * b + 1])
        : Complex.NaN;
  }

  /** Modulus of {@link #volts}. */
  public double voltsRms(int a, int b) {
    return joined(a, b)
        ? modulus(volts[2 * a] - volts[2 * b], volts[2 * a + 1] - volts[2 * b + 1])
        : Double.NaN;
  }

  /**
   * Current through an element from its first to its second node: what a source delivers comes out
   * of its positive node, and has the opposite sign.
   */
  public Complex amps(int element) {
    check(element);
    return new Complex(amps[2 * element], amps[2 * element + 1]);
  }

  /** Modulus of {@link #amps}. */
  public double ampsRms(int element) {
    check(element);
    return modulus(amps[2 * element], amps[2 * element + 1]);
  }

  private void check(int element) {
    if (element < 0 || element >= elements) {
      throw new IllegalArgumentException("element=" + element);
    }
  }

  /** Neither volts nor amperes of a control loop can overflow a square. */
  private static double modulus(double re, double im) {
    return Math.sqrt(re * re + im * im);
  }
}
