package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Which levels of a terminal are drop-outs and which are stray calls, theory (118); by hand. */
class CallEventsTest {
  private static final long SECOND = 1_000_000;
  private static final long END = 1_000 * SECOND;

  private final List<LevelChange> changes = new ArrayList<>();

  private CallEventsTest at(double seconds, Level level) {
    long micros = Math.round(seconds * SECOND);
    changes.add(new LevelChange(2, level, micros, micros));
    return this;
  }

  private CallEvents events() {
    return new CallEvents(2, changes, END);
  }

  private static List<Long> begins(List<VigilEvent> events) {
    return events.stream().map(e -> e.firstMicros() / SECOND).toList();
  }

  @Test
  void aDropOutLiesBetweenItsEdgesAsFarAsTheyAreKnown() {
    changes.add(new LevelChange(2, Level.ON, 0, 0));
    changes.add(new LevelChange(2, Level.OFF, 100_000_000, 100_008_000));
    changes.add(new LevelChange(1, Level.ON, 101_000_000, 101_000_000)); // another lead
    changes.add(new LevelChange(2, Level.ON, 103_000_000, 103_008_000));
    CallEvents events = events();
    assertThat(events.dropOuts())
        .containsExactly(
            new VigilEvent(
                2, 100_000_000, 100_008_000, 103_000_000, 103_008_000, 1, false, false, false));
    assertThat(events.strays()).isEmpty();
    assertThat(events.on().micros()).as("it counts as a call").isEqualTo(END);
    assertThat(events.off().micros()).isZero();
  }

  /** Its edges overlap: it lasted nothing at least. */
  @Test
  void aDropOutMayHaveLastedNothing() {
    changes.add(new LevelChange(2, Level.ON, 0, 0));
    changes.add(new LevelChange(2, Level.OFF, 100_000, 108_000));
    changes.add(new LevelChange(2, Level.ON, 104_000, 112_000));
    VigilEvent event = events().dropOuts().get(0);
    assertThat(event.leastMicros()).isZero();
    assertThat(event.mostMicros()).isEqualTo(12_000);
  }

  /** No control lets go of a call for less than ten seconds. */
  @Test
  void tenSecondsAreStillADropOut() {
    at(0, Level.ON).at(100, Level.OFF).at(110, Level.ON);
    at(200, Level.OFF).at(210.000_001, Level.ON);
    CallEvents events = events();
    assertThat(begins(events.dropOuts())).containsExactly(100L);
    assertThat(events.on().micros()).isEqualTo(END - 10_000_001);
    assertThat(events.off().micros()).isEqualTo(10_000_001);
  }

  @Test
  void aStrayCallHasLongRestsOnBothSides() {
    at(0, Level.OFF).at(100, Level.ON).at(110, Level.OFF);
    at(200, Level.ON).at(210.000_001, Level.OFF);
    CallEvents events = events();
    assertThat(begins(events.strays())).containsExactly(100L);
    assertThat(events.dropOuts()).isEmpty();
    assertThat(events.off().micros()).as("it counts as a rest").isEqualTo(END - 10_000_001);
    assertThat(events.on().micros()).isEqualTo(10_000_001);
  }

  /** A call that chatters: its pauses are drop-outs, its parts no stray calls. */
  @Test
  void partsOfAChatteringCallAreNoStrayCalls() {
    at(0, Level.OFF).at(100, Level.ON).at(102, Level.OFF).at(105, Level.ON).at(107, Level.OFF);
    CallEvents events = events();
    assertThat(begins(events.dropOuts())).containsExactly(102L);
    assertThat(events.strays()).isEmpty();
    assertThat(events.on().micros()).isEqualTo(7 * SECOND);
    assertThat(events.off().micros()).isEqualTo(END - 7 * SECOND);
  }

  @Test
  void weakAndOffAreBothNoCall() {
    at(0, Level.ON).at(100, Level.WEAK).at(103, Level.OFF).at(105, Level.ON);
    VigilEvent only = events().dropOuts().get(0);
    assertThat(only.leastMicros()).isEqualTo(5 * SECOND);
    assertThat(only.mostMicros()).isEqualTo(5 * SECOND);
  }

  /** What was before the first level, behind the last, or not known may have been anything. */
  @Test
  void whatIsNotKnownOnBothSidesIsNoEvent() {
    at(0, Level.OFF).at(3, Level.ON).at(300, Level.UNKNOWN).at(305, Level.OFF).at(308, Level.ON);
    at(500, Level.OFF).at(503, Level.UNKNOWN).at(600, Level.ON).at(998, Level.OFF);
    CallEvents events = events();
    assertThat(events.dropOuts()).isEmpty();
    assertThat(events.strays()).isEmpty();
    assertThat(events.on().micros()).isEqualTo((297 + 192 + 398) * SECOND);
    assertThat(events.off().micros()).isEqualTo((3 + 3 + 3 + 2) * SECOND);
  }

  @Test
  void whatFollowsTheWatchIsLeftOut() {
    at(0, Level.ON).at(1_000, Level.OFF);
    CallEvents events = events();
    assertThat(events.on().micros()).isEqualTo(END);
    assertThat(events.off().micros()).isZero();
    assertThat(new CallEvents(5, changes, END).on().micros()).isZero();
  }
}
