package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.app.job.JobFileException.Trouble;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What a visit keeps, and what it refuses. */
class JobRecordsTest {
  private static final long WHEN_MICROS = 1_795_000_000_000_000L;

  /** Right to left, Han, beyond the basic plane, quotes of SQL. */
  private static final String ANY_TEXT = "שלום 客厅 \uD83D\uDD27 O'Neil; DROP TABLE \"fact\" --\n2";

  @TempDir Path directory;
  private Path file;

  @BeforeEach
  void name() {
    file = directory.resolve("job.bellwire");
  }

  /** A row of each kind; returns the cable's key. */
  static long fill(JobRecords records) throws JobFileException {
    for (Fact fact : Fact.values()) {
      records.fact(fact, fact + " " + ANY_TEXT);
    }
    records.add(new Act(0, Act.Kind.PROVED_DEAD, "R to C", "0.0 V", "Ada", WHEN_MICROS, false));
    long cable =
        records.put(new CableRow(0, "18-5", "18 AWG", Double.NaN, 20, "furnace", "hall", ANY_TEXT));
    records.put(new ConductorRow(cable, 15, "blue", "black", ""));
    records.put(new ConductorRow(cable, 0, "red", "", "spliced"));
    records.add(
        new SurveyRow(0, cable, true, Stage.AS_LEFT, WHEN_MICROS, "{}", new byte[] {0, -1, 7}));
    records.put(new LandingRow(0, cable, WHEN_MICROS, "landing: 1"));
    records.put(new LandingRow(0, 0, WHEN_MICROS, "landing: 2"));
    records.add(
        new RehearsalRow(
            0, WHEN_MICROS, true, "rehearsal: 1", List.of("fan", "stages=2"), "{}", new byte[3]));
    records.put(
        new Tick("fuse", Tick.State.NOT_NEEDED, Tick.Basis.ASSUMED, "Ada", WHEN_MICROS, ""));
    records.add(new Photo(0, Stage.AS_FOUND, ANY_TEXT, WHEN_MICROS, "", 0), jpeg(1000));
    return cable;
  }

  /** No picture, but it begins like one. */
  static byte[] jpeg(int length) {
    byte[] bytes = new byte[length];
    bytes[0] = (byte) 0xFF;
    bytes[1] = (byte) 0xD8;
    bytes[2] = (byte) 0xFF;
    bytes[length - 1] = 42;
    return bytes;
  }

  /** Each change has been committed when it returned: another connection sees all of them. */
  @Test
  void everyRecordIsReadBackAsItWasPut() throws Exception {
    try (JobFile job = JobFile.open(file)) {
      long cable = fill(job.records());
      try (JobReader reader = JobReader.open(file)) {
        JobRecords r = reader.records();
        assertThat(Fact.values()).allMatch(f -> told(r, f).equals(f + " " + ANY_TEXT));
        assertThat(r.acts())
            .containsExactly(
                new Act(1, Act.Kind.PROVED_DEAD, "R to C", "0.0 V", "Ada", WHEN_MICROS, false));
        assertThat(r.cables())
            .containsExactly(
                new CableRow(cable, "18-5", "18 AWG", Double.NaN, 20, "furnace", "hall", ANY_TEXT));
        assertThat(r.conductors(cable))
            .containsExactly(
                new ConductorRow(cable, 0, "red", "", "spliced"),
                new ConductorRow(cable, 15, "blue", "black", ""));
        assertThat(r.surveys())
            .usingRecursiveComparison()
            .isEqualTo(
                List.of(
                    new SurveyRow(
                        1, cable, true, Stage.AS_LEFT, WHEN_MICROS, "{}", new byte[] {0, -1, 7})));
        assertThat(r.landings())
            .containsExactly(
                new LandingRow(1, cable, WHEN_MICROS, "landing: 1"),
                new LandingRow(2, 0, WHEN_MICROS, "landing: 2"));
        assertThat(r.rehearsals())
            .usingRecursiveComparison()
            .isEqualTo(
                List.of(
                    new RehearsalRow(
                        1,
                        WHEN_MICROS,
                        true,
                        "rehearsal: 1",
                        List.of("fan", "stages=2"),
                        "{}",
                        new byte[3])));
        assertThat(r.ticks())
            .containsExactly(
                new Tick(
                    "fuse", Tick.State.NOT_NEEDED, Tick.Basis.ASSUMED, "Ada", WHEN_MICROS, ""));
        assertThat(r.photos())
            .containsExactly(
                new Photo(1, Stage.AS_FOUND, ANY_TEXT, WHEN_MICROS, "image/jpeg", 1000));
        assertThat(r.photoBytes(1)).isEqualTo(jpeg(1000));
      }
    }
  }

  private static String told(JobRecords records, Fact fact) {
    try {
      return records.fact(fact);
    } catch (JobFileException e) {
      throw new AssertionError(e);
    }
  }

