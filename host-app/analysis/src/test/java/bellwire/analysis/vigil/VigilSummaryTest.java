package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

class VigilSummaryTest {
  private static final long SECOND = 1_000_000;
  static final long HOUR = 3600 * SECOND;
  static final TouchLatch LATCH = new TouchLatch(200, 2);

  static Watch watch(VigilProgram program, int ports, long micros, Long... marks) {
    return new Watch(program, ports, 0, 27, 0, micros, List.of(), List.of(marks));
  }

  private static VigilEvent event(int port, long micros, long length) {
    return new VigilEvent(
        port,
        micros - 1000,
        micros,
        micros + length,
        micros + length + 1000,
        1,
        false,
        false,
        false);
  }

  private static ConductorSummary of(VigilSummary summary, int ports) {
    return summary.conductors().stream()
        .filter(c -> c.subject().ports() == ports)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void allButTheReturnedOneAreItsOwnOpening() {
    List<VigilEvent> events = new ArrayList<>();
    for (long at : new long[] {HOUR, 2 * HOUR, 3 * HOUR}) {
      for (int port = 1; port < 5; port++) {
        events.add(event(port, at + (port == 3 ? 1000 : 0), 20_000));
      }
    }
    events.add(event(2, 100 * SECOND, 5_000));
    VigilSummary summary =
        VigilSummary.ofOpenings(watch(VigilProgram.CONTINUITY, 0b11111, 4 * HOUR), events);
    assertThat(of(summary, 1).count()).isEqualTo(3);
    assertThat(of(summary, 1).longestLeastMicros()).isEqualTo(21_000);
    assertThat(of(summary, 0b100).count()).isEqualTo(1);
    assertThat(of(summary, 0b10).count()).isZero();
    assertThat(summary.incidents().events()).isEqualTo(4);
    assertThat(summary.together()).hasSize(1);
    assertThat(summary.together().get(0).kind()).isEqualTo(Together.Kind.COMMON);
    assertThat(summary.together().get(0).count()).isEqualTo(3);
  }

  @Test
  void ofTwoConductorsItIsOneOfBoth() {
    VigilSummary summary =
        VigilSummary.ofOpenings(
            watch(VigilProgram.CONTINUITY, 0b11, HOUR), List.of(event(1, SECOND, 3000)));
    assertThat(summary.conductors().get(0).subject())
        .isEqualTo(new Subject(Happening.OPENING, 0, 0b11));
  }

  /** Ten marks of 2 s in an hour are 1/180 of it; 4 of 6 so by chance: 15 (1/180)^4 = 1.4e-8. */
  @Test
  void marksExplainWhatFollowsThem() {
    Long[] marks = new Long[10];
    for (int i = 0; i < marks.length; i++) {
      marks[i] = (300L * i + 60) * SECOND;
    }
    List<VigilEvent> events = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      events.add(event(1, marks[2 * i] + SECOND, 3000));
    }
    events.add(event(1, 200 * SECOND, 3000));
    events.add(event(1, 800 * SECOND, 3000));
    VigilSummary summary =
        VigilSummary.ofOpenings(watch(VigilProgram.CONTINUITY, 0b111, HOUR, marks), events);
    MarkEffect effect = of(summary, 0b10).marks();
    assertThat(effect.near()).isEqualTo(4);
    assertThat(effect.expected()).isCloseTo(6 / 180.0, within(1e-9));
    assertThat(effect.chance()).isCloseTo(15 * Math.pow(1 / 180.0, 4), within(2e-10));
    assertThat(effect.explains()).isTrue();
  }

  @Test
  void marksThatNothingFollowsExplainNothing() {
    VigilSummary summary =
        VigilSummary.ofOpenings(
            watch(VigilProgram.CONTINUITY, 0b111, HOUR, 10 * SECOND),
            List.of(event(1, 300 * SECOND, 3000)));
    assertThat(of(summary, 0b10).marks().follows()).isFalse();
    assertThat(of(summary, 0b10).marks().chance()).isEqualTo(1);
  }

