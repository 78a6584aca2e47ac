package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.agent.board.EventInputs;
import bellwire.agent.chip.ChipTrouble;
import bellwire.link.Message.CallSamples;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Ended.Outcome;
import bellwire.link.Message.EventSamples;
import bellwire.link.Message.KeepVigil;
import bellwire.link.Message.KeepVigil.Kind;
import bellwire.link.Message.Reply;
import bellwire.link.Message.Samples;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.simbench.CallSide;
import bellwire.simbench.chip.FaultyLine;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** What a vigil is asked for, what it shuts out, and the kinds that are not the event path's. */
class KeepVigilTest {
  private static final long HOUR = 3_600_000_000L;

  private final Rig rig = new Rig();
  private long next = 100;

  @AfterEach
  void theInterlockWasObeyed() {
    rig.close();
    assertThat(rig.copper.violations()).isEmpty();
  }

  private void refused(Rig at, long request, String... parts) {
    at.tick();
    assertThat(at.reply(request))
        .hasValueSatisfying(
            r -> {
              assertThat(r.accepted()).isFalse();
              assertThat(r.reason()).contains(parts);
            });
    assertThat(at.recording).isFalse();
  }

  private long ask(Kind kind, int ports, int returned, boolean wetting, int loads, ScanStep... s) {
    KeepVigil keep =
        new KeepVigil(next, 9, kind, ports, returned, wetting, loads, HOUR, List.of(s));
    rig.ask(keep);
    return next++;
  }

  private void accepted(long request) {
    rig.tick();
    assertThat(rig.reply(request)).contains(new Reply(request, true, ""));
  }

  @Test
  void whatCannotBeWatchedIsRefusedInWords() {
    rig.ready();
    refused(rig, ask(Kind.CONTINUITY, 0, 0, false, 0), "two conductors", "conductors=0");
    refused(rig, ask(Kind.CONTINUITY, 0b100, 2, false, 0), "one for the way back", "conductors=1");
    refused(rig, ask(Kind.CONTINUITY, 0b110, 0, false, 0), "way back", "returned=P1");
    refused(rig, ask(Kind.TOUCH, 0b1000, 0, false, 0), "two conductors", "conductors=1");
    refused(rig, ask(Kind.TOUCH, 0b11, 0, true, 0), "of a calls vigil only");
    refused(rig, ask(Kind.CONTINUITY, 0b11, 0, false, 1), "of a calls vigil only");
    ScanStep looking = Rig.monitoring(0, Rate.SPS_200, 1);
    refused(rig, ask(Kind.TREND, 0b11, 0, false, 0, looking), "no step of the trend drives");
    ScanStep fast = Rig.driving(Rate.SPS_1000, 2);
    refused(rig, ask(Kind.TREND, 0b11, 0, false, 0, fast), "faster than they can be fetched");
    refused(rig, ask(Kind.CALLS, 0, 0, true, 1), "ask for one of them");
    refused(rig, ask(Kind.CALLS, 0, 0, false, 0x1FF), "loads=9 most=8");
    assertThat(rig.copper.connectAsked).isFalse();
  }

  @Test
  void aTickTooLongIsRefused() {
    try (Rig slow = new Rig(CallSide.NONE, 2000).ready()) {
      refused(slow, slow.vigil(Kind.CONTINUITY, 0b11, 0, HOUR), "tick-micros=2000");
      refused(slow, slow.vigil(Kind.TOUCH, 0b11, 0, HOUR), "tick-micros=2000");
      refused(slow, slow.vigil(Kind.CALLS, 0, 0, HOUR), "tick-micros=2000");
    }
  }

  @Test
  void portsAreNotWatchedWhileTheInterlockIsNotClear() {
    rig.run(20);
    for (Kind kind : List.of(Kind.CONTINUITY, Kind.TOUCH, Kind.TREND)) {
      refused(rig, rig.vigil(kind, 0b11, 0, HOUR), "the interlock is not clear");
    }
    long calls = rig.vigil(Kind.CALLS, 0b11, 0, HOUR);
    rig.tick();
    assertThat(rig.reply(calls)).contains(new Reply(calls, true, ""));
  }

