package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Message.Alive;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Ended.Outcome;
import bellwire.link.Message.EventSamples;
import bellwire.link.Message.KeepVigil.Kind;
import bellwire.link.Message.Ping;
import bellwire.link.Message.Reply;
import bellwire.link.Message.Trouble;
import bellwire.simbench.chip.FaultyLine;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Agent, drivers and chips before an event path whose openings and touches the test sets. */
class EventVigilTest {
  private static final long HOUR = 3_600_000_000L;
  private static final long MS = 1_000_000;
  private static final int CABLE = 0b1100_0000_0001_0111;

  /**
   * From the request to the first reading: two settling times, closing, the capture thrown away.
   */
  private static final int STARTING_MS = 60;

  private final Rig rig = new Rig();

  @AfterEach
  void theInterlockWasObeyed() {
    rig.close();
    assertThat(rig.copper.violations()).isEmpty();
  }

  /** One reading, taken out of its run. */
  private record Tick(long micros, int word, int latched, int code) {}

  private List<Tick> ticks(int codes) {
    List<Tick> ticks = new ArrayList<>();
    for (EventSamples samples : rig.data(EventSamples.class)) {
      long first = samples.firstMicros();
      for (int run = 0; run < samples.ticks().length; run++) {
        first += samples.deltaMicros()[run];
        for (int i = 0; i < samples.ticks()[run]; i++) {
          ticks.add(
              new Tick(
                  first + i * Rig.TICK_MICROS,
                  samples.word()[run],
                  samples.latched()[run],
                  (samples.code()[run] + i) % codes));
        }
      }
    }
    return ticks;
  }

  private long begin(Kind kind, int ports, int returned) {
    rig.events.tied = kind == Kind.CONTINUITY;
    long vigil = rig.vigil(kind, ports, returned, HOUR);
    rig.tick();
    assertThat(rig.reply(vigil)).contains(new Reply(vigil, true, ""));
    rig.run(STARTING_MS);
    return vigil;
  }

  private void end() {
    rig.stop();
    rig.run(30);
  }

  private static List<Tick> wrong(List<Tick> ticks) {
    return ticks.stream().filter(t -> (t.word() | t.latched()) != 0).toList();
  }

  @Test
  void quietTicksAreOneRunASecond() {
    rig.ready();
    long vigil = begin(Kind.CONTINUITY, 0xFFFF, 4);
    assertThat(rig.recording).isTrue();
    rig.run(10_000);
    end();
    List<EventSamples> samples = rig.data(EventSamples.class);
    assertThat(samples).hasSizeBetween(10, 11);
    assertThat(samples).allSatisfy(s -> assertThat(s.ticks()).hasSize(1));
    assertThat(samples).allSatisfy(s -> assertThat(s.vigil()).isEqualTo(3000 + vigil));
    List<Tick> ticks = ticks(1);
    assertThat(wrong(ticks)).isEmpty();
    assertThat(ticks).hasSizeBetween(10_000, 10_020);
    for (int i = 1; i < ticks.size(); i++) {
      assertThat(ticks.get(i).micros() - ticks.get(i - 1).micros()).isEqualTo(1000);
    }
    assertThat(rig.data(Ended.class))
        .containsExactly(new Ended(3000 + vigil, Outcome.STOPPED, "the host stopped it"));
    assertThat(rig.recording).isFalse();
  }

  @Test
  void openingsAreLatchedAndFollowed() {
    rig.ready();
    begin(Kind.CONTINUITY, CABLE, 0);
    long now = rig.clock.nanos();
    rig.events.open(0b100, now + 10 * MS + 300_000, 30_000);
    rig.events.open(0b10_0010, now + 20 * MS + 300_000, 3 * MS); // P6 has no conductor
    rig.events.open(0b1, now + 40 * MS + 300_000, MS / 2); // the way back: all others rise
    rig.run(60);
    end();
    long us = now / 1000;
    int others = CABLE & ~1;
    assertThat(wrong(ticks(1)))
        .containsExactly(
            new Tick(us + 11_000, 0, 0b100, 0),
            new Tick(us + 21_000, 0b10, 0b10, 0),
            new Tick(us + 22_000, 0b10, 0b10, 0),
            new Tick(us + 23_000, 0b10, 0b10, 0),
            new Tick(us + 24_000, 0, 0b10, 0),
            new Tick(us + 41_000, 0, others, 0));
  }

