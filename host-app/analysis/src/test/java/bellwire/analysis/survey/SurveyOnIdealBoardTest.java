package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.survey.SurveyResult.PairResult;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;

/** The phases one after the other on a board that answers exactly: what went in must come out. */
class SurveyOnIdealBoardTest {
  private static final double CONTACT = Criteria.standard().contactOhms();
  private static final double[] ARMS = {
    49.9, 90.9, 133, 174, 215, 255, 301, 348, 392, 432, 475, 523, 576, 619, 665, 715
  };
  private static final Plug PLUG = new Plug(ARMS, 1e-4, 5e-6, 15);
  private static final int[] FAR = {3, 1, 5, 4, 2, 8};
  private static final double[] OHMS = {0.500, 0.501, 0.499, 0.900, 0.502, 0.498};
  private static final int STAR = Ports.COUNT + 6;

  private static Consumer<Network> cable(Consumer<Network> faults, double[] arms, int broken) {
    return net -> {
      faults.accept(net);
      for (int i = 0; i < 6; i++) {
        net.join(i, Ports.COUNT + i, 1 / (OHMS[i] + CONTACT));
        if (i != broken && arms.length > 0) {
          net.join(Ports.COUNT + i, STAR, 1 / (arms[FAR[i] - 1] + CONTACT));
        }
      }
    };
  }

  private static SurveyResult survey(Consumer<Network> faults, int broken) {
    double[] farads = new double[Ports.COUNT];
    java.util.Arrays.fill(farads, 15e-12);
    java.util.Arrays.fill(farads, 0, 6, 1.5e-9);
    if (broken >= 0) {
      farads[broken] = 0.6 * 1.485e-9 + 15e-12;
    }
    farads[Ports.METAL] = 3e-10;
    OpenPhase openPhase = new OpenPhase(IdealBoard.MODEL, (1 << Ports.COUNT) - 1, 0);
    new IdealBoard(7, farads, cable(faults, new double[0], broken)).run(openPhase);
    OpenResult open = openPhase.result();
    StarResult coded =
        star(open, new IdealBoard(7, farads, cable(faults, ARMS, broken)), FarEndKind.CODED);
    StarResult tie =
        star(
            open, new IdealBoard(7, farads, cable(faults, new double[16], broken)), FarEndKind.TIE);
    return new SurveyAnalysis(IdealBoard.MODEL, Criteria.standard(), PLUG, CableFacts.unknown())
        .result(open, coded, List.of(tie));
  }

  private static StarResult star(OpenResult open, IdealBoard board, FarEndKind kind) {
    FarEndWatch watch = new FarEndWatch(IdealBoard.MODEL, open, 0);
    FarEndWatch.Sight sight = watch.observe(board.measure(watch.round()), 0);
    assertThat(sight.kind()).isEqualTo(kind);
    StarPhase phase = new StarPhase(IdealBoard.MODEL, sight.connected(), open, watch.lastOhms());
    board.run(phase);
    assertThat(phase.lost()).isZero();
    return StarResult.of(IdealBoard.MODEL, open, sight.connected(), phase);
  }

  @Test
  void healthyCableButForAJoint() {
    SurveyResult result = survey(net -> {}, -1);
    assertThat(result.conductors()).hasSize(6);
    for (ConductorResult c : result.conductors()) {
      assertThat(c.position()).as(Ports.name(c.port())).isEqualTo(FAR[c.port()]);
      assertThat(c.ohms().value()).isCloseTo(OHMS[c.port()], within(1e-4));
      assertThat(c.standing()).isEqualTo(c.port() == 3 ? Standing.FAULTY : Standing.SOUND);
    }
    assertThat(result.pairs())
        .hasSize(21)
        .allMatch(p -> p.standing() == Standing.SOUND && p.aboveOhms() > 1e9);
  }

  @Test
  void shortLeakAndOpenTogether() {
    SurveyResult result =
        survey(
            net -> net.join(0, 4, 1 / 0.25).join(1, 2, 1 / 300e3).join(5, Ports.METAL, 1 / 2.5e6),
            3);
    assertThat(pair(result, 0, 4).ohms().value()).isCloseTo(0.25, within(0.005));
    assertThat(pair(result, 1, 2).ohms().value()).isCloseTo(300e3, within(1e3));
    assertThat(pair(result, 5, 16).ohms().value()).isCloseTo(2.5e6, within(1e4));
    assertThat(pair(result, 5, 16).standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(conductor(result, 3).standing()).isEqualTo(Standing.FAULTY);
    // Fellows of 1.5 nF have lost to the floating part, 1 % at most.
    assertThat(conductor(result, 3).openAt().fraction().value()).isCloseTo(0.6, within(0.01));
    assertThat(conductor(result, 1).openAt()).isNull();
    assertThat(conductor(result, 1).position()).isEqualTo(1);
    assertThat(conductor(result, 2).position()).isEqualTo(5);
    assertThat(conductor(result, 5).position()).isEqualTo(8);
    // Touching at the near end, 0.25 ohm apart: all readings together still tell the two apart.
    assertThat(conductor(result, 0).position()).isEqualTo(FAR[0]);
    assertThat(conductor(result, 4).position()).isEqualTo(FAR[4]);
    assertThat(conductor(result, 0).standing()).isEqualTo(Standing.FAULTY);
  }

  @Test
  void middlingBridgesLeaveTheMapRight() {
    for (double bridge : new double[] {200, 1_500, 8_000, 40_000}) {
      SurveyResult result = survey(net -> net.join(2, 5, 1 / bridge), -1);
      assertThat(pair(result, 2, 5).ohms().value())
          .as("bridge=" + bridge)
          .isCloseTo(bridge, within(0.02 * bridge));
      for (ConductorResult c : result.conductors()) {
        assertThat(c.position())
            .as("bridge=" + bridge + " port=" + c.port())
            .isIn(0, FAR[c.port()]);
      }
      assertThat(conductor(result, 0).position()).isEqualTo(3);
    }
  }

  private static PairResult pair(SurveyResult result, int a, int b) {
    return result.pairs().stream().filter(p -> p.a() == a && p.b() == b).findFirst().orElseThrow();
  }

  private static ConductorResult conductor(SurveyResult result, int port) {
    return result.conductors().stream().filter(c -> c.port() == port).findFirst().orElseThrow();
  }
}
