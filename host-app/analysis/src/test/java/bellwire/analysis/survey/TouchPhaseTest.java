package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Which ports a low resistance joins, before a board that answers exactly. */
class TouchPhaseTest {
  private final double[] coarse = new double[Ports.COUNT];
  private final List<List<Probe>> rounds = new ArrayList<>();

  TouchPhaseTest() {
    Arrays.fill(coarse, 1e9);
  }

  private TouchPhase run(boolean windings, int ports, Consumer<Network> copper) {
    List<Integer> present = IntStream.range(0, ports).boxed().toList();
    TouchPhase phase = new TouchPhase(IdealBoard.MODEL, present, coarse, windings);
    IdealBoard board = new IdealBoard(0, new double[Ports.COUNT], copper);
    rounds.clear();
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      rounds.add(probes);
      phase.accept(board.measure(probes));
    }
    return phase;
  }

  private static double ohms(TouchPhase phase, int a, int b) {
    assertThat(phase.ohms(b, a)).isEqualTo(phase.ohms(a, b));
    return phase.ohms(a, b).value();
  }

  @Test
  void whereNothingIsLowNothingIsAsked() {
    assertThat(run(false, 4, net -> {}).clusters()).hasSize(4);
    assertThat(rounds).isEmpty();
    coarse[0] = 999; // nothing else is near
    coarse[1] = 1000;
    assertThat(run(false, 4, net -> {}).clusters()).hasSize(4);
    assertThat(rounds).isEmpty();
  }

  /** Both have the same resistance to all the others: they may still not be near to each other. */
  @Test
  void everyTwoThatAreLowAreLookedAtWithTheRestHeld() {
    Arrays.fill(coarse, 0, 4, 300);
    TouchPhase phase = run(false, 6, net -> net.join(0, 2, 1 / 300.0).join(1, 3, 1 / 300.0));
    List<Probe> looks = rounds.get(0);
    assertThat(looks).hasSize(12);
    Probe first = looks.get(0);
    assertThat(first.drive()).isEqualTo(Ports.bit(0));
    assertThat(first.returned()).isEqualTo(Ports.bit(1));
    assertThat(first.guard()).isEqualTo(Ports.ALL & ~0b11);
    assertThat(first.look()).isEqualTo(Look.REFERENCE);
    assertThat(first.pace()).isEqualTo(Pace.PRECISE);
    assertThat(looks.get(1).look()).isEqualTo(Look.terminal(0));
    assertThat(phase.clusters())
        .containsExactly(List.of(0, 2), List.of(1, 3), List.of(4), List.of(5));
    assertThat(ohms(phase, 0, 2)).isCloseTo(300, within(1e-5));
    assertThat(ohms(phase, 1, 3)).isCloseTo(300, within(1e-5));
    assertThat(phase.ohms(0, 1)).isNull();
    // then both clusters as wholes, which are apart
    assertThat(rounds.get(1).get(0).drive()).isEqualTo(0b101);
    assertThat(rounds.get(1).get(0).returned()).isEqualTo(0b1010);
    assertThat(rounds.get(1)).hasSize(2);
    assertThat(rounds).hasSize(3);
  }

  /** A kilohm more or less: what a terminal reads is that, the path back and the reference. */
  @Test
  void upToAKilohmIsOneCluster() {
    Arrays.fill(coarse, 0, 2, 980);
    assertThat(run(false, 3, net -> net.join(0, 1, 1 / 980.0)).clusters()).hasSize(2);
    assertThat(run(false, 3, net -> net.join(0, 1, 1 / 1010.0)).clusters()).hasSize(3);
    assertThat(rounds).hasSize(1);
  }

  /** P1 to P2 and P2 to P3 500 ohm: the sum of what lies between. */
  @Test
  void distancesWithinAClusterAreReadWithQuietOnesHeld() {
    Arrays.fill(coarse, 0, 3, 500);
    coarse[1] = 250;
    coarse[4] = 5e4;
    coarse[5] = 2e5;
    TouchPhase phase = run(false, 6, net -> net.join(0, 1, 1 / 500.0).join(1, 2, 1 / 500.0));
    assertThat(phase.clusters().get(0)).containsExactly(0, 1, 2);
    assertThat(ohms(phase, 0, 1)).isCloseTo(500, within(0.05));
    assertThat(ohms(phase, 0, 2)).isCloseTo(1000, within(1.0));
    List<Probe> distances = rounds.get(rounds.size() - 1);
    assertThat(distances).hasSize(3 * RatioReader.PROBES);
    int floating = Ports.mask(List.of(0, 1, 2, 4));
    assertThat(distances).allMatch(p -> p.guard() == (Ports.ALL & ~floating));
    assertThat(distances).allMatch(p -> p.pace() == Pace.PRECISE);
  }

  /** The returned port's divider takes 116 of 1.02 million parts; that is taken out again. */
  @Test
  void whatGoesPastTheReferenceIsTakenOut() {
    Arrays.fill(coarse, 0, 2, 900);
    TouchPhase phase = run(false, 2, net -> net.join(0, 1, 1 / 900.0));
    assertThat(ohms(phase, 0, 1)).isCloseTo(900, within(1e-4));
  }

  /** Within a gain of 8 lie 113.8 ohm beside this board's loop of 897.8 ohm. */
  @Test
  void theGainLeavesRoomForTwiceTheCoarseReading() {
    coarse[0] = 20;
    for (double[] each : new double[][] {{54.3, 8}, {54.5, 4}}) {
      coarse[1] = each[0];
      run(false, 2, net -> net.join(0, 1, 1 / 20.0));
      assertThat(rounds.get(1).get(0).gain()).isEqualTo((int) each[1]);
    }
  }

  @Test
  void heldAreOnesOfOtherClustersThatTakeNoCurrent() {
    List<List<Integer>> clusters =
        List.of(List.of(0, 1), List.of(2), List.of(3), List.of(4, 5), List.of(6));
    coarse[2] = 1e5;
    coarse[3] = 1.01e5;
    coarse[4] = 10;
    coarse[6] = 10;
    int floating = Ports.mask(List.of(0, 1, 2, 6));
    assertThat(TouchPhase.quiet(List.of(0, 1), clusters, coarse)).isEqualTo(Ports.ALL & ~floating);
  }

  /** 7 ports make 21 pairs, 6 make 15. */
  @Test
  void manyPairsAreReadQuickly() {
    for (boolean windings : new boolean[] {false, true}) {
      Arrays.fill(coarse, 0, 6, 300);
      coarse[6] = 1e9;
      run(windings, 8, net -> {});
      assertThat(rounds.get(0)).hasSize(30).allMatch(p -> p.pace() == Pace.PRECISE);
      coarse[6] = 300;
      run(windings, 8, net -> {});
      assertThat(rounds.get(0)).hasSize(42).allMatch(p -> p.pace() == Pace.QUICK);
    }
  }

  /** A step of 2 V would make what floats on a winding ring: a tenth of a volt does not. */
  @Test
  void besideAWindingPairsAreReadSoftly() {
    Arrays.fill(coarse, 0, 4, 5);
    TouchPhase phase = run(true, 5, net -> net.join(0, 1, 1 / 0.5).join(2, 3, 1 / 11.0));
    assertThat(phase.clusters()).containsExactly(List.of(0, 1), List.of(2, 3), List.of(4));
    assertThat(ohms(phase, 0, 1)).isCloseTo(0.5, within(1e-3));
    assertThat(ohms(phase, 2, 3)).isCloseTo(11, within(0.01));
    assertThat(phase.ohms(0, 2)).isNull();
    List<Probe> soft = rounds.get(0);
    assertThat(soft).hasSize(12).allMatch(p -> p.end() == End.SOFT && p.drive() == 0);
    // one fed, the other at common, the other suspects floating, what is not suspect held
    assertThat(soft.get(0).returned()).isEqualTo(Ports.bit(0));
    assertThat(soft.get(0).look()).isEqualTo(Look.pair(0, 1));
    assertThat(soft.get(1).look()).isEqualTo(Look.REFERENCE);
    assertThat(soft.get(0).guard()).isEqualTo(Ports.ALL & ~0b1101);
  }

  /** Half a second goes by before copper between windings is read again. */
  @Test
  void whatReadsAsCopperIsReadAgainAfterHalfASecond() {
    Arrays.fill(coarse, 0, 4, 5);
    run(true, 5, net -> net.join(0, 1, 1 / 4.9).join(2, 3, 1 / 5.1));
    assertThat(rounds).hasSize(2);
    List<Probe> slow = rounds.get(1);
    assertThat(slow).hasSize(3).allMatch(p -> p.pace() == Pace.PRECISE);
    assertThat(slow).extracting(Probe::repeats).containsExactly(10, 1, 1);
    assertThat(slow).allMatch(p -> p.returned() == Ports.bit(0));
    run(true, 5, net -> net.join(0, 1, 1 / 5.1).join(2, 3, 1 / 5.1));
    assertThat(rounds).hasSize(1);
  }

  /** The second reading counts: what was copper for an instant is 11 ohm of winding. */
  @Test
  void theReadingAfterTheWaitCounts() {
    Arrays.fill(coarse, 0, 2, 5);
    TouchPhase phase = new TouchPhase(IdealBoard.MODEL, List.of(0, 1), coarse, true);
    for (double ohms : new double[] {2, 11}) {
      IdealBoard board =
          new IdealBoard(0, new double[Ports.COUNT], net -> net.join(0, 1, 1 / ohms));
      phase.accept(board.measure(phase.next()));
    }
    assertThat(phase.next()).isEmpty();
    assertThat(ohms(phase, 0, 1)).isCloseTo(11, within(0.01));
  }

  @Test
  void softlyToAKilohmIsOneCluster() {
    Arrays.fill(coarse, 0, 2, 900);
    TouchPhase phase = run(true, 2, net -> net.join(0, 1, 1 / 990.0));
    assertThat(phase.clusters()).hasSize(1);
    assertThat(ohms(phase, 0, 1)).isCloseTo(990, within(1.0));
    phase = run(true, 2, net -> net.join(0, 1, 1 / 1010.0));
    assertThat(phase.clusters()).hasSize(2);
    assertThat(phase.ohms(0, 1)).isNull();
  }

  /** Seven joined by copper are 21 pairs; time is for twenty. */
  @Test
  void atMostTwentyPairsAreReadAgain() {
    Arrays.fill(coarse, 0, 7, 1);
    TouchPhase phase = run(true, 7, net -> IntStream.range(1, 7).forEach(p -> net.join(0, p, 1)));
    assertThat(phase.clusters()).containsExactly(List.of(0, 1, 2, 3, 4, 5, 6));
    assertThat(rounds.get(1)).hasSize(60);
  }
}
