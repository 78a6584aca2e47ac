package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.app.job.Gap;
import bellwire.app.job.JobFile;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilStore;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.board.BoardDescription;
import bellwire.link.Message;
import bellwire.link.Message.KeepVigil.Kind;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A device that keeps to the protocol, and tells what no board can have seen. */
class HostileBoardTest {
  private static final long NUMBER = VigilOrder.LEAST_NUMBER + 5;
  private static final long BOOT = 77;

  @TempDir Path directory;

  private static Message.Data samples(long firstMicros, long delta, int code) {
    int[] two = {0, 0};
    return new Message.EventSamples(
        NUMBER,
        firstMicros,
        new long[] {0, delta},
        new int[] {10, 10},
        two,
        two,
        new int[] {code, code});
  }

  private interface Told {
    void by(VigilRecorder recorder) throws Exception;
  }

  private void told(Told told) throws Exception {
    VigilOrder order =
        new VigilOrder(
            NUMBER,
            Kind.CONTINUITY,
            15,
            Map.of(),
            0,
            false,
            0,
            3_600_000_000L,
            Double.NaN,
            0,
            60,
            "");
    try (JobFile job = JobFile.open(directory.resolve("a.bellwire"));
        VigilStore store = job.startVigil(order.watched("A"), 0, 0, () -> 0)) {
      Elapsed elapsed = new Elapsed(() -> 0);
      elapsed.from(1_000_000);
      told.by(
          new VigilRecorder(store, order, BoardModels.of(BoardDescription.revisionA()), elapsed));
      store.commit();
    }
  }

  @Test
  void readingsThatCannotBeAreLostAndToldAsAGap() throws Exception {
    told(
        recorder -> {
          recorder.data(true, BOOT, 0, 1_000_000, samples(1_000_000, 10_000, 0));
          // Of a pattern that no continuity vigil has; closer than a tick; backwards.
          recorder.data(true, BOOT, 1, 2_000_000, samples(2_000_000, 10_000, 200));
          recorder.data(true, BOOT, 2, 3_000_000, samples(3_000_000, 9_001, 0));
          recorder.data(true, BOOT, 3, 1_000_000, samples(900_000, 10_000, 0));
          recorder.data(true, BOOT, 4, 4_000_000, samples(4_000_000, 10_000, 0));
          assertThat(recorder.view(true, 0).lost()).isEqualTo(2);
        });
    try (VigilReader vigil = VigilReader.open(directory.resolve("a.bellwire"), 1)) {
      Stream ports = vigil.streams().get(0);
      List<Gap> gaps = vigil.gaps(ports, 0, Long.MAX_VALUE);
      assertThat(gaps).extracting(Gap::reason).anyMatch(r -> r.contains("told what cannot be"));
      long[] ticks = new long[1];
      vigil.samples(ports, 0, Long.MAX_VALUE, (first, count, word, latches) -> ticks[0] += count);
      assertThat(ticks[0]).isEqualTo(20 + 10 + 20);
    }
  }

  @Test
  void aDeviceThatIsAnotherEachTimeIsGivenUp() throws Exception {
    told(
        recorder ->
            assertThatThrownBy(
                    () -> {
                      for (long boot = 1; boot < 20_000; boot++) {
                        recorder.arrived(boot, 1);
                      }
                    })
                .isInstanceOf(InstrumentTrouble.class)
                .hasMessageContaining("more than 10000 times"));
  }
}
