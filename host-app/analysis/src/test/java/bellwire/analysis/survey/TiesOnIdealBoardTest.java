package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.network.Network;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.ties.Tie;
import bellwire.analysis.ties.TiePlan;
import bellwire.analysis.ties.TiePlans;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Two rounds of ties on a board that answers exactly: what was made must come out. */
class TiesOnIdealBoardTest {
  private static final double CONTACT = Criteria.standard().contactOhms();
  private static final int CONDUCTORS = 8;
  private static final TiePlan PLAN = TiePlans.everyTied(CONDUCTORS).orElseThrow();

  /** Far number of the conductor on each port. */
  private static final int[] FAR = {3, 1, 5, 4, 2, 8, 7, 6};

  private final double[] ohms = new double[CONDUCTORS];
  private final double[] farads = new double[Ports.COUNT];
  private Consumer<Network> faults = net -> {};

  /** What is at the far ends besides ties, whenever there are some. */
  private Consumer<Network> clipped = net -> {};

  private int broken = -1;
  private final Map<Tie, Double> poor = new HashMap<>();
  private boolean metal = true;
  private int roundsMade = 2;
  private SurveyResult result;

  TiesOnIdealBoardTest() {
    Arrays.fill(ohms, 0.5);
    Arrays.fill(farads, 15e-12);
    Arrays.fill(farads, 0, CONDUCTORS, 1.5e-9);
    farads[Ports.METAL] = 3e-10;
  }

  private static int port(int far) {
    for (int port = 0; port < CONDUCTORS; port++) {
      if (FAR[port] == far) {
        return port;
      }
    }
    throw new AssertionError("far=" + far);
  }

  private IdealBoard board(List<Tie> ties) {
    return new IdealBoard(
        CONDUCTORS,
        farads,
        net -> {
          faults.accept(net);
          for (int port = 0; port < CONDUCTORS; port++) {
            if (port != broken) {
              net.join(port, Ports.COUNT + port, 1 / (ohms[port] + CONTACT));
            }
          }
          if (!ties.isEmpty()) {
            clipped.accept(net);
          }
          for (Tie tie : ties) {
            double between = 2 * CONTACT + poor.getOrDefault(tie, 0.0);
            net.join(Ports.COUNT + port(tie.a()), Ports.COUNT + port(tie.b()), 1 / between);
          }
        });
  }

  private TieRun survey() {
    int ports = Ports.ALL & ~(metal ? 0 : Ports.bit(Ports.METAL));
    OpenPhase openPhase = new OpenPhase(IdealBoard.MODEL, ports, 0);
    board(List.of()).run(openPhase);
    OpenResult open = openPhase.result();
    List<TieRound> rounds = new ArrayList<>();
    for (List<Tie> ties : PLAN.rounds().subList(0, roundsMade)) {
      IdealBoard board = board(ties);
      FarEndWatch watch = new FarEndWatch(IdealBoard.MODEL, open, 0);
      watch.observe(board.measure(watch.round()), 0);
      TiePhase phase = new TiePhase(IdealBoard.MODEL, open, watch.lastOhms());
      board.run(phase);
      rounds.add(TieRound.of(open, phase, Criteria.standard()));
    }
    TieRun run = TieRun.of(PLAN, open, rounds);
    SurveyAnalysis analysis =
        new SurveyAnalysis(
            IdealBoard.MODEL,
            Criteria.standard(),
            new Plug(new double[0], 1e-4, 5e-6, 15),
            CableFacts.unknown());
    result = analysis.withTies(analysis.result(open, null, List.of()), open, run);
    return run;
  }

  private ConductorResult on(int port) {
    return result.conductors().stream().filter(c -> c.port() == port).findFirst().orElseThrow();
  }

  private void found(CableFinding... kinds) {
    assertThat(result.findings()).extracting(Finding::kind).containsExactlyInAnyOrder(kinds);
  }

  @Test
  void aSoundCableIsIdentifiedAndSound() {
    TieRun run = survey();
    assertThat(run.complete()).isTrue();
    for (int port = 0; port < CONDUCTORS; port++) {
      assertThat(on(port).position()).isEqualTo(FAR[port]);
      assertThat(on(port).reason()).isEqualTo("sound, far number " + FAR[port]);
      assertThat(on(port).standing()).isEqualTo(Standing.SOUND);
      assertThat(run.reached(port)).isTrue();
    }
    assertThat(run.loops())
        .allSatisfy(l -> assertThat(l.ohms().value()).isCloseTo(1.0, within(1e-3)));
    assertThat(result.phases()).containsExactly("open", "ties 1", "ties 2");
    assertThat(result.metalChecked()).isTrue();
    found();
  }

  /** In two loops: both have as much more, so it is the conductor. */
  @Test
  void aJointInTwoLoopsIsItsConductors() {
    int middle = port(2); // between 1 and 3 in the chain
    ohms[middle] = 0.9;
    survey();
    assertThat(on(middle).standing()).isEqualTo(Standing.FAULTY);
    assertThat(on(middle).reason()).contains("more than its fellows: a joint or a nick");
    for (int port = 0; port < CONDUCTORS; port++) {
      assertThat(on(port).standing() == Standing.FAULTY).isEqualTo(port == middle);
      assertThat(on(port).position()).isEqualTo(FAR[port]);
    }
    found(CableFinding.JOINT);
  }

