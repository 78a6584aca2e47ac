package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.app.job.JobFileException.Trouble;
import bellwire.app.job.Overview.Column;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.zip.CRC32C;
import org.assertj.core.api.InstanceOfAssertFactories;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Files that are in use, foreign, newer, damaged, or on a full disk. */
class JobFileTest {
  private static final long TICK_MICROS = 1000;
  private static final long SPAN_MICROS = 256L << 20;

  @TempDir Path directory;
  private Path file;

  @BeforeEach
  void name() {
    file = directory.resolve("job.bellwire");
  }

  private static void assertTrouble(
      org.assertj.core.api.ThrowableAssert.ThrowingCallable call, Trouble trouble) {
    assertThatThrownBy(call)
        .asInstanceOf(InstanceOfAssertFactories.type(JobFileException.class))
        .extracting(JobFileException::trouble)
        .isEqualTo(trouble);
  }

  @Test
  void aSecondWriterIsRefusedUntilTheFirstCloses() throws Exception {
    JobFile first = JobFile.open(file);
    assertTrouble(() -> JobFile.open(file), Trouble.IN_USE);
    assertThat(VigilReader.vigils(file)).isEmpty();
    first.close();
    JobFile.open(file).close();
  }

  @Test
  void aForeignFileIsRefusedAndNotTouched() throws Exception {
    Files.writeString(file, "Dear customer,\n".repeat(100));
    byte[] before = Files.readAllBytes(file);
    assertTrouble(() -> JobFile.open(file), Trouble.FOREIGN);
    assertThat(Files.readAllBytes(file)).isEqualTo(before);

    Path other = directory.resolve("other.db");
    sql(other, "CREATE TABLE recipes (name TEXT)");
    before = Files.readAllBytes(other);
    assertTrouble(() -> JobFile.open(other), Trouble.FOREIGN);
    assertThat(Files.readAllBytes(other)).isEqualTo(before);
  }

  @Test
  void aFileThatAKillLeftWithoutTablesGetsThem() throws Exception {
    sql(file, "PRAGMA journal_mode = WAL");
    assertThat(Files.size(file)).isPositive();
    JobFile.open(file).close();
    assertThat(VigilReader.vigils(file)).isEmpty();
  }

  @Test
  void aLaterVersionIsRefused() throws Exception {
    JobFile.open(file).close();
    sql(file, "PRAGMA user_version = 99");
    assertTrouble(() -> JobFile.open(file), Trouble.NEWER);
    assertTrouble(() -> VigilReader.vigils(file), Trouble.NEWER);
  }

  @Test
  void aMissingDirectoryOrFileIsTold() {
    Path nowhere = directory.resolve("none/job.bellwire");
    assertTrouble(() -> JobFile.open(nowhere), Trouble.UNREACHABLE);
    assertTrouble(() -> VigilReader.vigils(file), Trouble.UNREACHABLE);
    assertThat(file).doesNotExist();
  }

  @Test
  void aDamagedDatabaseIsTold() throws Exception {
    fill(20);
    byte[] bytes = Files.readAllBytes(file);
    // All but the first pages, whatever they hold.
    java.util.Arrays.fill(bytes, 4096, bytes.length, (byte) 0x55);
    Files.write(file, bytes);
    assertTrouble(() -> JobFile.open(file), Trouble.DAMAGED);
  }

  @Test
  void aDamagedBlockIsToldAndTheRestIsRead() throws Exception {
    fill(3);
    sql(file, "UPDATE block SET payload = zeroblob(length(payload)) WHERE span = 1");
    try (VigilReader reader = VigilReader.open(file, 1)) {
      Stream ports = reader.streams().get(0);
      long[] ticks = new long[1];
      List<Overview.Unreadable> unreadable =
          reader.samples(
              ports, 0, Long.MAX_VALUE, (first, count, value, latches) -> ticks[0] += count);
      assertThat(unreadable)
          .containsExactly(new Overview.Unreadable(268_436_000, 536_870_000, "wrong checksum"));
      assertThat(ticks[0]).isEqualTo(3 * SPAN_MICROS / TICK_MICROS - (536_870 - 268_436 + 1));
      // In few columns the pyramid still has it; closer, it is told.
      assertThat(reader.overview(ports, 0, 3 * SPAN_MICROS, 10).unreadable()).isEmpty();
      assertThat(reader.overview(ports, 0, 3 * SPAN_MICROS, 1000).unreadable()).hasSize(1);
    }
  }

