package bellwire.app.job;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Runs statements on a connection. */
final class Statements {
  /** Makes something of a row. */
  interface Reading<T> {
    T read(ResultSet row) throws SQLException;
  }

  private final Connection connection;

  Statements(Connection connection) {
    this.connection = connection;
  }

  Connection connection() {
    return connection;
  }

  /** Inserts a row, and returns the key that it got. */
  long numbered(String sql, Object... values) throws SQLException {
    change(sql, values);
    return select("SELECT last_insert_rowid()", r -> r.getLong(1)).get(0);
  }

  /** Changes rows, and returns how many. */
  int change(String sql, Object... values) throws SQLException {
    try (PreparedStatement statement = prepared(sql, values)) {
      return statement.executeUpdate();
    }
  }

  <T> List<T> select(String sql, Reading<T> reading, Object... values) throws SQLException {
    List<T> read = new ArrayList<>();
    each(sql, reading, read::add, values);
    return read;
  }

  <T> void each(String sql, Reading<T> reading, Consumer<T> taker, Object... values)
      throws SQLException {
    try (PreparedStatement statement = prepared(sql, values);
        ResultSet rows = statement.executeQuery()) {
      while (rows.next()) {
        taker.accept(read(reading, rows));
      }
    }
  }

  /** Whoever made the file may have put in what no Bellwire would. */
  private static <T> T read(Reading<T> reading, ResultSet row) throws SQLException {
    try {
      return reading.read(row);
    } catch (IllegalArgumentException e) {
      throw new SQLException("a row holds what cannot be: " + e.getMessage(), e);
    }
  }

  /** A text of a column that has one in every row. */
  static String text(ResultSet row, int column) throws SQLException {
    return there(row.getString(column), column);
  }

  /** The same for bytes. */
  static byte[] bytes(ResultSet row, int column) throws SQLException {
    return there(row.getBytes(column), column);
  }

  private static <T> T there(@Nullable T value, int column) throws SQLException {
    if (value == null) {
      throw new SQLException("a row lacks what every one has: column=" + column);
    }
    return value;
  }

  private PreparedStatement prepared(String sql, Object... values) throws SQLException {
    PreparedStatement statement = connection.prepareStatement(sql);
    for (int i = 0; i < values.length; i++) {
      statement.setObject(i + 1, values[i]);
    }
    return statement;
  }
}
