package bellwire.analysis.attached;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.OpenFindings;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Reading;
import bellwire.analysis.survey.SmallBoard;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

/** Which pairs are looked at, and how many at the most. */
class AttachedSearchTest {
  private static final BoardModel BOARD = SmallBoard.MODEL;
  private static final int FIRST_PROBES = 6;

  /** Three rises and four falls, and the way back. */
  private static final int PROBES = 3 * 2 + 4 * 4 + 3;

  private static AttachedPhase phase(OpenResult open) {
    return new AttachedPhase(BOARD, open, 0, 0);
  }

  private static OpenFindings all() {
    return new OpenFindings(IntStream.range(0, Ports.COUNT).boxed().toArray(Integer[]::new));
  }

  /**
   * Where distances of three are read with an error, a little appears between the two that only a
   * third joins: less than a tenth of what either has.
   */
  @Test
  void theRestOfAClustersErrorIsNoAttachment() {
    OpenFindings star = new OpenFindings(0, 1, 2).joined(0, 2, 1).joined(1, 2, 1);
    assertThat(phase(star.joined(0, 1, 10).result()).found()).hasSize(2); // 0.1 of 1.1 S
    assertThat(phase(star.joined(0, 1, 8).result()).found()).hasSize(3); // 0.125 of 1.125 S
  }

  /** By more than a third of a millisiemens two ports are joined. */
  @Test
  void beyondThreeKilohmNothingIsCalledJoined() {
    assertThat(phase(new OpenFindings(0, 1).leaking(0, 1, 3010, 1).result()).found()).isEmpty();
    assertThat(phase(new OpenFindings(0, 1).leaking(0, 1, 2990, 1).result()).found()).hasSize(1);
  }

  /** A port of 5 kohm whose leakages make up less than 0.3 of that; none from 50 kohm on. */
  @Test
  void aLowPortIsSuspectWhereItsLeakagesDoNotExplainIt() {
    assertThat(suspect(5_000, 20_000)).isTrue();
    assertThat(suspect(5_000, 16_000)).isFalse();
    assertThat(suspect(49_000, 1e9)).isTrue();
    assertThat(suspect(51_000, 1e9)).isFalse();
  }

  private static boolean suspect(double restOhms, double leakOhms) {
    OpenResult open = new OpenFindings(0, 1).leaking(0, 1, leakOhms, 1).result();
    open.restOhms()[1] = restOhms;
    return !phase(open).idle();
  }

  /** A leakage of 9 Mohm is why it hardly came up, one of 11 Mohm is not. */
  @Test
  void aSlowPortIsSuspectWithoutALeakage() {
    for (double[] ohmsAndSuspect : new double[][] {{9e6, 0}, {11e6, 1}}) {
      OpenResult open = new OpenFindings(0, 1).leaking(0, 1, ohmsAndSuspect[0], 1).result();
      AttachedPhase phase = new AttachedPhase(BOARD, open, Ports.bit(1), 0);
      assertThat(phase.idle()).isEqualTo(ohmsAndSuspect[1] == 0);
    }
  }

  @Test
  void whatTouchesIsNotLookedAtAsApart() {
    OpenResult open = new OpenFindings(0, 1).joined(0, 1, 5000).result();
    open.restOhms()[0] = 900;
    assertThat(phase(open).idle()).isTrue();
  }

  /** A fellow of one of the two would ring: it floats, and the pair is fed softly. */
  @Test
  void theFellowsOfEitherFloat() {
    for (int joined : new int[] {0, 1}) {
      OpenResult open = new OpenFindings(0, 1, 2).joined(joined, 2, 5000).result();
      open.restOhms()[1 - joined] = 900;
      List<Probe> probes = phase(open).next();
      Probe look = probes.get(0); // P1 to P2
      assertThat(look.end()).as("joined=" + joined).isEqualTo(End.SOFT);
      assertThat((look.drive() | look.returned() | look.guard()) & Ports.bit(2)).isZero();
    }
  }

  /** Five suspects among 17 ports would be 70 pairs. */
  @Test
  void sixtyPairsAreLookedAtFirstAndThirtyOfThemFurther() {
    OpenResult open = all().result();
    for (int port = 0; port < 5; port++) {
      open.restOhms()[port] = 900;
    }
    AttachedPhase phase = phase(open);
    List<Probe> first = phase.next();
    assertThat(first).hasSize(60 * FIRST_PROBES);
    phase.accept(first.stream().map(p -> new Reading(p, 0.1, Double.NaN, false)).toList());
    assertThat(phase.next()).hasSize(30 * PROBES);
  }

  /** Nine ports each joined to each are 36 pairs. */
  @Test
  void thirtyWindingsAreLookedAtAtTheMost() {
    OpenFindings findings = all();
    for (int a = 0; a < 9; a++) {
      for (int b = a + 1; b < 9; b++) {
        findings.joined(a, b, 16);
      }
    }
    AttachedPhase phase = new AttachedPhase(BOARD, findings.result(), 0, Ports.ALL);
    assertThat(phase.next()).hasSize(30 * PROBES);
    assertThat(phase(findings.result()).found()).hasSize(36); // copper is not asked
  }
}
