package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.link.Message;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Ended.Outcome;
import bellwire.link.Message.Samples;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.link.Tap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;

/** Agent, drivers and chips together, through a real Pi4J context. */
class AgentOnChipsTest {
  private final Rig rig = new Rig();

  @AfterEach
  void obeyed() {
    rig.close();
    assertThat(rig.copper.violations()).isEmpty();
  }

  @Test
  void theFirstArmChecksTheBoardAndIsAnsweredAfterIt() {
    rig.run(50);
    assertThat(rig.selfCheck).contains("not yet run");
    long arm = rig.arm();
    rig.run(300);
    assertThat(rig.reply(arm)).isEmpty();
    rig.run(400);
    assertThat(rig.reply(arm)).contains(new Message.Reply(arm, true, ""));
    assertThat(rig.selfCheck).isEmpty();
    assertThat(rig.copper.word()).isZero();
    assertThat(rig.copper.beats()).isEmpty();
    long again = rig.arm();
    rig.run(2);
    assertThat(rig.reply(again)).hasValueSatisfying(r -> assertThat(r.accepted()).isTrue());
    assertThat(rig.copper.rearms).isEqualTo(1);
  }

  /** Open switches' leakage is in both readings of a pair and drops out. */
  @Test
  void leakageDoesNotFailTheCheck() {
    rig.copper.leakageVolts = -0.005;
    rig.ready();
    assertThat(rig.selfCheck).isEmpty();
  }

  @Test
  void aWrongLowReferenceFailsTheCheck() {
    rig.copper.checkLowOhms *= 1.03;
    rig.ready();
    assertThat(rig.selfCheck).contains("low range").contains("ratio=10.3");
    long run = rig.program(Rig.monitoring(0, Rate.SPS_200, 1));
    rig.run(2);
    assertThat(rig.reply(run))
        .hasValueSatisfying(
            r -> {
              assertThat(r.accepted()).isFalse();
              assertThat(r.reason()).isEqualTo(rig.selfCheck);
            });
    rig.copper.checkLowOhms = 1000;
    long arm = rig.arm();
    rig.run(700);
    assertThat(rig.reply(arm)).hasValueSatisfying(r -> assertThat(r.accepted()).isTrue());
  }

  @Test
  void aWrongHighReferenceFailsTheCheck() {
    rig.copper.checkHighOhms *= 0.97;
    rig.ready();
    assertThat(rig.selfCheck).contains("high range");
  }

  /** Every ratio is right with one limiter only; the current is not. */
  @Test
  void aShortedLimiterFailsTheCheck() {
    rig.copper.limiterOhms /= 2;
    rig.ready();
    assertThat(rig.selfCheck).contains("limiters").contains("milliamps=1.34 expected=1.07");
  }

  @Test
  void limitersAtTheEndOfTheirTolerancePass() {
    rig.copper.limiterOhms -= 8;
    rig.ready();
    assertThat(rig.selfCheck).isEmpty();
  }

  @Test
  void anOverloadFailsTheCheck() {
    rig.copper.peakFactor = 3;
    rig.ready();
    assertThat(rig.selfCheck).contains("overloaded");
  }

  @Test
  void drivingNeedsTheCheck() {
    rig.run(20);
    long run = rig.program(Rig.driving(Rate.SPS_200, 1));
    rig.run(2);
    assertThat(rig.reply(run)).hasValueSatisfying(r -> assertThat(r.accepted()).isFalse());
  }