  /** Steps on a Pi come late; the worked example of docs/protocol.md. */
  @Test
  void lateStepsBeginRunsOfTheirOwn() {
    rig.ready();
    begin(Kind.CONTINUITY, CABLE, 0);
    long now = rig.clock.micros();
    rig.events.open(0b100, 1000 * now + 4 * MS + 200_000, 100_000);
    rig.run(7);
    rig.tick(400); // within half a tick: no run of its own
    rig.tick();
    rig.tick(2600);
    rig.run(3);
    end();
    List<Tick> ticks = ticks(1);
    assertThat(wrong(ticks)).containsExactly(new Tick(now + 5000, 0, 0b100, 0));
    EventSamples samples = rig.data(EventSamples.class).get(0);
    int runs = samples.ticks().length;
    assertThat(Arrays.copyOfRange(samples.ticks(), 1, runs - 1)).containsExactly(1, 3);
    assertThat(Arrays.copyOfRange(samples.deltaMicros(), 2, runs)).containsExactly(1000, 6000);
    List<Long> captured = rig.events.captures.stream().map(c -> c.nanos() / 1000).toList();
    assertThat(everyReadingIsNear(captured, ticks)).isTrue();
  }

  private static boolean everyReadingIsNear(List<Long> captured, List<Tick> ticks) {
    int at = 1; // the first capture was thrown away
    for (Tick tick : ticks) {
      if (Math.abs(captured.get(at) - tick.micros()) > Rig.TICK_MICROS / 2) {
        return false;
      }
      at++;
    }
    return true;
  }

  /** What the bench held down is told by the code of each reading, however late steps were. */
  @Test
  void theCodeIsThatInForceHoweverLateTheSteps() {
    rig.ready();
    SplittableRandom random = new SplittableRandom(11);
    begin(Kind.TOUCH, CABLE, 0);
    for (int i = 0; i < 3000; i++) {
      int kind = random.nextInt(40);
      rig.tick(kind == 0 ? random.nextInt(20_000) : kind < 8 ? random.nextInt(1000) : 0);
      if (random.nextInt(100) == 0) {
        rig.events.touch(0b110, rig.clock.nanos() + random.nextInt(2_000_000), 5 * MS);
      }
    }
    end();
    List<Tick> ticks = ticks(3); // six conductors
    List<FakeEvents.Capture> captures = rig.events.captures;
    assertThat(ticks).hasSize(captures.size() - 1); // the first was thrown away
    int touches = 0;
    for (int i = 0; i < ticks.size(); i++) {
      Tick tick = ticks.get(i);
      FakeEvents.Capture capture = captures.get(i + 1);
      assertThat(Math.abs(capture.nanos() / 1000 - tick.micros())).isLessThanOrEqualTo(500);
      int driven = driven(tick.code());
      assertThat(capture.guard()).as("reading=%d", i).isEqualTo(0x1FFFF & ~driven);
      assertThat(tick.word()).isEqualTo(~capture.word() & driven);
      assertThat(tick.latched()).isEqualTo(capture.latches() & driven | tick.word());
      touches += tick.latched() == 0 ? 0 : 1;
    }
    assertThat(touches).isGreaterThan(30);
  }

  /** P1, P2, P3, P5, P15 and P16 have the numbers 1 to 6. */
  private static int driven(int code) {
    return switch (code) {
      case 0 -> 0b0100_0000_0000_0101;
      case 1 -> 0b1000_0000_0000_0110;
      default -> 0b1100_0000_0001_0000;
    };
  }

  /** Each pair is told in just the codes in which its numbers differ, on the one driven. */
  @Test
  void everyPairShowsInTheCodesThatTellItApart() {
    rig.ready();
    begin(Kind.TOUCH, CABLE, 0);
    int[] ports = {16, 0, 1, 2, 4, 14, 15};
    List<int[]> pairs = new ArrayList<>();
    for (int a = 0; a < ports.length; a++) {
      for (int b = a + 1; b < ports.length; b++) {
        pairs.add(new int[] {a, b, (int) rig.clock.micros()});
        rig.events.touch(1 << ports[a] | 1 << ports[b], rig.clock.nanos() + MS / 2, 7 * MS);
        rig.run(12);
      }
    }
    end();
    List<Tick> ticks = ticks(3);
    for (int[] pair : pairs) {
      for (int code = 0; code < 3; code++) {
        int bits = 0;
        for (Tick tick : ticks) {
          boolean within = tick.micros() >= pair[2] && tick.micros() < pair[2] + 12_000;
          bits |= within && tick.code() == code ? tick.latched() : 0;
        }
        int a = pair[0] >> code & 1;
        int b = pair[1] >> code & 1;
        int expected = a == b ? 0 : 1 << ports[a == 1 ? pair[0] : pair[1]];
        assertThat(bits).as("%d with %d, code=%d", pair[0], pair[1], code).isEqualTo(expected);
      }
    }
  }

