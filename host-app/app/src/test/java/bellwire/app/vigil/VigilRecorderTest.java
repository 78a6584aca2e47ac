package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.Gap;
import bellwire.app.job.JobFile;
import bellwire.app.job.Source;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilStore;
import bellwire.app.survey.BoardModels;
import bellwire.board.BoardDescription;
import bellwire.link.Message;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** When a board that has restarted is seen again, by what comes from it. */
class VigilRecorderTest {
  private static final long SECOND = 1_000_000;

  @TempDir private Path directory;
  private long nowMicros;

  /** What came late made the gap before it as much too long: soak seed 505. */
  @Test
  void aLateMessageMakesNoGapLonger() throws Exception {
    assertThat(
            gapsEnd(
                recorder ->
                    recorder.data(
                        true,
                        2,
                        1,
                        2 * SECOND,
                        new Message.InterlockChanged(new Message.Interlock(false, false, 0)))))
        .isEqualTo(13 * SECOND);
  }

  /** A host that was away hears the board's clock as it is greeted, whatever comes before. */
  @Test
  void theGreetingTellsTheClock() throws Exception {
    assertThat(gapsEnd(recorder -> recorder.welcomed(2, 2 * SECOND))).isEqualTo(13 * SECOND);
  }

  /** What happens as the board is heard again. */
  private interface Heard {
    void by(VigilRecorder recorder) throws Exception;
  }

  /** Restarted at 10 s; heard at 12 s, and of the readings that began at 13 s only at 20 s. */
  private long gapsEnd(Heard heard) throws Exception {
    Path file = directory.resolve("late.bellwire");
    VigilOrder order = SimulatedVigil.order(7, 600 * SECOND);
    try (JobFile job = JobFile.open(file);
        VigilStore store = job.startVigil(order.watched("A"), 0, 0, () -> nowMicros * 1000)) {
      Elapsed elapsed = new Elapsed(() -> nowMicros);
      elapsed.from(0);
      VigilRecorder recorder =
          new VigilRecorder(store, order, BoardModels.of(BoardDescription.revisionA()), elapsed);
      nowMicros = SECOND;
      recorder.data(true, 1, 1, SECOND, second(order, 0));
      nowMicros = 12 * SECOND;
      heard.by(recorder);
      nowMicros = 20 * SECOND;
      recorder.data(true, 2, 2, 4 * SECOND, second(order, 3 * SECOND));
      store.commit();
    }
    try (VigilReader reader = VigilReader.open(file, 1)) {
      List<Gap> gaps = reader.gaps(reader.streams().get(0), 0, 600 * SECOND);
      assertThat(gaps).hasSize(1);
      return gaps.get(0).toMicros();
    }
  }

  /** A full disk took the ending, and then no more: the board kept the message: soak seed 10003. */
  @Test
  void theEndingIsStoredTogetherWithHowFarTheMessagesAre() throws Exception {
    VigilOrder order = SimulatedVigil.order(7, 600 * SECOND);
    try (JobFile job = JobFile.open(directory.resolve("ended.bellwire"));
        VigilStore store = job.startVigil(order.watched("A"), 0, 0, () -> nowMicros * 1000)) {
      Elapsed elapsed = new Elapsed(() -> nowMicros);
      elapsed.from(0);
      VigilRecorder recorder =
          new VigilRecorder(store, order, BoardModels.of(BoardDescription.revisionA()), elapsed);
      nowMicros = 2 * SECOND;
      recorder.data(true, 9, 4, SECOND, second(order, 0));
      recorder.data(
          true,
          9,
          5,
          2 * SECOND,
          new Message.Ended(order.number(), Message.Ended.Outcome.DONE, ""));
      assertThat(store.sources()).singleElement().extracting(Source::nextSequence).isEqualTo(6L);
    }
  }

  private static Message.EventSamples second(VigilOrder order, long fromMicros) {
    int[] none = {0};
    return new Message.EventSamples(
        order.number(), fromMicros, new long[1], new int[] {1000}, none, none, none);
  }
}
