package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.StarPhase.Observation;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Which ports a plug's arms are read over, and what is read again. */
class StarPhaseTest {
  private static final double AMPS = 2e-3;
  private static final double OHMS = 50;

  private final double[] coarse = new double[Ports.COUNT];

  StarPhaseTest() {
    Arrays.fill(coarse, 1e9);
    Arrays.fill(coarse, 0, 8, 100);
  }

  private StarPhase phase(OpenFindings open, Integer... connected) {
    return new StarPhase(IdealBoard.MODEL, List.of(connected), open.result(), coarse);
  }

  /** Driven port, returned port, port that the voltage is taken to. */
  private static List<List<Integer>> asked(List<Probe> probes) {
    List<List<Integer>> asked = new ArrayList<>();
    for (int k = 0; k < probes.size(); k += RatioReader.PROBES) {
      Probe p = probes.get(k);
      assertThat(p.look().a()).isEqualTo(Ports.list(p.drive()).get(0));
      asked.add(
          List.of(Ports.list(p.drive()).get(0), Ports.list(p.returned()).get(0), p.look().b()));
    }
    return asked;
  }

  private static List<List<Integer>> asked(StarPhase phase) {
    return asked(phase.next());
  }

  private static List<Integer> of(int a, int b, int k) {
    return List.of(a, b, k);
  }

  /** 50 ohm each; of the sets named the first overloaded, or offset by 20 mV. */
  private static void answer(StarPhase phase, Set<Integer> overloaded, Set<Integer> offset) {
    List<Reading> readings = new ArrayList<>();
    List<Probe> probes = phase.next();
    double[] seen = {OHMS * AMPS, AMPS * 100, -AMPS * 100, -OHMS * AMPS};
    for (int k = 0; k < probes.size(); k++) {
      int set = k / RatioReader.PROBES;
      boolean voltage = k % RatioReader.PROBES % 3 == 0;
      double volts = seen[k % RatioReader.PROBES] + (voltage && offset.contains(set) ? 0.02 : 0);
      boolean over = overloaded.contains(set) && k % RatioReader.PROBES == 0;
      readings.add(new Reading(probes.get(k), volts, Double.NaN, over));
    }
    phase.accept(readings);
  }

  @Test
  void eachIsDrivenOnceAgainstTheNextAndReadToAThird() {
    assertThat(asked(phase(new OpenFindings(0, 1, 2, 3, 16), 0, 1, 2, 3)))
        .containsExactly(of(0, 1, 2), of(1, 2, 3), of(2, 3, 0), of(3, 0, 1));
    assertThat(asked(phase(new OpenFindings(0, 4, 7), 0, 4, 7)))
        .containsExactly(of(0, 4, 7), of(4, 7, 0), of(7, 0, 4));
    assertThat(asked(phase(new OpenFindings(0, 1, 2), 1))).isEmpty();
  }

  @Test
  void twoShareOneReadingOfTheirSum() {
    StarPhase phase = phase(new OpenFindings(0, 1, 2), 0, 1);
    assertThat(asked(phase)).containsExactly(of(0, 1, 1));
    answer(phase, Set.of(), Set.of());
    StarResult result =
        StarResult.of(IdealBoard.MODEL, new OpenFindings(0, 1, 2).result(), List.of(0, 1), phase);
    assertThat(result.loop().value()).isEqualTo(OHMS);
    assertThat(result.arms()).isEmpty();
    assertThat(result.connected()).containsExactly(0, 1);
  }

  /** A leakage to the third would draw current along what must carry none. */
  @Test
  void theThirdLeaksToNeitherWhereThereIsSuchAOne() {
    OpenFindings open = new OpenFindings(0, 1, 2, 3);
    open.leaking(0, 2, 1e5, 10);
    List<List<Integer>> one = asked(phase(open, 0, 1, 2, 3));
    assertThat(one).contains(of(0, 1, 3)).doesNotContain(of(0, 1, 2));
    assertThat(asked(phase(new OpenFindings(0, 1, 2, 3).leaking(1, 2, 1e5, 10), 0, 1, 2, 3)))
        .contains(of(0, 1, 3));
    open.leaking(1, 3, 1e5, 10); // neither will do: the first of the two
    assertThat(asked(phase(open, 0, 1, 2, 3))).contains(of(0, 1, 2));
  }

