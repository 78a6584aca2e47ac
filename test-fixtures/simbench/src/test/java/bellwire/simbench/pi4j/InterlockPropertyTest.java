package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Message;
import bellwire.link.Message.KeepVigil;
import bellwire.link.Rate;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Random messages in random order, foreign voltage at random times: the copper, which knows the
 * interlock's true state at each step, finds nothing joined, driven, wetted, kept alive or re-armed
 * against it. A failure names its seed.
 */
class InterlockPropertyTest {
  private static final int RUNS = Integer.getInteger("bellwire.interlocks", 150);
  private static final int MILLISECONDS = 3000;

  @Test
  void noMessageInAnyOrderDrivesOrConnectsWhileNotClear() {
    int programsEnded = 0;
    int trips = 0;
    int beats = 0;
    int readings = 0;
    for (long seed = 1; seed <= RUNS; seed++) {
      SplittableRandom random = new SplittableRandom(seed);
      try (Rig rig = new Rig(random.split())) {
        foreignVoltages(rig, random);
        for (int ms = 0; ms < MILLISECONDS; ms++) {
          if (random.nextInt(20) == 0) {
            message(rig, random);
          }
          rig.tick();
          if (random.nextInt(500) == 0) {
            rig.clock.advanceTo(rig.clock.nanos() + random.nextLong(100_000_000));
          }
        }
        assertThat(rig.copper.violations()).as("seed=%d", seed).isEmpty();
        programsEnded += rig.data(Message.Ended.class).size();
        trips +=
            (int)
                rig.data(Message.Ended.class).stream()
                    .filter(e -> e.outcome() == Message.Ended.Outcome.INTERLOCK)
                    .count();
        beats += rig.copper.beats().size();
        readings += rig.events.captures.size();
      }
    }
    // The runs must have had something to go wrong.
    assertThat(programsEnded).isGreaterThan(10 * RUNS / 3);
    assertThat(trips).isGreaterThan(RUNS / 3);
    assertThat(beats).isGreaterThan(20 * RUNS / 3);
    assertThat(readings).isGreaterThan(100 * RUNS / 3);
  }

  private static void foreignVoltages(Rig rig, SplittableRandom random) {
    rig.copper.detectNanos = random.nextBoolean() ? 0 : random.nextLong(5_000_000);
    int spans = random.nextInt(6);
    for (int i = 0; i < spans; i++) {
      long from = random.nextLong(MILLISECONDS * 1_000_000L);
      boolean blip = random.nextBoolean();
      long length = random.nextLong(blip ? 2_000_000L : 500_000_000L) + 1;
      rig.copper.foreignVoltage(from, from + length);
    }
  }

  private static void message(Rig rig, SplittableRandom random) {
    switch (random.nextInt(9)) {
      case 0, 1 -> rig.arm();
      case 2 -> rig.program(Rig.driving(Rate.SPS_400, 1 + random.nextInt(40)));
      case 3 ->
          rig.program(Rig.monitoring(random.nextInt(17), Rate.SPS_200, 1 + random.nextInt(9)));
      case 4 -> {
        if (random.nextInt(3) == 0) {
          rig.stop();
        }
      }
      case 5 -> {
        rig.watch(random.nextBoolean(), random.nextInt(3) == 0 ? 1 : 0);
        if (random.nextBoolean()) {
          rig.stop();
        }
      }
      case 6, 7 -> {
        KeepVigil.Kind[] kinds = KeepVigil.Kind.values();
        int ports = random.nextInt(1 << 16);
        long lengthMicros = 1 + random.nextLong(2_000_000);
        rig.vigil(kinds[random.nextInt(4)], ports, random.nextInt(16), lengthMicros);
      }
      default ->
          rig.program(
              Rig.monitoring(random.nextInt(17), Rate.SPS_400, 2),
              Rig.driving(Rate.SPS_200, 1 + random.nextInt(5)),
              Rig.driving(Rate.SPS_4000, 1));
    }
  }
}
