package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Message;
import bellwire.link.Message.KeepVigil;
import bellwire.link.Message.KeepVigil.Kind;
import bellwire.link.Rate;
import bellwire.link.ScanStep;
import bellwire.simbench.CallSide;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What the agent does not take up, and the sentence that says why; what it lets go of. */
class RefusalsTest {
  private static final long LENGTH_MICROS = 1_000_000;

  private static String answer(Rig rig, long request) {
    rig.run(2);
    return rig.reply(request).map(r -> r.accepted() ? "taken" : r.reason()).orElse("no answer");
  }

  private static long vigil(
      Rig rig, Kind kind, int ports, int returned, boolean wetting, int loads, ScanStep... steps) {
    long request = rig.stop() + 1;
    return rig.ask(
        new KeepVigil(
            request, 9, kind, ports, returned, wetting, loads, LENGTH_MICROS, List.of(steps)));
  }

  @Test
  void vigilsThatCannotSeeAnything() {
    try (Rig rig = new Rig().ready()) {
      assertThat(answer(rig, rig.vigil(Kind.CONTINUITY, 0b100, 2, LENGTH_MICROS)))
          .endsWith("conductors=1");
      assertThat(answer(rig, rig.vigil(Kind.CONTINUITY, 0b11, 2, LENGTH_MICROS)))
          .endsWith("returned=P3");
      assertThat(answer(rig, rig.vigil(Kind.TOUCH, 0b100, 0, LENGTH_MICROS)))
          .endsWith("conductors=1");
      ScanStep monitor = Rig.monitoring(3, Rate.SPS_200, 1);
      assertThat(answer(rig, vigil(rig, Kind.TREND, 0, 0, false, 0, monitor)))
          .isEqualTo("no step of the trend drives a port");
      assertThat(answer(rig, vigil(rig, Kind.TOUCH, 0b11, 0, true, 0)))
          .endsWith("of a calls vigil only");
      assertThat(answer(rig, vigil(rig, Kind.TOUCH, 0b11, 0, false, 1)))
          .endsWith("of a calls vigil only");
      ScanStep fast = Rig.driving(Rate.SPS_1000, 2);
      assertThat(answer(rig, vigil(rig, Kind.TREND, 0, 0, false, 0, fast)))
          .contains("rate=SPS_1000");
      assertThat(rig.recording).isFalse();
      assertThat(answer(rig, rig.vigil(Kind.TOUCH, 0b11, 0, LENGTH_MICROS))).isEqualTo("taken");
      assertThat(rig.recording).isTrue();
    }
  }

  @Test
  void wettingAndDummyLoadsExcludeEachOtherAndLoadsAreBounded() {
    try (Rig rig = new Rig(CallSide.NONE).ready()) {
      assertThat(answer(rig, rig.watch(true, 1))).contains("ask for one of them");
      assertThat(answer(rig, rig.watch(false, 0x1FF))).endsWith("loads=9 most=8");
      assertThat(answer(rig, vigil(rig, Kind.CALLS, 0, 0, false, 0x1FF)))
          .endsWith("loads=9 most=8");
      assertThat(answer(rig, rig.watch(false, 0xFF))).isEqualTo("taken");
    }
  }

  /** What a vigil promises to see is told for a look each millisecond. */
  @Test
  void aLongerTickThanAMillisecondKeepsNoVigil() {
    try (Rig rig = new Rig(CallSide.NONE, 1001).ready()) {
      for (Kind kind : new Kind[] {Kind.TOUCH, Kind.CONTINUITY, Kind.CALLS}) {
        assertThat(answer(rig, rig.vigil(kind, 0b11, 0, LENGTH_MICROS)))
            .as(kind.toString())
            .endsWith("tick-micros=1001");
      }
      assertThat(answer(rig, rig.watch(false, 0))).endsWith("tick-micros=1001");
    }
    try (Rig rig = new Rig(CallSide.NONE, 1000).ready()) {
      assertThat(answer(rig, rig.vigil(Kind.TOUCH, 0b11, 0, LENGTH_MICROS))).isEqualTo("taken");
    }
  }

  @Test
  void nothingIsDrivenWhileAPortIsOutside() {
    try (Rig rig = new Rig().ready()) {
      rig.copper.detectNanos = Long.MAX_VALUE / 4; // the live line alone
      rig.copper.foreignVoltage(rig.clock.nanos(), Long.MAX_VALUE);
      rig.run(2);
      String notClear = "the interlock is not clear: nothing may be connected or driven";
      assertThat(answer(rig, rig.program(Rig.driving(Rate.SPS_200, 1)))).isEqualTo(notClear);
      assertThat(answer(rig, rig.vigil(Kind.TOUCH, 0b11, 0, LENGTH_MICROS))).isEqualTo(notClear);
      assertThat(answer(rig, rig.vigil(Kind.TREND, 0, 0, LENGTH_MICROS))).isEqualTo(notClear);
      assertThat(answer(rig, rig.watch(true, 0))).contains("no wetting while a voltage is about");
      assertThat(answer(rig, rig.program(Rig.monitoring(0, Rate.SPS_200, 1)))).isEqualTo("taken");
      rig.run(30);
      assertThat(answer(rig, rig.arm())).isEqualTo("a port is outside the interlock's window");
    }
  }

