package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.TrendPlan;
import bellwire.app.job.JobFile;
import bellwire.app.job.Mark;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilStore;
import bellwire.app.job.Watched;
import bellwire.app.survey.BoardModels;
import bellwire.board.BoardDescription;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

class VigilShowCommandTest {
  private static final long TICK = 1000;
  private static final long SECOND = 1_000_000;
  private static final long HOUR = 3600 * SECOND;
  private static final long STARTED = 1_795_000_000_000_000L;
  private static final int CABLE = 0b11111;

  @TempDir private Path directory = Path.of("");

  private Path file = Path.of("");
  private int status;
  private String printed = "";

  /** A word that begins at a tick. */
  private record Word(int word, int latched) {}

  @BeforeEach
  void names() {
    file = directory.resolve("house.job");
  }

  private static Watched asked(String program, int ports, long length) {
    return new Watched(
        7, program, ports, 0, false, 0, length, "A", "", 27.4, 2, 60, Map.of(2, "red"));
  }

  private static void begin(JobFile job, Watched asked, int codes, long length, Feed feed)
      throws IOException {
    try (VigilStore store = job.startVigil(asked, STARTED, 0, () -> 0)) {
      Stream stream =
          store.addWords(asked.program().equals("calls") ? "leads" : "ports", TICK, codes);
      feed.into(store, stream);
      store.ended(length, "its time was over");
    }
  }

  private interface Feed {
    void into(VigilStore store, Stream stream) throws IOException;
  }

  /** Fills the time between the words with quiet ticks. */
  private static void play(
      VigilStore store, Stream stream, long from, long to, TreeMap<Long, Word> words)
      throws IOException {
    long at = from;
    while (at < to) {
      Word word = words.get(at);
      if (word != null) {
        store.appendTicks(stream, at, 1, word.word, word.latched);
        at += TICK;
      } else {
        Long next = words.higherKey(at);
        long until = Math.min(to, next == null ? to : next);
        int ticks = (int) Math.min(60_000, (until - at) / TICK);
        store.appendTicks(stream, at, ticks, 0, 0);
        at += ticks * TICK;
      }
    }
  }

  private static void open(TreeMap<Long, Word> words, int mask, long at, int ticks) {
    long first = at / TICK * TICK;
    for (int i = 0; i < ticks; i++) {
      words.put(first + i * TICK, new Word(mask, mask));
    }
  }

  private String bellwire(String... args) {
    StringWriter out = new StringWriter();
    CommandLine line = BellwireMain.commandLine();
    line.setOut(new PrintWriter(out));
    line.setErr(new PrintWriter(out));
    status = line.execute(args);
    printed = out.toString();
    // Where a line ends is not what is tested.
    return printed.replaceAll("\\s+", " ");
  }

  /** P3 opens with a compressor's cycle; all at once three times; a gap; a mark. */
  private void continuity(long length, boolean faulty) throws IOException {
    Random random = new Random(101);
    try (JobFile job = JobFile.open(file)) {
      begin(
          job,
          asked("continuity", CABLE, length),
          1,
          length,
          (store, stream) -> {
            TreeMap<Long, Word> words = new TreeMap<>();
            if (faulty) {
              for (long at = 500 * SECOND; at < length - HOUR; at += 720 * SECOND) {
                open(
                    words,
                    0b100,
                    at + (long) (random.nextGaussian() * 15e6),
                    4 + random.nextInt(9));
              }
              words.put(7 * HOUR, new Word(0, 0b10));
              for (int i = 1; i < 4; i++) {
                open(words, CABLE & ~1, 2 * i * HOUR + 77 * SECOND, 30);
              }
            }
            play(store, stream, 0, length / 2, words);
            play(store, stream, length / 2 + 600 * SECOND, length, words);
            store.mark(new Mark(3 * HOUR / 2, "I shook the cable now"));
          });
    }
  }

