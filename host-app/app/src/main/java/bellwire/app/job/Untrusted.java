package bellwire.app.job;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.Map;
import java.util.TreeMap;
import org.sqlite.SQLiteConnection;
import org.sqlite.SQLiteLimits;

/**
 * A job file may come from a stranger: what is done before anything is read from it. After SQLite's
 * own page, 'Defense Against The Dark Arts', section on untrusted database files.
 */
final class Untrusted {
  /** A recording of 64 MB and a result of four million characters in one row. */
  private static final int MOST_ROW_BYTES = 100_000_000;

  private static final Map<Integer, Map<String, String>> MADE = new HashMap<>();

  private Untrusted() {}

  /**
   * The file's own schema may call no function with a side effect, no page is mapped into memory,
   * damaged cells are looked for, and nothing grows beyond what a job file has.
   */
  static void restrict(Connection connection) throws SQLException {
    Transaction.execute(connection, "PRAGMA trusted_schema = OFF");
    Transaction.execute(connection, "PRAGMA cell_size_check = ON");
    Transaction.execute(connection, "PRAGMA mmap_size = 0");
    SQLiteConnection sqlite = connection.unwrap(SQLiteConnection.class);
    sqlite.setLimit(SQLiteLimits.SQLITE_LIMIT_LENGTH, MOST_ROW_BYTES);
    sqlite.setLimit(SQLiteLimits.SQLITE_LIMIT_ATTACHED, 0);
    sqlite.setLimit(SQLiteLimits.SQLITE_LIMIT_TRIGGER_DEPTH, 1);
  }

  /**
   * What of the schema is not as that version makes it, in words: a trigger, a view, an index, a
   * table of another form. Empty for nothing.
   */
  static String difference(Connection connection, int version) throws SQLException {
    Map<String, String> found = objects(connection);
    Map<String, String> made = made(version);
    for (Map.Entry<String, String> object : found.entrySet()) {
      if (!object.getValue().equals(made.get(object.getKey()))) {
        return object.getKey();
      }
    }
    for (String object : made.keySet()) {
      if (!found.containsKey(object)) {
        return "without " + object;
      }
    }
    return "";
  }

  private static synchronized Map<String, String> made(int version) throws SQLException {
    Map<String, String> known = MADE.get(version);
    if (known != null) {
      return known;
    }
    try (Connection memory = DriverManager.getConnection("jdbc:sqlite::memory:")) {
      Schema.tables(memory, 0, version);
      Map<String, String> made = objects(memory);
      MADE.put(version, made);
      return made;
    }
  }

  /** The statement of each by its kind and name. */
  private static Map<String, String> objects(Connection connection) throws SQLException {
    Map<String, String> objects = new TreeMap<>();
    new Statements(connection)
        .each(
            "SELECT type || ' ' || name, ifnull(sql, '') FROM sqlite_schema"
                + " WHERE NOT (name LIKE 'sqlite^_%' ESCAPE '^' AND type IN ('table', 'index'))",
            r -> Map.entry(Statements.text(r, 1), Statements.text(r, 2)),
            object -> objects.put(object.getKey(), object.getValue()));
    return objects;
  }
}
