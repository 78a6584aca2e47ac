package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.survey.Probe.End;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

class RestsTest {
  private static final int COIL = Ports.bit(0) | Ports.bit(3);

  private static Probe drive(int port, int to) {
    return new Probe(
        Ports.bit(port),
        Ports.bit(to),
        Ports.ALL & ~(Ports.bit(port) | Ports.bit(to)),
        true,
        End.LOW,
        Look.REFERENCE,
        4,
        Pace.QUICK,
        1000,
        1,
        false);
  }

  private static List<Reading> readings(List<Probe> probes) {
    List<Reading> readings = new ArrayList<>();
    for (Probe probe : probes) {
      readings.add(new Reading(probe, readings.size(), Double.NaN, false));
    }
    return readings;
  }

  @Test
  void copperNeedsNoRests() {
    List<Probe> looks = List.of(drive(0, 3), drive(3, 0));
    assertThat(new Rests(0).between(looks)).isEqualTo(looks);
    assertThat(new Rests(COIL).between(List.of(drive(1, 2)))).containsExactly(drive(1, 2));
  }

  /** The same way goes on for the current: the driven port on the reference, the source off. */
  @Test
  void aDrivenCoilIsLeftToTheReferenceBeforeItsWayIsTakenAway() {
    List<Probe> rested = new Rests(COIL).between(List.of(drive(0, 3), drive(1, 2)));
    assertThat(rested).hasSize(3);
    assertThat(rested.get(0).settleMicros()).isGreaterThanOrEqualTo(12_000);
    Probe rest = rested.get(1);
    assertThat(rest.excite()).isFalse();
    assertThat(rest.drive()).isZero();
    assertThat(rest.returned()).isEqualTo(Ports.bit(0));
    assertThat(rest.guard() & Ports.bit(3)).as("the other end stays at common").isNotZero();
    assertThat(rest.end()).isEqualTo(End.LOW);
    assertThat(rested.get(2)).isEqualTo(drive(1, 2));
  }

  @Test
  void theLastLookIsFollowedByARestAndOneStateIsNotInterrupted() {
    Probe look = drive(0, 3);
    List<Probe> rested = new Rests(COIL).between(List.of(look, look.looking(Look.pair(0, 3), 1)));
    assertThat(rested).hasSize(3);
    assertThat(rested.get(0).excite()).isTrue();
    assertThat(rested.get(1).excite()).isTrue();
    assertThat(rested.get(2)).isEqualTo(Rests.after(look));
  }

  @Test
  void aSoftlyFedPortIsTheDrivenOne() {
    Probe fed = SoftReader.fed(0, 3, 0, Look.REFERENCE, 16, Pace.QUICK);
    assertThat(new Rests(COIL).between(List.of(fed)).get(1).returned()).isEqualTo(Ports.bit(0));
  }

  @Test
  void whatWillFloatIsHeldAtCommonFirst() {
    Probe floating =
        new Probe(
            Ports.bit(1),
            Ports.bit(2),
            Ports.ALL & ~(Ports.bit(1) | Ports.bit(2) | COIL),
            true,
            End.LOW,
            Look.REFERENCE,
            4,
            Pace.QUICK,
            1000,
            1,
            false);
    Probe first = new Rests(COIL).between(List.of(floating)).get(0);
    assertThat(first.excite()).isFalse();
    assertThat(first.guard()).isEqualTo(Ports.ALL);
  }

  @Test
  void onlyTheLooksOwnReadingsComeBack() {
    List<Probe> looks = List.of(drive(0, 3), drive(1, 2), drive(3, 0));
    Rests rests = new Rests(COIL);
    List<Reading> all = readings(rests.between(looks));
    assertThat(rests.without(all).stream().map(r -> r.probe().drive()))
        .containsExactly(Ports.bit(0), Ports.bit(1), Ports.bit(3));
    assertThatThrownBy(() -> rests.without(all.subList(1, all.size())))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("readings=4 asked=5");
  }
}
