package bellwire.simbench.cable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.link.Tap;
import bellwire.simbench.FilterKernel;
import bellwire.simbench.RandomBenches;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.Gauge;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class SimulatedCopperTest {
  private static final long MILLI = Driver.MILLI;
  private static final int ALL = (1 << 17) - 1;
  private static final FilterKernel FILTER = new FilterKernel(new long[] {50_000_000});
  private static final String EXACT =
      """
      bellwire-bench: 1
      seed: 11
      cable:
        gauge: 18 AWG
        length: 24.5 m
        temperature: 20 C
        conductors:
          - {port: P1, colour: red, far: 3}
          - {port: P2, colour: white, far: 1}
          - {port: P3, colour: blue, far: 2}
      spread: {resistance: 0 %, contact: 0..0 mohm}
      surroundings: {mains: {volts: 0}}
      board: {switch-leakage: 0 nA, reference-error: 0 ppm}
      """;

  /** Ohms per 1000 ft at 20 °C: Floyd, Electric Circuit Fundamentals, as tabled by HyperPhysics. */
  @ParameterizedTest
  @CsvSource({"14, 2.525", "16, 4.016", "18, 6.385", "20, 10.15", "22, 16.14", "24, 25.67"})
  void copperByGauge(int awg, double ohms) {
    Bench.Cable cable =
        new Bench.Cable("", Gauge.awgSquareMillimetres(awg), 304.8, 20, 0, 0, java.util.List.of());
    assertThat(Conductors.nominalOhms(cable)).isCloseTo(ohms, within(5e-4 * ohms));
  }

  /** The 75 °C factor of α20 = 0.00393/K: 1.21615. */
  @Test
  void copperByTemperature() {
    Bench.Cable cold = new Bench.Cable("", 1, 1, 20, 0, 0, java.util.List.of());
    Bench.Cable hot = new Bench.Cable("", 1, 1, 75, 0, 0, java.util.List.of());
    assertThat(Conductors.nominalOhms(hot) / Conductors.nominalOhms(cold))
        .isCloseTo(1.21615, within(1e-9));
  }

  /** Kelvin: the loop of two conductors under a tie plug, as a ratio to the low reference. */
  @Test
  void loopResistanceAsTheBoardSeesIt() {
    Driver driver =
        new Driver(RandomBenches.parse(EXACT + "far-end: [{from: 0 s, plug: tie}]\n")).connect();
    driver.latch(Driver.word(1, 2, 0, true, "range-low")).waitFor(100 * MILLI);
    double drop = volts(driver, Tap.sense(0), Tap.sense(1));
    double reference = volts(driver, Tap.REFERENCE_HIGH, Tap.REFERENCE_LOW);
    driver.latch(Driver.word(1, 2, 0, false, "range-low")).waitFor(100 * MILLI);
    double offset = volts(driver, Tap.sense(0), Tap.sense(1));
    double expected = driver.copper.truth().loopOhms(0, 1) + 4 * CableCircuit.LEAST_OHMS;
    // Both dividers take about 1 ppm of the current.
    assertThat((drop - offset) / reference * 100).isCloseTo(expected, within(3e-6 * 100));
  }

  @Test
  void aLeakageAsTheTransimpedanceStageSeesIt() {
    String leak = "bridges: [{between: [P1, P2], at: 0, ohm: 10 Mohm}]\n";
    Driver driver = new Driver(RandomBenches.parse(EXACT + leak)).connect();
    driver.latch(Driver.word(1, 2, ALL & ~3, true, "range-high")).waitFor(200 * MILLI);
    double out = volts(driver, Tap.TRANSIMPEDANCE, Tap.COMMON);
    double across = volts(driver, Tap.sense(0), Tap.COMMON);
    assertThat(across).isBetween(1.9, 2.05);
    // The feedback resistor's tolerance is 0.05 %.
    assertThat(-across / out * 1e6).isCloseTo(10e6, within(10e6 * 7e-4));
  }

  @Test
  void anOpenConductorShowsNoLoop() {
    String cut = "far-end: [{from: 0 s, plug: tie}]\nopens: [{conductor: P2, at: 0.5}]\n";
    Driver driver = new Driver(RandomBenches.parse(EXACT + cut)).connect();
    driver.latch(Driver.word(1, 2, 0, true, "range-low")).waitFor(100 * MILLI);
    assertThat(volts(driver, Tap.REFERENCE_HIGH, Tap.COMMON)).isCloseTo(0, within(1e-6));
    assertThat(driver.copper.truth().wire(1).firstOpenAt()).isEqualTo(0.5);
  }

  @Test
  void theCodedPlugsArmsAreInTheLoop() {
    Driver driver =
        new Driver(RandomBenches.parse(EXACT + "far-end: [{from: 0 s, plug: coded}]\n")).connect();
    driver.latch(Driver.word(1, 2, 0, true, "range-low")).waitFor(100 * MILLI);
    double drop = volts(driver, Tap.sense(0), Tap.sense(1));
    double reference = volts(driver, Tap.REFERENCE_HIGH, Tap.REFERENCE_LOW);
    double[] arms = driver.copper.plug().actualOhms();
    double expected = arms[2] + arms[0] + driver.copper.truth().loopOhms(0, 1);
    // P2's divider takes 0.32 uA past the reference, P3's 0.5 uA past P2's arm, of 2.8 mA.
    double bypassed = expected * 0.32e-6 / 2.8e-3 + arms[2] * 0.5e-6 / 2.8e-3;
    assertThat(drop / reference * 100).isCloseTo(expected + bypassed, within(0.01));
    assertThat(driver.copper.plug().storedOhms()[2] / arms[2]).isCloseTo(1, within(5e-5));
  }

  @Test
  void contactsAreFreshAtEverySeating() {
    String far =
        "far-end: [{from: 0 s, plug: open}, {from: 1 s, plug: tie}, {from: 2 s, plug: open}, {from: 3 s, plug: tie}]\n"
            + "near-seating: [2 s]\ncontacts: [{conductor: P2, end: far, ohm: 0.3, seating: 2}]\n";
    Truth truth =
        new SimulatedCopper(RandomBenches.parse(EXACT.replace("0..0 mohm", "2..20 mohm") + far))
            .truth();
    double first = truth.farContactOhms(0, 1_500 * MILLI);
    assertThat(first).isBetween(0.002, 0.020).isNotEqualTo(truth.farContactOhms(0, 3_500 * MILLI));
    assertThat(truth.farContactOhms(1, 1_500 * MILLI)).isLessThan(0.021);
    assertThat(truth.farContactOhms(1, 3_500 * MILLI)).isEqualTo(0.3);
    assertThat(truth.nearContactOhms(0, 0)).isNotEqualTo(truth.nearContactOhms(0, 2_500 * MILLI));
  }

  @Test
  void theSameSeedRepeatsBitForBitAndAnotherDoesNot() {
    Bench bench = RandomBenches.draw(9);
    assertThat(reading(new SimulatedCopper(bench))).isEqualTo(reading(new SimulatedCopper(bench)));
    assertThat(reading(new SimulatedCopper(bench, 1)))
        .isNotEqualTo(reading(new SimulatedCopper(bench, 2)));
  }

  private static double reading(SimulatedCopper copper) {
    copper.rearm(0);
    copper.control(true, false, 1);
    copper.heartbeat(2);
    copper.latchChain(Driver.word(1, 2, 0, true, "range-low"), 10 * MILLI);
    return copper.convert(Tap.sense(0), Tap.sense(1), FILTER, 20 * MILLI).volts();
  }

  /** How often anybody looks changes nothing. */
  @Test
  void lookingInBetweenChangesNothing() {
    Bench bench = RandomBenches.draw(10);
    SimulatedCopper watched = new SimulatedCopper(bench);
    SimulatedCopper alone = new SimulatedCopper(bench);
    for (SimulatedCopper copper : new SimulatedCopper[] {watched, alone}) {
      copper.rearm(0);
      copper.control(true, false, 1);
      copper.heartbeat(2);
      copper.latchChain(Driver.word(1, 2, 0, true, "range-high"), 10 * MILLI);
    }
    for (long t = 10 * MILLI; t < 45 * MILLI; t += 370_001) {
      assertThat(watched.tripped(t)).isFalse();
    }
    FilterKernel filter = new FilterKernel(new long[] {10 * MILLI, 20 * MILLI});
    assertThat(watched.convert(Tap.TRANSIMPEDANCE, Tap.COMMON, filter, 11 * MILLI))
        .isEqualTo(alone.convert(Tap.TRANSIMPEDANCE, Tap.COMMON, filter, 11 * MILLI));
  }

  /** A window over a switch event is the mean over both states. */
  @Test
  void aWindowOverASwitchEvent() {
    Driver driver = new Driver(RandomBenches.parse(EXACT)).connect();
    driver.latch(Driver.word(1, 2, 4, false, "range-low")).waitFor(20 * MILLI);
    long start = driver.now - 10 * MILLI;
    driver.latch(Driver.word(1, 2, 4, true, "range-low")).waitFor(10 * MILLI);
    FilterKernel filter = new FilterKernel(new long[] {20 * MILLI});
    double across = driver.copper.convert(Tap.DRIVE_BUS, Tap.COMMON, filter, start).volts();
    double settled = volts(driver.waitFor(60 * MILLI), Tap.DRIVE_BUS, Tap.COMMON);
    // The cable charges in a microsecond of these twenty milliseconds.
    assertThat(across).isCloseTo(settled / 2, within(2e-4 * settled));
  }

  @Test
  void anOverloadedStageIsSeen() {
    String touch = "bridges: [{between: [P1, P2], at: 0, ohm: 1 kohm}]\n";
    Driver driver = new Driver(RandomBenches.parse(EXACT + touch)).connect();
    driver.latch(Driver.word(1, 2, 4, true, "range-high")).waitFor(60 * MILLI);
    assertThat(
            driver.copper.convert(Tap.TRANSIMPEDANCE, Tap.COMMON, FILTER, driver.now - 50 * MILLI))
        .matches(seen -> seen.stageOverloaded())
        // 2 V through 1.8 kohm are 1 mA, which the diodes take.
        .matches(seen -> seen.peakVolts() > 0.7 && seen.peakVolts() < 1);
  }

  @Test
  void timeNeverRunsBackwards() {
    SimulatedCopper copper = new SimulatedCopper(RandomBenches.parse(EXACT));
    copper.heartbeat(5);
    assertThatThrownBy(() -> copper.heartbeat(4)).hasMessageContaining("nanos=4");
  }

  private static double volts(Driver driver, Tap plus, Tap minus) {
    return driver.copper.convert(plus, minus, FILTER, driver.now - FILTER.lengthNanos()).volts();
  }
}
