package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Kind;
import bellwire.analysis.survey.Probe.Pace;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** One port against all the others, by Ohm's law. */
class RestPhaseTest {
  private static final BoardModel BOARD = IdealBoard.MODEL;
  private static final int TWO = 0b11;
  private static final int THREE = 0b111;

  private static RestPhase run(int present, double... siemens) {
    RestPhase phase = new RestPhase(BOARD, present);
    new IdealBoard(
            0,
            new double[Ports.COUNT],
            net -> {
              net.join(0, 1, siemens[0]);
              if (siemens.length > 1) {
                net.join(0, 2, siemens[1]);
              }
            })
        .run(phase);
    return phase;
  }

  /** A returned port's divider takes 1e-4 of the current at the most. */
  @Test
  void aConductanceComesOutInEveryRange() {
    for (double ohms : new double[] {50, 1000, 8e3, 30e3, 200e3, 2e6, 50e6, 900e6}) {
      RestPhase phase = run(TWO, 1 / ohms);
      for (int port = 0; port < 2; port++) {
        Leak leak = phase.leak(port);
        assertThat(leak.siemens())
            .as("ohms=" + ohms)
            .isCloseTo(1 / ohms, within(2e-4 / ohms + 3 * leak.u()));
        assertThat(leak.detected()).isTrue();
        // A quick look against the dividers of 1 Mohm is rough.
        if (ohms < 10e3) {
          assertThat(phase.coarse()[port]).isCloseTo(ohms, within(0.03 * ohms));
        }
      }
    }
  }

  @Test
  void twoWaysAreOneConductance() {
    RestPhase phase = run(THREE, 1 / 100e3, 1 / 50e3);
    assertThat(phase.leak(0).siemens()).isCloseTo(30e-6, within(0.02e-6));
    assertThat(phase.leak(1).siemens()).isCloseTo(10e-6, within(0.02e-6));
    assertThat(phase.leak(2).siemens()).isCloseTo(20e-6, within(0.02e-6));
    RestPhase near = run(THREE, 1 / 20.0, 1 / 20.0);
    assertThat(near.leak(0).siemens()).isCloseTo(0.1, within(1e-4));
  }

  /** Nothing can be said of a port that was not looked at, or that has no fellow. */
  @Test
  void ofOthersNothingIsKnown() {
    RestPhase phase = run(TWO, 1e-3);
    assertThat(phase.leak(5)).isEqualTo(new Leak(0, 1));
    assertThat(phase.coarse()[5]).isInfinite();
    assertThat(RestPhase.coarseOhms(BOARD, List.of(), List.of())[3]).isInfinite();
    RestPhase alone = new RestPhase(BOARD, 1);
    assertThat(alone.next()).isEmpty();
    assertThat(alone.leak(0)).isEqualTo(new Leak(0, 1));
    assertThat(alone.coarse()[0]).isInfinite();
  }

  private static Reading reading(Probe probe, double volts, double scatter, boolean over) {
    return new Reading(probe, volts, scatter, over);
  }

  private static List<Reading> look(double referenceVolts, double terminalVolts) {
    List<Probe> probes = RestPhase.coarseLook(1, TWO);
    return List.of(
        reading(probes.get(0), referenceVolts, Double.NaN, false),
        reading(probes.get(1), terminalVolts, Double.NaN, false));
  }

  /** 10 µA by the 100 ohm of the reference and the three paths of 15.9 ohm on the return bus. */
  @Test
  void theCoarseRoundTakesTheReturnPathOff() {
    assertThat(RestPhase.coarseOhms(BOARD, look(1e-3, 1.0), 3))
        .isCloseTo(1e5 - 105.3, within(1e-6));
    assertThat(RestPhase.coarseOhms(BOARD, look(1e-3, 1.0), 0))
        .isCloseTo(1e5 - 115.9, within(1e-6));
    assertThat(RestPhase.coarseOhms(BOARD, look(0.1, 0.1), 1)).isZero();
    assertThat(RestPhase.coarseOhms(BOARD, look(1e-7, 2.0), 1)).isEqualTo(1e9);
    assertThat(RestPhase.coarseOhms(BOARD, look(1.1e-7, 1.0), 1)).isCloseTo(0.909e9, within(1e6));
  }

  /** The driven port on one bus, its fellows on the other, all without copper at common. */
  @Test
  void theOthersAreReturnedAndTheEmptyOnesHeld() {
    RestPhase phase = new RestPhase(BOARD, THREE);
    List<Probe> coarse = phase.next();
    assertThat(coarse).hasSize(6);
    for (int port = 0; port < 3; port++) {
      statesAre(coarse.subList(2 * port, 2 * port + 2), port);
    }
    assertThat(coarse.get(0).excite()).isTrue();
    assertThat(coarse.get(3).look()).isEqualTo(Probe.Look.terminal(1));
    phase.accept(answer(coarse, 2e-3, 2.0));
    List<Probe> fine = phase.next();
    assertThat(fine).hasSize(9);
    for (int port = 0; port < 3; port++) {
      statesAre(fine.subList(3 * port, 3 * port + 3), port);
      assertThat(fine.get(3 * port + 2).excite()).isFalse();
    }
  }

  private static void statesAre(List<Probe> probes, int port) {
    for (Probe probe : probes) {
      assertThat(probe.drive()).isEqualTo(Ports.bit(port));
      assertThat(probe.returned()).isEqualTo(THREE & ~Ports.bit(port));
      assertThat(probe.guard()).isEqualTo(Ports.ALL & ~THREE);
    }
  }

