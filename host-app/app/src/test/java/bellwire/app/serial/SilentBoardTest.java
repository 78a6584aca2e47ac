package bellwire.app.serial;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.Ending;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.visit.Boards;
import bellwire.app.visit.VigilRunning;
import bellwire.app.visit.Visit;
import bellwire.link.Message.KeepVigil.Kind;
import java.nio.file.Path;
import java.util.Map;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A serial line at whose other end nobody answers. */
class SilentBoardTest {
  private static final long WAIT_SECONDS = 30;

  @TempDir Path directory;

  /**
   * It would seem to be left to the board for ever, and the desk would propose to go on with it.
   */
  @Test
  void aVigilThatIsEndedBeforeTheBoardAnswersIsOver() throws Exception {
    SerialRig.require();
    Path file = directory.resolve("job.bellwire");
    VigilOrder order =
        new VigilOrder(
            VigilOrder.LEAST_NUMBER + 9,
            Kind.CONTINUITY,
            0b1111,
            Map.of(),
            0,
            false,
            0,
            7_200_000_000L,
            Double.NaN,
            0,
            60,
            "");
    try (SerialRig rig = new SerialRig(directory);
        Visit visit = Visit.open(file, new Boards.Demo(true))) {
      CountDownLatch seen = new CountDownLatch(3);
      VigilRunning begun = visit.vigil(order, view -> seen.countDown(), note -> {});
      assertThat(seen.await(WAIT_SECONDS, TimeUnit.SECONDS)).isTrue();
      begun.leave();
      assertThat(begun.done().get(WAIT_SECONDS, TimeUnit.SECONDS).left()).isTrue();
      VigilRow left = VigilReader.vigils(file).get(0);
      assertThat(left.ending()).isEmpty();

      visit.boards(new Boards.Serial(rig.hostDevice(), Boards.BAUD));
      VigilRunning resumed = visit.resume(left, order, view -> {}, note -> {});
      resumed.end();
      VigilRunning.End end = resumed.done().get(WAIT_SECONDS, TimeUnit.SECONDS);
      assertThat(end.words()).contains("without the board's answer");
      assertThat(end.left()).isFalse();
      assertThat(end.letGo()).as("nobody said that the board has let go").isFalse();
      Ending ending = VigilReader.vigils(file).get(0).ending().orElseThrow();
      assertThat(ending.outcome()).isEqualTo(end.words());
      try (VigilReader reader = VigilReader.open(file, left.id())) {
        long last = reader.lastMicros(reader.streams().get(0)).orElseThrow();
        assertThat(ending.micros()).isGreaterThanOrEqualTo(last);
      }
    }
  }
}