  @Test
  void aContinuityVigilIsToldInPlainWords() throws IOException {
    continuity(24 * HOUR, true);
    Path json = directory.resolve("vigil.json");
    String said = bellwire("vigil", "show", file.toString(), "--json", json.toString());
    System.out.println(printed);
    assertThat(status).isEqualTo(1);
    assertThat(said)
        .contains("P3 red opened")
        .contains("every 12.0 min, as a compressor or a burner")
        .contains("P1, the one that all come back through, or the plug itself opened 3 times")
        .contains("P2 opened once, 1.0 a day (0.025 to 5.6 at 95 %), for less than 1.0 ms")
        .contains("10.0 min in 1 gap")
        .contains("P4 and P5 did not open: excludes, at 95 %, more often than");
    JsonNode root = new ObjectMapper().readTree(json.toFile());
    assertThat(root.path("bellwire-vigil").asInt()).isEqualTo(1);
    assertThat(
            root.path("conductors").get(0).path("rhythm").path("period").path("seconds").asDouble())
        .isBetween(715.0, 725.0);
    assertThat(root.path("not-watched")).hasSize(1);
  }

  @Test
  void nothingSaysWhatItExcludesAndAComparisonHowSureItIs() throws IOException {
    continuity(24 * HOUR, true);
    continuity(3 * HOUR, false);
    String said = bellwire("vigil", "show", file.toString());
    assertThat(status).isZero();
    assertThat(said)
        .contains("Nothing opened in 2 h 50 min")
        .contains("Rarer ones are not excluded");
    String compared = bellwire("vigil", "compare", file.toString(), "1", "2");
    System.out.println(printed);
    assertThat(status).isEqualTo(1);
    assertThat(compared)
        .contains("gone, as far as can be told; NOT SURE for P1")
        .contains("chance");
    assertThat(bellwire("vigil", "show", file.toString(), "--list")).contains("continuity");
  }

  @Test
  void callsAreLookedAtForDropOuts() throws IOException {
    try (JobFile job = JobFile.open(file)) {
      Watched asked =
          new Watched(
              7, "calls", 0b11, 0, true, 0, HOUR, "A", "", Double.NaN, 0, 60, Map.of(0, "W"));
      begin(
          job,
          asked,
          1,
          HOUR,
          (store, stream) -> {
            for (long at = 0; at < HOUR; at += 10 * SECOND) {
              boolean on = at >= 600 * SECOND && at < 3000 * SECOND;
              boolean gone = at == 1200 * SECOND;
              store.appendTicks(stream, at, gone ? 4000 : 10_000, on ? 1 : 0, 0);
              if (gone) {
                store.appendTicks(stream, at + 4 * SECOND, 1000, 0, 0);
                store.appendTicks(stream, at + 5 * SECOND, 5000, 1, 0);
              }
            }
          });
    }
    String said = bellwire("vigil", "show", file.toString());
    System.out.println(printed);
    assertThat(status).isEqualTo(1);
    assertThat(said).contains("X1 W dropped its call once").contains("####").contains("____");
  }

  @Test
  void touchesNameThePair() throws IOException {
    try (JobFile job = JobFile.open(file)) {
      begin(
          job,
          asked("touch", 0b111, HOUR),
          2,
          HOUR,
          (store, stream) -> {
            // Numbers 1 and 2: in code 0 the first is low, in code 1 the second.
            for (long at = 0; at < HOUR; at += 20 * SECOND) {
              store.appendTicks(stream, at, 10_000, 0, 0, 0);
              for (int i = 0; i < 8; i++) {
                int low = i % 2 == 0 ? 1 : 2;
                store.appendTicks(stream, at + 10 * SECOND + i * TICK, 1, low, low, i % 2);
              }
              store.appendTicks(stream, at + 10 * SECOND + 8 * TICK, 9992, 0, 0, 0);
            }
          });
    }
    String said = bellwire("vigil", "show", file.toString());
    System.out.println(printed);
    assertThat(status).isEqualTo(1);
    assertThat(said).contains("P1 and P2 touched 180 times").contains("they come evenly");
  }