  @Test
  void aJointInOneLoopMayBeItsClip() {
    int first = port(1); // an end of the chain: in one tie only
    ohms[first] = 0.9;
    survey();
    assertThat(on(first).standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(on(first).reason()).contains("too much in its pair with P5").contains("the clip");
    found(CableFinding.JOINT);
  }

  @Test
  void aPoorClipBetweenTwoSoundConductorsIsTheTies() {
    Tie middle = PLAN.rounds().get(1).get(0); // 2 to 3, both in another tie too
    poor.put(middle, 0.5);
    survey();
    found(CableFinding.CONTACT);
    assertThat(result.conductors())
        .extracting(ConductorResult::standing)
        .containsOnly(Standing.SOUND);
    assertThat(result.findings().get(0).ports())
        .containsExactlyInAnyOrder(port(middle.a()), port(middle.b()));
  }

  @Test
  void aBrokenConductorIsFoundByItsCapacitanceAndPlaced() {
    broken = port(2);
    farads[broken] = 0.6 * 1.485e-9 + 15e-12;
    survey();
    assertThat(on(broken).standing()).isEqualTo(Standing.FAULTY);
    assertThat(on(broken).reason()).contains("no path to the far end");
    assertThat(on(broken).openAt().fraction().value()).isCloseTo(0.6, within(0.01));
    assertThat(result.findings()).extracting(Finding::kind).contains(CableFinding.UNTIED);
    Finding untied =
        result.findings().stream().filter(f -> f.kind() == CableFinding.UNTIED).findFirst().get();
    assertThat(untied.ports()).containsExactly(broken);
    assertThat(untied.words()).contains("open at");
  }

  @Test
  void oneThatTouchesAnotherIsUndecidedWithItsNumbers() {
    faults = net -> net.join(0, 4, 1 / 0.25);
    survey();
    assertThat(on(0).standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(on(0).reason()).startsWith("touches P5; ").contains("far number");
    assertThat(on(1).position()).isIn(0, FAR[1]);
    assertThat(result.findings())
        .extracting(Finding::kind)
        .contains(CableFinding.TOUCHING, CableFinding.AMBIGUOUS)
        .isSorted();
  }

  @Test
  void ofOneRoundAloneNumbersStayOpen() {
    roundsMade = 1;
    TieRun run = survey();
    assertThat(run.complete()).isFalse();
    assertThat(result.conductors())
        .extracting(ConductorResult::standing)
        .contains(Standing.UNDECIDED);
    assertThat(result.findings()).extracting(Finding::kind).contains(CableFinding.AMBIGUOUS);
    assertThat(result.findings().get(0).words()).contains("one round only was seen");
    roundsMade = 0;
    survey();
    assertThat(result.conductors())
        .allSatisfy(c -> assertThat(c.standing()).isEqualTo(Standing.UNDECIDED));
    assertThat(on(0).reason()).isEqualTo("one of 8 far numbers: no round of ties was seen");
  }

  @Test
  void whatNobodyPlannedIsMistied() {
    faults = net -> {};
    TieRun asPlanned = survey();
    List<TieRound> odd =
        List.of(
            new TieRound(List.of(List.of(0, 1, 2), List.of(3, 4, 5)), List.of()),
            new TieRound(List.of(List.of(0, 1, 2), List.of(3, 4, 5)), List.of()));
    OpenResult open = new OpenFindings(0, 1, 2, 3, 4, 5, 6, 7).result();
    TieRun run = TieRun.of(PLAN, open, odd);
    assertThat(run.reading().explained()).isFalse();
    assertThat(asPlanned.reading().explained()).isTrue();
    SurveyAnalysis analysis =
        new SurveyAnalysis(
            IdealBoard.MODEL,
            Criteria.standard(),
            new Plug(new double[0], 1e-4, 5e-6, 15),
            CableFacts.unknown());
    result = analysis.withTies(analysis.result(open, null, List.of()), open, run);
    assertThat(result.findings().get(0).kind()).isEqualTo(CableFinding.MISTIED);
    assertThat(result.conductors())
        .allSatisfy(c -> assertThat(c.standing()).isEqualTo(Standing.UNDECIDED));
  }

  /** The end of another tie in the same clip: four together, which no plan has. */
  @Test
  void twoTiesInOneClipAreToldAndNobodyIsSound() {
    clipped = net -> net.join(Ports.COUNT + port(1), Ports.COUNT + port(3), 1);
    TieRun run = survey();
    assertThat(run.rounds().get(0).joined())
        .contains(IntStream.of(port(1), port(2), port(3), port(4)).sorted().boxed().toList());
    assertThat(result.findings()).extracting(Finding::kind).contains(CableFinding.MISTIED);
    assertThat(result.conductors())
        .extracting(ConductorResult::standing)
        .containsOnly(Standing.UNDECIDED);
  }

  /** 500 ohm from P1 to P3: a leakage, and no joint in either's loops. */
  @Test
  void aLeakageIsNoJoint() {
    faults = net -> net.join(0, 2, 1 / 500.0);
    TieRun run = survey();
    assertThat(run.loops())
        .allSatisfy(l -> assertThat(l.ohms().value()).isCloseTo(1.0, within(2e-3)));
    assertThat(result.findings())
        .extracting(Finding::kind)
        .doesNotContain(CableFinding.JOINT, CableFinding.CONTACT);
  }

  @Test
  void withoutTheClipTheMetalIsNotChecked() {
    metal = false;
    survey();
    found(CableFinding.METAL_UNCHECKED);
    assertThat(result.metalChecked()).isFalse();
    assertThat(on(0).position()).isEqualTo(FAR[0]);
  }
}
