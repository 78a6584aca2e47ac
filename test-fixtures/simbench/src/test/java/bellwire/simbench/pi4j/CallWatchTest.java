package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Message;
import bellwire.link.Message.CallSamples;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Ended.Outcome;
import bellwire.link.Message.Reply;
import bellwire.link.Rate;
import bellwire.simbench.CallSide;
import bellwire.simbench.chip.FaultyLine;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Agent, drivers and chips before leads whose voltages the test sets. */
class CallWatchTest {
  private final double[] volts = new double[16];
  private double dryVolts;
  private final List<String> fed = new ArrayList<>();
  private final CallSide leads =
      (lead, wetting, load, nanos) -> {
        if (lead == 0) {
          fed.add(wetting + " " + load);
        }
        return wetting && lead == 1 ? dryVolts : volts[lead];
      };
  private final Rig rig = new Rig(leads);

  @AfterEach
  void theInterlockWasObeyed() {
    rig.close();
    assertThat(rig.copper.violations()).isEmpty();
  }

  private List<Integer> words() {
    return rig.data(CallSamples.class).stream()
        .flatMap(s -> Arrays.stream(s.word()).boxed())
        .toList();
  }

  private void refused(long request, String... parts) {
    assertThat(rig.reply(request))
        .hasValueSatisfying(
            r -> {
              assertThat(r.accepted()).isFalse();
              assertThat(r.reason()).contains(parts);
            });
  }

  @Test
  void everyTickGivesAWordUntilStopped() {
    rig.run(20);
    volts[15] = -24; // magnitude counts
    volts[3] = 8; // below every threshold
    long watch = rig.watch(false, 0);
    rig.tick();
    assertThat(rig.reply(watch)).contains(new Reply(watch, true, ""));
    rig.run(150);
    volts[0] = 24;
    rig.run(100);
    rig.stop();
    rig.tick();
    List<CallSamples> batches = rig.data(CallSamples.class);
    assertThat(batches).extracting(s -> s.word().length).containsExactly(100, 100, 51);
    assertThat(batches).allSatisfy(s -> assertThat(s.watch()).isEqualTo(2000 + watch));
    assertThat(words().subList(0, 150)).containsOnly(0x8000);
    assertThat(words().subList(150, 251)).containsOnly(0x8001);
    assertThat(batches.get(0).firstMicros()).isEqualTo(21_000);
    assertThat(batches.get(1).firstMicros()).isEqualTo(121_000);
    assertThat(batches.get(1).deltaMicros()).startsWith(0, 1000, 1000);
    assertThat(rig.data.get(rig.data.size() - 1))
        .isEqualTo(new Ended(2000 + watch, Outcome.STOPPED, "the host stopped it"));
    assertThat(rig.copper.connectAsked).isFalse();
    int before = fed.size();
    rig.run(5);
    assertThat(fed).hasSize(before);
  }

  /** On a Pi some steps come late; the word belongs to when it was read, and that is said. */
  @Test
  void latenessAndReadingTimeAreTold() {
    rig.run(20);
    rig.watch(false, 0);
    rig.tick();
    rig.tookMicros = 37;
    rig.tick();
    rig.tick(300);
    rig.tick(2700); // whole ticks late
    rig.tookMicros = 80_000; // hung within the transfer
    rig.tick();
    rig.tookMicros = 0;
    rig.tick(69_000); // longer than a delta holds
    rig.stop();
    rig.tick();
    List<CallSamples> batches = rig.data(CallSamples.class);
    CallSamples first = batches.get(0);
    assertThat(first.firstMicros()).isEqualTo(21_000);
    assertThat(first.deltaMicros()).containsExactly(0, 1300, 3700, 1000);
    assertThat(first.lateMicros()).containsExactly(0, 300, 2700, 0);
    assertThat(first.tookMicros()).containsExactly(37, 37, 37, CallSamples.SATURATED);
    assertThat(batches.get(1).firstMicros()).isEqualTo(21_000 + 6000 + 70_000);
    assertThat(batches.get(1).lateMicros()).startsWith(CallSamples.SATURATED);
  }

