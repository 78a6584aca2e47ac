package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.app.job.Gap;
import bellwire.app.job.JobFile;
import bellwire.app.job.Source;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.board.BoardDescription;
import bellwire.link.Message;
import bellwire.link.Message.Ended.Outcome;
import bellwire.link.Message.KeepVigil.Kind;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalLong;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A vigil's way into the job file, over restarts of every part of the chain. */
class VigilRunTest {
  private static final long NUMBER = (1L << 40) + 77;
  private static final long HOUR = 3_600_000_000L;
  private static final long UNIX = 1_780_000_000_000_000L;
  private static final long LOOK = 100_000;

  @TempDir private Path directory;
  private Path file;
  private final ScriptedBoard board = new ScriptedBoard();
  private final List<String> notes = new ArrayList<>();

  @BeforeEach
  void name() {
    file = directory.resolve("job.bellwire");
  }

  private static VigilOrder order(Kind kind) {
    return new VigilOrder(
        NUMBER, kind, 0x0F, Map.of(1, "white"), 0, false, 0, HOUR, Double.NaN, 0, 60, "");
  }

  private VigilRun.Means means() {
    return new VigilRun.Means(
        BoardModels.of(BoardDescription.revisionA()),
        "A",
        feed -> {
          board.feed = feed;
          return board;
        },
        () -> UNIX + board.nowMicros,
        () -> board.nowMicros * 1000,
        notes::add);
  }

  private void run(VigilRun run) throws Exception {
    while (!board.script.isEmpty() && run.step(LOOK)) {
      // as told
    }
  }

