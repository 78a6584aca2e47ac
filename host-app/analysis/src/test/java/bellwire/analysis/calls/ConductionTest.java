package bellwire.analysis.calls;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/**
 * A half-wave rectifier that charges a battery conducts while the sine is above the battery's
 * voltage: the published examples give its angle within one half period.
 */
class ConductionTest {

  /**
   * Guru, "Half-Wave Rectifier as a Battery Charger" (lecture notes PEUCR/HWBC, 4 April 2006): 240
   * V rms, battery 180 V: conducts from 32.03 to 147.97 degrees.
   */
  @Test
  void theAngleOfABatteryCharger() {
    double share = Conduction.share(180, 240 * Math.sqrt(2));
    assertThat(180 * share).isCloseTo(147.97 - 32.03, within(0.02));
  }

  /** A 12 V battery on a sine of 24 V peak: 120 degrees, a textbook exercise in many places. */
  @Test
  void halfThePeakIs120Degrees() {
    assertThat(180 * Conduction.share(12, 24)).isCloseTo(120, within(1e-9));
  }

  @Test
  void thePeakComesBack() {
    for (double peak : new double[] {9.1, 12, 25, 34, 42, 400}) {
      assertThat(Conduction.peakVolts(9, Conduction.share(9, peak)))
          .isCloseTo(peak, within(1e-9 * peak));
    }
    assertThat(Conduction.share(9, 9)).isZero();
    assertThat(Conduction.share(9, 0)).isZero();
    assertThat(Conduction.peakVolts(9, 0)).isEqualTo(9);
    // A third of the time above: the threshold is the peak's sine of 60 degrees.
    assertThat(Conduction.peakVolts(9, 1 / 3.0)).isCloseTo(6 * Math.sqrt(3), within(1e-9));
    assertThat(Conduction.share(9, 3)).isZero();
  }

  /** hardware-notes/call-sense.md states these: the extremes of what counts as a call. */
  @Test
  void callsAndLeaksAreApart() {
    CallInputs inputs = CallInputs.REVISION_A;
    double high = inputs.acVolts() + inputs.acToleranceVolts();
    double low = inputs.acVolts() - inputs.acToleranceVolts();
    double leastCall = Conduction.share(high, 18 * Math.sqrt(2));
    double mostCall = Conduction.share(low, 30 * Math.sqrt(2));
    double mostWeak = Conduction.share(low, 9 * Math.sqrt(2));
    assertThat(leastCall).isCloseTo(0.754, within(0.001));
    assertThat(mostCall).isCloseTo(0.873, within(0.001));
    assertThat(mostWeak).isCloseTo(0.541, within(0.001));
    // A call's gap is narrower than what proves an open contact, a weak voltage's is not.
    assertThat(1 - leastCall).isLessThan(AcContact.WIDEST_GAP);
    assertThat(1 - mostWeak).isGreaterThan(AcContact.WIDEST_GAP);
    assertThat(leastCall).isGreaterThan(AcLead.ON_FROM);
    assertThat(mostWeak).isLessThan(AcLead.WEAK_BELOW);
    // The gap of a call is never too short for one sample a millisecond to fall into, to 60 Hz.
    assertThat((1 - mostCall) / 120).isGreaterThan(0.001);
  }

  @Test
  void badArgumentsAreNamed() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Conduction.share(0, 3))
        .withMessageContaining("thresholdVolts=0.0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Conduction.peakVolts(9, 1))
        .withMessageContaining("share=1.0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Conduction.share(9, -1))
        .withMessageContaining("peakVolts=-1.0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Conduction.peakVolts(0, 0.5))
        .withMessageContaining("thresholdVolts=0.0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Conduction.peakVolts(9, -0.1))
        .withMessageContaining("share=-0.1");
  }
}