  @Test
  void wettingComesAfterSilenceAndGoesWithTheWatch() {
    rig.run(20);
    long watch = rig.watch(true, 0);
    rig.run(100);
    assertThat(rig.reply(watch)).isEmpty();
    assertThat(rig.chips.wetting()).isFalse();
    rig.run(2);
    assertThat(rig.reply(watch)).contains(new Reply(watch, true, ""));
    assertThat(rig.chips.wetting()).isTrue();
    dryVolts = 3.5;
    rig.run(20);
    rig.stop();
    rig.tick();
    assertThat(rig.chips.wetting()).isFalse();
    assertThat(words()).hasSizeGreaterThan(15).contains(0b10).startsWith(0);
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.STOPPED);
  }

  @Test
  void voltageOnALeadRefusesTheWettingByName() {
    rig.run(20);
    long watch = rig.watch(true, 0);
    rig.run(60);
    volts[0] = 24;
    volts[9] = 24;
    rig.tick();
    volts[0] = 0;
    volts[9] = 0;
    rig.run(100);
    refused(watch, "X1, X10", "dry contacts only");
    assertThat(fed).doesNotContain("true false");
    assertThat(rig.data(Ended.class)).isEmpty();
  }

  /** An agent that was held up has not listened. */
  @Test
  void silenceIsListenedToAndNotSleptThrough() {
    rig.run(20);
    long watch = rig.watch(true, 0);
    rig.run(3);
    rig.tick(200_000);
    assertThat(rig.reply(watch)).isEmpty();
    rig.run(50);
    assertThat(rig.reply(watch)).contains(new Reply(watch, true, ""));
  }

  @Test
  void loadsAreOnForTheirLeadsAndOffAfterwards() {
    rig.run(20);
    long watch = rig.watch(false, 0x8001);
    rig.run(10);
    assertThat(rig.reply(watch)).contains(new Reply(watch, true, ""));
    assertThat(rig.chips.loads()).isEqualTo(0x8001);
    assertThat(fed).contains("false true");
    rig.stop();
    rig.tick();
    assertThat(rig.chips.loads()).isZero();
  }

  @Test
  void whatTheBoardMayNotDoIsRefused() {
    rig.run(20);
    refusedAtOnce(rig.watch(true, 1), "ask for one of them");
    refusedAtOnce(rig.watch(false, 0x1FF), "loads=9 most=8");
    rig.copper.foreignVoltage(rig.clock.nanos(), rig.clock.nanos() + 10_000_000);
    refusedAtOnce(rig.watch(true, 0), "outside the interlock's window");
    rig.watch(false, 0);
    rig.tick();
    refusedAtOnce(rig.watch(false, 0), "being watched");
    refusedAtOnce(rig.arm(), "being watched");
    refusedAtOnce(rig.program(Rig.monitoring(0, Rate.SPS_200, 1)), "being watched");
    rig.stop();
    rig.tick();
    long program = rig.program(Rig.monitoring(0, Rate.SPS_20, 5));
    rig.tick();
    assertThat(rig.reply(program)).contains(new Reply(program, true, ""));
    refusedAtOnce(rig.watch(false, 0), "a program is running");
  }

  @Test
  void aTickTooLongForTheMainsIsRefused() {
    try (Rig slow = new Rig(CallSide.NONE, 2000)) {
      slow.run(20);
      long watch = slow.watch(false, 0);
      slow.tick();
      assertThat(slow.reply(watch))
          .hasValueSatisfying(r -> assertThat(r.reason()).contains("tick-micros=2000"));
    }
  }

  private void refusedAtOnce(long request, String... parts) {
    rig.tick();
    refused(request, parts);
  }

  /** Nothing is fed while a voltage is about that nobody spoke of; a mere watch goes on. */
  @Test
  void aPortOutsideItsWindowEndsTheWettingAndNotAWatch() {
    rig.run(20);
    rig.watch(true, 0);
    rig.run(110);
    rig.copper.foreignVoltage(rig.clock.nanos(), rig.clock.nanos() + 3_000_000);
    rig.run(2);
    assertThat(rig.chips.wetting()).isFalse();
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.INTERLOCK);
    rig.run(10);
    rig.watch(false, 1);
    rig.run(10);
    rig.copper.foreignVoltage(rig.clock.nanos(), Long.MAX_VALUE);
    rig.run(200);
    assertThat(rig.data(Ended.class)).hasSize(1);
    assertThat(rig.chips.loads()).isEqualTo(1);
    assertThat(rig.data(Message.InterlockChanged.class)).isNotEmpty();
  }

  @Test
  void aWatchWithoutItsHostEndsAfterAMinute() {
    rig.run(20);
    rig.watch(false, 1);
    rig.run(1000);
    rig.hostPresent = false;
    rig.run(60_000);
    assertThat(rig.data(Ended.class)).isEmpty();
    rig.run(2);
    assertThat(rig.data(Ended.class))
        .singleElement()
        .satisfies(e -> assertThat(e.reason()).contains("no host"));
    assertThat(rig.chips.loads()).isZero();
  }

  /** Zeros from a chip that does not answer must not pass for leads at rest. */
  @Test
  void aSilentChipIsTroubleWithinATenthOfASecond() {
    rig.run(20);
    rig.watch(false, 1);
    rig.run(50);
    rig.chips.device("expanders").fail(FaultyLine.Fault.STUCK_LOW, 1);
    rig.run(110);
    assertThat(rig.data(Message.Trouble.class)).isNotEmpty();
    assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.TROUBLE);
    rig.chips.device("expanders").fail(FaultyLine.Fault.NONE, 0);
    refusedAtOnce(rig.watch(false, 0), "in trouble");
  }

  /**
   * Until the line is found to be bad, which is then told: the leads never show what is not there.
   */
  @ParameterizedTest
  @ValueSource(doubles = {0.01, 0.1})
  void aDisturbedTransferIsNoCall(double share) {
    volts[2] = 24;
    rig.run(20);
    rig.chips.device("expanders").fail(FaultyLine.Fault.BIT_FLIPS, share);
    rig.watch(false, 0);
    rig.run(10_000);
    rig.stop();
    rig.tick();
    // Each reading brings its signature, and one in ten tells of the bad line within some fifty.
    assertThat(words()).hasSizeGreaterThan(share > 0.05 ? 20 : 5000).containsOnly(0b100);
    if (share > 0.05) {
      assertThat(rig.data(Message.Trouble.class))
          .singleElement()
          .satisfies(trouble -> assertThat(trouble.reason()).contains("heard badly"));
    }
  }
}
