package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.TieRound.Loop;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

/** Which conductors a round of ties joins, before a board that answers exactly. */
class TiePhaseTest {
  private static final Criteria CRITERIA = Criteria.standard();

  private final double[] coarse = new double[Ports.COUNT];
  private final List<List<Probe>> rounds = new ArrayList<>();
  private OpenFindings open = new OpenFindings(0, 1, 2, 3, 16);

  TiePhaseTest() {
    Arrays.fill(coarse, 1e9);
    Arrays.fill(coarse, 0, 4, 1);
  }

  private TiePhase run(Consumer<Network> ties) {
    TiePhase phase = new TiePhase(IdealBoard.MODEL, open.result(), coarse);
    IdealBoard board = new IdealBoard(0, new double[Ports.COUNT], ties);
    rounds.clear();
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      rounds.add(probes);
      phase.accept(board.measure(probes));
    }
    return phase;
  }

  private TieRound round(Consumer<Network> ties) {
    TiePhase phase = run(ties);
    return TieRound.of(open.result(), phase, CRITERIA);
  }

  private static List<Integer> returned(List<Probe> looks) {
    return looks.stream().map(Probe::returned).toList();
  }

  /** The first is looked at with each of the others; its partner is not asked again. */
  @Test
  void eachIsAskedWithThoseWhosePartnerIsUnknown() {
    TiePhase phase = run(net -> net.join(0, 2, 1).join(1, 3, 1));
    assertThat(rounds).hasSize(3);
    assertThat(rounds.get(0)).allMatch(p -> p.drive() == Ports.bit(0));
    assertThat(returned(rounds.get(0))).containsExactly(Ports.bit(1), Ports.bit(2), Ports.bit(3));
    assertThat(rounds.get(1)).allMatch(p -> p.drive() == Ports.bit(1));
    assertThat(returned(rounds.get(1))).containsExactly(Ports.bit(3));
    Probe look = rounds.get(0).get(1);
    assertThat(look.guard()).isEqualTo(Ports.ALL & ~0b101);
    assertThat(look.look()).isEqualTo(Look.REFERENCE);
    assertThat(phase.groups()).containsExactlyInAnyOrder(List.of(0, 2), List.of(1, 3));
    assertThat(phase.ohms(0, 2).value()).isCloseTo(1, within(1e-6));
    assertThat(phase.ohms(2, 0)).isEqualTo(phase.ohms(0, 2));
    assertThat(phase.ohms(0, 1)).isNull();
    // the group floats while its distances are read
    assertThat(rounds.get(2)).hasSize(2 * RatioReader.PROBES);
    assertThat(rounds.get(2).get(0).guard()).isEqualTo(Ports.ALL & ~0b101);
  }

  /** Whoever found no partner among the unpaired is asked with the paired, as a third to them. */
  @Test
  void whoHasNoPartnerIsAskedWithThePaired() {
    run(net -> net.join(0, 1, 1).join(2, 3, 1e-9));
    assertThat(rounds.get(1)).allMatch(p -> p.drive() == Ports.bit(2));
    assertThat(returned(rounds.get(1))).containsExactly(Ports.bit(3));
    assertThat(rounds.get(2)).allMatch(p -> p.drive() == Ports.bit(2));
    assertThat(returned(rounds.get(2))).containsExactly(Ports.bit(0), Ports.bit(1));
    assertThat(rounds.get(3)).allMatch(p -> p.drive() == Ports.bit(3));
    assertThat(returned(rounds.get(3))).containsExactly(Ports.bit(0), Ports.bit(1));
    assertThat(rounds.get(4)).hasSize(RatioReader.PROBES);
    assertThat(rounds).hasSize(5);
  }

  @Test
  void whatIsFarFromAllOthersIsNotAsked() {
    coarse[2] = 1000;
    coarse[3] = 999;
    run(net -> net.join(0, 1, 1));
    assertThat(returned(rounds.get(0))).containsExactly(Ports.bit(1), Ports.bit(3));
  }

  /** 2 V through 898 ohm and the tie: half a milliampere is 3.1 kohm. */
  @Test
  void aTieMayHaveHundredsOfOhms() {
    Arrays.fill(coarse, 0, 4, 900);
    TiePhase phase = run(net -> net.join(0, 1, 1 / 3050.0).join(2, 3, 1 / 3150.0));
    assertThat(phase.ohms(0, 1).value()).isCloseTo(3050, within(0.01));
    assertThat(phase.ohms(2, 3).value()).isCloseTo(3150, within(0.01));
    // P1 has its partner; P3 is asked on, with the paired
    assertThat(rounds.get(1)).allMatch(p -> p.drive() == Ports.bit(2));
    assertThat(returned(rounds.get(2))).containsExactly(Ports.bit(0), Ports.bit(1));
  }

  /**
   * P1 and P2 touch: they are driven as one, and a weak tie to the one beside a strong one shows.
   */
  @Test
  void onesThatTouchAreAskedAsOne() {
    open = open.joined(0, 1, 0.2);
    TiePhase phase = run(net -> net.join(0, 1, 5).join(1, 2, 1).join(0, 3, 1 / 80.0));
    assertThat(rounds.get(0)).allMatch(p -> p.drive() == 0b11);
    assertThat(returned(rounds.get(0))).containsExactly(Ports.bit(2), Ports.bit(3));
    assertThat(phase.groups()).containsExactly(List.of(0, 1, 2, 3));
    // a cluster may be tied more than once: who has no partner is asked on
    assertThat(returned(rounds.get(1))).containsExactly(Ports.bit(3));
    // 40 mV are left beside the strong one: 13 µA through 3 kohm
    TiePhase weak = run(net -> net.join(0, 1, 5).join(1, 2, 1).join(0, 3, 1 / 3000.0));
    assertThat(weak.groups()).containsExactly(List.of(0, 1, 2), List.of(3));
  }

  /** Within a gain of 8 lie 113.8 ohm beside this board's loop of 897.8 ohm. */
  @Test
  void theGainLeavesRoomForTwiceTheCoarseReading() {
    coarse[1] = 54.3;
    run(net -> net.join(0, 1, 1).join(2, 3, 1));
    assertThat(rounds.get(2).get(0).gain()).isEqualTo(8);
    coarse[1] = 54.5;
    run(net -> net.join(0, 1, 1).join(2, 3, 1));
    assertThat(rounds.get(2).get(0).gain()).isEqualTo(4);
  }

  @Test
  void whatOverloadedHasNoResistance() {
    TiePhase phase = new TiePhase(IdealBoard.MODEL, open.result(), coarse);
    IdealBoard board =
        new IdealBoard(0, new double[Ports.COUNT], net -> net.join(0, 1, 1).join(2, 3, 1));
    phase.accept(board.measure(phase.next()));
    phase.accept(board.measure(phase.next()));
    List<Reading> readings = new ArrayList<>(board.measure(phase.next()));
    Reading first = readings.get(0);
    readings.set(0, new Reading(first.probe(), first.volts(), Double.NaN, true));
    phase.accept(readings);
    assertThat(phase.ohms(0, 1)).isNull();
    assertThat(phase.ohms(2, 3)).isNotNull();
    assertThat(phase.next()).isEmpty();
  }

  /** Less four contacts of 11 mohm, each ± 9 mohm: clamps, and clips of the tie. */
  @Test
  void aLoopIsTwoConductorsWithoutFourContacts() {
    TieRound round = round(net -> net.join(0, 2, 1).join(1, 3, 1 / 2.0));
    assertThat(round.loops())
        .extracting(Loop::a, Loop::b)
        .containsExactlyInAnyOrder(
            org.assertj.core.api.Assertions.tuple(0, 2),
            org.assertj.core.api.Assertions.tuple(1, 3));
    Loop first = round.loops().get(0);
    assertThat(first.ohms().value()).isCloseTo(1 - 0.044, within(1e-6));
    assertThat(first.ohms().u()).isCloseTo(2 * 0.009 / Math.sqrt(3), within(2e-4));
    assertThat(round.joins(0, 2) && round.joins(2, 0)).isTrue();
    assertThat(round.joins(0, 1) || round.joins(2, 3) || round.joins(9, 0)).isFalse();
  }

  @Test
  void moreThanEightyOhmsIsNoTie() {
    Arrays.fill(coarse, 0, 4, 80);
    assertThat(round(net -> net.join(0, 1, 1 / 79.9).join(2, 3, 1 / 80.1)).joined())
        .containsExactly(List.of(0, 1));
  }

  /** A third in the clip, at common, takes most of what two would carry. */
  @Test
  void threeInOneClipAreSeenTogether() {
    for (double[] each : new double[][] {{0, 1, 2}, {1, 2, 3}, {0, 2, 3}}) {
      TieRound round =
          round(
              net ->
                  net.join((int) each[0], (int) each[1], 1).join((int) each[1], (int) each[2], 1));
      assertThat(round.joined())
          .containsExactly(List.of((int) each[0], (int) each[1], (int) each[2]));
      assertThat(round.loops()).isEmpty();
    }
  }

  @Test
  void sixInOneClipAreSeenTogether() {
    open = new OpenFindings(0, 1, 2, 3, 4, 5);
    Arrays.fill(coarse, 0, 6, 1);
    TieRound round =
        round(net -> net.join(0, 1, 1).join(0, 2, 1).join(0, 3, 1).join(0, 4, 1).join(0, 5, 1));
    assertThat(round.joined()).containsExactly(List.of(0, 1, 2, 3, 4, 5));
  }

  /** At common P3 would take a tenth of what P1 returns: with its partner it floats. */
  @Test
  void aLeakageBesideATieTakesNothingFromIt() {
    open = open.leaking(0, 2, 500, 1);
    TieRound round = round(net -> net.join(0, 1, 1).join(2, 3, 1).join(0, 2, 1 / 500.0));
    assertThat(round.joined()).containsExactlyInAnyOrder(List.of(0, 1), List.of(2, 3));
    assertThat(round.loops())
        .hasSize(2)
        .allSatisfy(l -> assertThat(l.ohms().value()).isCloseTo(1 - 0.044, within(2e-4)));
    List<Probe> distances = rounds.get(rounds.size() - 1);
    assertThat(distances).allMatch(p -> p.guard() == (Ports.ALL & ~0b1111));
    open = new OpenFindings(0, 1, 2, 3, 16).joined(0, 2, 500); // near enough for a cluster
    assertThat(round(net -> net.join(0, 1, 1).join(2, 3, 1).join(0, 2, 1 / 500.0)).loops())
        .allSatisfy(l -> assertThat(l.ohms().value()).isCloseTo(1 - 0.044, within(2e-4)));
    open = new OpenFindings(0, 1, 2, 3, 16).leaking(0, 2, 1.1e5, 1); // takes nothing that shows
    run(net -> net.join(0, 1, 1).join(2, 3, 1).join(0, 2, 1 / 1.1e5));
    assertThat(rounds.get(rounds.size() - 1).get(0).guard()).isEqualTo(Ports.ALL & ~0b11);
  }

  /** Of three that hang together no loop is two conductors alone. */
  @Test
  void threeTogetherHaveNoLoops() {
    open = open.joined(2, 3, 0.2);
    TieRound round = round(net -> net.join(3, 2, 5).join(0, 2, 1));
    assertThat(round.joined()).containsExactly(List.of(0, 2, 3));
    assertThat(round.loops()).isEmpty();
  }

  @Test
  void whatTheCableJoinsIsNoLoop() {
    open = open.joined(0, 1, 0.2);
    TieRound round = round(net -> net.join(0, 1, 5).join(2, 3, 1));
    assertThat(round.joined()).containsExactlyInAnyOrder(List.of(0, 1), List.of(2, 3));
    assertThat(round.loops()).extracting(Loop::a).containsExactly(2);
  }

  /** Up to a hundred ohms, or where no distance was read; over one that both touch, too. */
  @Test
  void theCablesOwnShorts() {
    OpenFindings cable =
        new OpenFindings(0, 1, 2, 3, 4, 5)
            .joined(3, 0, 0.5)
            .joined(1, 0, 99)
            .joined(1, 3, 99.5)
            .joined(4, 5, 100);
    assertThat(TieRound.shorted(cable.result())).containsExactly(List.of(0, 1, 3));
    OpenFindings unread = new OpenFindings(0, 1, 2).joined(0, 1, 500).joined(1, 2, 500);
    assertThat(TieRound.shorted(unread.result())).containsExactly(List.of(0, 2));
  }
}