  /** P2's joint rises by 3 mohm after 2 h; all warm by 5 K. */
  @Test
  void aTrendTellsAJointFromWarmth() throws IOException {
    Random random = new Random(102);
    BoardModel board = BoardModels.of(BoardDescription.revisionA());
    TrendPlan plan = new TrendPlan(board, CABLE, 10);
    long round = 5 * SECOND;
    Watched asked =
        new Watched(
            7, "trend", CABLE, 0, false, 0, 4 * HOUR, "A", "", Double.NaN, 10, 60, Map.of());
    try (JobFile job = JobFile.open(file);
        VigilStore store = job.startVigil(asked, STARTED, 0, () -> 0)) {
      List<Stream> streams = new ArrayList<>();
      for (int step = 0; step < plan.probes().size(); step++) {
        streams.add(store.addCodes("step-" + step, round));
      }
      for (long at = 0; at < 4 * HOUR; at += round) {
        for (int step = 0; step < streams.size(); step++) {
          int port = plan.port(step / TrendPlan.READINGS_EACH);
          double ohms = (0.6 + 0.05 * port) * (1 + 0.00393 * 5 * at / (4.0 * HOUR));
          ohms += port == 1 && at > 2 * HOUR ? 0.003 : 0;
          ohms += 0.0003 * random.nextGaussian();
          int quarter = step % TrendPlan.READINGS_EACH;
          double seen = quarter == 0 || quarter == 3 ? ohms : board.lowReferenceOhms();
          double volts = 0.003 * seen * (quarter < 2 ? 1 : -1);
          double scale = plan.probes().get(step).gain() * (1 << 23) / board.converterVolts();
          store.appendCode(streams.get(step), at + step * 60_000L, (int) Math.round(volts * scale));
        }
      }
      store.ended(4 * HOUR, "its time was over");
    }
    String said = bellwire("vigil", "show", file.toString());
    System.out.println(printed);
    assertThat(status).isEqualTo(1);
    assertThat(said)
        .contains("! P2, 0.65")
        .containsPattern("rose by (2.9|3.0)[0-9]* ± ")
        .contains("P1, P3, P4 and P5 kept their level: that excludes, at 95 %")
        .contains("warmer by 3.7");
  }

  @Test
  void oneThatWasLeftAndWentOnBeyondItsLengthIsToldToItsEnd() throws IOException {
    try (JobFile job = JobFile.open(file);
        VigilStore store = job.startVigil(asked("continuity", CABLE, HOUR), STARTED, 0, () -> 0)) {
      Stream stream = store.addWords("ports", TICK);
      store.appendTicks(stream, 0, 600_000, 0, 0);
      store.appendTicks(stream, 5 * HOUR, 600_000, 0, 0);
    }
    String said = bellwire("vigil", "show", file.toString());
    assertThat(status).isZero();
    assertThat(said)
        .contains("20.0 min watched")
        .contains("4 h 50 min in 1 gap")
        .contains("not ended");
  }

  @Test
  void whatCannotBeIsRefusedInWords() throws IOException {
    continuity(HOUR, false);
    try (JobFile job = JobFile.open(file)) {
      begin(
          job,
          asked("touch", CABLE, HOUR),
          3,
          HOUR,
          (store, stream) -> store.appendTicks(stream, 0, 3_000_000, 0, 0, 0));
    }
    assertThat(bellwire("vigil", "compare", file.toString(), "1", "2"))
        .contains("can't be compared: one watched for other things");
    assertThat(status).isEqualTo(2);
    assertThat(bellwire("vigil", "show", file.toString(), "--vigil", "9")).contains("no vigil 9");
    assertThat(status).isEqualTo(2);
    assertThat(bellwire("vigil", "show", directory.resolve("none").toString()))
        .contains("no such file");
    assertThat(status).isEqualTo(2);
    assertThat(bellwire("vigil", "show", file.toString(), "--from", "later"))
        .contains("hours and minutes");
    assertThat(status).isEqualTo(2);
  }
}