  /** All ports alike: so much at the reference in the coarse round, at the stage in the fine. */
  private static List<Reading> answer(List<Probe> probes, double seen, double terminalVolts) {
    List<Reading> readings = new ArrayList<>();
    for (Probe probe : probes) {
      boolean terminal = probe.look().kind() == Kind.TERMINAL;
      double volts = terminal ? terminalVolts : probe.excite() ? seen : 0;
      readings.add(reading(probe, volts, Double.NaN, false));
    }
    return readings;
  }

  /** 200 µA of 10 kohm make 20 mV at 100 ohm: 1.2 times that and 30 mV of hum 32 times. */
  @Test
  void theGainIsThatOfTheCoarseRound() {
    RestPhase phase = new RestPhase(BOARD, TWO);
    phase.accept(answer(phase.next(), 0.02, 2.02318));
    Probe on = phase.next().get(0);
    assertThat(on.end()).isEqualTo(End.LOW);
    assertThat(on.gain()).isEqualTo(32);
    assertThat(on.repeats()).isEqualTo(3);
  }

  /** Hum that the coarse round did not see: from range to range, until one holds it. */
  @Test
  void anOverloadIsReadAgainInTheNextRange() {
    RestPhase phase = new RestPhase(BOARD, TWO);
    phase.accept(answer(phase.next(), 0, 2.0));
    List<End> ends = new ArrayList<>();
    List<Integer> gains = new ArrayList<>();
    for (List<Probe> probes = phase.next(); !probes.isEmpty(); probes = phase.next()) {
      assertThat(probes).hasSize(6);
      ends.add(probes.get(0).end());
      gains.add(probes.get(0).gain());
      phase.accept(probes.stream().map(p -> reading(p, 0, Double.NaN, true)).toList());
    }
    assertThat(ends).containsExactly(End.HIGH, End.MID, End.LOW);
    // 2 V by 100 kohm at 10 kohm are 0.2 V; 5 mA at 100 ohm, the most there is, 0.5 V.
    assertThat(gains).containsExactly(8, 8, 2);
    assertThat(phase.leak(0)).isEqualTo(new Leak(0, 1));
    assertThat(phase.noiseFactor()).isEqualTo(1);
  }

  /** Of two ports the one that overloaded alone is asked again. */
  @Test
  void whatWasReadIsNotReadAgain() {
    RestPhase phase = new RestPhase(BOARD, TWO);
    phase.accept(answer(phase.next(), 0, 2.0));
    List<Reading> readings = new ArrayList<>(answer(phase.next(), -0.02, 2.0));
    readings.set(3, reading(readings.get(3).probe(), 0, Double.NaN, true));
    phase.accept(readings);
    List<Probe> again = phase.next();
    assertThat(again).hasSize(3);
    assertThat(again.get(0).drive()).isEqualTo(2);
    assertThat(phase.leak(0).siemens()).isCloseTo(1e-8, within(1e-10));
  }

  private static RestPhase noisy(double factor, boolean over) {
    RestPhase phase = new RestPhase(BOARD, TWO);
    phase.accept(answer(phase.next(), 0, 2.0));
    List<Probe> probes = phase.next();
    double scatter = factor * BOARD.noise().rms(probes.get(0).gain(), Pace.PRECISE);
    List<Reading> readings = new ArrayList<>();
    for (Reading r : answer(probes, -0.02, 2.0)) {
      boolean current = r.probe().look().kind() != Kind.TERMINAL;
      readings.add(reading(r.probe(), r.volts(), current ? scatter : Double.NaN, over && current));
    }
    phase.accept(readings);
    return phase;
  }

  /** The median of the standard deviation of three is √(ln 2) of the true one. */
  @Test
  void theNoiseIsWhatTheRepeatsShow() {
    assertThat(noisy(3, false).noiseFactor()).isCloseTo(3 / Math.sqrt(Math.log(2)), within(1e-9));
    assertThat(noisy(0.5, false).noiseFactor()).isEqualTo(1);
    assertThat(noisy(3, true).noiseFactor()).isEqualTo(1);
    // Two readings of 2 V by 1 Mohm, three times each.
    double own = noisy(0, false).leak(0).u();
    double volts = 1000 * BOARD.noise().rms(8, Pace.PRECISE);
    assertThat(noisy(1000, false).leak(0).u())
        .isCloseTo(Math.hypot(own, Math.sqrt(2.0 / 3) * volts / 1e6 / 2), within(1e-13));
  }

  /** Hum on a port of the high range does not make a reading of the low range uncertain. */
  @Test
  void scatterCountsWithinItsRange() {
    double[] u = new double[2];
    for (int run = 0; run < 2; run++) {
      RestPhase phase = new RestPhase(BOARD, TWO);
      List<Reading> coarse = new ArrayList<>(answer(phase.next(), 0, 2.0));
      coarse.set(0, reading(coarse.get(0).probe(), 0.02, Double.NaN, false));
      phase.accept(coarse);
      List<Reading> fine = new ArrayList<>();
      for (Reading r : answer(phase.next(), -0.02, 2.0)) {
        double scatter = r.probe().end() == End.HIGH && run == 1 ? 1e-3 : 0;
        fine.add(reading(r.probe(), r.volts(), scatter, false));
      }
      phase.accept(fine);
      u[run] = phase.leak(0).u();
    }
    assertThat(u[1]).isEqualTo(u[0]);
  }
}