  /** Above all while a system is live: nothing drives its cable beside a calls vigil. */
  @Test
  void nothingRunsBesideAVigil() {
    rig.ready();
    for (Kind kind : Kind.values()) {
      accepted(rig.vigil(kind, 0b11, 0, HOUR));
      rig.run(80);
      long program = rig.program(Rig.driving(Rate.SPS_200, 1));
      long watch = rig.watch(false, 0);
      long another = rig.vigil(Kind.TOUCH, 0b11, 0, HOUR);
      long arm = rig.arm();
      rig.tick();
      for (long each : new long[] {program, watch, another, arm}) {
        assertThat(rig.reply(each)).contains(new Reply(each, false, "a vigil is being kept"));
      }
      rig.stop();
      rig.run(30);
    }
    assertThat(rig.data(Ended.class)).hasSize(4);
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsOnly(Outcome.STOPPED);
  }

  @Test
  void aCallsVigilGoesOnWithoutAHostUntilItsLength() {
    rig.run(20);
    long vigil = rig.vigil(Kind.CALLS, 0b11, 0, 100_000_000);
    rig.hostPresent = false;
    rig.run(99_990);
    assertThat(rig.recording).isTrue();
    assertThat(rig.data(Ended.class)).isEmpty();
    rig.run(20);
    assertThat(rig.data(Ended.class)).containsExactly(new Ended(3000 + vigil, Outcome.DONE, ""));
    List<CallSamples> samples = rig.data(CallSamples.class);
    assertThat(samples).allSatisfy(s -> assertThat(s.watch()).isEqualTo(3000 + vigil));
    assertThat(samples.stream().mapToInt(s -> s.word().length).sum()).isEqualTo(100_000);
    assertThat(rig.recording).isFalse();
  }

