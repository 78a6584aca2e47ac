package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.Probe.Look;
import bellwire.analysis.survey.Probe.Pace;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;

/** A ratio of voltage and current out of four readings, by Ohm's law and a budget by hand. */
class RatioReaderTest {
  private static final double REFERENCE_OHMS = 100;
  private static final double ROOT_3 = Math.sqrt(3);

  private final RatioReader reader = new RatioReader(RoundBoard.MODEL);

  private List<Probe> probes(double expectedOhms) {
    return reader.probes(2, 5, Ports.bit(9), Look.pair(2, 3), expectedOhms, Pace.PRECISE, 1000);
  }

  /** Both ways' voltages and currents, the reference's inputs exchanged on the way back. */
  private static List<Reading> readings(
      List<Probe> probes, double volts, double amps, double backVolts, double backAmps) {
    double[] seen = {volts, amps * REFERENCE_OHMS, -backAmps * REFERENCE_OHMS, backVolts};
    List<Reading> readings = new ArrayList<>();
    for (int k = 0; k < seen.length; k++) {
      readings.add(new Reading(probes.get(k), seen[k], Double.NaN, false));
    }
    return readings;
  }

  /** Ohms with a constant voltage on top. */
  private boolean disturbed(
      double ohms, double offset, double amps, double backAmps, double expectedOhms) {
    List<Reading> four =
        readings(
            probes(expectedOhms), ohms * amps + offset, amps, -ohms * backAmps + offset, backAmps);
    return reader.disturbed(four, ohms);
  }

  @Test
  void currentGoesBothWays() {
    List<Probe> probes = probes(1);
    assertThat(probes).hasSize(RatioReader.PROBES);
    assertThat(probes).extracting(p -> Ports.list(p.drive()).get(0)).containsExactly(2, 2, 5, 5);
    assertThat(probes).extracting(p -> Ports.list(p.returned()).get(0)).containsExactly(5, 5, 2, 2);
    assertThat(probes)
        .extracting(Probe::look)
        .containsExactly(Look.pair(2, 3), Look.REFERENCE, Look.REFERENCE_REVERSED, Look.pair(2, 3));
    assertThat(probes).allMatch(p -> p.guard() == Ports.bit(9) && p.excite());
  }

  /**
   * 2 V through 766, 100 and twice 15 ohm: 2.23 mA, 0.223 V at the reference. 0.225 V leave room at
   * a gain of 8: beside 896 ohm that is 113.6 ohm.
   */
  @Test
  void theGainIsThatOfTheVoltageExpected() {
    assertThat(probes(113.5).get(0).gain()).isEqualTo(8);
    assertThat(probes(113.5).get(3).gain()).isEqualTo(8);
    assertThat(probes(113.7).get(0).gain()).isEqualTo(4);
    assertThat(probes(1).get(0).gain()).isEqualTo(64);
    assertThat(probes(1).get(1).gain()).isEqualTo(8);
    assertThat(probes(500).get(2).gain()).isEqualTo(8);
  }

  /** An offset and unequal ways drop out: 110 mV forth, 108 mV back, of 2.00 and 1.96 mA. */
  @Test
  void theRatioIsTakenOverBothWays() {
    Quantity ohms = reader.ohms(readings(probes(1), 0.111, 2.00e-3, -0.1068, 1.96e-3));
    assertThat(ohms.value()).isCloseTo(55, within(1e-9));
    double amps = 1.98e-3;
    double noise = Math.hypot(2e-6 / 64, 1e-7) / Math.sqrt(2) / amps;
    double referenceNoise = Math.hypot(2e-6 / 8, 1e-7) / Math.sqrt(2) / amps * 55 / 100;
    double both = 55 * 1e-4 / ROOT_3;
    assertThat(ohms.u()).isCloseTo(u(amps, noise, referenceNoise, both, both), within(1e-9));
  }

  /** Where voltage and reference are read at one gain, its error drops out of the ratio. */
  @Test
  void oneGainForBothCancels() {
    Quantity ohms = reader.ohms(readings(probes(113), 0.110, 2e-3, -0.110, 2e-3));
    double noise = Math.hypot(2e-6 / 8, 1e-7) / Math.sqrt(2) / 2e-3;
    assertThat(ohms.u()).isCloseTo(u(2e-3, noise, noise * 55 / 100), within(1e-9));
  }

  private static double u(double amps, double... others) {
    double hum = 5e-3 * 2e-5 / Math.sqrt(2) / amps / ROOT_3;
    double tap = Math.sqrt(2) * 1e-9 * 20_000 * 0.2 * (55 * amps) / 2 / amps / 3;
    double fixed = Math.hypot(Math.hypot(hum, tap), Math.hypot(55e-3 / ROOT_3, 55 * 4e-4 / 3));
    return Math.sqrt(fixed * fixed + DoubleStream.of(others).map(x -> x * x).sum());
  }

  @Test
  void whatOverloadedOrCarriedNoCurrentIsNoRatio() {
    List<Probe> probes = probes(1);
    assertThat(reader.ohms(readings(probes, 1e-9, 1e-9, -1e-9, 1e-9))).isNull();
    assertThat(reader.ohms(readings(probes, 1e-6, 1e-6, -1e-6, 1e-6))).isNotNull();
    for (int k = 0; k < RatioReader.PROBES; k++) {
      List<Reading> four = readings(probes, 0.11, 2e-3, -0.11, 2e-3);
      four.set(k, new Reading(probes.get(k), four.get(k).volts(), Double.NaN, true));
      assertThat(reader.ohms(four)).as("reading " + k).isNull();
    }
  }

  /** At 1 ohm and 2 mA: 200 µV, 8 thousandths of 2 mV, and six times 0.105 µV of noise. */
  @Test
  void anOffsetThatNoThermalVoltageExplainsIsADisturbance() {
    for (int sign : new int[] {1, -1}) {
      assertThat(disturbed(1, sign * 216.5e-6, 2e-3, 2e-3, 1)).isFalse();
      assertThat(disturbed(1, sign * 216.8e-6, 2e-3, 2e-3, 1)).isTrue();
      assertThat(disturbed(-1, sign * 216.5e-6, 2e-3, 2e-3, 1)).isFalse();
    }
  }

  /** At a gain of 16 and less 1.5 mV: here 1 µV of noise and 1.6 mV of 200 mV beside it. */
  @Test
  void whereArmsAreOfHundredsOfOhmsMoreIsAllowed() {
    for (int sign : new int[] {1, -1}) {
      assertThat(disturbed(100, sign * 3.10e-3, 2e-3, 2e-3, 113)).isFalse();
      assertThat(disturbed(100, sign * 3.11e-3, 2e-3, 2e-3, 113)).isTrue();
    }
  }

  /** The switches of the two ways differ by 2 ohm of 900; more is somebody else's current. */
  @Test
  void currentsThatDifferAreADisturbanceAndNoOffset() {
    assertThat(disturbed(1, 0, 2.000e-3, 1.985e-3, 1)).isFalse();
    assertThat(disturbed(1, 0, 2.000e-3, 1.983e-3, 1)).isTrue();
    assertThat(disturbed(1, 0, 1.985e-3, 2.000e-3, 1)).isFalse();
    assertThat(disturbed(1, 0, 1.983e-3, 2.000e-3, 1)).isTrue();
    // the voltages differ as the currents do: not an offset beside the one that is allowed
    assertThat(disturbed(100, 3.0e-3, 2.00e-3, 1.99e-3, 113)).isFalse();
    assertThat(disturbed(100, -3.0e-3, 2.00e-3, 1.99e-3, 113)).isFalse();
  }
}
