package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Clusters charged one after the other through 10 Mohm, beside a divider of 1.02 Mohm. */
class ChargePhaseTest {
  private static final BoardModel BOARD = IdealBoard.MODEL;
  private static final double FEED_OHMS = 1e7 + 766;
  private static final double OHMS = FEED_OHMS * 1.02e6 / (FEED_OHMS + 1.02e6);
  private static final List<List<Integer>> CLUSTERS =
      List.of(List.of(2, 5), List.of(7), List.of(9, Ports.METAL), List.of(8), List.of(Ports.METAL));

  /** Everything empties first; a cluster is charged as one, all others at common. */
  @Test
  void eachClusterButMetalIsChargedAsOne() {
    List<Probe> probes = new ChargePhase(BOARD, CLUSTERS).next();
    List<List<Integer>> charged = List.of(List.of(2, 5), List.of(7), List.of(8));
    assertThat(probes).hasSize(6);
    for (int k = 0; k < 3; k++) {
      Probe empty = probes.get(2 * k);
      assertThat(empty.guard()).isEqualTo(Ports.ALL);
      assertThat(empty.excite()).isFalse();
      Probe charge = probes.get(2 * k + 1);
      int mask = Ports.mask(charged.get(k));
      assertThat(charge.returned()).isEqualTo(mask);
      assertThat(charge.guard()).isEqualTo(Ports.ALL & ~mask);
      assertThat(charge.drive()).isZero();
      assertThat(charge.excite()).isTrue();
      assertThat(charge.end()).isEqualTo(End.CHECK_HIGH);
      assertThat(charge.pace()).isEqualTo(Pace.WAVE);
      assertThat(charge.look()).isEqualTo(Probe.Look.terminal(charged.get(k).get(0)));
    }
  }

  /** The device has been on for an hour; of 24 conversions one was missed. */
  private static Reading charged(Probe probe, double farads, int missed) {
    int n = probe.repeats();
    double[] volts = new double[n];
    long[] micros = new long[n];
    ChargeCurve curve = new ChargeCurve(41 / 256e3, 2.5e-3);
    for (int k = 0; k < n; k++) {
      int window = k < missed ? k : k + 1;
      volts[k] = 2.0 * OHMS / FEED_OHMS * (1 - curve.lacking(window, farads * OHMS));
      micros[k] = 3_600_000_000L + 2500L * window + k % 2;
    }
    return new Reading(probe, volts[0], 0, false, new Reading.Series(micros, volts));
  }

  private static ChargePhase seen(int missed, double... farads) {
    ChargePhase phase = new ChargePhase(BOARD, CLUSTERS);
    List<Reading> readings = new ArrayList<>();
    for (Probe probe : phase.next()) {
      int cluster = readings.size() / 2;
      readings.add(
          probe.repeats() > 1
              ? charged(probe, farads[cluster], missed)
              : new Reading(probe, 0, Double.NaN, false));
    }
    phase.accept(readings);
    assertThat(phase.next()).isEmpty();
    return phase;
  }

  @Test
  void eachClustersCapacitanceComesOut() {
    List<Quantity> farads = seen(24, 2.9e-9, 1.5e-9, 0.7e-9).farads();
    assertThat(farads).hasSize(5);
    assertThat(farads.get(0).value()).isCloseTo(2.9e-9, within(3e-12));
    assertThat(farads.get(1).value()).isCloseTo(1.5e-9, within(2e-12));
    assertThat(farads.get(3).value()).isCloseTo(0.7e-9, within(1e-12));
    assertThat(farads.get(2)).isNull();
    assertThat(farads.get(4)).isNull();
  }

  @Test
  void aMissedConversionLeavesAGap() {
    assertThat(seen(1, 2.9e-9, 1.5e-9, 0.7e-9).farads().get(1).value())
        .isCloseTo(1.5e-9, within(2e-12));
  }

  @Test
  void anOverloadOrAMeanTellsNoCapacitance() {
    ChargePhase phase = new ChargePhase(BOARD, CLUSTERS);
    List<Probe> probes = phase.next();
    List<Reading> readings = new ArrayList<>();
    probes.forEach(p -> readings.add(new Reading(p, 0.1, Double.NaN, false)));
    Reading fine = charged(probes.get(3), 1.5e-9, 24);
    readings.set(1, new Reading(fine.probe(), 0.1, 0, true, fine.series()));
    readings.set(3, fine);
    phase.accept(readings);
    assertThat(phase.farads().get(0)).isNull();
    assertThat(phase.farads().get(1).value()).isCloseTo(1.5e-9, within(2e-12));
    assertThat(phase.farads().get(3)).isNull();
  }
}