  /** P2 touches P1: P1 stands for both in the round, P2 is read against two that it is not with. */
  @Test
  void oneOfAClusterStandsForItInTheRound() {
    OpenFindings open = new OpenFindings(0, 1, 2, 3).joined(0, 1, 5);
    StarPhase phase = phase(open, 0, 1, 2, 3);
    assertThat(asked(phase))
        .containsExactly(
            of(0, 2, 3),
            of(2, 3, 0),
            of(3, 0, 2),
            of(1, 2, 3),
            of(0, 1, 2), // through the bridge, as in a Murray loop
            of(1, 0, 2));
    answer(phase, Set.of(), Set.of());
    assertThat(phase.observations()).hasSize(4);
    assertThat(phase.alongBridges())
        .extracting(Observation::a, Observation::b, Observation::k)
        .containsExactly(
            org.assertj.core.api.Assertions.tuple(0, 1, 2),
            org.assertj.core.api.Assertions.tuple(1, 0, 2));
    assertThat(phase.lost()).isZero();
  }

  /** With two clusters of two there is nothing beside them to read the second ones against. */
  @Test
  void whatHasNotTwoApartIsNotRead() {
    OpenFindings open = new OpenFindings(0, 1, 2, 3).joined(0, 1, 5).joined(2, 3, 5);
    assertThat(asked(phase(open, 0, 1, 2, 3)))
        .containsExactly(of(0, 2, 2), of(0, 1, 2), of(1, 0, 2), of(2, 3, 0), of(3, 2, 0));
  }

  @Test
  void loopsAreReadOfClustersThatHangOnThePlug() {
    OpenFindings open = new OpenFindings(0, 1, 2, 3, 4).joined(3, 4, 5);
    assertThat(asked(phase(open, 0, 1, 2))).containsExactly(of(0, 1, 2), of(1, 2, 0), of(2, 0, 1));
    assertThat(asked(phase(open, 0, 1, 2, 3))).contains(of(3, 4, 0), of(4, 3, 0));
    OpenFindings all = new OpenFindings(0, 1, 2).joined(0, 1, 5).joined(1, 2, 5);
    assertThat(asked(phase(all, 0, 1, 2))).isEmpty(); // none is apart from the cluster
  }

  /** Bare metal is never the driven end: it is no conductor with copper to find a place on. */
  @Test
  void noLoopBeginsAtBareMetal() {
    OpenFindings open = new OpenFindings(0, 1, 2, 16).joined(0, 16, 5);
    List<List<Integer>> asked = asked(phase(open, 0, 1, 2));
    assertThat(asked).contains(of(0, 16, 1)).noneMatch(t -> t.get(0) == Ports.METAL);
  }

  /** Six that touch make 30 loops. */
  @Test
  void notMoreThanSixteenLoopsAreRead() {
    OpenFindings open = new OpenFindings(0, 1, 2, 3, 4, 5, 6, 7);
    for (int p = 1; p < 6; p++) {
      open.joined(0, p, 5);
    }
    List<List<Integer>> asked = asked(phase(open, 0, 1, 2, 3, 4, 5, 6, 7));
    assertThat(asked.stream().filter(t -> t.get(0) < 6 && t.get(1) < 6)).hasSize(16);
  }

  /** Held is what has no path to the plug within 100 kohm, neither before nor now. */
  @Test
  void whatHasNoPathToThePlugIsHeld() {
    OpenFindings open = new OpenFindings(0, 1, 2, 8, 9, 10, 11, 16);
    open.joined(9, 11, 5).leaking(9, 0, 5e4, 10);
    coarse[10] = 5e4;
    int floating = Ports.mask(List.of(0, 1, 2, 9, 10, 11));
    StarPhase phase = phase(open, 0, 1, 2);
    assertThat(phase.guard()).isEqualTo(Ports.ALL & ~floating);
    assertThat(phase.next()).allMatch(p -> p.guard() == phase.guard());
    coarse[10] = 1.01e5;
    assertThat(phase(open, 0, 1, 2).guard() & Ports.bit(10)).isNotZero();
  }

