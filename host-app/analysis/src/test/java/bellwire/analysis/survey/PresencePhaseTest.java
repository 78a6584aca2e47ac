package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;

/** Ports charged one by one: who comes up late, and who does not come up. */
class PresencePhaseTest {
  private static final BoardModel BOARD = IdealBoard.MODEL;

  /** 2 V by the divider of 1.02 Mohm below the check resistor of 10 Mohm. */
  private static final double FULL = 2.0 * 1.02 / 11.02;

  private static final int THREE = Ports.bit(0) | Ports.bit(5) | Ports.bit(Ports.METAL);

  /** Shares of the full voltage; four looks a port, the second early and the fourth late. */
  private static PresencePhase seen(ToDoubleFunction<Probe> early, ToDoubleFunction<Probe> late) {
    PresencePhase phase = new PresencePhase(BOARD, THREE);
    List<Probe> probes = phase.next();
    List<Reading> readings = new ArrayList<>();
    for (Probe probe : probes) {
      double share =
          !probe.excite()
              ? 0
              : probe.settleMicros() < 1000
                  ? early.applyAsDouble(probe)
                  : late.applyAsDouble(probe);
      readings.add(new Reading(probe, share * FULL, Double.NaN, false));
    }
    phase.accept(readings);
    assertThat(phase.next()).isEmpty();
    return phase;
  }

  private static ToDoubleFunction<Probe> of(int port, double share) {
    return probe -> probe.look().a() == port ? share : 1;
  }

  /** Three rounds; everything is emptied first, and all others stay at common. */
  @Test
  void eachPortIsChargedAloneThreeTimes() {
    List<Probe> probes = new PresencePhase(BOARD, THREE).next();
    assertThat(probes).hasSize(3 * 3 * 4);
    for (int k = 0; k < probes.size(); k++) {
      Probe probe = probes.get(k);
      int port = List.of(0, 5, 16).get(k / 4 % 3);
      assertThat(probe.look()).isEqualTo(Probe.Look.terminal(port));
      assertThat(probe.drive()).isZero();
      assertThat(probe.excite()).isEqualTo(k % 2 == 1);
      assertThat(probe.returned()).isEqualTo(k % 2 == 1 ? Ports.bit(port) : 0);
      assertThat(probe.returned() | probe.guard()).isEqualTo(Ports.ALL);
      assertThat(probe.returned() & probe.guard()).isZero();
    }
  }

  @Test
  void anEmptyPortIsUpAtOnce() {
    PresencePhase phase = seen(p -> 1, p -> 1);
    assertThat(phase.present()).isZero();
    assertThat(phase.joined()).isZero();
    assertThat(phase.slow()).isZero();
  }

  /** By more than a hundredth, late or ahead by hum. */
  @Test
  void copperComesUpLate() {
    assertThat(seen(of(5, 0.985), p -> 1).present()).isEqualTo(Ports.bit(5));
    assertThat(seen(of(5, 1.015), p -> 1).present()).isEqualTo(Ports.bit(5));
    assertThat(seen(of(5, 0.995), p -> 1).present()).isZero();
    assertThat(seen(of(5, 1.005), p -> 1).present()).isZero();
    // Compared with what the port itself comes up to.
    assertThat(seen(of(5, 0.9), of(5, 0.9)).present()).isZero();
    assertThat(seen(of(5, 0.88), of(5, 0.9)).present()).isEqualTo(Ports.bit(5));
  }

  @Test
  void whatALeakageKeepsDownIsPresent() {
    assertThat(seen(of(0, 0.84), of(0, 0.84)).present()).isEqualTo(Ports.bit(0));
    assertThat(seen(of(0, 0.86), of(0, 0.86)).present()).isZero();
    assertThat(seen(of(0, 0), of(0, 0)).present()).isEqualTo(Ports.bit(0));
  }

  /** Below two fifths of the full voltage it is slow, below a fifth joined to others. */
  @Test
  void howFarDownTellsSlowFromJoined() {
    for (double[] lateSlowJoined :
        new double[][] {{0.41, 0, 0}, {0.39, 1, 0}, {0.21, 1, 0}, {0.19, 1, 1}, {0, 1, 1}}) {
      ToDoubleFunction<Probe> share = of(16, lateSlowJoined[0]);
      PresencePhase phase = seen(share, share);
      String as = "late=" + lateSlowJoined[0];
      int metal = Ports.bit(Ports.METAL);
      assertThat(phase.slow()).as(as).isEqualTo((int) lateSlowJoined[1] * metal);
      assertThat(phase.joined()).as(as).isEqualTo((int) lateSlowJoined[2] * metal);
      assertThat(phase.present()).as(as).isEqualTo(metal);
    }
    PresencePhase all = seen(p -> 0.1, p -> 0.1);
    assertThat(List.of(all.present(), all.slow(), all.joined())).containsOnly(THREE);
  }

  /** Hum makes a look by chance look empty: one round of three that is not is enough. */
  @Test
  void oneRoundOfThreeIsEnough() {
    for (int round = 0; round < 3; round++) {
      int[] looks = {0};
      int late = round;
      PresencePhase phase =
          seen(probe -> probe.look().a() == 5 && looks[0]++ == late ? 0.9 : 1, probe -> 1);
      assertThat(phase.present()).as("round=" + round).isEqualTo(Ports.bit(5));
    }
  }
}
