package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Message;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Ended.Outcome;
import bellwire.link.Message.Samples;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.link.Tap;
import bellwire.simbench.chip.FaultyLine.Fault;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A chip that fails is named, nothing stays connected, and no wrong number gets through. */
class ChipFaultTest {

  @ParameterizedTest
  @CsvSource({
    "converter, STUCK_LOW, converter",
    "converter, STUCK_HIGH, converter",
    "expanders, STUCK_LOW, expander 0",
    "expanders, STUCK_HIGH, expander 0",
    "crosspoint, STUCK_LOW, crosspoint",
    "crosspoint, STUCK_HIGH, crosspoint",
    "converter, UNHEARD, converter",
    "expanders, UNHEARD, expander 0",
    "crosspoint, UNHEARD, crosspoint",
  })
  void aDeadDataLineIsTrouble(String device, Fault fault, String named) {
    try (Rig rig = new Rig().ready()) {
      rig.chips.device(device).fail(fault, 0);
      rig.program(Rig.driving(Rate.SPS_50, 4));
      rig.run(300);
      assertThat(rig.data(Samples.class)).isEmpty();
      assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.TROUBLE);
      assertThat(rig.data(Message.Trouble.class))
          .extracting(Message.Trouble::chip)
          .containsExactly(named);
      assertThat(rig.selfCheck).isNotEmpty();
      assertThat(rig.copper.word()).isZero();
      assertThat(rig.copper.connected(rig.clock.nanos())).isFalse();
      long refused = rig.program(Rig.monitoring(0, Rate.SPS_50, 1));
      rig.run(2);
      assertThat(rig.reply(refused)).hasValueSatisfying(r -> assertThat(r.accepted()).isFalse());

      rig.chips.device(device).fail(Fault.NONE, 0);
      long arm = rig.arm();
      rig.run(800);
      assertThat(rig.reply(arm)).hasValueSatisfying(r -> assertThat(r.accepted()).isTrue());
      assertThat(rig.copper.violations()).isEmpty();
    }
  }

  @Test
  void aDeadConverterAtStartIsToldAndRefusesEverything() {
    Rig rig = new Rig();
    try (rig) {
      rig.chips.device("converter").fail(Fault.STUCK_LOW, 0);
      rig.run(20);
      assertThat(rig.data(Message.Trouble.class)).hasSize(1);
      long arm = rig.arm();
      rig.run(20);
      assertThat(rig.reply(arm)).hasValueSatisfying(r -> assertThat(r.accepted()).isFalse());
    }
  }

  @Test
  void anotherConverterIsRefused() {
    try (Rig rig = new Rig()) {
      rig.chips.converter().identity(4);
      rig.run(20);
      assertThat(rig.selfCheck).contains("id=4");
    }
  }

  @Test
  void aConverterThatResetsItselfIsTrouble() {
    try (Rig rig = new Rig().ready()) {
      rig.program(Rig.driving(Rate.SPS_200, 100));
      rig.run(50);
      rig.chips.converter().reset();
      rig.run(200);
      assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.TROUBLE);
    }
  }

  /**
   * One bit in some frames, on the converter's line and the crosspoint's: CRC-8 finds every single
   * error, and a word that is not the one told is seen, so that each number is right or there is
   * none. The true code is 0.25/2.5 of 2^23.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.01, 0.1})
  void flippedBitsCostTimeNotTruth(double share) {
    int right = (int) Math.rint(0.1 * (1 << 23));
    int readings = 0;
    int troubles = 0;
    for (int seed = 0; seed < 20; seed++) {
      try (Rig rig = new Rig(new SplittableRandom(seed)).ready()) {
        rig.copper.senseVolts = 0.25;
        rig.chips.device("converter").fail(Fault.BIT_FLIPS, share);
        rig.chips.device("crosspoint").fail(Fault.BIT_FLIPS, share);
        var m = Rig.monitoring(0, Rate.SPS_400, 100);
        rig.program(
            new ScanStep(
                0,
                0,
                0,
                false,
                m.range(),
                m.check(),
                false,
                Tap.sense(2),
                Tap.COMMON,
                1,
                Rate.SPS_400,
                0,
                100));
        rig.run(300);
        for (Samples samples : rig.data(Samples.class)) {
          assertThat(samples.code()).as("seed=%d", seed).containsOnly(right);
          readings += samples.code().length;
        }
        troubles += rig.data(Message.Trouble.class).size();
      }
    }
    assertThat(readings).isGreaterThan(1000);
    assertThat(troubles).isLessThan(15);
  }

  /** Each port's monitor has another voltage, and each step sets the multiplexers anew. */
  @ParameterizedTest
  @ValueSource(doubles = {0.01, 0.1})
  void disturbedExpandersGiveNoOtherPortsReadingAndSwitchNothingElse(double share) {
    int readings = 0;
    int troubles = 0;
    for (int seed = 0; seed < 20; seed++) {
      try (Rig rig = new Rig(new SplittableRandom(seed)).ready()) {
        rig.chips.device("expanders").fail(Fault.BIT_FLIPS, share);
        int[] ports = {3, 12, 5, 10, 0, 15, 9, 6};
        ScanStep[] steps = new ScanStep[160];
        for (int k = 0; k < steps.length; k++) {
          steps[k] = Rig.monitoring(ports[k % ports.length], Rate.SPS_1000, 1);
        }
        rig.program(steps);
        for (int tick = 0; tick < 600; tick++) {
          rig.tick();
          assertThat(rig.copper.wettingAsked || rig.copper.lastTestLoad || rig.copper.connectAsked)
              .as("seed=%d tick=%d", seed, tick)
              .isFalse();
          assertThat(rig.chips.loads()).as("seed=%d tick=%d", seed, tick).isZero();
        }
        for (Samples samples : rig.data(Samples.class)) {
          for (int i = 0; i < samples.code().length; i++) {
            int port = ports[samples.step()[i] % ports.length];
            int right = (int) Math.rint(0.01 * port / 2.5 * (1 << 23));
            assertThat(samples.code()[i]).as("seed=%d", seed).isEqualTo(right);
            readings++;
          }
        }
        troubles += rig.data(Message.Trouble.class).size();
      }
    }
    System.out.println("flips=" + share + " readings=" + readings + " troubles=" + troubles);
    assertThat(readings).isGreaterThan(share < 0.05 ? 2500 : 100);
  }
}
