package bellwire.analysis.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.junit.jupiter.api.Test;

/**
 * Drawn networks against a second solver: another library's LU on a matrix put together here, where
 * the product uses Cholesky on its own.
 */
class NetworkPropertiesTest {
  private static final long SEED = 20_250_117;
  private static final int DRAWS = 300;

  /** A drawn connected network and its edges. */
  private static double[][] edges(SplittableRandom random, int n, double decades) {
    double[][] siemens = new double[n][n];
    for (int i = 1; i < n; i++) {
      join(siemens, i, random.nextInt(i), size(random, decades));
    }
    for (int k = 0; k < n; k++) {
      int a = random.nextInt(n);
      int b = random.nextInt(n);
      if (a != b) {
        join(siemens, a, b, size(random, decades));
      }
    }
    return siemens;
  }

  private static double size(SplittableRandom random, double decades) {
    return Math.pow(10, random.nextDouble(-decades / 2, decades / 2));
  }

  private static void join(double[][] siemens, int a, int b, double conductance) {
    siemens[a][b] += conductance;
    siemens[b][a] += conductance;
  }

  private static Network network(double[][] siemens) {
    Network net = new Network(siemens.length);
    for (int i = 0; i < siemens.length; i++) {
      for (int j = 0; j < i; j++) {
        if (siemens[i][j] > 0) {
          net.join(i, j, siemens[i][j]);
        }
      }
    }
    return net;
  }

  private static RealMatrix laplacian(double[][] siemens, double[] toGround) {
    int n = siemens.length;
    RealMatrix q = new Array2DRowRealMatrix(n, n);
    for (int i = 0; i < n; i++) {
      q.addToEntry(i, i, toGround[i]);
      for (int j = 0; j < n; j++) {
        if (i != j) {
          q.addToEntry(i, i, siemens[i][j]);
          q.addToEntry(i, j, -siemens[i][j]);
        }
      }
    }
    return q;
  }

  /** Resistance distance by holding b at zero and solving for the rest. */
  private static double reference(double[][] siemens, int a, int b) {
    double[] toGround = new double[siemens.length];
    int n = siemens.length;
    int[] rest = new int[n - 1];
    for (int i = 0, k = 0; i < n; i++) {
      if (i != b) {
        rest[k++] = i;
      }
    }
    RealMatrix q = laplacian(siemens, toGround).getSubMatrix(rest, rest);
    RealVector amps = new ArrayRealVector(n - 1);
    int row = a < b ? a : a - 1;
    amps.setEntry(row, 1);
    return new LUDecomposition(q).getSolver().solve(amps).getEntry(row);
  }

