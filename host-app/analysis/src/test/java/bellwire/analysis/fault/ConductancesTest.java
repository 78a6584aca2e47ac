package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.network.Network;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Elimination without subtraction against the Cholesky factors of the same networks. */
class ConductancesTest {
  private static final long SEED = 31;

  /** Decades enough to be a network, few enough for Cholesky's digits. */
  @Test
  void impedancesAndReductionAreTheMatrixOnes() {
    Random random = new Random(SEED);
    for (int draw = 0; draw < 50; draw++) {
      int n = 2 + random.nextInt(12);
      Network network = new Network(n);
      Conductances own = new Conductances(n);
      for (int x = 0; x < n; x++) {
        double load = Math.pow(10, -2 * random.nextDouble());
        network.ground(x, load);
        own.ground(x, load);
        for (int y = 0; y < x; y++) {
          if (random.nextInt(3) == 0) {
            double siemens = Math.pow(10, 2 - 4 * random.nextDouble());
            network.join(x, y, siemens);
            own.join(y, x, siemens);
          }
        }
      }
      int kept = 1 + random.nextInt(n);
      double[][] reduced = own.reducedTo(kept).impedances();
      double[][] z = own.impedances();
      for (int x = 0; x < n; x++) {
        double[] amps = new double[n];
        amps[x] = 1;
        double[] volts = network.volts(amps);
        for (int y = 0; y < n; y++) {
          assertThat(z[y][x]).as("seed=%d draw=%d", SEED, draw).isCloseTo(volts[y], within(1e-9));
          if (x < kept && y < kept) {
            assertThat(reduced[y][x]).isCloseTo(volts[y], within(1e-9));
          }
        }
      }
    }
  }

  /**
   * Two terminals on a divider each, 1 mohm between them: with g = 1000 S and d = 1e-9 S, z_11 −
   * z_12 = 1/(2 g + d). A matrix whose diagonal is g + d has lost the d to rounding.
   */
  @Test
  void milliohmsAndGigaohmsMeetWithoutLosingDigits() {
    Conductances net = new Conductances(2);
    net.ground(0, 1e-9);
    net.ground(1, 1e-9);
    net.join(0, 1, 1000);
    double[][] z = net.impedances();
    // z_11 + z_12 = 1/d, from the symmetric and the antisymmetric current.
    assertThat(z[0][0] + z[0][1]).isCloseTo(1e9, within(1e-6));
    assertThat(z[1][1]).isCloseTo(5e8 + 0.5 / 2000, within(1e-6));
  }
}
