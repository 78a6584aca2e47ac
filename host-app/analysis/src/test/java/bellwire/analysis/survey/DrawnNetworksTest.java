package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.network.Network;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

/**
 * Drawn cables before a board that answers exactly: bridges at the near end from 0.1 ohm to 5 Mohm,
 * one port to another or to M, and plugs on the far end. The network that was drawn must come out.
 */
class DrawnNetworksTest {
  private static final int NETWORKS = Integer.getInteger("bellwire.networks", 40);
  private static final long SEED = Long.getLong("bellwire.seed", 7);
  private static final double[] ARMS = {
    49.9, 90.9, 133, 174, 215, 255, 301, 348, 392, 432, 475, 523, 576, 619, 665, 715
  };

  private final List<Integer> ports = new ArrayList<>();
  private final List<double[]> bridges = new ArrayList<>();
  private double[] ohms = new double[Ports.COUNT];

  private void draw(SplittableRandom random) {
    ports.clear();
    bridges.clear();
    int n = 3 + random.nextInt(6);
    while (ports.size() < n) {
      int port = random.nextInt(16);
      if (!ports.contains(port)) {
        ports.add(port);
      }
    }
    ports.sort(null);
    for (int port : ports) {
      ohms[port] = 0.2 + 0.8 * random.nextDouble();
    }
    for (int k = random.nextInt(4); k > 0; k--) {
      int a = ports.get(random.nextInt(n));
      int b = random.nextInt(6) == 0 ? Ports.METAL : ports.get(random.nextInt(n));
      if (a != b) {
        double size = Math.exp(random.nextDouble(Math.log(0.1), Math.log(5e6)));
        bridges.add(new double[] {a, b, size});
      }
    }
  }

  private int star() {
    return 2 * Ports.COUNT;
  }

  private IdealBoard board(double[] arms) {
    double[] farads = new double[Ports.COUNT];
    Arrays.fill(farads, 15e-12);
    ports.forEach(p -> farads[p] = 1.5e-9);
    farads[Ports.METAL] = 3e-10;
    Consumer<Network> copper =
        net -> {
          for (double[] bridge : bridges) {
            net.join((int) bridge[0], (int) bridge[1], 1 / bridge[2]);
          }
          for (int k = 0; k < ports.size(); k++) {
            int port = ports.get(k);
            net.join(port, Ports.COUNT + port, 1 / ohms[port]);
            if (arms.length > 0) {
              net.join(Ports.COUNT + port, star(), 1 / Math.max(1e-3, arms[k]));
            }
          }
        };
    return new IdealBoard(Ports.COUNT + 1, farads, copper);
  }

  private Network truth() {
    Network net = new Network(Ports.COUNT);
    for (double[] bridge : bridges) {
      net.join((int) bridge[0], (int) bridge[1], 1 / bridge[2]);
    }
    return net;
  }

  private OpenResult open() {
    OpenPhase phase = new OpenPhase(IdealBoard.MODEL, Ports.ALL, 0);
    board(new double[0]).run(phase);
    return phase.result();
  }

  @Test
  void theOpenCableComesOutAsItWasDrawn() {
    System.out.println("seed=" + SEED);
    SplittableRandom random = new SplittableRandom(SEED);
    int leaks = 0;
    int touches = 0;
    for (int k = 0; k < NETWORKS; k++) {
      draw(random);
      OpenResult open = open();
      Network truth = truth();
      String as =
          "k=" + k + " ports=" + ports + " bridges=" + Arrays.deepToString(bridges.toArray());
      assertThat(open.conductors()).as(as).isEqualTo(ports);
      for (int i = 0; i < ports.size(); i++) {
        for (int j = i + 1; j < ports.size(); j++) {
          int a = ports.get(i);
          int b = ports.get(j);
          if (open.clusterOf(a) == open.clusterOf(b)) {
            touches++;
            Quantity read = open.distances()[a][b];
            if (read != null) {
              double right = truth.resistanceDistance(a, b);
              assertThat(read.value())
                  .as(as + " " + a + "-" + b)
                  .isCloseTo(right, within(5e-3 * right + 0.01));
            }
          } else if (open.clusters().stream().allMatch(c -> c.size() == 1)) {
            Leak leak = open.leaks()[open.clusterOf(a)][open.clusterOf(b)];
            double right = truth.between(a, b);
            leaks += right > 0 ? 1 : 0;
            assertThat(leak.siemens())
                .as(as + " " + a + "-" + b)
                .isCloseTo(right, within(5e-3 * right + 5 * leak.u()));
            assertThat(leak.detected()).as(as).isEqualTo(right > 0);
          }
        }
      }
    }
    System.out.println(leaks + " leaks, " + touches + " pairs that touch");
    assertThat(leaks).isGreaterThan(NETWORKS / 8);
    assertThat(touches).isGreaterThan(NETWORKS / 4);
  }