  /** Within a gain of 8 lie 113.8 ohm beside this board's loop of 897.8 ohm. */
  @Test
  void theGainFollowsWhatTheFarEndReadRoughly() {
    Arrays.fill(coarse, 0, 3, 112.5);
    assertThat(gains(phase(new OpenFindings(0, 1, 2), 0, 1, 2))).containsOnly(8);
    Arrays.fill(coarse, 0, 3, 113.2);
    assertThat(gains(phase(new OpenFindings(0, 1, 2), 0, 1, 2))).containsOnly(4);
    Arrays.fill(coarse, 0, 3, 109); // a loop of two is read whole
    assertThat(gains(phase(new OpenFindings(0, 1), 0, 1))).containsOnly(4);
    Arrays.fill(coarse, 0, 3, 106);
    assertThat(gains(phase(new OpenFindings(0, 1), 0, 1))).containsOnly(8);
    coarse[0] = 1e9; // nothing that hangs on a plug has more than 3 kohm
    assertThat(gains(phase(new OpenFindings(0, 1, 2), 0, 1, 2))).containsExactly(1, 8, 8);
  }

  /** One of a cluster reads low for its neighbour's sake: its own arm may be any. */
  @Test
  void oneOfAClusterIsReadWithRoomForAnyArm() {
    OpenFindings open = new OpenFindings(0, 1, 2, 3).joined(0, 1, 5);
    assertThat(gains(phase(open, 0, 1, 2, 3))).containsExactly(1, 8, 8, 1, 1, 1);
  }

  private static List<Integer> gains(StarPhase phase) {
    List<Integer> gains = new ArrayList<>();
    List<Probe> probes = phase.next();
    for (int k = 0; k < probes.size(); k += RatioReader.PROBES) {
      gains.add(probes.get(k).gain());
    }
    return gains;
  }

  @Test
  void whatOverloadedIsReadOnceMoreWithRoomForAnyArm() {
    StarPhase phase = phase(new OpenFindings(0, 1, 2), 0, 1, 2);
    answer(phase, Set.of(1), Set.of());
    assertThat(phase.observations()).extracting(Observation::a).containsExactly(0, 2);
    assertThat(asked(phase)).containsExactly(of(1, 2, 0));
    assertThat(gains(phase)).containsExactly(1);
    answer(phase, Set.of(0), Set.of());
    assertThat(phase.next()).isEmpty();
    assertThat(phase.lost()).isEqualTo(1);
  }

  /**
   * A voltage that came or went: once more as before; what looks the same again is no passer-by.
   */
  @Test
  void whatWasDisturbedIsReadOnceMoreAndThenTaken() {
    StarPhase phase = phase(new OpenFindings(0, 1, 2), 0, 1, 2);
    answer(phase, Set.of(), Set.of(0, 2));
    assertThat(asked(phase)).containsExactly(of(0, 1, 2), of(2, 0, 1));
    assertThat(gains(phase)).containsExactly(8, 8);
    answer(phase, Set.of(), Set.of(0));
    assertThat(phase.next()).isEmpty();
    assertThat(phase.lost()).isZero();
    assertThat(phase.observations())
        .allSatisfy(o -> assertThat(o.ohms().value()).isEqualTo(OHMS))
        .extracting(Observation::a)
        .containsExactlyInAnyOrder(0, 1, 2);
  }

  /**
   * At the equipment three are joined, by 5, 300 and 305 ohm: the farthest serve for the voltage.
   */
  @Test
  void atTheEquipmentTheFarthestServe() {
    OpenFindings open =
        new OpenFindings(0, 1, 2, 3)
            .joined(0, 1, 5)
            .joined(1, 2, 300)
            .joined(0, 2, 305)
            .joined(0, 3, 500)
            .joined(1, 3, 505)
            .joined(2, 3, 400);
    StarPhase phase =
        new StarPhase(IdealBoard.MODEL, List.of(0, 1, 2, 3), open.result(), coarse, true);
    assertThat(phase.landed()).isTrue();
    assertThat(asked(phase)).containsExactly(of(0, 2, 3), of(1, 2, 3), of(2, 0, 3), of(3, 0, 2));
    assertThat(phase(open, 0, 1, 2, 3).landed()).isFalse();
    // with three apart the round serves as without equipment
    StarPhase apart =
        new StarPhase(
            IdealBoard.MODEL, List.of(0, 1, 2), new OpenFindings(0, 1, 2).result(), coarse, true);
    assertThat(asked(apart)).containsExactly(of(0, 1, 2), of(1, 2, 0), of(2, 0, 1));
    // and of two there is no third
    StarPhase two =
        new StarPhase(
            IdealBoard.MODEL, List.of(0, 1), new OpenFindings(0, 1).result(), coarse, true);
    assertThat(asked(two)).containsExactly(of(0, 1, 1));
  }
}
