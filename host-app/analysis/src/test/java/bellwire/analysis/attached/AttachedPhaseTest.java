package bellwire.analysis.attached;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.Foreign;
import bellwire.analysis.survey.OpenFindings;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Probe.Kind;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.survey.Reading;
import bellwire.analysis.survey.SmallBoard;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A pair of ports that answers as one kind of load does, by {@link LoadModels}. */
class AttachedPhaseTest {
  private static final BoardModel BOARD = SmallBoard.MODEL;
  private static final LoadModels MODELS = new LoadModels(BOARD, false);
  private static final int COILS = 0b11;

  private static List<Attachment> found(AttachedPhase phase, double[] row) {
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      phase.accept(answer(probes, row));
    }
    return phase.found();
  }

  /** The rise by its delay, the fall by its; at rest the current, or the volts of the pair. */
  private static List<Reading> answer(List<Probe> probes, double[] row) {
    int rises = LoadLook.RISE_SECONDS.length;
    int falls = LoadLook.FALL_SECONDS.length;
    int firstPort = probes.get(0).drive();
    List<Reading> readings = new ArrayList<>();
    for (Probe probe : probes) {
      boolean back = probe.drive() != firstPort;
      double volts = 0;
      if (probe.look().kind() == Kind.PAIR) {
        volts = row[rises + falls + (back ? 3 : 1)] * MODELS.loopOhms();
      } else if (probe.pace() == Pace.INSTANT) {
        int k =
            probe.settleMicros() < 200
                ? 0
                : probe.settleMicros() < 900 ? 1 : probe.settleMicros() < 3000 ? 2 : 3;
        volts = row[probe.excite() ? k : rises + k] * BOARD.lowReferenceOhms();
      } else if (probe.excite()) {
        volts = row[rises + falls + (back ? 2 : 0)] * BOARD.lowReferenceOhms();
      }
      readings.add(new Reading(probe, volts, Double.NaN, false));
    }
    return readings;
  }

  private static OpenResult joined(double ohms) {
    return new OpenFindings(0, 1, 2).joined(0, 1, ohms).result();
  }

  @Test
  void aCableWhosePortsAreApartIsAskedNothing() {
    AttachedPhase phase = new AttachedPhase(BOARD, new OpenFindings(0, 1, 2, 16).result(), 0, 0);
    assertThat(phase.idle()).isTrue();
    assertThat(phase.next()).isEmpty();
    assertThat(phase.found()).isEmpty();
  }

  @Test
  void withoutAWindingItIsCopper() {
    AttachedPhase phase = new AttachedPhase(BOARD, joined(16), 0, 0);
    assertThat(phase.idle()).isTrue();
    assertThat(phase.found())
        .singleElement()
        .satisfies(
            a -> {
              assertThat(a.kind()).isEqualTo(LoadKind.RESISTANCE);
              assertThat(a.ohms()).isCloseTo(16, within(1e-9));
              assertThat(a.joins(1, 0)).isTrue();
              assertThat(a.load() || a.winding()).isFalse();
            });
  }

  @Test
  void aCoilIsFoundWithItsFigures() {
    AttachedPhase phase = new AttachedPhase(BOARD, joined(16), 0, COILS);
    assertThat(phase.idle()).isFalse();
    assertThat(found(phase, MODELS.winding(16, 0.25, 1e9)))
        .singleElement()
        .satisfies(
            a -> {
              assertThat(a.kind()).isEqualTo(LoadKind.COIL);
              assertThat(a.load() && a.winding()).isTrue();
              assertThat(a.ohms()).isCloseTo(16, within(0.1));
              assertThat(a.value()).isCloseTo(0.25, within(0.01));
              assertThat(a.probability()).isBetween(0.9, 1.0);
            });
    assertThat(phase.next()).isEmpty();
  }

  @Test
  void aSecondaryHasItsOhmsToo() {
    List<Attachment> found =
        found(new AttachedPhase(BOARD, joined(0.6), 0, COILS), MODELS.winding(0.6, 0.05, 1e9));
    assertThat(found).extracting(Attachment::kind).containsExactly(LoadKind.SECONDARY);
    assertThat(found.get(0).ohms()).isCloseTo(0.6, within(0.01));
  }

  /** Beyond a secondary's 3 ohm and below a coil's 4 it may be either. */
  @Test
  void betweenACoilAndASecondaryNeitherIsSure() {
    double least = 1;
    for (double ohms = 3; ohms < 4.01; ohms += 0.05) {
      Attachment either =
          found(new AttachedPhase(BOARD, joined(ohms), 0, COILS), MODELS.winding(ohms, 0.05, 1e9))
              .get(0);
      assertThat(either.winding()).isTrue();
      assertThat(either.probability()).isBetween(0.4, 1.0);
      least = Math.min(least, either.probability());
    }
    assertThat(least).isLessThan(0.7);
  }

  @Test
  void copperWhereAWindingWasSuspectedIsCopper() {
    List<Attachment> found =
        found(new AttachedPhase(BOARD, joined(16), 0, COILS), MODELS.resistance(16));
    assertThat(found).extracting(Attachment::kind).containsExactly(LoadKind.RESISTANCE);
    assertThat(found.get(0).ohms()).isCloseTo(16, within(0.1));
  }

  /** No conductance between the two, and yet a port is low: it conducts one way. */
  @Test
  void aDiodeIsFoundFromItsAnode() {
    OpenResult open = new OpenFindings(0, 1).result();
    open.restOhms()[0] = 900;
    AttachedPhase phase = new AttachedPhase(BOARD, open, 0, 0);
    assertThat(phase.idle()).isFalse();
    assertThat(found(phase, MODELS.diode(0.62, true)))
        .singleElement()
        .satisfies(
            a -> {
              assertThat(a.kind()).isEqualTo(LoadKind.DIODE);
              assertThat(List.of(a.a(), a.b())).containsExactly(1, 0);
              assertThat(a.value()).isCloseTo(0.62, within(0.01));
              assertThat(a.ohms()).isNaN();
            });
  }

  @Test
  void aPortThatHardlyCameUpHidesACapacitor() {
    OpenResult open = new OpenFindings(0, 1, 16).result();
    AttachedPhase phase = new AttachedPhase(BOARD, open, Ports.bit(1), 0);
    List<Attachment> found = found(phase, MODELS.capacitor(4.7e-6));
    assertThat(found).isNotEmpty();
    assertThat(found).extracting(Attachment::kind).containsOnly(LoadKind.CAPACITOR);
    assertThat(found.get(0).value()).isCloseTo(4.7e-6, within(0.1e-6));
    AttachedPhase metalOnly = new AttachedPhase(BOARD, open, Ports.bit(Ports.METAL), 0);
    assertThat(metalOnly.idle()).isTrue();
  }

  /** Hum makes a little current of nothing; a resistance there is none. */
  @Test
  void nothingBetweenASuspectPairIsNothing() {
    OpenResult open = new OpenFindings(0, 1).result();
    open.restOhms()[0] = 900;
    AttachedPhase quiet = new AttachedPhase(BOARD, open, 0, 0);
    assertThat(found(quiet, MODELS.resistance(1e6))).isEmpty();
    assertThat(quiet.next()).isEmpty();
    AttachedPhase loud = new AttachedPhase(BOARD, open, 0, 0);
    assertThat(found(loud, MODELS.resistance(5000))).isEmpty();
  }

  @Test
  void aLowPortThatItsLeakageExplainsIsNotSuspect() {
    OpenResult open = new OpenFindings(0, 1).leaking(0, 1, 900, 1).result();
    open.restOhms()[0] = 900;
    assertThat(new AttachedPhase(BOARD, open, 0, 0).idle()).isTrue();
  }

  /** Common practice, no source: one cell to a few in series. */
  @Test
  void aSteadyVoltageOfACellIsCalledOne() {
    assertThat(Supply.words(new Foreign(0, 1, 1.0, 1.0, false, List.of())).get())
        .contains("a cell or a small supply");
    assertThat(Supply.words(new Foreign(0, 1, 10.0, 10.0, false, List.of())).get())
        .contains("a cell");
    for (double volts : new double[] {0.9, 10.1, 24}) {
      assertThat(Supply.words(new Foreign(0, 1, volts, volts, false, List.of())).get())
          .contains("a DC supply, or a charge");
    }
    assertThat(Supply.words(new Foreign(0, 1, 24, 24, true, List.of()))).isEmpty();
    assertThat(Supply.words(new Foreign(0, 1, 3, 0.1, false, List.of()))).isEmpty();
  }
}