  /** A pattern needs its time before it is read; a step that follows too soon leaves it be. */
  @Test
  void aStepTooSoonAfterALateOneReadsNothing() {
    rig.ready();
    begin(Kind.TOUCH, CABLE, 0);
    for (int i = 0; i < 50; i++) {
      rig.run(5);
      rig.clock.advanceTo(rig.clock.nanos() + 700_000);
      rig.agent.step(rig.clock.micros(), rig.clock.micros() - 700);
      rig.clock.advanceTo(rig.clock.nanos() + 250_000);
      rig.agent.step(rig.clock.micros(), rig.clock.micros());
      rig.clock.advanceTo(rig.clock.nanos() + 1_000_000);
    }
    List<FakeEvents.Capture> captures = rig.events.captures;
    for (int i = 1; i < captures.size(); i++) {
      assertThat(captures.get(i).nanos() - captures.get(i - 1).nanos()).isGreaterThan(MS / 2 - 1);
    }
    end();
    assertThat(wrong(ticks(3))).isEmpty();
  }

  /** Held up longer than the watchdog waits, the relays fell: that opens nothing. */
  @ParameterizedTest
  @CsvSource({"CONTINUITY, 1", "TOUCH, 3"})
  void relaysThatFellForWantOfAHeartbeatOpenNothing(Kind kind, int codes) {
    rig.ready();
    begin(kind, CABLE, 0);
    rig.run(100);
    rig.tick(80_000);
    rig.run(100);
    rig.tookMicros = 70_000; // and held up within a step
    rig.tick();
    rig.tookMicros = 0;
    rig.clock.advanceTo(rig.clock.nanos() + 70 * MS);
    rig.run(200);
    end();
    List<Tick> ticks = ticks(codes);
    assertThat(wrong(ticks)).isEmpty();
    int gaps = 0;
    for (int i = 1; i < ticks.size(); i++) {
      long apart = ticks.get(i).micros() - ticks.get(i - 1).micros();
      gaps += apart > 1500 ? 1 : 0;
    }
    assertThat(gaps).isEqualTo(2);
  }

  /** Neither what a step saw that was held up at the capture, nor the latches after it. */
  @Test
  void aCaptureOfUnknownTimeIsThrownAwayAndTheNextToo() {
    rig.ready();
    begin(Kind.CONTINUITY, CABLE, 0);
    rig.run(9);
    long micros = rig.clock.micros();
    rig.tookMicros = 600;
    rig.tick();
    rig.tookMicros = 0;
    rig.run(20);
    end();
    List<Long> times = ticks(1).stream().map(Tick::micros).toList();
    assertThat(times).contains(micros - 1000, micros + 2000);
    assertThat(times).doesNotContain(micros, micros + 1000);
  }

  /** The last reading before a trip may be the foreign voltage's own doing. */
  @Test
  void aTripEndsTheVigilAndIsNoOpening() {
    rig.ready();
    rig.copper.detectNanos = 50_000;
    long vigil = begin(Kind.CONTINUITY, CABLE, 0);
    rig.run(100);
    long now = rig.clock.nanos();
    rig.events.open(0b10, now - 10_000, Long.MAX_VALUE / 4); // it rises past the threshold
    rig.copper.foreignVoltage(now + 1, Long.MAX_VALUE); // and out of the window
    rig.run(1);
    assertThat(rig.events.captures).last().satisfies(c -> assertThat(c.word()).isEqualTo(0b10));
    rig.run(2);
    assertThat(rig.data(Ended.class))
        .containsExactly(
            new Ended(
                3000 + vigil,
                Outcome.INTERLOCK,
                "the interlock tripped: a port is outside its window"));
    assertThat(wrong(ticks(1))).isEmpty();
    assertThat(ticks(1)).last().satisfies(t -> assertThat(t.micros()).isEqualTo(now / 1000 - 1000));
    assertThat(rig.chips.eventWetting()).isFalse();
    assertThat(rig.copper.connectAsked).isFalse();
    assertThat(rig.copper.word()).isZero();
  }

