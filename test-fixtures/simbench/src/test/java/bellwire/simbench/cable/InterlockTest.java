package bellwire.simbench.cable;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Tap;
import bellwire.simbench.FilterKernel;
import bellwire.simbench.RandomBenches;
import bellwire.simbench.file.Bench;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** The board's own latch, with no software but for time passing. */
class InterlockTest {
  private static final long MILLI = Driver.MILLI;
  private static final int ALL = (1 << 17) - 1;

  @Test
  void theLatchIsSetAtPowerOnAndReArmClearsIt() {
    Driver driver = new Driver(RandomBenches.of(1, 3, ""));
    assertThat(driver.copper.tripped(0)).isTrue();
    assertThat(driver.copper.tripFlags(0)).isZero();
    driver.copper.rearm(10);
    assertThat(driver.copper.tripped(20)).isFalse();
  }

  @Test
  void relaysCloseOnlyWithAHeartbeatAndOpenWithoutOne() {
    Driver driver = new Driver(RandomBenches.of(1, 3, ""));
    driver.copper.rearm(0);
    driver.copper.control(true, false, 0);
    assertThat(driver.copper.connected(20 * MILLI)).isFalse();
    driver.copper.heartbeat(20 * MILLI);
    assertThat(driver.copper.connected(20 * MILLI + 900_000)).isFalse();
    assertThat(driver.copper.connected(21 * MILLI)).isTrue();
    assertThat(driver.copper.connected(70 * MILLI)).isTrue();
    assertThat(driver.copper.connected(70 * MILLI + 600_000)).isFalse();
  }

  @Test
  void theExcitationBitDoesNothingWhileTripped() {
    Driver driver = new Driver(RandomBenches.of(1, 3, ""));
    driver.latch(Driver.word(1, 2, 4, true, "range-low"));
    assertThat(driver.copper.excited(MILLI)).isFalse();
    driver.copper.rearm(2 * MILLI);
    assertThat(driver.copper.excited(3 * MILLI)).isTrue();
  }

  /** At any moment, in any switch state, excited or not, between any two ports, M among them. */
  @Test
  void foreignVoltageOpensTheRelaysWithinTwoMilliseconds() {
    long worst = 0;
    for (long seed = 1; seed <= 400; seed++) {
      Random random = new Random(seed);
      int a = random.nextInt(17);
      int b = (a + 1 + random.nextInt(16)) % 17;
      boolean dc = random.nextBoolean();
      long from = 100 * MILLI + random.nextInt((int) (100 * MILLI));
      String foreign =
          String.format(
              Locale.ROOT,
              "surroundings: {hum: 5 mV 60 Hz, foreign: [{between: [%s, %s], volts: %d, hz: %d, ohm: 2, from: %.6f ms}]}\n",
              port(a),
              port(b),
              dc ? 5 : 26,
              dc ? 0 : 60,
              from / 1e6);
      Driver driver = new Driver(RandomBenches.of(seed, 2 + random.nextInt(15), foreign)).connect();
      boolean excite = random.nextInt(3) > 0;
      int drive = 1 << random.nextInt(17);
      int returned = random.nextInt(ALL + 1) & ~drive;
      int guard = ALL & ~drive & ~returned & (random.nextBoolean() ? ALL : random.nextInt(ALL + 1));
      String[] ranges = {"", "range-low", "range-mid", "range-high"};
      String range = ranges[random.nextInt(4)];
      driver.latch(Driver.word(drive, returned, guard, excite, range));
      boolean relays = random.nextInt(4) > 0;
      if (!relays) {
        driver.copper.control(false, false, driver.now);
      }
      driver.waitFor(from - driver.now);
      String as =
          "seed=" + seed + " ports=" + port(a) + "," + port(b) + " dc=" + dc + " " + excite + " "
              + range;
      assertThat(driver.copper.tripped(driver.now)).as(as).isFalse();
      assertThat(driver.copper.connected(driver.now)).as(as).isEqualTo(relays);
      // The software is frozen from here on.
      worst = Math.max(worst, openedAfter(driver, from));
      assertThat(driver.copper.tripped(from + 2 * MILLI)).as(as).isTrue();
      assertThat(driver.copper.connected(from + 2 * MILLI)).as(as).isFalse();
      assertThat(driver.copper.excited(from + 2 * MILLI)).as(as).isFalse();
      driver.now = from + 25 * MILLI;
      int flags = driver.copper.tripFlags(driver.now);
      assertThat(flags & (1 << a | 1 << b)).as(as).isNotZero();
    }
    System.out.println("worst micros from foreign voltage to open relays=" + worst / 1000);
    assertThat(worst).isLessThanOrEqualTo(2 * MILLI);
  }