  @Test
  void aBlockInAnothersPlaceIsFound() throws Exception {
    fill(3);
    sql(
        file,
        "UPDATE block SET (crc32c, payload) ="
            + " (SELECT crc32c, payload FROM block WHERE span = 0) WHERE span = 1");
    try (VigilReader reader = VigilReader.open(file, 1)) {
      Stream ports = reader.streams().get(0);
      assertThat(reader.samples(ports, 0, Long.MAX_VALUE, (f, c, v, l) -> {})).hasSize(1);
    }
  }

  @Test
  void damagedRowsOfThePyramidAreMadeUpForExactly() throws Exception {
    fill(40);
    long end = 40 * SPAN_MICROS;
    List<List<Column>> seen = new ArrayList<>();
    for (int level = 4; level >= 0; level--) {
      try (VigilReader reader = VigilReader.open(file, 1)) {
        Overview overview = reader.overview(reader.streams().get(0), 0, end, 2);
        assertThat(overview.unreadable()).isEmpty();
        seen.add(overview.columns());
      }
      sql(file, "UPDATE pyramid SET payload = x'00' WHERE level = " + level);
    }
    assertThat(seen).hasSize(5).allMatch(seen.get(0)::equals);
  }

  @Test
  void aVigilGoesOnBehindADamagedEnd() throws Exception {
    fill(2.5);
    sql(file, "UPDATE block SET payload = x'00' WHERE span = 2");
    sql(file, "UPDATE pyramid SET payload = x'00' WHERE level = 3");
    long end = (long) (2.5 * SPAN_MICROS) / TICK_MICROS * TICK_MICROS;
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.resumeVigil(1, () -> 0);
      Stream ports = store.streams().get(0);
      store.appendTicks(ports, end, 1000, 0xFFFF, 0);
      store.close();
      try (VigilReader reader = VigilReader.open(file, 1)) {
        assertThat(reader.gaps(ports, 0, Long.MAX_VALUE))
            .containsExactly(new Gap(536_871_000, end, "damaged block"));
        long[] ticks = new long[1];
        assertThat(reader.samples(ports, end, Long.MAX_VALUE, (f, c, v, l) -> ticks[0] += c))
            .isEmpty();
        assertThat(ticks[0]).isEqualTo(1000);
      }
    }
  }

  @Test
  void aDamagedRowOfTheJournalBecomesAGap() throws Exception {
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.startVigil(Asked.vigil("continuity"), 0, 0, () -> 0);
      Stream ports = store.addWords("ports", TICK_MICROS);
      for (int row = 0; row < 3; row++) {
        store.appendTicks(ports, row * 100L * TICK_MICROS, 100, 0xFFFF, 0);
        store.commit();
      }
    }
    sql(file, "UPDATE journal SET payload = x'00' WHERE number = 1");
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.resumeVigil(1, () -> 0);
      Stream ports = store.streams().get(0);
      assertThat(store.storedBefore(ports)).isEqualTo(299_001);
      try (VigilReader reader = VigilReader.open(file, 1)) {
        assertThat(count(reader, ports)).isEqualTo(200);
        assertThat(reader.gaps(ports, 0, Long.MAX_VALUE))
            .containsExactly(new Gap(100_000, 200_000, "missing"));
      }
    }
  }

  @Test
  void theStreamsOfARoundAreAddedAllOrNone() throws Exception {
    List<String> names = IntStream.range(0, 100).mapToObj(i -> "a configuration " + i).toList();
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.startVigil(Asked.vigil("trend"), 0, 0, () -> 0);
      try (Statement statement = job.connection().createStatement()) {
        statement.execute("PRAGMA max_page_count = 1"); // as large as it is
      }
      assertTrouble(() -> store.addCodes(names, TICK_MICROS), Trouble.FULL);
      assertThat(store.streams()).isEmpty();
      try (VigilReader reader = VigilReader.open(file, 1)) {
        assertThat(reader.streams()).isEmpty();
      }
      try (Statement statement = job.connection().createStatement()) {
        statement.execute("PRAGMA max_page_count = 100000");
      }
      assertThat(store.addCodes(names, TICK_MICROS)).isEqualTo(store.streams()).hasSize(100);
    }
  }

  @Test
  void aFullDiskIsToldAndNothingAcknowledgedIsLost() throws Exception {
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.startVigil(Asked.vigil("trend"), 0, 0, () -> 0);
      Stream p1 = store.addCodes("P1", TICK_MICROS);
      java.util.Random noise = new java.util.Random(5);
      for (int i = 0; i < 2000; i++) {
        store.appendCode(p1, i * TICK_MICROS, noise.nextInt(1 << 20));
      }
      store.arrived(new Source(7, 20, 0));
      store.commit();
      assertThat(store.storedBefore(p1)).isEqualTo(1_999_001);
      try (Statement statement = job.connection().createStatement();
          ResultSet pages = statement.executeQuery("PRAGMA page_count")) {
        statement.execute("PRAGMA max_page_count = " + (pages.getInt(1) + 2));
      }
      for (int i = 2000; i < 6000; i++) {
        store.appendCode(p1, i * TICK_MICROS, i);
      }
      Source behind = new Source(7, 60, 0);
      assertTrouble(
          () -> {
            store.arrived(behind);
            store.commit();
          },
          Trouble.FULL);
      assertThat(store.source()).contains(new Source(7, 20, 0));
      assertThat(store.storedBefore(p1)).isEqualTo(1_999_001);
      assertTrouble(() -> store.appendCode(p1, 6_000_000, 1), Trouble.FULL);
      try (VigilReader reader = VigilReader.open(file, 1)) {
        assertThat(count(reader, p1)).isEqualTo(2000);
        assertThat(reader.sources()).containsExactly(new Source(7, 20, 0));
      }
      try (Statement statement = job.connection().createStatement()) {
        statement.execute("PRAGMA max_page_count = 100000");
      }
      store.appendCode(p1, 6_000_000, 1);
      store.close();
      assertThat(store.storedBefore(p1)).isEqualTo(6_000_001);
      assertThat(store.source()).contains(behind);
      try (VigilReader reader = VigilReader.open(file, 1)) {
        assertThat(count(reader, p1)).isEqualTo(6001);
        assertThat(reader.gaps(p1, 0, Long.MAX_VALUE)).isEmpty();
      }
    }
  }

  private static long count(VigilReader reader, Stream stream) throws JobFileException {
    long[] samples = new long[1];
    reader.samples(stream, 0, Long.MAX_VALUE, (f, c, v, l) -> samples[0] += c);
    return samples[0];
  }

  /** The checksum as docs/job-file.md has it. */
  @Test
  void aBlocksChecksumIsAsDocumented() throws Exception {
    // RFC 3720, B.4: 32 bytes of zeros.
    assertThat(crc32c(new byte[32])).isEqualTo(0x8A9136AAL);
    fill(1.5);
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                "SELECT stream, span, crc32c, payload FROM block ORDER BY span")) {
      while (row.next()) {
        java.nio.ByteBuffer covered = java.nio.ByteBuffer.allocate(20 + row.getBytes(4).length);
        covered.putLong(row.getLong(1)).putInt(0).putLong(row.getLong(2)).put(row.getBytes(4));
        assertThat(row.getLong(3)).isEqualTo(crc32c(covered.array()));
      }
    }
  }

  private static long crc32c(byte[] bytes) {
    CRC32C crc = new CRC32C();
    crc.update(bytes);
    return crc.getValue();
  }

  @Test
  void theDocumentNamesEveryTableAndColumnInOrder() throws Exception {
    JobFile.open(file).close();
    Path document = Path.of("../../docs/job-file.md");
    String text = Files.readString(document);
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                "SELECT m.name, c.name FROM sqlite_master m, pragma_table_info(m.name) c"
                    + " WHERE m.type = 'table' ORDER BY m.rowid, c.cid")) {
      int from = 0;
      String table = "";
      while (row.next()) {
        if (!table.equals(row.getString(1))) {
          table = row.getString(1);
          from = text.indexOf("\n## " + table + "\n", from);
          assertThat(from).as(table).isPositive();
        }
        int at = text.indexOf("\n| " + row.getString(2) + " |", from);
        assertThat(at).as(table + "." + row.getString(2)).isPositive();
        from = at;
      }
    }
  }

  /** So many spans of words with a short opening in each, closed. */
  private void fill(double spans) throws Exception {
    try (JobFile job = JobFile.open(file)) {
      VigilStore store = job.startVigil(Asked.vigil("continuity"), 0, 0, () -> 0);
      Stream ports = store.addWords("ports", TICK_MICROS);
      long ticks = (long) (spans * SPAN_MICROS) / TICK_MICROS;
      for (long t = 0; t < ticks; t += 100_000) {
        int open = (int) Math.min(7, ticks - t);
        store.appendTicks(ports, t * TICK_MICROS, open, 0xFFFF & ~(1 << t / 100_000 % 16), 0);
        int rest = (int) Math.min(100_000 - open, ticks - t - open);
        if (rest > 0) {
          store.appendTicks(ports, (t + open) * TICK_MICROS, rest, 0xFFFF, 0);
        }
      }
      store.close();
    }
  }

  private static void sql(Path file, String sql) throws Exception {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }
}
