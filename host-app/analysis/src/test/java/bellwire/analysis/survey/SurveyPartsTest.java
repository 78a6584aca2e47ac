package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.Explanation;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.junit.jupiter.api.Test;

/** The small records that verdicts are put together from. */
class SurveyPartsTest {

  private static AlongRun at(double fraction, double u, Quantity run) {
    return AlongRun.of(new Quantity(fraction, u, ""), run);
  }

  @Test
  void aPlaceIsDecidedUpToATenthOfTheRun() {
    assertThat(at(0.5, 0.1, null).decided()).isTrue();
    assertThat(at(0.5, 0.101, null).decided()).isFalse();
    assertThat(at(0.62, 0.004, null).words()).isEqualTo("at 62.00 ± 0.40 % of the run");
    assertThat(at(0.3, 0.2, null).words()).isEqualTo("somewhere between 0 and 70 % of the run");
    assertThat(at(0.7, 0.2, null).words()).isEqualTo("somewhere between 30 and 100 % of the run");
  }

  @Test
  void nearAnEndItsClampIsLookedAtFirst() {
    assertThat(at(0.06, 0.01, null).hint()).contains("near end").contains("clamp there");
    assertThat(at(0.061, 0.01, null).hint()).isEmpty();
    assertThat(at(0.94, 0.01, null).hint()).contains("far end").contains("wall's clamp");
    assertThat(at(0.939, 0.01, null).hint()).isEmpty();
    assertThat(at(0.02, 0.2, null).hint()).isEmpty(); // too uncertain to send anybody
    Quantity shortRun = new Quantity(5, 0.01, "m");
    assertThat(at(0.09, 0.0, shortRun).hint()).contains("near end"); // 0.45 m
    assertThat(at(0.12, 0.0, shortRun).hint()).isEmpty(); // 0.6 m
  }

  /** GUM 5.1.2: a product's relative variances add up. */
  @Test
  void metresAreTheFractionOfTheRun() {
    Quantity metres = at(0.5, 0.01, new Quantity(40, 1, "m")).metres();
    assertThat(metres.value()).isCloseTo(20, within(1e-9));
    assertThat(metres.u()).isCloseTo(20 * Math.hypot(0.02, 0.025), within(1e-9));
    assertThat(metres.unit()).isEqualTo("m");
  }

  @Test
  void aLeakStandsOutByFiveStandardUncertainties() {
    assertThat(new Leak(5.01e-9, 1e-9).detected()).isTrue();
    assertThat(new Leak(5e-9, 1e-9).detected()).isFalse();
    assertThat(new Leak(-3e-9, 1e-9).upperSiemens()).isCloseTo(5e-9, within(1e-18));
    assertThat(new Leak(2e-9, 1e-9).aboveOhms()).isCloseTo(1 / 7e-9, within(1e-3));
  }

  @Test
  void portsHaveNamesAndBits() {
    assertThat(Ports.names(List.of())).isEmpty();
    assertThat(Ports.names(List.of(0))).isEqualTo("P1");
    assertThat(Ports.names(List.of(0, 3))).isEqualTo("P1 and P4");
    assertThat(Ports.names(List.of(0, 3, 16))).isEqualTo("P1, P4 and M");
    assertThat(Ports.mask(List.of(0, 3, 16))).isEqualTo(0x1_0009);
    assertThat(Ports.list(0x1_0009)).containsExactly(0, 3, 16);
    assertThat(Ports.list(Ports.ALL)).hasSize(17);
  }

  /** Contacts of 2 to 20 mohm, rectangular: 11 mohm, half-width 9 mohm. */
  @Test
  void aContactsExpectationAndHalfWidth() {
    assertThat(Criteria.standard().contactOhms()).isCloseTo(0.011, within(1e-12));
    assertThat(Criteria.standard().contactHalfWidthOhms()).isCloseTo(0.009, within(1e-12));
  }

