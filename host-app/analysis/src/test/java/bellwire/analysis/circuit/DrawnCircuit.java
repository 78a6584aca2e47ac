package bellwire.analysis.circuit;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.hipparchus.complex.Complex;

/**
 * A drawn circuit of one island: contacts and copper of 1 mohm to 10 ohm, loads of 10 ohm to 10
 * kohm with up to three times as much reactance, leaks of 100 kohm to 100 Mohm, one to three
 * transformers.
 */
record DrawnCircuit(int nodes, List<Branch> branches) {

  record Branch(int a, int b, Complex volts, Complex ohms) {}

  static DrawnCircuit draw(long seed, int nodes, int loops) {
    SplittableRandom random = new SplittableRandom(seed);
    List<Branch> branches = new ArrayList<>();
    for (int n = 1; n < nodes; n++) {
      branches.add(new Branch(n, random.nextInt(n), Complex.ZERO, ohms(random)));
    }
    int sources = Math.min(loops, random.nextInt(1, 4));
    for (int i = 0; i < loops; i++) {
      int a = random.nextInt(nodes);
      int b = (a + random.nextInt(1, nodes)) % nodes;
      branches.add(
          i < sources
              ? new Branch(a, b, new Complex(i == 1 ? -27 : 26), new Complex(1.3, 0.4))
              : new Branch(a, b, Complex.ZERO, ohms(random)));
    }
    return new DrawnCircuit(nodes, List.copyOf(branches));
  }

  private static Complex ohms(SplittableRandom random) {
    double share = random.nextDouble();
    if (share < 0.6) {
      return new Complex(decades(random, 1e-3, 10));
    }
    if (share < 0.85) {
      double ohms = decades(random, 10, 1e4);
      return new Complex(ohms, ohms * random.nextDouble(3));
    }
    return new Complex(decades(random, 1e5, 1e8));
  }

  private static double decades(SplittableRandom random, double least, double most) {
    return least * Math.pow(most / least, random.nextDouble());
  }

  Circuit circuit() {
    Circuit circuit = new Circuit(nodes);
    fill(circuit);
    return circuit;
  }

  void fill(Circuit circuit) {
    circuit.clear(nodes);
    for (Branch branch : branches) {
      circuit.source(branch.a, branch.b, branch.volts, branch.ohms);
    }
  }
}
