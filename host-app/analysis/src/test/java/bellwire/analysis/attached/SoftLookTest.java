package bellwire.analysis.attached;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Probe;
import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Kind;
import bellwire.analysis.survey.Reading;
import bellwire.analysis.survey.SmallBoard;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A pair whose fellow floats beside it: fed with 0.1 V behind 95 ohm, so that nothing rings. */
class SoftLookTest {
  private static final BoardModel BOARD = SmallBoard.MODEL;
  private static final int THIRD = Ports.bit(2);

  /** Thévenin of 2 V behind 766 and 1000 ohm, with 100 ohm beside it. */
  private static final double VOLTS = 2.0 * 100 / 1866;

  private static final double SOURCE_OHMS = 1766.0 * 100 / 1866;
  private static final double LOOP_OHMS = SOURCE_OHMS + 2 * 15.9;

  @Test
  void aPairByItselfIsDrivenAndOneWithAFellowIsFedSoftly() {
    LoadLook alone = new LoadLook(BOARD, 0, 1, Ports.bit(0) | Ports.bit(1));
    assertThat(alone.soft()).isFalse();
    List<Probe> probesAlone = new ArrayList<>(alone.probes());
    probesAlone.addAll(new LoadLook(BOARD, 0, 1, 0).probes());
    for (Probe probe : probesAlone) {
      assertThat(probe.end()).isEqualTo(End.LOW);
      assertThat(probe.drive() | probe.returned() | probe.guard()).isEqualTo(Ports.ALL);
      assertThat(probe.guard() & (probe.drive() | probe.returned())).isZero();
    }
    LoadLook soft = new LoadLook(BOARD, 0, 1, Ports.bit(0) | Ports.bit(1) | THIRD);
    assertThat(soft.soft()).isTrue();
    for (List<Probe> probes : List.of(soft.first(), soft.probes())) {
      for (Probe probe : probes) {
        assertThat((probe.drive() | probe.returned() | probe.guard()) & THIRD).isZero();
        assertThat(probe.end()).isEqualTo(probe.excite() ? End.SOFT : End.LOW);
      }
    }
  }

  /** The returned port is the one that is fed; back it is the other. */
  @Test
  void bothWaysAreLookedAtWithTheVoltageAcross() {
    List<Probe> soft = new LoadLook(BOARD, 0, 1, THIRD).probes();
    Probe back = soft.get(soft.size() - 3);
    assertThat(back.returned()).isEqualTo(Ports.bit(1));
    assertThat(back.guard() & Ports.bit(0)).isNotZero();
    assertThat(soft.get(0).returned()).isEqualTo(Ports.bit(0));
    Probe across = soft.get(soft.size() - 2);
    assertThat(across.look()).isEqualTo(Probe.Look.pair(1, 0));
    assertThat(across.gain()).isEqualTo(16); // 0.1 V
    assertThat(soft.get(7).look()).isEqualTo(Probe.Look.pair(0, 1));
    assertThat(soft.get(7).gain()).isEqualTo(16);
    List<Probe> hard = new LoadLook(BOARD, 0, 1, 0).probes();
    assertThat(hard.get(7).gain()).isEqualTo(1); // 2 V
    assertThat(hard.get(hard.size() - 2).gain()).isEqualTo(1);
    assertThat(hard.get(hard.size() - 3).drive()).isEqualTo(Ports.bit(1));
  }

  private static LoadEvidence seen(double ohms) {
    double amps = VOLTS / (LOOP_OHMS + ohms);
    LoadLook look = new LoadLook(BOARD, 0, 1, THIRD);
    List<Reading> readings = new ArrayList<>();
    for (Probe probe : look.probes()) {
      double volts =
          probe.look().kind() == Kind.PAIR
              ? amps * ohms
              : probe.excite() ? VOLTS - amps * SOURCE_OHMS : 0;
      readings.add(new Reading(probe, volts, Double.NaN, false));
    }
    return look.evidence(readings);
  }

  /** The fed port's current by what it takes from the reference's voltage. */
  @Test
  void theCurrentIsWhatTheReferenceLacks() {
    double amps = VOLTS / (LOOP_OHMS + 50);
    LoadEvidence evidence = seen(50);
    assertThat(evidence.amps()).isCloseTo(amps, within(1e-9));
    assertThat(evidence.backAmps()).isCloseTo(amps, within(1e-9));
    assertThat(evidence.volts()).isCloseTo(amps * 50, within(1e-9));
    for (double rise : evidence.rise()) {
      assertThat(rise).isCloseTo(amps, within(1e-9));
    }
    assertThat(evidence.fall()).containsOnly(0);
  }

  @Test
  void theModelsSourceIsTheSoftOne() {
    LoadModels models = new LoadModels(BOARD, true);
    assertThat(models.loopOhms()).isCloseTo(LOOP_OHMS, within(1e-9));
    assertThat(models.fallOhms()).isCloseTo(131.8, within(1e-9));
    assertThat(models.fullAmps()).isCloseTo(VOLTS / LOOP_OHMS, within(1e-12));
    assertThat(models.resistance(50)[0]).isCloseTo(VOLTS / (LOOP_OHMS + 50), within(1e-12));
    assertThat(new LoadModels(BOARD, false).fullAmps()).isCloseTo(2 / 897.8, within(1e-12));
  }

  @Test
  void aResistanceIsToldSoftlyToo() {
    LoadFit fit = new LoadFit(BOARD, seen(50), true);
    assertThat(fit.ohms()).isCloseTo(50, within(1e-6));
    assertThat(fit.candidates().get(0).kind()).isEqualTo(LoadKind.RESISTANCE);
  }
}