  /** GUM 4.3.7: a rectangular half-width over the root of three; a product of two over three. */
  @Test
  void anArmsUncertaintyIsToleranceAndTemperature() {
    Plug plug = new Plug(new double[] {100, 200}, 1e-4, 5e-6, 15);
    assertThat(plug.positions()).isEqualTo(2);
    assertThat(plug.temperatureHalfWidth()).isCloseTo(7.5e-5, within(1e-12));
    assertThat(plug.u(1)).isCloseTo(200 * Math.hypot(1e-4 / Math.sqrt(3), 2.5e-5), within(1e-9));
  }

  /** Half of full scale at gain 2 is a quarter of the reference; the scatter as GUM 4.2.2. */
  @Test
  void codesBecomeVolts() {
    Probe probe = Probe.monitor(Look.monitor(0), 3, false).looking(Look.monitor(0), 2);
    int half = 1 << 22;
    Reading reading =
        Reading.ofCodes(probe, new int[] {half - 2, half, half + 2}, new long[3], 2.5, false);
    double code = 2.5 / (1 << 23) / 2;
    assertThat(reading.volts()).isCloseTo(0.625, within(1e-12));
    assertThat(reading.scatterVolts()).isCloseTo(2 * code, within(1e-15));
    assertThat(reading.series().volts()).hasSize(3);
    assertThat(reading.series().volts()[0]).isCloseTo(0.625 - 2 * code, within(1e-15));
    assertThat(Reading.ofCodes(probe, new int[1], new long[1], 2.5, false).scatterVolts()).isNaN();
    assertThat(Reading.ofCodes(probe, new int[2], new long[2], 2.5, false).scatterVolts()).isZero();
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Reading.ofCodes(probe, new int[0], new long[0], 2.5, false));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Reading.ofCodes(probe, new int[2], new long[1], 2.5, false));
  }

  /** Room for the peak, a fifth more, and 30 mV of hum within 2.4 V. */
  @Test
  void aGainLeavesRoomForHum() {
    assertThat(Probe.gainFor(0)).isEqualTo(64); // 80 for the hum alone
    assertThat(Probe.gainFor(2.4)).isEqualTo(1);
    assertThat(Probe.gainFor(-1.0)).isEqualTo(1); // 1.23 V twice is too much
    assertThat(Probe.gainFor(0.97)).isEqualTo(2);
    for (double peak = 0.001; peak < 1.9; peak *= 1.3) {
      int gain = Probe.gainFor(peak);
      assertThat((1.2 * peak + 0.03) * gain).isLessThanOrEqualTo(2.4);
      assertThat(gain == 128 || (1.2 * peak + 0.03) * 2 * gain > 2.4).isTrue();
    }
  }

  @Test
  void touchesAreThoseOfALikelyExplanation() {
    Fault bridge =
        new Fault(
            Fault.Kind.BRIDGE,
            List.of(2),
            List.of(5),
            new Quantity(0.5, 0.01, ""),
            Quantity.ohms(0.1, 0.01));
    Fault oneOfTwo =
        new Fault(Fault.Kind.BRIDGE, List.of(2, 3), List.of(5), null, Quantity.ohms(1, 0.1));
    Explanation likely = new Explanation(List.of(bridge, oneOfTwo), 0.5, true);
    List<Touch> touches = Touch.of(List.of(likely), null);
    assertThat(touches).hasSize(1);
    Touch touch = touches.get(0);
    assertThat(touch.joins(2, 5) && touch.joins(5, 2)).isTrue();
    assertThat(touch.joins(2, 4) || touch.joins(4, 5) || touch.joins(5, 4)).isFalse();
    assertThat(touch.within(List.of(1, 2, 5))).isTrue();
    assertThat(touch.within(List.of(1, 2)) || touch.within(List.of(1, 5))).isFalse();
    assertThat(touch.at().fraction().value()).isEqualTo(0.5);
    assertThat(Touch.of(List.of(new Explanation(List.of(bridge), 0.49, true)), null)).isEmpty();
    assertThat(Touch.of(List.of(new Explanation(List.of(bridge), 0.9, false)), null)).isEmpty();
    assertThat(Touch.of(List.of(), null)).isEmpty();
  }
}