  @Test
  void anythingElseWhileSomethingIsUnderWay() {
    try (Rig rig = new Rig().ready()) {
      assertThat(answer(rig, rig.program(Rig.driving(Rate.SPS_20, 1000)))).isEqualTo("taken");
      assertThat(answer(rig, rig.program(Rig.monitoring(0, Rate.SPS_200, 1)))).contains("program");
      assertThat(answer(rig, rig.arm())).contains("program");
      assertThat(answer(rig, rig.watch(false, 0))).contains("program");
      assertThat(answer(rig, rig.vigil(Kind.TOUCH, 0b11, 0, LENGTH_MICROS))).contains("program");
    }
    try (Rig rig = new Rig().ready()) {
      assertThat(answer(rig, rig.watch(false, 0))).isEqualTo("taken");
      assertThat(answer(rig, rig.arm())).contains("being watched");
    }
    try (Rig rig = new Rig().ready()) {
      assertThat(answer(rig, rig.vigil(Kind.TOUCH, 0b11, 0, LENGTH_MICROS))).isEqualTo("taken");
      assertThat(answer(rig, rig.arm())).contains("vigil");
    }
    try (Rig rig = new Rig().ready()) {
      assertThat(answer(rig, rig.vigil(Kind.CALLS, 0, 0, LENGTH_MICROS))).isEqualTo("taken");
      assertThat(answer(rig, rig.arm())).contains("vigil");
    }
  }

  @Test
  void whileTheBoardIsBeingArmed() {
    try (Rig rig = new Rig()) {
      rig.run(150);
      rig.arm();
      rig.run(5);
      assertThat(answer(rig, rig.arm())).isEqualTo("the board is already being armed");
      assertThat(answer(rig, rig.program(Rig.monitoring(0, Rate.SPS_200, 1))))
          .isEqualTo("the board is being armed or is starting");
    }
  }

  /** The first milliseconds are the converter's: what needs it waits, what does not is answered. */
  @Test
  void requestsWaitForTheBoardAndAPingDoesNot() {
    try (Rig rig = new Rig()) {
      rig.tick();
      rig.ask(new Message.Ping(77));
      rig.tick();
      assertThat(rig.replies).hasSize(1);
      long run = rig.program(Rig.monitoring(0, Rate.SPS_200, 1));
      rig.run(2);
      assertThat(rig.reply(run)).isEmpty();
      rig.run(40);
      assertThat(rig.reply(run)).hasValueSatisfying(r -> assertThat(r.accepted()).isTrue());
    }
    try (Rig rig = new Rig()) {
      rig.tick();
      long watch = rig.watch(false, 0);
      rig.run(2);
      assertThat(rig.reply(watch)).isEmpty();
      rig.run(40);
      assertThat(rig.reply(watch)).hasValueSatisfying(r -> assertThat(r.accepted()).isTrue());
    }
  }

  /** What was joined by a program that the trip ended must not stay joined at rest. */
  @Test
  void aTripAtRestFindsTheBoardAtRest() {
    try (Rig rig = new Rig().ready()) {
      rig.copper.foreignVoltage(rig.clock.nanos() + 300_000, Long.MAX_VALUE);
      rig.run(5);
      assertThat(rig.copper.word()).isZero();
      assertThat(rig.copper.connectAsked).isFalse();
      assertThat(rig.data(Message.Ended.class)).isEmpty();
      assertThat(rig.data(Message.InterlockChanged.class)).isNotEmpty();
    }
  }

  /** The live line says outside for 100 ms and the latch does not follow: the board is broken. */
  @Test
  void aLatchThatDoesNotFollowEndsTheProgramAfterAHundredMilliseconds() {
    try (Rig rig = new Rig().ready()) {
      rig.program(Rig.driving(Rate.SPS_20, 1000));
      rig.run(50);
      rig.copper.detectNanos = Long.MAX_VALUE / 4;
      rig.copper.foreignVoltage(rig.clock.nanos(), Long.MAX_VALUE);
      rig.run(100);
      assertThat(rig.data(Message.Ended.class)).isEmpty();
      rig.run(1);
      assertThat(rig.data(Message.Ended.class))
          .singleElement()
          .satisfies(
              e -> {
                assertThat(e.outcome()).isEqualTo(Message.Ended.Outcome.INTERLOCK);
                assertThat(e.reason()).contains("does not trip");
              });
      assertThat(rig.copper.word()).isZero();
    }
  }

  /** Conductors on the test load would discharge through it: they are let go of first. */
  @Test
  void theRelaysAreOpenBeforeTheTestLoadIsOn() {
    try (Rig rig = new Rig().ready()) {
      ScanStep m = Rig.monitoring(3, Rate.SPS_200, 1);
      ScanStep loaded =
          new ScanStep(
              0, 0, 0, false, m.range(), m.check(), true, m.plus(), m.minus(), 1, m.rate(), 0, 1);
      rig.program(Rig.driving(Rate.SPS_200, 1), loaded, Rig.driving(Rate.SPS_200, 1));
      boolean loadedOnce = false;
      for (int ms = 0; ms < 200; ms++) {
        rig.tick();
        loadedOnce |= rig.copper.lastTestLoad;
        assertThat(rig.copper.lastTestLoad && rig.copper.connectAsked).isFalse();
        assertThat(rig.copper.lastTestLoad && rig.copper.connected(rig.clock.nanos())).isFalse();
      }
      assertThat(loadedOnce).isTrue();
      assertThat(rig.data(Message.Ended.class))
          .extracting(Message.Ended::outcome)
          .containsExactly(Message.Ended.Outcome.DONE);
      assertThat(rig.data(Message.Samples.class).stream().mapToInt(s -> s.code().length).sum())
          .isEqualTo(3);
      assertThat(rig.data(Message.Samples.class).get(0).flags()).containsOnly(0);
    }
  }

  @Test
  void theAgentsEndOpensEverything() throws Exception {
    try (Rig rig = new Rig().ready()) {
      rig.program(Rig.driving(Rate.SPS_20, 1000));
      rig.run(50);
      assertThat(rig.copper.word()).isNotZero();
      rig.agent.stop();
      assertThat(rig.copper.word()).isZero();
      assertThat(rig.copper.connectAsked).isFalse();
    }
  }
}