  @Test
  void touchesOfOnePairThatAreSeenFromBothSidesAreThatPairs() {
    // Numbers 3 and 5: in code 1 the first is low, in code 2 the second, in code 0 both are driven.
    List<Touch> touches = new ArrayList<>();
    TouchDecoder decoder = new TouchDecoder(0xFFFF, new EventLimits(1500, 0, 0), touches::add);
    decoder.accept(1000, 1000, 0, 0, 0);
    long at = 1000;
    for (int i = 0; i < 40; i++) {
      int code = (i % 2) + 1;
      at += 10_000;
      int port = code == 1 ? 2 : 4;
      // Readings go on all the time; the codes between are quiet.
      decoder.accept(at - 9000, at - 1000, (code + 1) % 5, 0, 0);
      decoder.accept(at, at, code, 0, 1 << port);
    }
    decoder.finish();
    VigilSummary summary =
        VigilSummary.ofTouches(watch(VigilProgram.TOUCH, 0xFFFF, HOUR), touches, LATCH);
    assertThat(summary.conductors()).hasSize(1);
    assertThat(summary.conductors().get(0).subject())
        .isEqualTo(new Subject(Happening.TOUCH, 0b10100, 0));
    assertThat(summary.conductors().get(0).brief()).isEqualTo(40);
  }

  /** Latched touches of 16 conductors, true rate 30 an hour for 3 h, seen by chance: corrected. */
  @Test
  void aTouchRateCorrectedForTheChanceHoldsTheTruth() {
    Random random = new Random(81);
    int held = 0;
    int draws = 300;
    Subject pair = new Subject(Happening.TOUCH, 0b110, 0);
    for (int draw = 0; draw < draws; draw++) {
      TouchChance chance = new TouchChance(17, 1000, 200, 2);
      double seen = chance.ofPair(2, 3, 2);
      List<Touch> touches = new ArrayList<>();
      for (long t = 0; ; ) {
        t -= (long) (Math.log(1 - random.nextDouble()) * HOUR / 30);
        if (t >= 3 * HOUR) {
          break;
        }
        if (random.nextDouble() < seen) {
          touches.add(new Touch(0b110, 0, t, t, t, t, true, false, false));
        }
      }
      VigilSummary summary =
          VigilSummary.ofTouches(watch(VigilProgram.TOUCH, 0xFFFF, 3 * HOUR), touches, LATCH);
      ConductorSummary one = summary.conductors().get(0);
      assertThat(one.subject()).isEqualTo(pair);
      assertThat(one.chanceOfSeeing()).isCloseTo(seen, within(1e-12));
      Interval of = one.rate().seenWith(one.chanceOfSeeing()).perSecond(0.95);
      held += of.low() * 3600 <= 30 && 30 <= of.high() * 3600 ? 1 : 0;
    }
    System.out.println("seed 81: corrected intervals that hold the rate " + held + " of " + draws);
    assertThat((double) held / draws).as("seed 81").isBetween(0.93, 0.98);
  }

  @Test
  void aCallGoneForAMomentIsADropOutAndOneThatEndsIsNot() {
    List<LevelChange> changes = new ArrayList<>();
    changes.add(new LevelChange(0, Level.OFF, 0, 0));
    on(changes, 100 * SECOND, 700 * SECOND);
    on(changes, 703 * SECOND, 1000 * SECOND); // gone for 3 s
    on(changes, 1900 * SECOND, 2400 * SECOND); // another call
    on(changes, 3000 * SECOND, 3002 * SECOND); // for 2 s
    VigilSummary summary =
        VigilSummary.ofCalls(watch(VigilProgram.CALLS, 1, 3600 * SECOND), changes);
    ConductorSummary drop = one(summary, Happening.DROP_OUT);
    assertThat(drop.count()).isEqualTo(1);
    assertThat(drop.longestLeastMicros()).isEqualTo(3 * SECOND);
    assertThat(drop.rate().seconds()).isCloseTo(600 + 3 + 297 + 500, within(1e-6));
    ConductorSummary stray = one(summary, Happening.STRAY_CALL);
    assertThat(stray.count()).isEqualTo(1);
    assertThat(stray.longestLeastMicros()).isEqualTo(2 * SECOND);
  }

  private static void on(List<LevelChange> changes, long from, long to) {
    changes.add(new LevelChange(0, Level.ON, from, from));
    changes.add(new LevelChange(0, Level.OFF, to, to));
  }

