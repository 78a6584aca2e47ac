package bellwire.analysis.loop;

import bellwire.analysis.circuit.Solution;
import java.util.List;
import org.hipparchus.complex.Complex;

/** Voltages and currents of a loop's branches in one condition. */
final class Solved {
  private final List<Branch> branches;
  private final Solution solution;

  /** Of each branch, its element of the circuit; −1 where it does not conduct. */
  private final int[] elements;

  Solved(List<Branch> branches, Solution solution, int[] elements) {
    this.branches = branches;
    this.solution = solution;
    this.elements = elements;
  }

  /** V rms between two nodes; 0 where nothing joins them. */
  double volts(int a, int b) {
    return solution.joined(a, b) ? solution.voltsRms(a, b) : 0;
  }

  double volts(int branch) {
    Branch b = branches.get(branch);
    return volts(b.a(), b.b());
  }

  boolean conducts(int branch) {
    return elements[branch] >= 0;
  }

  /** From the branch's first node to its second. */
  Complex current(int branch) {
    return conducts(branch) ? solution.amps(elements[branch]) : Complex.ZERO;
  }

  double amps(int branch) {
    return conducts(branch) ? solution.ampsRms(elements[branch]) : 0;
  }
}