  @Test
  void distancesAndVoltagesAsAnotherSolver() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int draw = 0; draw < DRAWS; draw++) {
      int n = 2 + random.nextInt(15);
      double[][] siemens = edges(random, n, 4);
      Network net = network(siemens);
      int a = random.nextInt(n);
      int b = (a + 1 + random.nextInt(n - 1)) % n;
      double expected = reference(siemens, a, b);
      assertThat(net.resistanceDistance(a, b))
          .as("seed=%d draw=%d", SEED, draw)
          .isCloseTo(expected, within(1e-9 * expected));

      double[] toGround = new double[n];
      double[] amps = new double[n];
      for (int i = 0; i < n; i++) {
        toGround[i] = size(random, 4);
        amps[i] = random.nextGaussian();
        net.ground(i, toGround[i]);
      }
      double[] volts =
          new LUDecomposition(laplacian(siemens, toGround))
              .getSolver()
              .solve(new ArrayRealVector(amps))
              .toArray();
      double[] got = net.volts(amps);
      for (int i = 0; i < n; i++) {
        assertThat(got[i])
            .as("seed=%d draw=%d", SEED, draw)
            .isCloseTo(volts[i], within(1e-9 * (1 + Math.abs(volts[i]))));
      }
    }
  }

  /** Doerfler and Bullo, arXiv 1102.2950: a reduction keeps every distance between kept nodes. */
  @Test
  void reductionKeepsDistancesAndVoltages() {
    SplittableRandom random = new SplittableRandom(SEED + 1);
    for (int draw = 0; draw < DRAWS; draw++) {
      int n = 4 + random.nextInt(13);
      double[][] siemens = edges(random, n, 4);
      int[] kept = {n - 1, 0, 2};
      Network reduced = network(siemens).reduceTo(kept);
      for (int i = 0; i < 3; i++) {
        for (int j = 0; j < i; j++) {
          double expected = reference(siemens, kept[i], kept[j]);
          assertThat(reduced.resistanceDistance(i, j))
              .as("seed=%d draw=%d", SEED + 1, draw)
              .isCloseTo(expected, within(1e-8 * expected));
        }
      }
    }
  }

  /** Distances make the network again that they were taken from. */
  @Test
  void roundTripOfResistanceDistances() {
    SplittableRandom random = new SplittableRandom(SEED + 2);
    for (int draw = 0; draw < DRAWS; draw++) {
      int n = 2 + random.nextInt(15);
      double[][] siemens = edges(random, n, 2);
      double[][] ohms = new double[n][n];
      double greatest = 0;
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
          ohms[i][j] = i == j ? 0 : reference(siemens, i, j);
          greatest = Math.max(greatest, siemens[i][j]);
        }
      }
      Network back = Network.ofResistanceDistances(ohms);
      for (int i = 0; i < n; i++) {
        assertThat(back.between(i, i))
            .as("nothing to ground")
            .isCloseTo(0, within(1e-8 * greatest));
        for (int j = 0; j < i; j++) {
          assertThat(back.between(i, j))
              .as("seed=%d draw=%d", SEED + 2, draw)
              .isCloseTo(siemens[i][j], within(1e-8 * greatest));
        }
      }
    }
  }

  /** Foster 1949, remembered: over all edges, distance over resistance sums to n − 1. */
  @Test
  void fostersSum() {
    SplittableRandom random = new SplittableRandom(SEED + 3);
    for (int draw = 0; draw < DRAWS; draw++) {
      int n = 2 + random.nextInt(15);
      double[][] siemens = edges(random, n, 3);
      Network net = network(siemens);
      double sum = 0;
      for (int i = 0; i < n; i++) {
        for (int j = 0; j < i; j++) {
          if (siemens[i][j] > 0) {
            sum += net.resistanceDistance(i, j) * siemens[i][j];
          }
        }
      }
      assertThat(sum).as("seed=%d draw=%d", SEED + 3, draw).isCloseTo(n - 1, within(1e-8));
    }
  }

  /** A network seen at all of its nodes is itself, in the order that was asked for. */
  @Test
  void whereNothingFloatsNothingIsTakenOut() {
    Network net = new Network(3).join(0, 1, 2).join(1, 2, 3).ground(2, 5);
    Network same = net.reduceTo(2, 0, 1);
    assertThat(same.between(1, 2)).isEqualTo(2);
    assertThat(same.between(2, 0)).isEqualTo(3);
    assertThat(same.between(0, 1)).isZero();
    assertThat(same.between(0, 0)).isEqualTo(5);
  }

  @Test
  void aConductanceOfNoughtJoinsNothing() {
    Network net = new Network(2).join(0, 1, 0);
    assertThat(net.resistanceDistance(0, 1)).isInfinite();
  }

  @Test
  void refusesWhatHasNoAnswer() {
    assertThatThrownBy(() -> new Network(2).join(0, 0, 1)).hasMessageContaining("a=0 b=0");
    assertThatThrownBy(() -> new Network(2).join(0, 1, -1)).hasMessageContaining("conductance=-1");
    assertThatThrownBy(() -> new Network(2).join(0, 1, Double.NaN))
        .hasMessageContaining("conductance=NaN");
    assertThatThrownBy(() -> new Network(3).join(0, 1, 1).reduceTo(0, 1))
        .hasMessageContaining("nodes=1");
  }
}
