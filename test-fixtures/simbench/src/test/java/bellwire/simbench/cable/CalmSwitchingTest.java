package bellwire.simbench.cable;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.link.Tap;
import bellwire.simbench.FilterKernel;
import bellwire.simbench.RandomBenches;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Crosspoint edges left for later against the same ones gone through at once. */
class CalmSwitchingTest {
  private static final long MILLI = Driver.MILLI;
  private static final int ALL = (1 << 17) - 1;
  private static final int CODES = 4;

  /** Wetted, twelve conductors in binary-coded groups, one code a millisecond. */
  private static final class Touching {
    final SimulatedCopper copper;
    long now = 40 * MILLI;
    private final boolean atOnce;
    private int code;

    Touching(String more, boolean atOnce) {
      this.atOnce = atOnce;
      copper =
          new SimulatedCopper(
              RandomBenches.of(17, 12, "surroundings: {hum: 5 mV 60 Hz" + more + "}\n"));
      copper.rearm(0);
      copper.control(true, false, 0);
      copper.heartbeat(0);
      copper.latchChain(Driver.word(0, 0, ALL, false, ""), 10 * MILLI);
      copper.wetting(true, 11 * MILLI);
      copper.heartbeat(20 * MILLI);
      copper.latchChain(word(), 30 * MILLI);
      copper.heartbeat(now);
    }

    private long word() {
      int driven = 0;
      for (int number = 1; number <= 12; number++) {
        driven |= (number >> code & 1) << number - 1;
      }
      return Driver.word(0, 0, ALL & ~driven, false, "");
    }

    void tick() {
      now += MILLI;
      copper.tripped(now);
      copper.outside(now);
      if (atOnce) {
        copper.control(true, false, now); // a change of its own: nothing that was learnt holds
      }
      code = (code + 1) % CODES;
      copper.latchChain(word(), now);
      copper.heartbeat(now);
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {30, 61, 1500})
  void theSameVoltagesComeOut(int ticks) {
    Touching later = new Touching("", false);
    Touching atOnce = new Touching("", true);
    for (int i = 0; i < ticks; i++) {
      later.tick();
      atOnce.tick();
    }
    assertThat(later.copper.tripped(later.now)).isFalse();
    for (long after : new long[] {0, 1000, 20_000, 300_000}) {
      double[] expected = atOnce.copper.solution(atOnce.now + after).state(atOnce.now + after);
      double[] state = later.copper.solution(later.now + after).state(later.now + after);
      if (ticks < 64) {
        assertThat(state).as("after %d ns", after).containsExactly(expected);
      } else {
        for (int i = 0; i < state.length; i++) {
          assertThat(state[i]).as("after %d ns", after).isCloseTo(expected[i], within(1e-12));
        }
      }
    }
    FilterKernel filter = new FilterKernel(new long[] {400_000});
    assertThat(later.copper.convert(Tap.monitor(4), Tap.COMMON, filter, later.now).volts())
        .isCloseTo(
            atOnce.copper.convert(Tap.monitor(4), Tap.COMMON, filter, atOnce.now).volts(),
            within(1e-12));
  }

  /** The comparators' live line too, at every microsecond of the kick after an edge. */
  @Test
  void aPortThatIsOutForAMomentIsSeen() {
    int seen = 0;
    for (long after = 0; after < 60_000; after += 2_000) {
      Touching later = new Touching("", false);
      Touching atOnce = new Touching("", true);
      for (int i = 0; i < 40; i++) {
        later.tick();
        atOnce.tick();
      }
      boolean out = atOnce.copper.outside(atOnce.now + after);
      assertThat(later.copper.outside(later.now + after)).as("after %d", after).isEqualTo(out);
      seen += out ? 1 : 0;
    }
    System.out.println("outside for about micros=" + 2 * seen);
    assertThat(seen).isBetween(1, 24);
  }

  @ParameterizedTest
  @ValueSource(strings = {"[P2, M], volts: 12, ohm: 2", "[P3, P7], volts: 26, hz: 60, ohm: 2"})
  void aForeignVoltageTripsAtTheSameMoment(String between) {
    String foreign = ", foreign: [{between: " + between + ", from: 1234.567 ms}]";
    Touching later = new Touching(foreign, false);
    Touching atOnce = new Touching(foreign, true);
    while (later.now < 1234 * MILLI) {
      later.tick();
      atOnce.tick();
    }
    boolean tripped = false;
    for (long t = later.now + 500_000; t < later.now + 5 * MILLI; t += 1000) {
      tripped = atOnce.copper.tripped(t);
      assertThat(later.copper.tripped(t)).as("t=%d", t).isEqualTo(tripped);
    }
    assertThat(tripped).isTrue();
    assertThat(later.copper.tripFlags(1300 * MILLI))
        .isEqualTo(atOnce.copper.tripFlags(1300 * MILLI));
  }
}