  private static ConductorSummary one(VigilSummary summary, Happening happening) {
    return summary.conductors().stream()
        .filter(c -> c.subject().happening() == happening)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void aLevelThatIsNotKnownMakesNoDropOut() {
    List<LevelChange> changes = new ArrayList<>();
    changes.add(new LevelChange(0, Level.ON, 0, 0));
    changes.add(new LevelChange(0, Level.UNKNOWN, 10 * SECOND, 10 * SECOND));
    changes.add(new LevelChange(0, Level.ON, 12 * SECOND, 12 * SECOND));
    VigilSummary summary = VigilSummary.ofCalls(watch(VigilProgram.CALLS, 1, 60 * SECOND), changes);
    assertThat(summary.incidents().events()).isZero();
    assertThat(one(summary, Happening.DROP_OUT).rate().seconds()).isCloseTo(58, within(1e-6));
  }

  /** 11 in 6 h, none in 3 h: e^-5.5 = 0.41 %; (6/9)^11 = 1.16 %; 6 h (20^(1/11) - 1) = 1.88 h. */
  @Test
  void noneInThreeHoursComparedByHand() {
    List<VigilEvent> events = new ArrayList<>();
    Random random = new Random(82);
    for (int i = 0; i < 11; i++) {
      events.add(event(2, (long) (random.nextDouble() * 6 * HOUR), 4000));
    }
    VigilSummary before =
        VigilSummary.ofOpenings(watch(VigilProgram.CONTINUITY, 0b11111, 6 * HOUR), events);
    VigilSummary after =
        VigilSummary.ofOpenings(watch(VigilProgram.CONTINUITY, 0b11111, 3 * HOUR), List.of());
    VigilComparison.Line line = VigilComparison.of(before, after).whole();
    assertThat(line.chanceOfNone()).isCloseTo(0.00409, within(5e-6));
    assertThat(line.chanceOfSoFew()).isCloseTo(0.01156, within(5e-6));
    assertThat(line.secondsToBeSure() / 3600).isCloseTo(1.878, within(5e-4));
    assertThat(line.fewer()).isTrue();
  }

  @Test
  void whatWasWatchedOtherwiseIsNotCompared() {
    Watch was = watch(VigilProgram.CONTINUITY, 0b11111, HOUR);
    assertThat(VigilComparison.obstacles(was, watch(VigilProgram.TOUCH, 0b11111, HOUR)))
        .isNotEmpty();
    assertThat(VigilComparison.obstacles(was, watch(VigilProgram.CONTINUITY, 0b1111, HOUR)))
        .isNotEmpty();
    Watch longer =
        new Watch(VigilProgram.CONTINUITY, 0b11111, 0, 60, 0, HOUR, List.of(), List.of());
    assertThat(VigilComparison.obstacles(was, longer)).isNotEmpty();
    assertThat(VigilComparison.obstacles(was, was)).isEmpty();
  }

  /** Opened twice together, thrice and four times in all, an hour long: 3 · 4 · 2 · 1.5 ms. */
  @Test
  void whatOpensTogetherIsCountedAndSoIsWhatChanceWouldDo() {
    List<VigilEvent> events = new ArrayList<>();
    for (long at : new long[] {100, 200}) {
      events.add(event(1, at * SECOND, 3000));
      events.add(event(2, at * SECOND + 1500, 3000));
    }
    events.add(event(1, 300 * SECOND, 3000));
    events.add(event(2, 400 * SECOND, 3000));
    events.add(event(2, 500 * SECOND, 3000));
    events.add(event(3, 500 * SECOND + 1501, 3000)); // too late
    VigilSummary summary =
        VigilSummary.ofOpenings(watch(VigilProgram.CONTINUITY, 0b11111, HOUR), events);
    assertThat(summary.together()).hasSize(1);
    Simultaneous pair = summary.together().get(0);
    assertThat(pair.ports()).isEqualTo(0b110);
    assertThat(pair.kind()).isEqualTo(Together.Kind.SEVERAL);
    assertThat(pair.suspect()).isEqualTo(0b110);
    assertThat(pair.count()).isEqualTo(2);
    assertThat(pair.expected()).isCloseTo(3 * 4 * 2 * 1500.0 / HOUR, within(1e-15));
    assertThat(summary.incidents().events()).as("together is once").isEqualTo(6);
    assertThat(summary.conductors())
        .extracting(c -> c.subject().ports() + " " + c.count())
        .containsExactly("4 4", "2 3", "8 1", "1 0", "16 0");
  }

  /** All that the others show of one opening of the conductor that they share. */
  @Test
  void anOpeningOfTheSharedOneReachesAsFarAsAnyShowsIt() {
    List<VigilEvent> events =
        List.of(
            new VigilEvent(1, 10_000, 11_000, 15_000, 16_000, 1, false, false, false),
            new VigilEvent(2, 9_000, 11_500, 14_000, 18_000, 3, true, true, false),
            new VigilEvent(3, 10_500, 12_000, 17_000, 17_500, 1, false, false, true));
    ConductorSummary shared =
        of(VigilSummary.ofOpenings(watch(VigilProgram.CONTINUITY, 0b1111, HOUR), events), 1);
    assertThat(shared.count()).isEqualTo(1);
    assertThat(shared.brief()).as("one reading at least found it").isZero();
    assertThat(shared.cut()).isEqualTo(1);
    assertThat(shared.longestLeastMicros()).isEqualTo(17_000 - 11_000);
    assertThat(shared.longestMostMicros()).isEqualTo(18_000 - 9_000);
    assertThat(shared.firstMicros()).isEqualTo(11_000);
  }

  /** Cut where any of the others shows it cut, less than a tick where none found it open. */
  @Test
  void whatOneShowsOfTheSharedOnesOpeningHoldsForIt() {
    for (int one = -1; one < 3; one++) {
      List<VigilEvent> latched = new ArrayList<>();
      List<VigilEvent> begun = new ArrayList<>();
      List<VigilEvent> goingOn = new ArrayList<>();
      for (int i = 0; i < 3; i++) {
        long at = 11_000 + 100 * i;
        latched.add(new VigilEvent(1 + i, 10_000, at, at, at, 1, i != one, false, false));
        begun.add(new VigilEvent(1 + i, at, at, at, 12_000, 1, false, i == one, false));
        goingOn.add(new VigilEvent(1 + i, 10_000, at, at, at, 1, false, false, i == one));
      }
      assertThat(shared(latched).brief()).as("one=" + one).isEqualTo(one < 0 ? 1 : 0);
      assertThat(shared(begun).cut()).as("one=" + one).isEqualTo(one < 0 ? 0 : 1);
      assertThat(shared(goingOn).cut()).as("one=" + one).isEqualTo(one < 0 ? 0 : 1);
    }
  }

  private static ConductorSummary shared(List<VigilEvent> events) {
    return of(VigilSummary.ofOpenings(watch(VigilProgram.CONTINUITY, 0b1111, HOUR), events), 1);
  }

  /** Only conductors to which something happened are looked at for bursts. */
  @Test
  void whatNeverOpenedIsNotLookedAt() {
    List<VigilEvent> events = new ArrayList<>();
    long[] began = new long[6];
    for (int i = 0; i < 6; i++) {
      began[i] = (1000 + 7 * i * i) * SECOND;
      events.add(event(2, began[i], 3000));
    }
    Watch watch = watch(VigilProgram.CONTINUITY, 0b111111, HOUR);
    assertThat(of(VigilSummary.ofOpenings(watch, events), 0b100).rhythm().chance())
        .isEqualTo(Rhythm.of(began, watch.exposure(), 1).chance());
    events.add(event(3, 40 * SECOND, 3000));
    assertThat(of(VigilSummary.ofOpenings(watch, events), 0b100).rhythm().chance())
        .isEqualTo(Rhythm.of(began, watch.exposure(), 2).chance());
  }

  /** Openings are seen for sure, or not at all. */
  @Test
  void anOpeningHasNoChance() {
    VigilSummary none =
        VigilSummary.ofOpenings(watch(VigilProgram.CONTINUITY, 0b111, HOUR), List.of());
    assertThat(none.chanceOfSeeing(2)).isEqualTo(1);
    assertThat(none.latch()).isEmpty();
    assertThat(none.conductors()).hasSize(3);
    assertThat(none.together()).isEmpty();
  }

  /** What happened most often first; a lead that never rested has no stray calls to count. */
  @Test
  void eachLeadHasItsCallsAndItsRests() {
    List<LevelChange> changes = new ArrayList<>();
    changes.add(new LevelChange(0, Level.ON, 0, 0));
    changes.add(new LevelChange(2, Level.OFF, 0, 0));
    changes.add(new LevelChange(2, Level.ON, 70 * SECOND, 70 * SECOND));
    changes.add(new LevelChange(2, Level.OFF, 71 * SECOND, 71 * SECOND));
    VigilSummary summary =
        VigilSummary.ofCalls(watch(VigilProgram.CALLS, 0b101, 200 * SECOND), changes);
    assertThat(summary.conductors())
        .extracting(ConductorSummary::subject)
        .containsExactly(
            new Subject(Happening.STRAY_CALL, 0b100, 0), new Subject(Happening.DROP_OUT, 0b001, 0));
    assertThat(summary.incidents()).isEqualTo(new PoissonRate(1, 200));
  }
}