  @Test
  void readingsBecomeEventsWithTheirTimesFromTheStart() throws Exception {
    board.nowMicros = 0;
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.run(NUMBER, 500_000, 1000, 0, 0));
      board.script.add(() -> board.run(NUMBER, 1_500_000, 3, 0b10, 0b10));
      board.script.add(() -> board.run(NUMBER, 1_503_000, 997, 0, 0));
      board.script.add(() -> board.run(NUMBER, 2_500_000, 1, 0, 0b100));
      board.script.add(() -> board.run(NUMBER, 2_501_000, 10, 0, 0));
      board.script.add(() -> board.end(NUMBER, 2_512_000, Outcome.DONE, ""));
      run(run);
      assertThat(run.ending()).isEqualTo("its time was over");
      assertThat(run.view().rows().get(1).name()).isEqualTo("P2 white");
      assertThat(run.view().rows().get(1).events()).isEqualTo(1);
      assertThat(run.view().rows().get(2).brief()).isEqualTo(1);
    }
    assertThat(board.armed).isEqualTo(1);
    assertThat(board.kept).hasSize(1);
    try (VigilReader reader = VigilReader.open(file, 1)) {
      // The first frame came when this end's clock stood at 0.6 s, but nothing was before the
      // start.
      long offset = -500_000;
      assertThat(reader.events())
          .containsExactly(
              new VigilEvent(
                  1,
                  0,
                  1_499_000 + offset,
                  1_500_000 + offset,
                  1_502_000 + offset,
                  1_503_000 + offset,
                  1,
                  false,
                  false,
                  false),
              new VigilEvent(
                  2,
                  0,
                  2_499_000 + offset,
                  2_500_000 + offset,
                  2_500_000 + offset,
                  2_500_000 + offset,
                  1,
                  true,
                  false,
                  false));
      assertThat(reader.row().ending()).isPresent();
    }
  }

  @Test
  void onlyWhatIsCommittedIsAcknowledged() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      for (int i = 0; i < 15; i++) {
        long at = i * 100_000L;
        board.script.add(() -> board.run(NUMBER, at, 100, 0, 0));
      }
      for (int i = 0; i < 5; i++) {
        run.step(LOOK);
      }
      assertThat(board.stored).isEmpty(); // a second has not passed
      run(run);
      assertThat(board.stored).isNotEmpty();
      assertThat(board.stored.get(board.stored.size() - 1).nextSequence()).isBetween(9L, 14L);
    }
  }

  @Test
  void anAgentThatRestartsIsAskedAgainForTheRestOfTheTimeAndTheTimeRises() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.run(NUMBER, 60_000_000, 100, 0, 0));
      board.script.add(() -> board.restart(6));
      run(run);
      assertThat(board.kept).hasSize(2);
      long left = board.kept.get(1).lengthMicros();
      assertThat(left).isBetween(HOUR - 10_000_000, HOUR - 1);
      board.script.add(() -> board.run(NUMBER, 1000, 100, 0, 0)); // its clock began anew
      run(run);
    }
    try (VigilReader reader = VigilReader.open(file, 1)) {
      Stream ports = reader.streams().get(0);
      List<Gap> gaps = reader.gaps(ports, 0, HOUR);
      assertThat(gaps).hasSize(1);
      assertThat(gaps.get(0).toMicros() - gaps.get(0).fromMicros()).isGreaterThan(3_000_000);
      long[] last = {-1};
      reader.samples(
          ports,
          0,
          HOUR,
          (first, count, value, latches) -> {
            assertThat(first).isGreaterThan(last[0]);
            last[0] = first + (count - 1) * 1000L;
          });
      assertThat(last[0]).isBetween(3_000_000L, 10_000_000L);
    }
  }

  @Test
  void anAgentThatRestartsOnceMoreAsItIsAskedIsAskedAgain() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.run(NUMBER, 60_000_000, 100, 0, 0));
      board.script.add(() -> board.restart(6));
      board.asked =
          () -> {
            board.asked = () -> {};
            board.restart(7);
            throw new InstrumentTrouble("the agent has restarted");
          };
      run(run);
      assertThat(run.ending()).isEmpty();
      assertThat(board.kept).hasSize(3);
      board.script.add(() -> board.run(NUMBER, 1000, 100, 0, 0));
      run(run);
    }
    try (VigilReader reader = VigilReader.open(file, 1)) {
      assertThat(reader.gaps(reader.streams().get(0), 0, HOUR)).hasSize(1);
    }
  }

  @Test
  void anAgentThatRestartsAgainAndAgainAsItIsAskedIsGivenUp() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.restart(6));
      board.asked =
          () -> {
            board.restart(board.boot + 1);
            throw new InstrumentTrouble("the agent has restarted");
          };
      assertThatThrownBy(() -> run(run))
          .isInstanceOf(InstrumentTrouble.class)
          .hasMessageContaining("restarts again and again");
    }
    assertThat(VigilRun.unfinished(file)).isPresent();
  }

  @Test
  void anAgentThatWasHeldUpIsArmedAndAskedAgainAndTheGapIsTold() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.run(NUMBER, 60_000_000, 100, 0, 0));
      board.script.add(() -> board.end(NUMBER, 60_200_000, Outcome.HELD_UP, "held up"));
      run(run);
      assertThat(run.ending()).isEmpty();
      assertThat(board.armed).isEqualTo(2);
      assertThat(board.kept).hasSize(2);
      assertThat(board.kept.get(1).lengthMicros()).isBetween(HOUR - 2_000_000, HOUR - 1);
      board.script.add(() -> board.run(NUMBER, 61_000_000, 100, 0, 0));
      board.script.add(() -> board.end(NUMBER, 62_000_000, Outcome.DONE, ""));
      run(run);
      assertThat(run.ending()).isEqualTo("its time was over");
    }
    try (VigilReader reader = VigilReader.open(file, 1)) {
      List<Gap> gaps = reader.gaps(reader.streams().get(0), 0, HOUR);
      assertThat(gaps).hasSize(1);
      assertThat(gaps.get(0).reason()).isEqualTo("the agent was held up, and let go of the cable");
      assertThat(gaps.get(0).toMicros() - gaps.get(0).fromMicros()).isEqualTo(900_000);
    }
  }

  /** Before its first reading: nothing is known from the beginning on, and of no time before. */
  @Test
  void anAgentThatWasHeldUpBeforeItsFirstReadingLeavesAGapFromTheBeginning() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.end(NUMBER, 60_100_000, Outcome.HELD_UP, "held up"));
      run(run);
      board.script.add(() -> board.run(NUMBER, 62_000_000, 100, 0, 0));
      board.script.add(() -> board.end(NUMBER, 63_000_000, Outcome.DONE, ""));
      run(run);
      assertThat(run.ending()).isEqualTo("its time was over");
    }
    try (VigilReader reader = VigilReader.open(file, 1)) {
      Gap gap = reader.gaps(reader.streams().get(0), Long.MIN_VALUE, HOUR).get(0);
      assertThat(gap.reason()).isEqualTo("the agent was held up, and let go of the cable");
      assertThat(gap.fromMicros()).isZero();
      assertThat(gap.toMicros()).isBetween(1L, 5_000_000L);
    }
  }

  @Test
  void anAgentHeldUpAgainAndAgainIsGivenUpAndCanBeGoneOnWith() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      for (int i = 1; i <= 30; i++) {
        long at = i * 1_000_000L;
        board.script.add(() -> board.end(NUMBER, at, Outcome.HELD_UP, "held up"));
      }
      assertThatThrownBy(() -> run(run))
          .isInstanceOf(InstrumentTrouble.class)
          .hasMessageContaining("held up again and again");
      assertThat(board.kept).hasSize(21);
    }
    assertThat(VigilRun.unfinished(file)).isPresent();
  }

  @Test
  void aHostThatComesBackGoesOnWhereTheFileEnds() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.run(NUMBER, 0, 1000, 0, 0));
      run(run);
    }
    VigilRow left = VigilRun.unfinished(file).orElseThrow();
    board.nowMicros += 60_000_000;
    board.underWay = OptionalLong.of(NUMBER);
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.resume(job, left, VigilRun.order(file, left), means())) {
      assertThat(board.known).extracting(Source::nextSequence).containsExactly(1L);
      board.script.add(() -> board.run(NUMBER, 1_000_000, 60_000, 0, 0));
      board.script.add(() -> board.end(NUMBER, 61_000_000, Outcome.STOPPED, ""));
      run(run);
    }
    assertThat(board.kept).hasSize(1);
    try (VigilReader reader = VigilReader.open(file, 1)) {
      assertThat(reader.gaps(reader.streams().get(0), 0, HOUR)).isEmpty();
    }
  }

  @Test
  void whatAnEarlierBootRecordedComesBeforeTheNewOne() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.run(NUMBER, 0, 1000, 0, 0));
      run(run);
    }
    VigilRow left = VigilRun.unfinished(file).orElseThrow();
    board.nowMicros += 60_000_000;
    board.restart(9);
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.resume(job, left, VigilRun.order(file, left), withRecorded())) {
      board.script.add(() -> board.run(NUMBER, 5_000, 100, 0, 0));
      run(run);
    }
    assertThat(board.kept).hasSize(2);
    try (VigilReader reader = VigilReader.open(file, 1)) {
      assertThat(reader.events()).extracting(VigilEvent::port).containsExactly(3);
      List<Gap> gaps = reader.gaps(reader.streams().get(0), 0, HOUR);
      assertThat(gaps).hasSize(1);
      assertThat(gaps.get(0).reason()).contains("away");
      assertThat(gaps.get(0).fromMicros()).isEqualTo(11_000_000);
    }
  }

  /** The first time it is given, the new boot hands over ten seconds of the old one. */
  private VigilRun.Means withRecorded() {
    board.script.add(
        () -> {
          Message.EventSamples old =
              new Message.EventSamples(
                  NUMBER,
                  1_000_000,
                  new long[] {0, 1_000_000, 5_000},
                  new int[] {1000, 5, 8995},
                  new int[] {0, 8, 0},
                  new int[] {0, 8, 0},
                  new int[] {0, 0, 0});
          assertThat(board.kept).as("not yet asked again").hasSize(1);
          board.recorded(5, 1, 11_000_000, old);
        });
    return means();
  }

  @Test
  void oneThatCouldNotBeginDoesNotHideTheOneThatWasLeft() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.run(NUMBER, 0, 1000, 0, 0));
      run(run);
    }
    VigilRow left = VigilRun.unfinished(file).orElseThrow();
    board.underWay = OptionalLong.of(1234);
    try (JobFile job = JobFile.open(file)) {
      assertThatThrownBy(() -> VigilRun.begin(job, order(Kind.CONTINUITY), means()))
          .isInstanceOf(InstrumentTrouble.class);
    }
    assertThat(VigilReader.vigils(file)).hasSize(2);
    assertThat(VigilRun.unfinished(file)).contains(left);
  }

  @Test
  void whatWasSeenBeforeCountsOn() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.run(NUMBER, 0, 1000, 0, 0));
      board.script.add(() -> board.run(NUMBER, 1_000_000, 7, 0b10, 0b10));
      board.script.add(() -> board.run(NUMBER, 1_007_000, 1000, 0, 0));
      run(run);
    }
    VigilRow left = VigilRun.unfinished(file).orElseThrow();
    board.underWay = OptionalLong.of(NUMBER);
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.resume(job, left, VigilRun.order(file, left), means())) {
      run.before(SeenBefore.in(file, left));
      assertThat(run.view().watchedMicros()).isEqualTo(2_006_000);
      assertThat(run.view().rows())
          .extracting(VigilView.Row::events)
          .containsExactly(0L, 1L, 0L, 0L);
      assertThat(run.view().rows().get(1).longestMicros()).isEqualTo(6000);
    }
  }

  @Test
  void aBoardThatKeepsAnotherVigilIsLeftAlone() throws Exception {
    board.underWay = OptionalLong.of(1234);
    try (JobFile job = JobFile.open(file)) {
      assertThatThrownBy(() -> VigilRun.begin(job, order(Kind.CALLS), means()))
          .isInstanceOf(InstrumentTrouble.class)
          .hasMessageContaining("1234");
    }
    assertThat(board.kept).isEmpty();
    assertThat(board.stopped).isFalse();
    assertThat(VigilRun.unfinished(file)).isEmpty();
  }

  /** Its first message tells of the interlock, when it was switched on; it is kept until now. */
  @Test
  void aBoardThatWasOnForHoursBeforeDoesNotShiftTheTime() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(
          () ->
              board.say(
                  500_000, new Message.InterlockChanged(new Message.Interlock(true, true, 0))));
      board.script.add(() -> board.run(NUMBER, 3 * HOUR, 100, 0, 0));
      run(run);
      assertThat(run.view().watchedMicros()).isEqualTo(99_000);
    }
    assertThat(span()).containsExactly(600_000, 699_000);
  }

  /** First and last reading. */
  private long[] span() throws Exception {
    long[] span = {Long.MAX_VALUE, Long.MIN_VALUE};
    try (VigilReader reader = VigilReader.open(file, 1)) {
      reader.samples(
          reader.streams().get(0),
          Long.MIN_VALUE / 2,
          8 * HOUR,
          (first, count, value, latches) -> {
            span[0] = Math.min(span[0], first);
            span[1] = first + (count - 1) * 1000L;
          });
    }
    return span;
  }

  /** What the board recorded alone would be passed over once newer readings have come. */
  @Test
  void whatARestartedAgentRecordedIsTakenBeforeItIsAskedAgain() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), withRestart())) {
      run(run);
      board.script.add(() -> board.run(NUMBER, 1000, 100, 0, 0));
      run(run);
    }
    assertThat(board.kept).hasSize(2);
    try (VigilReader reader = VigilReader.open(file, 1)) {
      assertThat(reader.events()).extracting(VigilEvent::port).containsExactly(3);
    }
  }

  private VigilRun.Means withRestart() {
    board.script.add(() -> board.run(NUMBER, 0, 1000, 0, 0));
    board.script.add(() -> board.restart(9));
    withRecorded();
    return means();
  }

  @Test
  void aRequestThatMayHaveBeenTakenIsTakenBack() throws Exception {
    board.asked =
        () -> {
          throw new InstrumentTrouble("the agent does not answer");
        };
    try (JobFile job = JobFile.open(file)) {
      assertThatThrownBy(() -> VigilRun.begin(job, order(Kind.CONTINUITY), means()))
          .isInstanceOf(InstrumentTrouble.class)
          .hasMessage("the agent does not answer");
    }
    assertThat(board.stopped).isTrue();
  }

  /** The agent's loop comes a quarter of a tick after a late step, and goes on from there. */
  @Test
  void aStepSoonAfterALateOneIsTakenDown() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CALLS), means())) {
      int[] delta = {0, 1000, 1900, 250, 1000, 1000};
      int[] word = {0, 1, 1, 0, 0, 1};
      board.script.add(
          () ->
              board.say(
                  10_000,
                  new Message.CallSamples(NUMBER, 4_000, delta, new int[6], new int[6], word)));
      run(run);
    }
    int[] ticks = {0};
    try (VigilReader reader = VigilReader.open(file, 1)) {
      reader.samples(
          reader.streams().get(0), 0, HOUR, (first, count, value, latches) -> ticks[0] += count);
    }
    assertThat(ticks[0]).isEqualTo(6);
  }

  @Test
  void aBoardThatStillHasAnothersRecordIsToldOfAndKeepsIt() throws Exception {
    board.leftover = () -> board.run(NUMBER + 1, 0, 1000, 0, 0);
    try (JobFile job = JobFile.open(file)) {
      assertThatThrownBy(() -> VigilRun.begin(job, order(Kind.CONTINUITY), means()))
          .isInstanceOf(InstrumentTrouble.class)
          .hasMessageContaining(Long.toString(NUMBER + 1))
          .hasMessageContaining("--resume")
          .hasMessageContaining("--forget");
    }
    assertThat(board.kept).isEmpty();
    assertThat(board.stored).isEmpty();
  }

  /**
   * What the board told of itself behind it was taken, and all before it let go: soak seed 2004.
   */
  @Test
  void whatComesBehindAnothersRecordLetsNothingOfItGo() throws Exception {
    board.leftover =
        () -> {
          assertThatThrownBy(() -> board.run(NUMBER + 1, 0, 1000, 0, 0))
              .isInstanceOf(InstrumentTrouble.class);
          Message.Interlock open = new Message.Interlock(false, false, 0);
          board.say(1_000_000, new Message.InterlockChanged(open));
        };
    try (JobFile job = JobFile.open(file)) {
      for (int attempt = 1; attempt <= 2; attempt++) {
        assertThatThrownBy(() -> VigilRun.begin(job, order(Kind.CONTINUITY), means()))
            .isInstanceOf(InstrumentTrouble.class)
            .hasMessageContaining(Long.toString(NUMBER + 1));
        assertThat(job.sources()).isEmpty();
      }
    }
    assertThat(board.stored).isEmpty();
  }

  @Test
  void aBoardThatDoesNotConfirmIsToldOfAndToldAgain() throws Exception {
    board.confirms = false;
    try (JobFile job = JobFile.open(file)) {
      try (VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
        board.script.add(() -> board.run(NUMBER, 0, 1000, 0, 0));
        board.script.add(() -> board.end(NUMBER, 1_000_000, Outcome.DONE, ""));
        run(run);
      }
      assertThat(notes).containsExactly(VigilRun.NOT_CONFIRMED);
      board.stored.clear();
      board.confirms = true;
      board.leftover =
          () ->
              board.say(
                  2_000_000, new Message.InterlockChanged(new Message.Interlock(false, false, 0)));
      assertThat(VigilRun.handOver(job, means())).isTrue();
      assertThat(board.known).extracting(Source::nextSequence).containsExactly(2L);
      assertThat(board.stored).extracting(Source::nextSequence).containsExactly(3L);
    }
  }

  /** Of a vigil that the file has not: that is another's. */
  @Test
  void whatAFileHasNotIsNotHandedOver() throws Exception {
    board.confirms = false;
    board.leftover = () -> board.run(NUMBER, 0, 1000, 0, 0);
    try (JobFile job = JobFile.open(file)) {
      assertThat(VigilRun.handOver(job, means())).isFalse();
      board.leftover = () -> {};
      board.underWay = OptionalLong.of(NUMBER);
      assertThat(VigilRun.handOver(job, means())).isFalse();
    }
    assertThat(board.stored).isEmpty();
  }

  @Test
  void whatTheJobHasAlreadyIsNotTakenForAnothersRecord() throws Exception {
    try (JobFile job = JobFile.open(file)) {
      try (VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
        board.script.add(() -> board.run(NUMBER, 0, 1000, 0, 0));
        board.script.add(() -> board.end(NUMBER, 1_000_000, Outcome.DONE, ""));
        run(run);
      }
      assertThat(board.stored.get(board.stored.size() - 1).nextSequence()).isEqualTo(2);
      try (VigilRun again = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
        assertThat(board.known).extracting(Source::nextSequence).containsExactly(2L);
        assertThat(again.vigil()).isEqualTo(2);
      }
    }
  }

  /** The file of version 1 has a vigil that goes on, and no word of what it watches. */
  @Test
  void aVigilOfAnEarlierVersionIsNotGoneOnWithAndSaysWhy() throws Exception {
    try (InputStream old = JobFile.class.getResourceAsStream("version-1.bellwire")) {
      Files.copy(Objects.requireNonNull(old), file);
    }
    JobFile.open(file).close();
    VigilRow left = VigilReader.vigils(file).get(0);
    assertThatThrownBy(() -> VigilRun.order(file, left))
        .isInstanceOf(BadVigil.class)
        .hasMessageContaining("earlier Bellwire");
  }

  @Test
  void theInterlocksEndIsTold() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CONTINUITY), means())) {
      board.script.add(() -> board.run(NUMBER, 0, 1000, 0b100, 0));
      board.script.add(() -> board.end(NUMBER, 1_000_000, Outcome.INTERLOCK, "P3 outside"));
      run(run);
      assertThat(run.ending()).contains("interlock").contains("P3 outside");
      assertThat(run.letGo()).isTrue();
    }
    try (VigilReader reader = VigilReader.open(file, 1)) {
      assertThat(reader.events()).hasSize(1);
      assertThat(reader.events().get(0).cutAfter()).isTrue();
    }
  }

  @Test
  void callsNeedNoArming() throws Exception {
    try (JobFile job = JobFile.open(file);
        VigilRun run = VigilRun.begin(job, order(Kind.CALLS), means())) {
      assertThat(run.order().deEnergised()).isFalse();
    }
    assertThat(board.armed).isZero();
  }
}