  @Test
  void theWettingGoesOffBeforeTheRelaysOpen() {
    rig.ready();
    rig.events.tied = false;
    rig.vigil(Kind.TOUCH, CABLE, 0, 500_000);
    rig.tick();
    assertThat(rig.copper.connectAsked).isTrue();
    assertThat(rig.chips.eventWetting()).isFalse();
    rig.run(400);
    assertThat(rig.chips.eventWetting()).isTrue();
    rig.run(100);
    assertThat(rig.chips.eventWetting()).isFalse();
    assertThat(rig.copper.connectAsked).isTrue();
    assertThat(rig.data(Ended.class)).isEmpty();
    rig.run(25);
    assertThat(rig.copper.connectAsked).isFalse();
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.DONE);
    assertThat(wrong(ticks(3))).isEmpty();
  }

  /** Zeros in a touch vigil would be touches of all; nothing since the last proof is believed. */
  @ParameterizedTest
  @CsvSource({
    "CONTINUITY, event-word, expander 5", "TOUCH, event-word, expander 5",
    "CONTINUITY, event-latches, expander 6", "TOUCH, event-latches, expander 6",
    "CONTINUITY, event-control, expander 7", "TOUCH, event-control, expander 7"
  })
  void aChipThatLostPowerIsTroubleWithinATenthOfASecond(Kind kind, String chip, String named) {
    rig.ready();
    begin(kind, CABLE, 0);
    rig.run(777);
    rig.chips.interruptPower(chip);
    rig.run(101);
    assertThat(rig.data(Trouble.class)).extracting(Trouble::chip).containsExactly(named);
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.TROUBLE);
    assertThat(wrong(ticks(kind == Kind.TOUCH ? 3 : 1))).isEmpty();
    assertThat(ticks(1)).hasSizeGreaterThan(650);
    assertThat(rig.copper.connectAsked).isFalse();
    assertThat(rig.copper.word()).isZero();
    rig.arm();
    rig.run(800);
    begin(kind, CABLE, 0);
    assertThat(rig.chips.eventWetting()).isTrue();
    end();
  }

  /** One bit in a fiftieth of the frames. */
  @Test
  void disturbedTransfersAreNoEvents() {
    rig.ready();
    begin(Kind.CONTINUITY, CABLE, 0);
    rig.chips.device("expanders").fail(FaultyLine.Fault.BIT_FLIPS, 0.02);
    rig.run(5000);
    rig.chips.device("expanders").fail(FaultyLine.Fault.NONE, 0);
    end();
    assertThat(rig.data(Trouble.class)).isEmpty();
    assertThat(ticks(1)).hasSizeGreaterThan(5000);
    assertThat(wrong(ticks(1))).isEmpty();
  }

  @Test
  void itGoesOnWithoutAHostAndAnswersOneThatComesBack() {
    rig.ready();
    long vigil = begin(Kind.CONTINUITY, CABLE, 0);
    rig.hostPresent = false;
    rig.events.open(0b10, rig.clock.nanos() + 300_000 * MS + MS / 2, MS / 10);
    rig.run(600_000);
    rig.hostPresent = true;
    rig.ask(new Ping(99));
    rig.tick();
    assertThat(rig.replies)
        .last()
        .isInstanceOfSatisfying(
            Alive.class,
            a -> assertThat(a).isEqualTo(new Alive(99, a.interlock(), 3000 + vigil, 12_345)));
    assertThat(rig.data(Ended.class)).isEmpty();
    end();
    assertThat(wrong(ticks(1)))
        .singleElement()
        .satisfies(t -> assertThat(t.latched()).isEqualTo(2));
    assertThat(ticks(1)).hasSizeGreaterThan(600_000);
    rig.ask(new Ping(100));
    rig.tick();
    assertThat(rig.replies)
        .last()
        .isInstanceOfSatisfying(Alive.class, a -> assertThat(a.vigil()).isZero());
    begin(Kind.TOUCH, CABLE, 0); // another begins as the first did
    end();
    assertThat(rig.data(Ended.class)).hasSize(2);
  }
}
