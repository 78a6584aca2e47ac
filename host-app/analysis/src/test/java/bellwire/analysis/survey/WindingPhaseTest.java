package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Whose current goes on when the source is taken away. */
class WindingPhaseTest {
  private static final BoardModel BOARD = IdealBoard.MODEL;
  private static final int PRESENT = 0b1111;

  /** Driven and lasting microamperes of each joined port; a lasting one passes backwards. */
  private static WindingPhase seen(int joined, double[]... microamps) {
    WindingPhase phase = new WindingPhase(BOARD, joined, PRESENT);
    List<Probe> probes = phase.next();
    List<Reading> readings = new ArrayList<>();
    for (int k = 0; k < probes.size(); k++) {
      double[] port = microamps[k / 3];
      double amps = k % 3 == 0 ? port[0] : k % 3 == 1 ? -port[1] : 0;
      readings.add(new Reading(probes.get(k), amps * 1e-6 * 100, Double.NaN, false));
    }
    phase.accept(readings);
    assertThat(phase.next()).isEmpty();
    return phase;
  }

  @Test
  void aWindingsCurrentGoesOn() {
    WindingPhase phase = seen(0b101, new double[] {2200, 260}, new double[] {2200, 20});
    assertThat(phase.windings()).isEqualTo(0b001);
    assertThat(phase.copper()).isZero(); // a jumper hides a winding on its other end
    assertThat(seen(0b101, new double[] {300, 900}, new double[] {300, 800}).windings())
        .isEqualTo(0b101);
  }

  @Test
  void coppersCurrentIsGone() {
    WindingPhase phase = seen(0b101, new double[] {2200, 240}, new double[] {1100, -240});
    assertThat(phase.windings()).isZero();
    assertThat(phase.copper()).isEqualTo(0b101);
  }

  /** Less than a milliampere is no copper, and a charge that comes back is none either. */
  @Test
  void aResistanceAndACapacitorAreNeither() {
    WindingPhase phase =
        seen(0b111, new double[] {900, 0}, new double[] {2200, -300}, new double[] {2200, 0});
    assertThat(phase.windings()).isZero();
    assertThat(phase.copper()).isEqualTo(0b100);
  }

  @Test
  void nothingIsJoinedToNothing() {
    assertThat(new WindingPhase(BOARD, 0b1, PRESENT).next()).isEmpty();
    assertThat(new WindingPhase(BOARD, 0b110000, PRESENT).next()).isEmpty();
    assertThat(new WindingPhase(BOARD, 0b110001, PRESENT).next()).isEmpty();
    assertThat(new WindingPhase(BOARD, 0b11, PRESENT).next()).hasSize(6);
  }

  /** Driven against all others, then alone on the reference, the others at common, then rested. */
  @Test
  void theWayStaysOpenWhileTheCurrentDies() {
    List<Probe> probes = new WindingPhase(BOARD, 0b110, PRESENT).next();
    for (int k = 0; k < 2; k++) {
      int bit = Ports.bit(k + 1);
      Probe driven = probes.get(3 * k);
      assertThat(driven.drive()).isEqualTo(bit);
      assertThat(driven.returned()).isEqualTo(PRESENT & ~bit);
      assertThat(driven.guard()).isEqualTo(Ports.ALL & ~PRESENT);
      assertThat(driven.excite()).isTrue();
      Probe left = probes.get(3 * k + 1);
      assertThat(left.excite()).isFalse();
      assertThat(left.drive()).isZero();
      assertThat(left.returned()).isEqualTo(bit);
      assertThat(left.guard()).isEqualTo(Ports.ALL & ~bit);
      assertThat(left.look()).isEqualTo(Look.REFERENCE);
      assertThat(left.pace()).isEqualTo(Pace.INSTANT); // before the current has died
      assertThat(probes.get(3 * k + 2)).isEqualTo(Rests.after(driven));
    }
  }

  private static Probe drive(int drive, int returned, int guard) {
    return new Probe(
        drive, returned, guard, true, End.LOW, Look.REFERENCE, 4, Pace.QUICK, 1000, 1, false);
  }

  /** What floated floats on, and what was held or returned is held. */
  @Test
  void aRestHoldsWhatWasHeldAndReturned() {
    Probe rest = Rests.after(drive(0b1, 0b10, 0b1100));
    assertThat(rest.returned()).isEqualTo(0b1);
    assertThat(rest.guard()).isEqualTo(0b1110);
  }

  /**
   * Before anything floats the loops run down, looked at by a terminal that is looked at anyway.
   */
  @Test
  void theLongRestLooksAtATerminal() {
    Probe floating = drive(0b100, 0b1000, 0);
    Rests rests = new Rests(0b11);
    assertThat(rests.between(List.of(floating)).get(0).look()).isEqualTo(Look.terminal(0));
    Probe terminal = floating.looking(Look.terminal(3), 1);
    assertThat(rests.between(List.of(terminal)).get(0).look()).isEqualTo(Look.terminal(3));
  }

  /** The phase within asks and hears the same as without rests. */
  @Test
  void aRestedPhaseHearsItsOwnReadings() {
    List<Reading> heard = new ArrayList<>();
    List<Probe> asked = List.of(drive(0b1, 0b10, ~0b11 & Ports.ALL), drive(0b10, 0b1, 0));
    Phase inner =
        new Phase() {
          @Override
          public List<Probe> next() {
            return asked;
          }

          @Override
          public void accept(List<Reading> readings) {
            heard.addAll(readings);
          }
        };
    RestedPhase rested = new RestedPhase(inner, new Rests(0b1));
    List<Probe> probes = rested.next();
    assertThat(probes).hasSizeGreaterThan(2);
    rested.accept(probes.stream().map(p -> new Reading(p, 0, Double.NaN, false)).toList());
    assertThat(heard.stream().map(r -> r.probe().drive())).containsExactly(0b1, 0b10);
  }
}
