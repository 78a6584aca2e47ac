package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Files as earlier versions wrote them: version-1.bellwire and version-2.bellwire came from the
 * programs of their time. Of version 2: a vigil that ended, and one that a kill left.
 */
class JobMigrationTest {
  private static final long UNIX_MICROS = 1_795_000_000_000_000L;

  @TempDir Path directory;

  private Path old(int version) throws Exception {
    Path file = directory.resolve("job.bellwire");
    try (InputStream in = getClass().getResourceAsStream("version-" + version + ".bellwire")) {
      Files.write(file, Objects.requireNonNull(in).readAllBytes());
    }
    return file;
  }

  /** By reading already: a reader takes the writer's lock for it, once. */
  @ParameterizedTest
  @ValueSource(ints = {1, 2})
  void anOlderFileTakesAVisitsRecords(int version) throws Exception {
    Path file = old(version);
    try (JobReader reader = JobReader.open(file)) {
      assertThat(reader.vigils()).hasSize(version);
      assertThat(reader.records().cables()).isEmpty();
      assertThat(reader.records().fact(Fact.CUSTOMER)).isEmpty();
    }
    try (JobFile job = JobFile.open(file)) {
      long cable = JobRecordsTest.fill(job.records());
      assertThat(job.records().conductors(cable)).hasSize(2);
    }
    assertThat(VigilReader.vigils(file)).hasSize(version);
  }

  @Test
  void aFileOfVersion2LosesNothing() throws Exception {
    Path file = old(2);
    try (JobReader reader = JobReader.open(file)) {
      assertThat(reader.vigils())
          .containsExactly(
              new VigilRow(
                  1,
                  "continuity",
                  UNIX_MICROS,
                  7_000_000,
                  Optional.of(new Ending(8_000_000, "ended by a person"))),
              new VigilRow(2, "trend", UNIX_MICROS + 100_000_000, 9_000_000, Optional.empty()));
    }
    try (VigilReader reader = VigilReader.open(file, 1)) {
      assertThat(reader.watched()).contains(Asked.vigil("continuity"));
      List<String> runs = new ArrayList<>();
      reader.samples(
          reader.streams().get(0),
          0,
          Long.MAX_VALUE,
          (f, c, v, l) -> runs.add(f + "+" + c + ":" + v + "/" + l));
      assertThat(runs)
          .containsExactly("7000000+500:65535/0", "7500000+3:65531/4", "7503000+497:65535/0");
      assertThat(reader.marks()).containsExactly(new Mark(7_600_000, "shook the cable"));
      assertThat(reader.events())
          .containsExactly(
              new VigilEvent(
                  2, 0, 7_499_000, 7_500_000, 7_502_000, 7_503_000, 1, false, false, false));
    }
    try (JobFile job = JobFile.open(file)) {
      assertThat(job.sources()).extracting(Source::nextSequence).contains(30L);
      VigilStore store = job.resumeVigil(2, () -> 0);
      store.appendCode(store.streams().get(0), 10_000_000, 5);
      store.close();
    }
    try (VigilReader reader = VigilReader.open(file, 2)) {
      List<Integer> codes = new ArrayList<>();
      reader.samples(reader.streams().get(0), 0, Long.MAX_VALUE, (f, c, v, l) -> codes.add(v));
      assertThat(codes).hasSize(21).startsWith(400_000, 400_001, 400_004).endsWith(5);
    }
  }
}
