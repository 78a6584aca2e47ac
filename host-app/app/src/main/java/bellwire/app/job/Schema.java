package bellwire.app.job;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;

/** The tables, by version. What each column means is in docs/job-file.md. */
final class Schema {
  /** 'BelW' in ASCII: tells a job file from any other SQLite database. */
  static final int APPLICATION_ID = 0x42656C57;

  /** One list of statements a version; a file of an older version gets those it lacks. */
  private static final List<List<String>> VERSIONS =
      List.of(
          List.of(
              """
              CREATE TABLE vigil (
                id INTEGER PRIMARY KEY,
                program TEXT NOT NULL,
                started_unix_micros INTEGER NOT NULL,
                started_micros INTEGER NOT NULL) STRICT""",
              """
              CREATE TABLE stream (
                id INTEGER PRIMARY KEY,
                vigil INTEGER NOT NULL REFERENCES vigil,
                kind TEXT NOT NULL CHECK (kind IN ('words', 'codes')),
                name TEXT NOT NULL,
                period_micros INTEGER NOT NULL,
                UNIQUE (vigil, name)) STRICT""",
              """
              CREATE TABLE block (
                stream INTEGER NOT NULL REFERENCES stream,
                span INTEGER NOT NULL,
                first_micros INTEGER NOT NULL,
                last_micros INTEGER NOT NULL,
                crc32c INTEGER NOT NULL,
                payload BLOB NOT NULL,
                PRIMARY KEY (stream, span)) STRICT""",
              """
              CREATE TABLE pyramid (
                stream INTEGER NOT NULL REFERENCES stream,
                level INTEGER NOT NULL,
                row INTEGER NOT NULL,
                crc32c INTEGER NOT NULL,
                payload BLOB NOT NULL,
                PRIMARY KEY (stream, level, row)) STRICT, WITHOUT ROWID""",
              """
              CREATE TABLE journal (
                vigil INTEGER NOT NULL REFERENCES vigil,
                number INTEGER NOT NULL,
                crc32c INTEGER NOT NULL,
                payload BLOB NOT NULL,
                PRIMARY KEY (vigil, number)) STRICT, WITHOUT ROWID""",
              """
              CREATE TABLE event (
                vigil INTEGER NOT NULL REFERENCES vigil,
                port INTEGER NOT NULL,
                first_micros INTEGER NOT NULL,
                last_micros INTEGER NOT NULL,
                latched INTEGER NOT NULL,
                cut INTEGER NOT NULL,
                PRIMARY KEY (vigil, first_micros, port)) STRICT, WITHOUT ROWID""",
              """
              CREATE TABLE mark (
                vigil INTEGER NOT NULL REFERENCES vigil,
                at_micros INTEGER NOT NULL,
                text TEXT NOT NULL) STRICT""",
              """
              CREATE TABLE gap (
                stream INTEGER NOT NULL REFERENCES stream,
                from_micros INTEGER NOT NULL,
                to_micros INTEGER NOT NULL,
                reason TEXT NOT NULL,
                PRIMARY KEY (stream, from_micros)) STRICT, WITHOUT ROWID"""),
          List.of(
              "ALTER TABLE vigil ADD COLUMN ended_micros INTEGER",
              "ALTER TABLE vigil ADD COLUMN outcome TEXT",
              "ALTER TABLE stream ADD COLUMN codes INTEGER NOT NULL DEFAULT 1",
              "ALTER TABLE stream ADD COLUMN bucket_micros INTEGER NOT NULL DEFAULT 1048576",
              "ALTER TABLE stream ADD COLUMN buckets INTEGER NOT NULL DEFAULT 256",
              // Of codes it was the least power of two of at least 64 periods, within bounds.
              """
              UPDATE stream SET bucket_micros = CASE
                  WHEN period_micros <= 256 THEN 16384
                  WHEN period_micros <= 512 THEN 32768
                  WHEN period_micros <= 1024 THEN 65536
                  WHEN period_micros <= 2048 THEN 131072
                  WHEN period_micros <= 4096 THEN 262144
                  WHEN period_micros <= 8192 THEN 524288
                  WHEN period_micros <= 16384 THEN 1048576
                  WHEN period_micros <= 32768 THEN 2097152
                  WHEN period_micros <= 65536 THEN 4194304
                  WHEN period_micros <= 131072 THEN 8388608
                  ELSE 16777216 END
                WHERE kind = 'codes'""",
              "ALTER TABLE event RENAME TO event_1",
              """
              CREATE TABLE event (
                vigil INTEGER NOT NULL REFERENCES vigil,
                port INTEGER NOT NULL,
                others INTEGER NOT NULL,
                before_micros INTEGER NOT NULL,
                first_micros INTEGER NOT NULL,
                last_micros INTEGER NOT NULL,
                after_micros INTEGER NOT NULL,
                times INTEGER NOT NULL,
                latched INTEGER NOT NULL,
                cut_before INTEGER NOT NULL,
                cut_after INTEGER NOT NULL,
                PRIMARY KEY (vigil, first_micros, port)) STRICT, WITHOUT ROWID""",
              """
              INSERT INTO event
                SELECT vigil, port, 0, first_micros, first_micros, last_micros, last_micros, 1,
                  latched, cut, cut FROM event_1""",
              "DROP TABLE event_1",
              """
              CREATE TABLE watched (
                vigil INTEGER PRIMARY KEY REFERENCES vigil,
                number INTEGER NOT NULL,
                ports INTEGER NOT NULL,
                returned INTEGER NOT NULL,
                wetting INTEGER NOT NULL,
                loads INTEGER NOT NULL,
                length_micros INTEGER NOT NULL,
                board TEXT NOT NULL,
                note TEXT NOT NULL,
                shortest_opening_micros REAL,
                expected_ohms REAL NOT NULL,
                mains_hertz INTEGER NOT NULL) STRICT""",
              """
              CREATE TABLE name (
                vigil INTEGER NOT NULL REFERENCES vigil,
                number INTEGER NOT NULL,
                text TEXT NOT NULL,
                PRIMARY KEY (vigil, number)) STRICT, WITHOUT ROWID""",
              """
              CREATE TABLE source (
                vigil INTEGER NOT NULL REFERENCES vigil,
                boot INTEGER NOT NULL,
                turn INTEGER NOT NULL,
                next_sequence INTEGER NOT NULL,
                offset_micros INTEGER NOT NULL,
                PRIMARY KEY (vigil, boot)) STRICT, WITHOUT ROWID"""),
          List.of(
              """
              CREATE TABLE fact (
                name TEXT PRIMARY KEY,
                text TEXT NOT NULL) STRICT, WITHOUT ROWID""",
              """
              CREATE TABLE act (
                id INTEGER PRIMARY KEY,
                kind TEXT NOT NULL,
                what TEXT NOT NULL,
                reading TEXT NOT NULL,
                person TEXT NOT NULL,
                at_unix_micros INTEGER NOT NULL,
                withdrawn INTEGER NOT NULL CHECK (withdrawn IN (0, 1))) STRICT""",
              """
              CREATE TABLE cable (
                id INTEGER PRIMARY KEY,
                name TEXT NOT NULL,
                gauge TEXT NOT NULL,
                metres REAL,
                celsius REAL,
                near_place TEXT NOT NULL,
                far_place TEXT NOT NULL,
                note TEXT NOT NULL) STRICT""",
              """
              CREATE TABLE conductor (
                cable INTEGER NOT NULL REFERENCES cable,
                port INTEGER NOT NULL CHECK (port BETWEEN 0 AND 15),
                near_colour TEXT NOT NULL,
                far_colour TEXT NOT NULL,
                note TEXT NOT NULL,
                PRIMARY KEY (cable, port)) STRICT, WITHOUT ROWID""",
              """
              CREATE TABLE survey (
                id INTEGER PRIMARY KEY,
                cable INTEGER NOT NULL REFERENCES cable,
                in_place INTEGER NOT NULL CHECK (in_place IN (0, 1)),
                stage TEXT NOT NULL CHECK (stage IN ('as-found', 'as-left')),
                at_unix_micros INTEGER NOT NULL,
                json TEXT NOT NULL,
                readings BLOB NOT NULL) STRICT""",
              """
              CREATE TABLE landing (
                id INTEGER PRIMARY KEY,
                cable INTEGER REFERENCES cable,
                at_unix_micros INTEGER NOT NULL,
                text TEXT NOT NULL) STRICT""",
              """
              CREATE TABLE rehearsal (
                id INTEGER PRIMARY KEY,
                at_unix_micros INTEGER NOT NULL,
                live INTEGER NOT NULL CHECK (live IN (0, 1)),
                file TEXT NOT NULL,
                options TEXT NOT NULL,
                json TEXT NOT NULL,
                trace BLOB NOT NULL) STRICT""",
              """
              CREATE TABLE tick (
                item TEXT PRIMARY KEY,
                state TEXT NOT NULL CHECK (state IN ('open', 'done', 'not-done', 'not-needed')),
                basis TEXT NOT NULL CHECK (basis IN ('measured', 'witnessed', 'assumed')),
                person TEXT NOT NULL,
                at_unix_micros INTEGER NOT NULL,
                note TEXT NOT NULL) STRICT, WITHOUT ROWID""",
              """
              CREATE TABLE photo (
                id INTEGER PRIMARY KEY,
                stage TEXT NOT NULL CHECK (stage IN ('as-found', 'as-left')),
                caption TEXT NOT NULL,
                at_unix_micros INTEGER NOT NULL,
                mime TEXT NOT NULL,
                picture BLOB NOT NULL) STRICT""",
              """
              CREATE TABLE desk (
                key TEXT PRIMARY KEY,
                value TEXT NOT NULL) STRICT, WITHOUT ROWID"""));

