package bellwire.app.job;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;

/**
 * All or nothing. By statements of its own rather than the driver's commit mode: on a full disk
 * SQLite rolls back by itself, and the driver would then go on outside any transaction.
 */
final class Transaction {
  /** What is to be done in it. */
  interface Work {
    void run() throws SQLException;
  }

  private Transaction() {}

  static void run(Connection connection, Work work) throws SQLException {
    execute(connection, "BEGIN IMMEDIATE");
    try {
      work.run();
      execute(connection, "COMMIT");
    } catch (SQLException e) {
      undo(connection);
      throw e;
    }
  }

  /** From here to its closing the connection sees one state of the file. */
  static void freeze(Connection connection) throws SQLException {
    execute(connection, "BEGIN DEFERRED");
  }

  private static void undo(Connection connection) {
    try {
      execute(connection, "ROLLBACK");
    } catch (SQLException e) {
      // SQLite has done so by itself.
    }
  }

  static void execute(Connection connection, String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }
}
