package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * A board that answers looks at its dividers for voltages set by hand, each port's against common:
 * DC, or a sine of 60 Hz with one phase for all, a 400th of a second a reading.
 */
class ForeignCheckTest {
  private static final BoardModel MODEL = IdealBoard.MODEL;

  private final double[] dc = new double[Ports.COUNT];
  private final double[] acPeak = new double[Ports.COUNT];

  /** What the test load leaves of each. */
  private final double[] kept = new double[Ports.COUNT];

  private int looks;

  ForeignCheckTest() {
    Arrays.fill(kept, 1);
  }

  private Foreign look(boolean suspicious) {
    ForeignCheck check = new ForeignCheck(MODEL, suspicious);
    looks = 0;
    for (List<Probe> probes = check.next(); !probes.isEmpty(); probes = check.next()) {
      looks++;
      check.accept(probes.stream().map(this::reading).toList());
    }
    assertThatIllegalStateException().isThrownBy(() -> check.accept(List.of()));
    return check.foreign();
  }

  private Reading reading(Probe probe) {
    assertThat(probe.drive() | probe.returned() | probe.guard()).isZero();
    assertThat(probe.excite()).isFalse();
    int a = probe.look().a();
    int b = probe.look().b();
    assertThat(probe.look().kind()).isEqualTo(b < 0 ? Probe.Kind.MONITOR : Probe.Kind.MONITOR_PAIR);
    double mean = at(dc, a, probe) - (b < 0 ? 0 : at(dc, b, probe));
    double peak = at(acPeak, a, probe) - (b < 0 ? 0 : at(acPeak, b, probe));
    int n = probe.repeats();
    List<Double> values = new ArrayList<>();
    for (int k = 0; k < n; k++) {
      // The window of a 400th of a second leaves sin(x)/x of 60 Hz.
      double x = Math.PI * 60 / 400;
      double share = Math.sin(x) / x;
      values.add(mean + peak * share * Math.sin(2 * Math.PI * 60 * k / 400.0));
    }
    double average = values.stream().mapToDouble(v -> v).average().orElse(0);
    double squares = values.stream().mapToDouble(v -> (v - average) * (v - average)).sum();
    return new Reading(
        probe,
        average / MODEL.monitorRatio(),
        Math.sqrt(squares / (n - 1)) / MODEL.monitorRatio(),
        false);
  }

  private double at(double[] volts, int port, Probe probe) {
    return volts[port] * (probe.testLoad() ? kept[port] : 1);
  }

  @Test
  void aDeadCableTakesOneLook() {
    assertThat(look(false)).isNull();
    assertThat(looks).isEqualTo(1);
  }

  /** 24 V AC, one side on P3, the other at common by the board's leakage. */
  @Test
  void twentyFourVoltsAcAreDrivenBetweenTwo() {
    acPeak[2] = 12 * Math.sqrt(2);
    acPeak[5] = -12 * Math.sqrt(2);
    Foreign found = look(false);
    assertThat(looks).isEqualTo(4);
    assertThat(List.of(found.a(), found.b())).containsExactlyInAnyOrder(2, 5);
    // The share taken for both mains frequencies is half a per cent above that of 60 Hz.
    assertThat(found.volts()).isCloseTo(24, within(0.2));
    assertThat(found.loadedVolts()).isCloseTo(24, within(0.2));
    assertThat(found.alternating()).isTrue();
    assertThat(found.driven()).isTrue();
    assertThat(found.alike()).isEmpty();
    assertThat(found.words()).contains("V AC between P").contains("driven");
  }

  @Test
  void conductorsJoinedToEitherSideAreNamed() {
    acPeak[2] = 12 * Math.sqrt(2);
    acPeak[5] = -12 * Math.sqrt(2);
    acPeak[7] = acPeak[5];
    acPeak[9] = acPeak[2];
    Foreign found = look(false);
    assertThat(found.alike()).hasSize(2);
    assertThat(found.alike()).doesNotContain(found.a(), found.b());
    assertThat(found.words()).contains("joined to one of them by the far end or a fault: P");
  }

  @Test
  void dcHasAPositiveSide() {
    dc[3] = -4.5;
    dc[8] = 4.5;
    Foreign found = look(false);
    assertThat(found.a()).isEqualTo(8);
    assertThat(found.b()).isEqualTo(3);
    assertThat(found.volts()).isCloseTo(9, within(0.01));
    assertThat(found.alternating()).isFalse();
    assertThat(found.words()).startsWith("9.0 V DC between P9 (+) and P4, driven");
  }

  /** A forgotten battery of 60 mV is told, 40 mV are not: a survey's readings take the first in. */
  @Test
  void drivenDcCountsFromFiftyMillivolts() {
    dc[3] = 0.06;
    assertThat(look(false)).isNotNull();
    dc[3] = 0.04;
    assertThat(look(false)).isNull();
  }

  @Test
  void drivenAcCountsFromTwoTenthsOfAVolt() {
    acPeak[3] = 0.22 * Math.sqrt(2);
    assertThat(look(false)).isNotNull();
    acPeak[3] = 0.18 * Math.sqrt(2);
    assertThat(look(false)).isNull();
  }