  @Test
  void aCallsVigilFeedsDryContactsAsAWatchDoes() {
    rig.run(20);
    long vigil = ask(Kind.CALLS, 0b11, 0, true, 0);
    rig.run(90);
    assertThat(rig.chips.wetting()).isFalse();
    rig.run(15);
    assertThat(rig.reply(vigil)).contains(new Reply(vigil, true, ""));
    assertThat(rig.chips.wetting()).isTrue();
    rig.copper.foreignVoltage(rig.clock.nanos(), rig.clock.nanos() + 3_000_000);
    rig.run(2);
    assertThat(rig.chips.wetting()).isFalse();
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.INTERLOCK);
  }

  @Test
  void aTrendMeasuresRoundAfterRoundWithItsRelaysClosed() {
    rig.ready();
    long vigil = rig.vigil(Kind.TREND, 0b11, 0, 5_000_000);
    rig.tick();
    for (int i = 0; i < 4990; i++) {
      rig.tick();
      assertThat(rig.copper.connectAsked).isTrue();
    }
    rig.run(50);
    assertThat(rig.copper.connectAsked).isFalse();
    assertThat(rig.data(Ended.class)).containsExactly(new Ended(3000 + vigil, Outcome.DONE, ""));
    List<Samples> samples = rig.data(Samples.class);
    assertThat(samples).allSatisfy(s -> assertThat(s.program()).isEqualTo(3000 + vigil));
    int[] steps = samples.stream().flatMapToInt(s -> Arrays.stream(s.step())).toArray();
    assertThat(steps.length).isGreaterThan(600);
    for (int i = 0; i < steps.length; i++) {
      assertThat(steps[i]).isEqualTo(i % 3 == 2 ? 1 : 0); // two of step 0, one of step 1
    }
    assertThat(samples).allSatisfy(s -> assertThat(s.flags()).containsOnly(0));
    assertThat(samples.size()).isLessThan(20);
  }

  @Test
  void aTripEndsATrend() {
    rig.ready();
    rig.vigil(Kind.TREND, 0b11, 0, HOUR);
    rig.run(500);
    rig.copper.foreignVoltage(rig.clock.nanos() + 300_000, Long.MAX_VALUE);
    rig.run(3);
    assertThat(rig.copper.connectAsked).isFalse();
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.INTERLOCK);
  }

  /** A latch that does not act: the heartbeat has stopped, and no vigil waits for ever. */
  @ParameterizedTest
  @EnumSource(
      value = Kind.class,
      names = {"CONTINUITY", "TOUCH", "TREND"})
  void aPortThatStaysOutsideWithoutATripEndsAVigil(Kind kind) {
    rig.ready();
    rig.vigil(kind, 0b11, 0, HOUR);
    rig.run(500);
    rig.copper.detectNanos = HOUR * 1000;
    rig.copper.foreignVoltage(rig.clock.nanos() + 300_000, Long.MAX_VALUE);
    rig.run(90);
    assertThat(rig.data(Ended.class)).isEmpty();
    rig.run(20);
    assertThat(rig.data(Ended.class))
        .singleElement()
        .satisfies(
            e -> {
              assertThat(e.outcome()).isEqualTo(Outcome.INTERLOCK);
              assertThat(e.reason()).contains("does not trip");
            });
    assertThat(rig.copper.connectAsked).isFalse();
    assertThat(rig.chips.eventWetting()).isFalse();
  }

  /** No watchdog stands behind call wetting, loads and event wetting: the agent tries again. */
  @Test
  void whatCouldNotBeLetGoOfIsLetGoOfOnceTheChipHears() throws Exception {
    rig.ready();
    rig.vigil(Kind.CONTINUITY, 0b11, 0, HOUR);
    rig.run(200);
    rig.chips.device("expanders").fail(FaultyLine.Fault.STUCK_HIGH, 1);
    rig.run(120);
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.TROUBLE);
    rig.chips.device("expanders").fail(FaultyLine.Fault.NONE, 0);
    EventInputs events = rig.pi.sensingBoard().events();
    // The first right transfer after so many wrong ones still tells of a line heard badly.
    assertThatThrownBy(() -> events.feed(true, false)).isInstanceOf(ChipTrouble.class);
    events.feed(true, false); // as if what was written had not arrived
    assertThat(rig.chips.eventWetting()).isTrue();
    rig.run(101);
    assertThat(rig.chips.eventWetting()).isFalse();
  }

  /**
   * The first of something wrong is told within a quarter of a second, and a tenth for its proof.
   */
  @Test
  void whatIsWrongIsToldSoonAndMuchOfItInPieces() {
    rig.ready();
    rig.vigil(Kind.CONTINUITY, 0b1111, 0, HOUR);
    rig.run(1000);
    int before = rig.data(EventSamples.class).size();
    rig.events.open(0b10, rig.clock.nanos() + 300_000, 100_000);
    rig.run(252);
    assertThat(rig.data(EventSamples.class)).hasSizeGreaterThan(before);
    before = rig.data(EventSamples.class).size();
    for (int i = 0; i < 100; i++) {
      rig.events.open(0b10, rig.clock.nanos() + 300_000, 100_000);
      rig.run(2);
    }
    List<EventSamples> more = rig.data(EventSamples.class).subList(before, before + 3);
    assertThat(more).allSatisfy(s -> assertThat(s.ticks().length).isLessThanOrEqualTo(64));
    assertThat(more).extracting(s -> s.ticks().length).contains(64);
    rig.stop();
    rig.run(30);
    int latched = 0;
    for (EventSamples samples : rig.data(EventSamples.class)) {
      for (int run = 0; run < samples.ticks().length; run++) {
        latched += samples.latched()[run] == 0 ? 0 : samples.ticks()[run];
      }
    }
    assertThat(latched).isEqualTo(101);
  }
}