  @Test
  void aProgramConnectsConvertsDisconnectsAndEnds() {
    rig.ready();
    rig.copper.senseVolts = 0.25;
    int before = rig.copper.conversions;
    ScanStep second =
        new ScanStep(
            0b1,
            0b10,
            0b1100,
            true,
            Rig.driving(Rate.SPS_200, 1).range(),
            Rig.driving(Rate.SPS_200, 1).check(),
            false,
            Tap.sense(4),
            Tap.COMMON,
            2,
            Rate.SPS_200,
            0,
            1);
    long run = rig.program(Rig.driving(Rate.SPS_200, 1), second);
    rig.tick();
    assertThat(rig.copper.connectAsked).isTrue();
    assertThat(rig.copper.beats()).hasSize(1);
    rig.run(40);
    assertThat(rig.reply(run)).contains(new Message.Reply(run, true, ""));
    assertThat(rig.copper.conversions).isEqualTo(before + 2);
    assertThat(rig.copper.connectAsked).isFalse();
    assertThat(rig.copper.word()).isZero();
    Samples samples = rig.data(Samples.class).get(0);
    assertThat(samples.step()).containsExactly(0, 1);
    // 0.25 V x gain 2 / 2.5 V of 2^23
    assertThat(samples.code()).containsExactly(0, (int) Math.rint(0.2 * (1 << 23)));
    // P1 drive bit 0, P2 return bit 4, P3 guard 8, P4 guard 11, range low 51, excite 56
    long word = 1L | 1L << 4 | 1L << 8 | 1L << 11 | 1L << 51 | 1L << 56;
    assertThat(samples.chain()).containsExactly(word, word);
    // inputs 0 and 1, gain code 0, rate code 8; inputs 0 and 6, gain code 1
    assertThat(samples.setup()).containsExactly(0x00010008, 0x00060108);
    assertThat(samples.flags()).containsExactly(0, 0);
    // 64 tMOD delay and 1320 tMOD after the latch edge; 1 ms after the step whose end brought the
    // relays their first edge of the heartbeat
    assertThat(samples.deviceMicros()[0])
        .isEqualTo(850_000 + 2000 + Math.round((256 + 1320) * 3.90625));
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.DONE);
    assertThat(rig.copper.lastPlus).isEqualTo(Tap.sense(4));
  }

  @Test
  void backToBackConversionsAreAllFetchedAndTimed() {
    rig.ready();
    rig.program(Rig.driving(Rate.SPS_400, 200));
    rig.run(600);
    List<Samples> samples = rig.data(Samples.class);
    assertThat(samples.stream().mapToInt(s -> s.code().length).sum()).isEqualTo(200);
    assertThat(samples).allSatisfy(s -> assertThat(s.code().length).isLessThanOrEqualTo(64));
    long[] times = samples.stream().flatMapToLong(s -> Arrays.stream(s.deviceMicros())).toArray();
    for (int i = 1; i < times.length; i++) {
      assertThat(times[i] - times[i - 1]).isEqualTo(2500);
    }
    assertThat(samples).allSatisfy(s -> assertThat(s.flags()).containsOnly(0));
    List<Long> beats = rig.copper.beats();
    assertThat(beats).hasSizeGreaterThan(40);
    for (int i = 1; i < beats.size(); i++) {
      assertThat(beats.get(i) - beats.get(i - 1)).isLessThanOrEqualTo(11_000_000);
    }
  }

  @Test
  void conversionsFasterThanTheTickAreRefusedUnlessSingle() {
    rig.ready();
    long many = rig.program(Rig.driving(Rate.SPS_1000, 2));
    rig.run(2);
    assertThat(rig.reply(many))
        .hasValueSatisfying(r -> assertThat(r.reason()).contains("step=0 rate=SPS_1000 repeats=2"));
    long one = rig.program(Rig.driving(Rate.SPS_4000, 1));
    rig.run(40);
    assertThat(rig.reply(one)).hasValueSatisfying(r -> assertThat(r.accepted()).isTrue());
    assertThat(rig.data(Ended.class)).hasSize(1);
  }

  @Test
  void anAgentHeldUpSaysWhatItMissedAndThatRelaysFell() {
    rig.ready();
    rig.program(Rig.driving(Rate.SPS_400, 10));
    rig.run(10);
    rig.clock.advanceTo(rig.clock.nanos() + 80_000_000);
    rig.run(100);
    int flags = 0;
    for (Samples samples : rig.data(Samples.class)) {
      for (int each : samples.flags()) {
        flags |= each;
      }
    }
    assertThat(flags).isEqualTo(Samples.MISSED | Samples.NOT_CONNECTED);
  }

  @Test
  void aTripEndsADrivingProgramAndNamesThePorts() {
    rig.ready();
    rig.program(Rig.driving(Rate.SPS_20, 100));
    rig.run(100);
    rig.copper.foreignVoltage(rig.clock.nanos() + 300_000, Long.MAX_VALUE);
    rig.run(3);
    assertThat(rig.copper.connectAsked).isFalse();
    assertThat(rig.copper.word()).isZero();
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.INTERLOCK);
    rig.run(200);
    List<Message.InterlockChanged> changes = rig.data(Message.InterlockChanged.class);
    assertThat(changes.get(changes.size() - 1).interlock())
        .isEqualTo(new Message.Interlock(true, true, 1 << 4));
    long arm = rig.arm();
    rig.run(2);
    assertThat(rig.reply(arm)).hasValueSatisfying(r -> assertThat(r.accepted()).isFalse());
    assertThat(rig.copper.rearms).isEqualTo(1);
  }

  /** That is how the foreign voltage is measured. */
  @Test
  void monitorsAndTestLoadRunWhileTripped() {
    rig.copper.foreignVoltage(0, Long.MAX_VALUE);
    rig.run(20);
    ScanStep m = Rig.monitoring(3, Rate.SPS_200, 3);
    ScanStep loaded =
        new ScanStep(
            0, 0, 0, false, m.range(), m.check(), true, m.plus(), m.minus(), 1, m.rate(), 0, 3);
    long run = rig.program(m, loaded);
    rig.run(25);
    assertThat(rig.copper.lastTestLoad).isTrue();
    rig.run(25);
    assertThat(rig.reply(run)).hasValueSatisfying(r -> assertThat(r.accepted()).isTrue());
    Samples samples = rig.data(Samples.class).get(0);
    double codes = 0.03 / 2.5 * (1 << 23); // the fake's monitor of P4 shows 0.03 V
    assertThat(samples.code()).hasSize(6);
    assertThat((double) samples.code()[5]).isCloseTo(codes, within(1.0));
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.DONE);
    assertThat(rig.copper.lastTestLoad).isFalse();
  }

  @Test
  void stopOpensTheRelays() {
    rig.ready();
    rig.program(Rig.driving(Rate.SPS_20, 1000));
    rig.run(100);
    assertThat(rig.copper.connected(rig.clock.nanos())).isTrue();
    long stop = rig.stop();
    rig.run(1);
    assertThat(rig.reply(stop)).hasValueSatisfying(r -> assertThat(r.accepted()).isTrue());
    rig.run(30); // held at common until the interlock's window is wide again
    assertThat(rig.copper.connectAsked).isFalse();
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.STOPPED);
  }

  @Test
  void provedReadingsDoNotWaitLongerThanFiftyMilliseconds() {
    rig.ready();
    rig.program(Collections.nCopies(20, Rig.driving(Rate.SPS_100, 1)).toArray(ScanStep[]::new));
    rig.run(85);
    assertThat(rig.data(Samples.class)).isNotEmpty();
    assertThat(rig.data(Samples.class).get(0).code().length).isBetween(5, 7);
  }

  @Test
  void pingIsAnsweredWithTheInterlock() {
    rig.run(10);
    rig.ask(new Message.Ping(77));
    rig.run(1);
    assertThat(rig.replies)
        .containsExactly(new Message.Alive(77, new Message.Interlock(true, true, 0), 0, 12_345));
  }

  /** Held up in the midst of a step, it may be slow enough after that to read within it again. */
  @Test
  void whatWasReadWithoutRelaysIsMarkedWhereverTheAgentWasHeldUp() {
    int marked = 0;
    for (int at = 40; at < 240; at += 7) {
      int heldUpAt = at;
      try (Rig rig = new Rig().ready()) {
        rig.copper.joined.clear();
        int[] looks = {0};
        rig.looked =
            () -> {
              int after = ++looks[0] - heldUpAt;
              long nanos = after == 0 ? 70_000_000 : after > 0 && after < 8 ? 2_000_000 : 100_000;
              rig.clock.advanceTo(rig.clock.nanos() + nanos);
            };
        ScanStep[] steps = new ScanStep[60];
        Arrays.fill(steps, Rig.driving(Rate.SPS_4000, 1));
        rig.program(steps);
        rig.run(600);
        rig.looked = () -> {};
        List<Boolean> seen = new ArrayList<>();
        for (Samples samples : rig.data(Samples.class)) {
          for (int flags : samples.flags()) {
            seen.add((flags & Samples.NOT_CONNECTED) == 0);
          }
        }
        assertThat(seen).as("at=%d", at).hasSize(60);
        for (int i = 0; i < 60; i++) {
          assertThat(seen.get(i) && !rig.copper.joined.get(i)).as("at=%d i=%d", at, i).isFalse();
          marked += seen.get(i) ? 0 : 1;
        }
      }
    }
    assertThat(marked).isBetween(1, 600);
  }
}