  @Test
  void whatIsPutAgainIsReplacedAndAnActIsOnlyWithdrawn() throws Exception {
    try (JobFile job = JobFile.open(file)) {
      JobRecords r = job.records();
      assertThat(r.fact(Fact.CUSTOMER)).isEmpty();
      assertThat(r.left("page")).isEmpty();
      long cable = fill(r);
      r.fact(Fact.CUSTOMER, "Grace");
      assertThat(r.fact(Fact.CUSTOMER)).isEqualTo("Grace");
      CableRow longer = new CableRow(cable, "18-8", "", 12.5, Double.NaN, "", "", "");
      assertThat(r.put(longer)).isEqualTo(cable);
      assertThat(r.cables()).containsExactly(longer);
      r.put(new ConductorRow(cable, 15, "white", "", ""));
      r.removeConductor(cable, 0);
      assertThat(r.conductors(cable)).containsExactly(new ConductorRow(cable, 15, "white", "", ""));
      LandingRow moved = new LandingRow(1, 0, WHEN_MICROS + 1, "landing: 3");
      assertThat(r.put(moved)).isEqualTo(1);
      assertThat(r.landings().get(0)).isEqualTo(moved);
      Tick again = new Tick("fuse", Tick.State.DONE, Tick.Basis.WITNESSED, "Bo", 5, "5 A");
      r.put(again);
      assertThat(r.ticks()).containsExactly(again);
      r.change(1, Stage.AS_LEFT, "the wall");
      assertThat(r.photos().get(0).caption()).isEqualTo("the wall");
      r.removePhoto(1);
      assertThat(r.photos()).isEmpty();
      r.withdrawAct(1);
      assertThat(r.acts()).hasSize(1).allMatch(Act::withdrawn);
      r.left("page", "3");
      r.left("page", "7");
      assertThat(r.left("page")).isEqualTo("7");
    }
  }

  @Test
  void whatIsNotThereIsACallersMistake() throws Exception {
    try (JobFile job = JobFile.open(file)) {
      JobRecords r = job.records();
      List<ThrowingCallable> mistakes =
          List.of(
              () -> r.withdrawAct(9),
              () -> r.removePhoto(9),
              () -> r.photoBytes(9),
              () -> r.change(9, Stage.AS_LEFT, ""),
              () -> r.put(new CableRow(9, "", "", 0, 0, "", "", "")),
              () -> r.put(new ConductorRow(9, 0, "", "", "")),
              () -> r.put(new LandingRow(9, 0, 0, "")),
              () -> r.put(new LandingRow(0, 9, 0, "")),
              () -> r.add(new SurveyRow(0, 9, false, Stage.AS_FOUND, 0, "", new byte[0])));
      for (ThrowingCallable mistake : mistakes) {
        assertThatThrownBy(mistake)
            .isInstanceOf(IllegalArgumentException.class)
            .hasMessageContaining("id=9");
      }
      try (JobReader reader = JobReader.open(file)) {
        assertThatThrownBy(() -> reader.records().fact(Fact.NOTES, "x"))
            .isInstanceOf(IllegalStateException.class);
      }
    }
  }

  private static void assertRefused(ThrowingCallable call, String words) {
    assertThatThrownBy(call)
        .hasMessageContaining(words)
        .asInstanceOf(InstanceOfAssertFactories.type(JobFileException.class))
        .extracting(JobFileException::trouble)
        .isEqualTo(Trouble.REFUSED);
  }

  /** The bounds as docs/job-file.md has them. */
  @Test
  void whatIsTooLargeIsRefusedWithTheRemedy() throws Exception {
    Photo photo = new Photo(0, Stage.AS_FOUND, "", 0, "", 0);
    try (JobFile job = JobFile.open(file)) {
      JobRecords r = job.records();
      r.fact(Fact.NOTES, "x".repeat(10_000));
      assertRefused(() -> r.fact(Fact.NOTES, "x".repeat(10_001)), "shorten it");
      assertThat(r.fact(Fact.NOTES)).hasSize(10_000);
      String line = "x".repeat(1001);
      assertRefused(
          () -> r.add(new Act(0, Act.Kind.SWITCHED_OFF, line, "", "", 0, false)), "shorten it");
      r.add(photo, jpeg(20_000_000));
      assertRefused(() -> r.add(photo, jpeg(20_100_000)), "20.1 MB, and 20 MB are the most; save");
      assertRefused(
          () -> r.add(photo, "%PDF-1.7".getBytes(StandardCharsets.US_ASCII)), "JPEG nor PNG");
      byte[] png = {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10, 0};
      r.add(photo, png);
      assertThat(r.photos().get(1).mime()).isEqualTo("image/png");
      assertRefused(() -> r.add(photo, Arrays.copyOf(png, 7)), "JPEG nor PNG");
      for (int i = 2; i < 200; i++) {
        r.add(photo, png);
      }
      assertRefused(() -> r.add(photo, png), "remove one first");
      assertThat(r.photos()).hasSize(200);
    }
  }

  @Test
  void aConnectionBesideHoldsTheLockUntilBothAreClosed() throws Exception {
    JobFile first = JobFile.open(file);
    JobFile second = first.beside();
    second.records().fact(Fact.PLACE, "attic");
    assertThat(first.records().fact(Fact.PLACE)).isEqualTo("attic");
    first.close();
    first.close();
    assertThatThrownBy(() -> JobFile.open(file)).hasMessageContaining("close that one");
    assertThat(JobFile.isBeingWritten(file)).isTrue();
    second.close();
    assertThatThrownBy(second::beside).isInstanceOf(IllegalStateException.class);
    JobFile.open(file).close();
  }
}