  /** What a mains cable in the wall does: volts into a megohm, nothing into the test load. */
  @Test
  void anInducedVoltageIsToldFromItsOwnLimitOn() {
    Arrays.fill(kept, 0.01);
    acPeak[4] = 0.75 * Math.sqrt(2);
    Foreign found = look(false);
    assertThat(found.driven()).isFalse();
    assertThat(found.b()).isEqualTo(-1);
    assertThat(found.words())
        .contains("V AC on P5, induced by a cable nearby: it falls to 0.01 V under the test load");
    acPeak[4] = 0.6 * Math.sqrt(2);
    assertThat(look(false)).isNull();
    assertThat(look(true)).isNotNull(); // once the interlock has tripped
    acPeak[4] = 0.2 * Math.sqrt(2);
    assertThat(look(false)).isNull();
    assertThat(looks).isEqualTo(2);
  }

  @Test
  void twoInOppositionAreAPair() {
    Arrays.fill(kept, 0.01);
    acPeak[4] = 0.5 * Math.sqrt(2);
    acPeak[6] = -0.5 * Math.sqrt(2);
    Foreign found = look(false);
    assertThat(List.of(found.a(), found.b())).containsExactlyInAnyOrder(4, 6);
    assertThat(found.volts()).isCloseTo(1.0, within(0.05));
  }

  @Test
  void dcThroughAHighResistanceIsCalledThat() {
    dc[3] = 3;
    Arrays.fill(kept, 0.01);
    Foreign found = look(false);
    assertThat(found.driven()).isFalse();
    assertThat(found.words())
        .isEqualTo(
            "3.0 V DC on P4, fed through a high resistance: it falls to 0.03 V under the test"
                + " load");
  }

  /** It keeps more than 30 % under 22 kohm: something of a low impedance stands behind it. */
  @Test
  void drivenIsWhatKeepsNearlyAThird() {
    assertThat(new Foreign(0, 1, 10, 3.01, true, List.of()).driven()).isTrue();
    assertThat(new Foreign(0, 1, 10, 3.0, true, List.of()).driven()).isFalse();
  }

  @Test
  void smallVoltagesAreSaidInHundredths() {
    assertThat(new Foreign(0, 1, 0.55, 0.5, true, List.of()).words())
        .startsWith("0.55 V AC between P1 and P2");
    assertThat(new Foreign(0, 1, 1.0, 0.5, true, List.of()).words()).startsWith("1.0 V AC");
  }

  /** P1 is a port like the others. */
  @Test
  void theOtherSideMayBeTheFirstPort() {
    acPeak[2] = 13 * Math.sqrt(2);
    acPeak[0] = -11 * Math.sqrt(2);
    Foreign found = look(false);
    assertThat(List.of(found.a(), found.b())).containsExactlyInAnyOrder(0, 2);
    assertThat(found.volts()).isCloseTo(24, within(0.2));
    assertThat(new Foreign(2, 0, 5, 5, false, List.of()).words())
        .startsWith("5.0 V DC between P3 (+) and P1");
    acPeak[2] = 0;
    acPeak[0] = 0;
    dc[2] = -2.6;
    dc[0] = 2.4;
    found = look(false);
    assertThat(List.of(found.a(), found.b())).containsExactly(0, 2);
  }

  /** Each by itself too small to ask for a second look. */
  @Test
  void twoSmallVoltagesInOppositionAreSeen() {
    dc[3] = -0.032;
    dc[8] = 0.032;
    Foreign found = look(false);
    assertThat(List.of(found.a(), found.b())).containsExactly(8, 3);
    assertThat(found.volts()).isCloseTo(0.064, within(1e-6));
    Arrays.fill(dc, 0.04); // all alike: the board's own
    assertThat(look(false)).isNull();
    assertThat(looks).isEqualTo(1);
  }

  /** 5 V of a battery stay under the test load; the 8 V beside it that a cable induces do not. */
  @Test
  void whatIsDrivenIsToldBeforeWhatIsLouder() {
    dc[3] = 5;
    acPeak[6] = 8 * Math.sqrt(2);
    kept[6] = 0;
    Foreign found = look(false);
    assertThat(found.alternating()).isFalse();
    assertThat(found.volts()).isCloseTo(5, within(0.01));
    assertThat(found.a()).isEqualTo(3);
    assertThat(found.loadedVolts()).isCloseTo(5, within(0.01));
  }

  /** With less than 40 % on any other port, the induced voltage is one conductor's. */
  @Test
  void whatAnInducedVoltageTakesAlongIsNoSecondSide() {
    Arrays.fill(kept, 0.01);
    acPeak[4] = 2 * Math.sqrt(2);
    acPeak[6] = -0.7 * Math.sqrt(2);
    assertThat(look(false).b()).isEqualTo(-1);
    acPeak[6] = -0.9 * Math.sqrt(2);
    assertThat(look(false).b()).isEqualTo(6);
  }

  /** Within 3 % of the 24 V of either side: 0.7 V. */
  @Test
  void joinedIsWhatStandsAtTheVoltageOfASide() {
    acPeak[2] = 12.01 * Math.sqrt(2);
    acPeak[5] = -12 * Math.sqrt(2);
    acPeak[7] = -11.5 * Math.sqrt(2);
    acPeak[8] = -11 * Math.sqrt(2);
    acPeak[9] = 11.5 * Math.sqrt(2);
    acPeak[10] = 11 * Math.sqrt(2);
    assertThat(look(false).alike()).containsExactly(7, 9);
  }
}
