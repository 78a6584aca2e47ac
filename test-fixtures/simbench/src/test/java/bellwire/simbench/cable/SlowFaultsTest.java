package bellwire.simbench.cable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.link.Tap;
import bellwire.simbench.FilterKernel;
import bellwire.simbench.RandomBenches;
import org.junit.jupiter.api.Test;

/** Openings and touches of a second and more, and wandering joints, as the converter sees them. */
class SlowFaultsTest {
  private static final long MILLI = Driver.MILLI;
  private static final long MINUTE = 60_000 * MILLI;
  private static final int ALL = (1 << 17) - 1;
  private static final FilterKernel FILTER = new FilterKernel(new long[] {50_000_000});
  private static final String CABLE =
      """
      bellwire-bench: 1
      seed: 11
      cable:
        gauge: 18 AWG
        length: 20 m
        conductors:
          - {port: P1, colour: red, far: 1}
          - {port: P2, colour: white, far: 2}
          - {port: P3, colour: blue, far: 3}
      spread: {resistance: 0 %, contact: 0..0 mohm}
      surroundings: {mains: {volts: 0}}
      board: {switch-leakage: 0 nA, reference-error: 0 ppm}
      """;

  private static Driver driver(String more) {
    return new Driver(RandomBenches.parse(CABLE + more)).connect();
  }

  /** P1's and P2's loop; all others, and all afterwards, held at common. */
  private static double loopOhms(Driver driver) {
    driver.latch(Driver.word(1, 2, 1 << 16, false, "range-low")).waitFor(100 * MILLI);
    double offset = volts(driver, Tap.sense(0), Tap.sense(1));
    driver.latch(Driver.word(1, 2, 1 << 16, true, "range-low")).waitFor(100 * MILLI);
    double drop = volts(driver, Tap.sense(0), Tap.sense(1));
    double reference = volts(driver, Tap.REFERENCE_HIGH, Tap.REFERENCE_LOW);
    driver.latch(Driver.word(0, 0, ALL, false, "")).waitFor(100 * MILLI);
    assertThat(driver.copper.tripped(driver.now)).isFalse();
    return reference < 1e-3 ? Double.POSITIVE_INFINITY : (drop - offset) / reference * 100;
  }

  private static double volts(Driver driver, Tap plus, Tap minus) {
    return driver.copper.convert(plus, minus, FILTER, driver.now - FILTER.lengthNanos()).volts();
  }

  @Test
  void aLongOpeningIsAnOpenAndAShortOneIsNot() {
    String once = "cycle: {period: 1000 s, phase: 10 s}";
    String more =
        "far-end: [{from: 0 s, plug: tie}]\nintermittent: [{opening: P2, at: 0.5, "
            + once
            + ", lasting: %s}]\n";
    for (String lasting : new String[] {"5 s", "990 ms"}) {
      Driver driver = driver(String.format(more, lasting));
      double before = loopOhms(driver);
      driver.waitFor(10_100 * MILLI - driver.now);
      double during = loopOhms(driver);
      driver.waitFor(16_000 * MILLI - driver.now);
      assertThat(Double.isInfinite(during)).isEqualTo(lasting.equals("5 s"));
      assertThat(loopOhms(driver)).isCloseTo(before, within(1e-5));
      assertThat(driver.copper.tripped(driver.now)).isFalse();
    }
  }

  @Test
  void aLongTouchIsAShort() {
    Driver driver =
        driver(
            "intermittent: [{touch: [P1, P2], at: 1, cycle: {period: 1000 s, phase: 10 s},"
                + " lasting: 5 s}]\n");
    assertThat(loopOhms(driver)).isInfinite();
    driver.waitFor(11_000 * MILLI - driver.now);
    double expected = driver.copper.truth().loopOhms(0, 1) + CableCircuit.TOUCH_OHMS;
    assertThat(loopOhms(driver)).isCloseTo(expected, within(1e-3));
    driver.waitFor(16_000 * MILLI - driver.now);
    assertThat(loopOhms(driver)).isInfinite();
  }

  @Test
  void aWanderingJointIsInTheLoop() {
    Driver driver =
        driver(
            "far-end: [{from: 0 s, plug: tie}]\n"
                + "intermittent: [{wander: P2, at: 0.98, ohm: 20 mohm, walk: 5 mohm, ramp: 600 mohm,"
                + " from: 2 min}]\n");
    Truth truth = driver.copper.truth();
    double contacts = 4 * CableCircuit.LEAST_OHMS;
    double last = 0;
    for (int minute = 1; minute <= 12; minute++) {
      driver.waitFor(minute * MINUTE + 1000 * MILLI - driver.now);
      double joint = truth.wanderOhms(0, driver.now);
      assertThat(joint != last).as("minute %d", minute).isEqualTo(minute == 1 || minute > 2);
      last = joint;
      double expected = truth.loopOhms(0, 1) + contacts + joint;
      // The dividers take up to 2e-4 of the current past the reference.
      assertThat(loopOhms(driver)).isCloseTo(expected, within(3e-4 * expected));
    }
    // Ten steps of 10 mohm, and a walk of 5 mohm a step: 16 mohm.
    assertThat(last).isCloseTo(0.12, within(4 * 0.016));
  }
}
