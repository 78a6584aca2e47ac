package bellwire.app.job;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Collectors;

/** One number for all that a job file holds; how it is counted is in docs/job-file.md. */
final class JobDigest {
  /** How the desk was left is nothing that was found or done. */
  private static final String LEFT_OUT = "desk";

  private record Column(String name, int key) {}

  private final MessageDigest digest;

  private JobDigest() {
    try {
      digest = MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }

  /** Of one state of the file, whatever is written meanwhile. */
  static String of(Statements sql) throws SQLException {
    JobDigest counted = new JobDigest();
    // A savepoint, for the connection may be in a transaction already.
    Transaction.execute(sql.connection(), "SAVEPOINT digest");
    try {
      for (String table :
          sql.select(
              "SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> ? ORDER BY name",
              r -> r.getString(1),
              LEFT_OUT)) {
        counted.table(sql, table);
      }
    } finally {
      Transaction.execute(sql.connection(), "RELEASE digest");
    }
    return HexFormat.of().formatHex(counted.digest.digest());
  }

  private void table(Statements sql, String table) throws SQLException {
    List<Column> columns =
        sql.select(
            "SELECT name, pk FROM pragma_table_info(?) ORDER BY cid",
            r -> new Column(r.getString(1), r.getInt(2)),
            table);
    List<Column> key =
        columns.stream()
            .filter(c -> c.key > 0)
            .sorted(java.util.Comparator.comparingInt(Column::key))
            .toList();
    sized('t', table.getBytes(StandardCharsets.UTF_8));
    sql.each(
        "SELECT "
            + names(columns)
            + " FROM \""
            + table
            + "\" ORDER BY "
            + names(key.isEmpty() ? columns : key),
        r -> row(r, columns.size()),
        ignored -> {});
  }

  private static String names(List<Column> columns) {
    return columns.stream().map(c -> '"' + c.name + '"').collect(Collectors.joining(", "));
  }

  private int row(ResultSet row, int columns) throws SQLException {
    digest.update((byte) 'r');
    for (int i = 1; i <= columns; i++) {
      value(row.getObject(i));
    }
    return columns;
  }

  private void value(@org.jspecify.annotations.Nullable Object value) throws SQLException {
    if (value == null) {
      digest.update((byte) 'n');
    } else if (value instanceof Double real) {
      eight('d', Double.doubleToLongBits(real));
    } else if (value instanceof Number whole) {
      eight('i', whole.longValue());
    } else if (value instanceof byte[] blob) {
      sized('b', blob);
    } else {
      sized('s', value.toString().getBytes(StandardCharsets.UTF_8));
    }
  }

  private void eight(char type, long bits) {
    digest.update((byte) type);
    digest.update(ByteBuffer.allocate(Long.BYTES).putLong(bits).array());
  }

  private void sized(char type, byte[] bytes) {
    eight(type, bytes.length);
    digest.update(bytes);
  }
}
