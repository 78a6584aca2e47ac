package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The digest, against docs/job-file.md and what must and must not change it. */
class JobDigestTest {
  @TempDir Path directory;
  private Path file;

  @BeforeEach
  void name() {
    file = directory.resolve("job.bellwire");
  }

  /** The bytes of docs/job-file.md, written here by hand; SHA-256 is the JDK's. */
  @Test
  void itIsCountedAsDocumented() throws Exception {
    String digest;
    try (JobFile job = JobFile.open(file)) {
      JobRecords r = job.records();
      r.fact(Fact.PLACE, "Zürich");
      r.fact(Fact.CUSTOMER, "");
      r.put(new CableRow(0, "18-5", "", Double.NaN, 21.5, "a", "b", ""));
      r.left("page", "3");
      digest = r.digest();
    }
    Bytes bytes = new Bytes();
    bytes.tables("act", "block", "cable").row().whole(1).text("18-5").text("").none().real(21.5);
    bytes.text("a").text("b").text("");
    bytes.tables("conductor", "event", "fact").row().text("customer").text("");
    bytes.row().text("place").text("Zürich");
    bytes.tables("gap", "journal", "landing", "mark", "name", "photo", "pyramid", "rehearsal");
    bytes.tables("source", "stream", "survey", "tick", "vigil", "watched");
    assertThat(digest).isEqualTo(bytes.sha256());
  }

  /** The stream that the document describes. */
  private static final class Bytes {
    private final ByteArrayOutputStream all = new ByteArrayOutputStream();
    private final DataOutputStream out = new DataOutputStream(all);

    Bytes tables(String... names) throws IOException {
      for (String name : names) {
        sized('t', name);
      }
      return this;
    }

    Bytes row() throws IOException {
      out.write('r');
      return this;
    }

    Bytes none() throws IOException {
      out.write('n');
      return this;
    }

    Bytes whole(long value) throws IOException {
      out.write('i');
      out.writeLong(value);
      return this;
    }

    Bytes real(double value) throws IOException {
      out.write('d');
      out.writeDouble(value);
      return this;
    }

    Bytes text(String value) throws IOException {
      sized('s', value);
      return this;
    }

    private void sized(char type, String text) throws IOException {
      byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
      out.write(type);
      out.writeLong(utf8.length);
      out.write(utf8);
    }

    String sha256() throws Exception {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(all.toByteArray());
      return HexFormat.of().formatHex(digest);
    }
  }

  /** Any one value of any one row of any table but that of the desk. */
  @Test
  void everyColumnOfEveryTableCounts() throws Exception {
    try (JobFile job = JobFile.open(file)) {
      JobRecordsTest.fill(job.records());
      job.records().left("page", "3");
      VigilStore store = job.startVigil(Asked.vigil("continuity"), 0, 0, () -> 0);
      Stream ports = store.addWords("ports", 1000);
      store.appendTicks(ports, 0, 10, 0xFFFF, 0);
      store.gap(ports, 50_000, "link cut");
      store.event(new VigilEvent(2, 0, 1, 2, 3, 4, 1, false, false, false));
      store.mark(new Mark(5, "shook"));
      store.arrived(new Source(7, 20, 5));
      store.commit();
      Set<String> seen = new HashSet<>();
      seen.add(job.records().digest());
      int changes = 0;
      try (Statement statement = job.connection().createStatement()) {
        // Keys that others refer to may be changed here.
        statement.execute("PRAGMA foreign_keys = OFF");
        statement.execute("PRAGMA ignore_check_constraints = ON");
      }
      Statements sql = new Statements(job.connection());
      for (List<String> column :
          sql.select(
              "SELECT m.name, c.name, c.type FROM sqlite_schema m, pragma_table_info(m.name) c"
                  + " WHERE m.type = 'table' AND m.name NOT IN ('desk', 'block', 'pyramid')",
              r -> List.of(r.getString(1), r.getString(2), r.getString(3)))) {
        String name = '"' + column.get(1) + '"';
        String more =
            column.get(2).equals("TEXT") || column.get(2).equals("BLOB")
                ? "CAST(coalesce(" + name + ", '') || 'x' AS " + column.get(2) + ")"
                : "coalesce(" + name + ", 0) + 1000000000";
        String where =
            " WHERE " + name + " IS (SELECT max(" + name + ") FROM " + column.get(0) + ")";
        int rows = sql.change("UPDATE " + column.get(0) + " SET " + name + " = " + more + where);
        assertThat(rows).as(column.toString()).isPositive();
        changes++;
        assertThat(seen.add(job.records().digest())).as(column.toString()).isTrue();
      }
      assertThat(changes).isGreaterThan(90);
      String last = job.records().digest();
      job.records().left("page", "8");
      assertThat(job.records().digest()).isEqualTo(last);
    }
  }

  /** Reading, opening again, and another order of SQLite's pages leave it alone. */
  @Test
  void itIsOfTheRowsAndNotOfTheFile() throws Exception {
    String digest;
    try (JobFile job = JobFile.open(file)) {
      JobRecordsTest.fill(job.records());
      digest = job.records().digest();
    }
    byte[] before = Files.readAllBytes(file);
    Path copy = directory.resolve("copy.bellwire");
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute("VACUUM INTO '" + copy + "'");
    }
    try (JobReader reader = JobReader.open(copy)) {
      assertThat(reader.records().digest()).isEqualTo(digest);
    }
    try (JobReader reader = JobReader.open(file);
        JobFile job = JobFile.open(file)) {
      job.records().fact(Fact.PLACE, "another");
      // A reader keeps the state that it was opened on.
      assertThat(reader.records().digest()).isEqualTo(digest);
      assertThat(job.records().digest()).isNotEqualTo(digest);
    }
    assertThat(Files.readAllBytes(copy)).isNotEqualTo(before);
  }
}
