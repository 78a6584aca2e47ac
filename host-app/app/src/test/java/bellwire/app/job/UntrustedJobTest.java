package bellwire.app.job;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.catchThrowableOfType;

import bellwire.app.job.JobFileException.Trouble;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.List;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Job files that a stranger has prepared. What is done against them follows SQLite's page 'Defense
 * Against The Dark Arts' (sqlite.org/security.html), 'Untrusted SQLite Database Files'.
 */
class UntrustedJobTest {
  @TempDir Path directory;

  private Path file;

  @BeforeEach
  void make() throws Exception {
    file = directory.resolve("job.bellwire");
    try (JobFile job = JobFile.open(file)) {
      JobRecordsTest.fill(job.records());
    }
  }

  private void sql(String... statements) throws Exception {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      for (String one : statements) {
        statement.execute(one);
      }
    }
  }

  private void assertRefused(String named) throws Exception {
    byte[] before = Files.readAllBytes(file);
    for (Callable<AutoCloseable> opening :
        List.<Callable<AutoCloseable>>of(
            () -> JobFile.open(file),
            () -> JobReader.open(file),
            () -> VigilReader.open(file, 1))) {
      JobFileException e =
          catchThrowableOfType(JobFileException.class, () -> opening.call().close());
      assertThat(e).hasMessageContaining(named).hasMessageContaining("send it as Bellwire wrote");
      assertThat(e.trouble()).isEqualTo(Trouble.FOREIGN);
    }
    assertThat(Files.readAllBytes(file)).isEqualTo(before);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "CREATE TRIGGER evil AFTER INSERT ON act BEGIN DELETE FROM photo; END",
        "CREATE TEMP TRIGGER none AFTER INSERT ON act BEGIN SELECT 1; END; "
            + "CREATE VIEW evil AS SELECT 1",
        "CREATE INDEX evil ON act (abs(id))",
        "CREATE TABLE evil (x CHECK (hex(randomblob(1000000)) = x))",
        "CREATE TABLE \"evil\"\" UNION SELECT 1 --\" (x)",
        "CREATE VIRTUAL TABLE evil USING fts5(x)",
        "ALTER TABLE act ADD COLUMN evil TEXT GENERATED ALWAYS AS (hex(zeroblob(1000000)))"
      })
  void whatCouldDoSomethingByItselfIsRefused(String statement) throws Exception {
    for (String one : statement.split(";(?= CREATE VIEW)", -1)) {
      sql(one);
    }
    assertRefused(statement.contains("ADD COLUMN") ? "table act" : "evil");
  }

  @Test
  void aViewInTheTablesPlaceIsRefused() throws Exception {
    sql("ALTER TABLE fact RENAME TO hidden", "CREATE VIEW fact AS SELECT name, text FROM hidden");
    assertRefused("table hidden");
  }

  @Test
  void aMissingTableIsTold() throws Exception {
    sql("DROP TABLE desk");
    assertRefused("without table desk");
  }

  @Test
  void aVersionThatIsNoneIsRefusedWhateverIsInIt() throws Exception {
    sql("PRAGMA user_version = -1");
    assertThat(catchThrowableOfType(JobFileException.class, () -> JobReader.open(file)).trouble())
        .isEqualTo(Trouble.FOREIGN);
    sql("PRAGMA user_version = 1");
    assertRefused("");
  }

  @Test
  void whatAnSqlToolLeavesForItselfIsTaken() throws Exception {
    sql("ANALYZE", "VACUUM");
    try (JobReader reader = JobReader.open(file)) {
      assertThat(reader.records().cables()).hasSize(1);
    }
  }

  @Test
  void aConnectionTrustsNoSchemaAndLooksAtEachCell() throws Exception {
    try (JobFile job = JobFile.open(file)) {
      assertThat(pragma(job.connection(), "trusted_schema")).isZero();
      assertThat(pragma(job.connection(), "cell_size_check")).isEqualTo(1);
      assertThat(pragma(job.connection(), "mmap_size")).isZero();
      assertThat(pragma(job.connection(), "writable_schema")).isZero();
      assertThatThrownBy(
              () -> Transaction.execute(job.connection(), "ATTACH ':memory:' AS another"))
          .hasMessageContaining("too many attached");
      assertThatThrownBy(() -> Transaction.execute(job.connection(), "SELECT zeroblob(200000000)"))
          .hasMessageContaining("too big");
      assertThatThrownBy(() -> Transaction.execute(job.connection(), "SELECT load_extension('x')"))
          .hasMessageContaining("not authorized");
    }
  }

  private static int pragma(Connection connection, String name) throws Exception {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("PRAGMA " + name)) {
      return rows.getInt(1);
    }
  }

  /** The driver takes what is behind a question mark for its own settings. */
  @Test
  void aNameWithAQuestionMarkIsOnlyAName() throws Exception {
    for (String name :
        List.of("a?enable_load_extension=true", "b%3F.bellwire", "c#d", ":memory:")) {
      Path odd = directory.resolve(name);
      JobFile.open(odd).close();
      assertThat(odd).isRegularFile();
      JobReader.open(odd).close();
    }
    assertThat(directory.resolve("a")).doesNotExist();
  }

  @Test
  void aRowThatNoBellwireWritesIsToldAndNoFaultOfTheProgram() throws Exception {
    try (JobFile job = JobFile.open(file)) {
      Watched watched = Asked.vigil("continuity");
      try (VigilStore store = job.startVigil(watched, 0, 0, () -> 0)) {
        store.addWords("ports", 1000);
        store.commit();
      }
    }
    sql("UPDATE stream SET bucket_micros = 7");
    assertThatThrownBy(() -> VigilReader.open(file, 1).close())
        .isInstanceOf(JobFileException.class)
        .hasMessageContaining("a row holds what cannot be: no bucket length: bucketMicros=7");
    sql("UPDATE act SET kind = 'dance'");
    try (JobReader reader = JobReader.open(file)) {
      assertThatThrownBy(() -> reader.records().acts())
          .isInstanceOf(JobFileException.class)
          .hasMessageContaining("dance");
    }
  }

  @Test
  void wordsOfAnSqlErrorSteerNoTerminal() throws Exception {
    sql("UPDATE act SET kind = 'a' || char(27) || '[2J' || char(0x202e)");
    try (JobReader reader = JobReader.open(file)) {
      assertThatThrownBy(() -> reader.records().acts()).hasMessageContaining("a\\u001b[2J\\u202e");
    }
  }
}
