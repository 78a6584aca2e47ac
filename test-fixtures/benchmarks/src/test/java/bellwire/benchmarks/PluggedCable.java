package bellwire.benchmarks;

import bellwire.analysis.network.Network;
import java.util.Random;

/** Drawn cables of sixteen conductors on a coded plug, with bridges; node 32 is the plug's. */
final class PluggedCable {
  static final int CONDUCTORS = 16;
  static final int NODES = 2 * CONDUCTORS + 1;
  private static final int BRIDGES = 4;

  /** What ties it to ground: the instrument's inputs. */
  private static final double GROUND_SIEMENS = 1e-6;

  private PluggedCable() {}

  static Network drawn(Random random) {
    Network net = new Network(NODES);
    for (int i = 0; i < CONDUCTORS; i++) {
      net.join(i, CONDUCTORS + i, 1 / random.nextDouble(0.4, 0.6));
      net.join(CONDUCTORS + i, NODES - 1, 1 / (50.0 + 43 * i));
      net.ground(i, GROUND_SIEMENS);
    }
    for (int k = 0; k < BRIDGES; k++) {
      int a = random.nextInt(CONDUCTORS);
      int b = (a + 1 + random.nextInt(CONDUCTORS - 1)) % CONDUCTORS;
      net.join(a, b, Math.pow(10, -random.nextDouble(1, 6)));
    }
    return net;
  }

  /** A milliampere in at one terminal and out at another. */
  static double[] driven(int in, int out) {
    double[] amps = new double[NODES];
    amps[in] = 1e-3;
    amps[out] = -1e-3;
    return amps;
  }

  /** To what the matrix's condition leaves of 16 digits. */
  static void same(double[] expected, double[] got) {
    for (int i = 0; i < expected.length; i++) {
      if (!(Math.abs(expected[i] - got[i]) <= 1e-8 * Math.abs(expected[i]) + 1e-11)) {
        throw new IllegalStateException(
            "node=" + i + " expected=" + expected[i] + " got=" + got[i]);
      }
    }
  }
}