  private Schema() {}

  static int newest() {
    return VERSIONS.size();
  }

  static int version(Connection connection) throws SQLException {
    return pragma(connection, "user_version");
  }

  static int applicationId(Connection connection) throws SQLException {
    return pragma(connection, "application_id");
  }

  /** Whether nothing at all is in it, as in a new file. */
  static boolean isEmpty(Connection connection) throws SQLException {
    return pragma(connection, "schema_version") == 0;
  }

  /** In one transaction: a file has all tables of a version or none. */
  static void bringUpToDate(Connection connection) throws SQLException {
    int from = version(connection);
    if (from == newest()) {
      return;
    }
    Transaction.run(connection, () -> upgrade(connection, from));
  }

  private static void upgrade(Connection connection, int from) throws SQLException {
    tables(connection, from, newest());
    try (Statement statement = connection.createStatement()) {
      statement.execute("PRAGMA application_id = " + APPLICATION_ID);
      statement.execute("PRAGMA user_version = " + newest());
    }
  }

  /** Makes the tables that one version has more than another. */
  static void tables(Connection connection, int from, int to) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      for (List<String> one : VERSIONS.subList(from, to)) {
        for (String sql : one) {
          statement.execute(sql);
        }
      }
    }
  }

  /** Empty where the database is sound, otherwise its first trouble. */
  static String firstTrouble(Connection connection) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("PRAGMA quick_check(1)")) {
      String found = rows.next() ? rows.getString(1) : "ok";
      return found.equals("ok") ? "" : found;
    }
  }

  private static int pragma(Connection connection, String name) throws SQLException {
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery("PRAGMA " + name)) {
      return rows.next() ? rows.getInt(1) : 0;
    }
  }
}