  private static long openedAfter(Driver driver, long from) {
    for (long step = 0; step <= 2 * MILLI; step += 20_000) {
      if (!driver.copper.connected(from + step)) {
        return step;
      }
    }
    return 2 * MILLI;
  }

  @Test
  void aVoltageFromTheStartKeepsTheLatchSet() {
    Driver driver =
        new Driver(
            RandomBenches.of(
                4, 5, "surroundings: {foreign: [{between: [P1, M], volts: 5, ohm: 2}]}\n"));
    driver.now = 10 * MILLI;
    assertThat(driver.copper.outside(driver.now)).isTrue();
    driver.copper.rearm(driver.now);
    assertThat(driver.copper.tripped(driver.now)).isTrue();
    // The neighbours were outside for a moment too: the cable's capacitance takes them along.
    int ends = 1 | 1 << 16;
    assertThat(driver.copper.tripFlags(driver.now) & ends).isEqualTo(ends);
  }

  @Test
  void sixteenConductorsBesideMainsWiringStayInsideTheWindow() {
    for (long seed = 1; seed <= 20; seed++) {
      Driver driver =
          new Driver(RandomBenches.of(seed, 16, "surroundings: {hum: 5 mV 60 Hz}\n")).connect();
      driver.waitFor(200 * MILLI);
      assertThat(driver.copper.tripped(driver.now)).as("seed=%d", seed).isFalse();
      driver.latch(Driver.word(1, 2, ALL & ~3, true, "range-high")).waitFor(200 * MILLI);
      assertThat(driver.copper.tripped(driver.now)).as("seed=%d", seed).isFalse();
    }
  }

  /**
   * A property of the board that scan programs must heed: what floats beside a driven conductor
   * goes below the window when the drive ends, by the cable's own capacitance. On the guard bus it
   * does not.
   */
  @Test
  void aConductorLeftFloatingTripsTheLatchWhenTheExcitationEnds() {
    for (boolean guarded : new boolean[] {false, true}) {
      Driver driver = new Driver(RandomBenches.of(2, 3, "board: {noise: 1.0}\n")).connect();
      // M, too, is kicked where it floats.
      int guard = 1 << 16 | (guarded ? 4 : 0);
      driver.latch(Driver.word(1, 2, guard, true, "range-high")).waitFor(30 * MILLI);
      assertThat(driver.copper.tripped(driver.now)).isFalse();
      driver.latch(Driver.word(1, 2, guard, false, "range-high")).waitFor(MILLI);
      assertThat(driver.copper.tripped(driver.now)).isEqualTo(!guarded);
      assertThat(driver.copper.tripFlags(driver.now)).isEqualTo(guarded ? 0 : 4);
    }
  }

  /** A few pF to mains wiring: volts without a load, millivolts under the test load. */
  @Test
  void inducedVoltageFallsUnderTheTestLoadAndADrivenOneStays() {
    String induced =
        "surroundings: {induced: [{on: P2, volts: 120, hz: 60, capacitance: 22 pF}]}\n";
    double[] free = monitored(RandomBenches.of(8, 5, induced), 1, false);
    double[] loaded = monitored(RandomBenches.of(8, 5, induced), 1, true);
    assertThat(free[0]).isGreaterThan(0.5);
    assertThat(free[1]).as("tripped").isEqualTo(1);
    // 1 uA rms through the test loads of P2 and of M is 62 mV peak; the mains' own 1 pF add some.
    assertThat(loaded[0]).isBetween(0.05, 0.1);

    String driven = "surroundings: {foreign: [{between: [P2, M], volts: 26, hz: 60, ohm: 2}]}\n";
    double[] stays = monitored(RandomBenches.of(8, 5, driven), 1, true);
    assertThat(stays[0]).isGreaterThan(30);
  }

  /** Largest voltage between a port and M over two cycles, and whether the latch was set. */
  private static double[] monitored(Bench bench, int port, boolean testLoad) {
    Driver driver = new Driver(bench);
    driver.copper.rearm(0);
    driver.copper.control(false, testLoad, 1);
    driver.now = 100 * MILLI;
    double tripped = driver.copper.tripped(driver.now) ? 1 : 0;
    FilterKernel filter = new FilterKernel(new long[] {200_000});
    double largest = 0;
    for (int i = 0; i < 120; i++) {
      long start = driver.now + i * 250_000L;
      double a = driver.copper.convert(Tap.monitor(port), Tap.monitor(16), filter, start).volts();
      largest = Math.max(largest, Math.abs(a) * 51);
    }
    return new double[] {largest, tripped};
  }

  private static String port(int port) {
    return port == 16 ? "M" : "P" + (port + 1);
  }
}