  /** P1 to P2 1 kohm, P2 to P3 10 kohm: P2, at common by 16 ohm, led 1.6 µS from P1 to P3. */
  @Test
  void whatAGuardedPortLeadsOnIsNoLeakage() {
    ports.addAll(List.of(0, 1, 2));
    Arrays.fill(ohms, 0.5);
    bridges.add(new double[] {0, 1, 1010});
    bridges.add(new double[] {1, 2, 10_000});
    OpenResult open = open();
    assertThat(open.clusters()).hasSize(4);
    Leak nothing = open.leaks()[open.clusterOf(0)][open.clusterOf(2)];
    assertThat(nothing.detected()).isFalse();
    assertThat(nothing.aboveOhms()).isGreaterThan(1e6);
    assertThat(open.leaks()[open.clusterOf(0)][open.clusterOf(1)].siemens())
        .isCloseTo(1 / 1010.0, within(1e-5));
    assertThat(open.leaks()[open.clusterOf(1)][open.clusterOf(2)].siemens())
        .isCloseTo(1e-4, within(1e-6));
  }

  @Test
  void theArmsOfAPlugComeOutAsTheyWereDrawn() {
    SplittableRandom random = new SplittableRandom(SEED + 1);
    int arms = 0;
    for (int k = 0; k < NETWORKS; k++) {
      draw(random);
      bridges.removeIf(b -> b[2] < 1000); // conductors that touch have no arm of their own
      OpenResult open = open();
      for (boolean tie : new boolean[] {false, true}) {
        double[] plug = new double[ports.size()];
        for (int i = 0; i < plug.length; i++) {
          plug[i] = tie ? 0.011 : ARMS[(5 * i + k) % 16];
        }
        IdealBoard board = board(plug);
        FarEndWatch watch = new FarEndWatch(IdealBoard.MODEL, open, 0);
        FarEndWatch.Sight sight = watch.observe(board.measure(watch.round()), 0);
        StarPhase phase =
            new StarPhase(IdealBoard.MODEL, sight.connected(), open, watch.lastOhms());
        board.run(phase);
        StarResult star = StarResult.of(IdealBoard.MODEL, open, sight.connected(), phase);
        String as = "k=" + k + " tie=" + tie + " ports=" + ports + " bridges=" + bridges.size();
        assertThat(star.connected()).as(as).isEqualTo(ports);
        assertThat(phase.lost()).as(as).isZero();
        for (int i = 0; i < plug.length; i++) {
          Quantity arm = star.arms().get(ports.get(i));
          double right = ohms[ports.get(i)] + Math.max(1e-3, plug[i]);
          if (arm != null && open.hiding(ports.get(i)).isEmpty()) {
            arms++;
            assertThat(arm.value())
                .as(as + " port=" + ports.get(i))
                .isCloseTo(right, within(2e-4 * right + 5 * arm.u()));
            assertThat(arm.u()).as(as).isLessThan(0.05 * right + 0.002);
          }
        }
      }
    }
    System.out.println("seed=" + (SEED + 1) + " arms=" + arms);
    assertThat(arms).isGreaterThan(4 * NETWORKS);
  }
}
