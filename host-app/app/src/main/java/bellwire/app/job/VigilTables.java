package bellwire.app.job;

import bellwire.app.job.Packed.Place;
import bellwire.app.job.Stream.Kind;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * Every statement on a vigil's tables. Those that belong together are run in one {@link
 * Transaction}.
 */
final class VigilTables {
  /**
   * A block as stored.
   *
   * @param place its stream and span
   * @param firstMicros time of its first sample
   * @param lastMicros time of its last sample
   */
  record Block(Place place, long firstMicros, long lastMicros, Packed packed) {}

  /** A row of the pyramid or of the journal as stored. */
  record Row(Place place, Packed packed) {}

  private interface Reading<T> {
    T read(ResultSet row) throws SQLException;
  }

  private final Connection connection;

  VigilTables(Connection connection) {
    this.connection = connection;
  }

  Connection connection() {
    return connection;
  }

  long startVigil(String program, long startedUnixMicros, long startedMicros) throws SQLException {
    return numbered(
        "INSERT INTO vigil (program, started_unix_micros, started_micros) VALUES (?, ?, ?)",
        program,
        startedUnixMicros,
        startedMicros);
  }

  long addStream(long vigil, Kind kind, String name, long periodMicros) throws SQLException {
    return numbered(
        "INSERT INTO stream (vigil, kind, name, period_micros) VALUES (?, ?, ?, ?)",
        vigil,
        kind.name().toLowerCase(Locale.ROOT),
        name,
        periodMicros);
  }

  void put(Block block) throws SQLException {
    change(
        "INSERT OR REPLACE INTO block (stream, span, first_micros, last_micros, crc32c, payload)"
            + " VALUES (?, ?, ?, ?, ?, ?)",
        block.place.stream(),
        block.place.index(),
        block.firstMicros,
        block.lastMicros,
        block.packed.crc32c(),
        block.packed.payload());
  }

  void putPyramid(Row row) throws SQLException {
    change(
        "INSERT OR REPLACE INTO pyramid (stream, level, row, crc32c, payload)"
            + " VALUES (?, ?, ?, ?, ?)",
        row.place.stream(),
        row.place.level(),
        row.place.index(),
        row.packed.crc32c(),
        row.packed.payload());
  }

  void putJournal(Row row) throws SQLException {
    change(
        "INSERT INTO journal (vigil, number, crc32c, payload) VALUES (?, ?, ?, ?)",
        row.place.stream(),
        row.place.index(),
        row.packed.crc32c(),
        row.packed.payload());
  }

  void dropJournal(long vigil) throws SQLException {
    change("DELETE FROM journal WHERE vigil = ?", vigil);
  }

  void put(long vigil, VigilEvent event) throws SQLException {
    change(
        "INSERT OR REPLACE INTO event (vigil, port, first_micros, last_micros, latched, cut)"
            + " VALUES (?, ?, ?, ?, ?, ?)",
        vigil,
        event.port(),
        event.firstMicros(),
        event.lastMicros(),
        event.latched(),
        event.cut());
  }

  void put(long vigil, Mark mark) throws SQLException {
    change(
        "INSERT INTO mark (vigil, at_micros, text) VALUES (?, ?, ?)",
        vigil,
        mark.micros(),
        mark.text());
  }

  void put(Stream stream, Gap gap) throws SQLException {
    change(
        "INSERT OR IGNORE INTO gap (stream, from_micros, to_micros, reason) VALUES (?, ?, ?, ?)",
        stream.id(),
        gap.fromMicros(),
        gap.toMicros(),
        gap.reason());
  }

  List<VigilRow> vigils() throws SQLException {
    return select(
        "SELECT id, program, started_unix_micros, started_micros FROM vigil ORDER BY id",
        r -> new VigilRow(r.getLong(1), r.getString(2), r.getLong(3), r.getLong(4)));
  }

  List<Stream> streams(long vigil) throws SQLException {
    return select(
        "SELECT id, kind, name, period_micros FROM stream WHERE vigil = ? ORDER BY id",
        r ->
            new Stream(
                r.getLong(1),
                Kind.valueOf(r.getString(2).toUpperCase(Locale.ROOT)),
                r.getString(3),
                r.getLong(4)),
        vigil);
  }

  List<Row> journal(long vigil) throws SQLException {
    return select(
        "SELECT number, crc32c, payload FROM journal WHERE vigil = ? ORDER BY number",
        r -> row(new Place(vigil, -1, r.getLong(1)), r.getLong(2), r.getBytes(3)),
        vigil);
  }

  List<Row> pyramid(Stream stream, int level, long firstRow, long lastRow) throws SQLException {
    return select(
        "SELECT row, crc32c, payload FROM pyramid"
            + " WHERE stream = ? AND level = ? AND row BETWEEN ? AND ? ORDER BY row",
        r -> row(new Place(stream.id(), level, r.getLong(1)), r.getLong(2), r.getBytes(3)),
        stream.id(),
        level,
        firstRow,
        lastRow);
  }

  /** The spans that have a block, least first. */
  List<Long> spans(Stream stream, long firstSpan, long lastSpan) throws SQLException {
    return select(
        "SELECT span FROM block WHERE stream = ? AND span BETWEEN ? AND ? ORDER BY span",
        r -> r.getLong(1),
        stream.id(),
        firstSpan,
        lastSpan);
  }

  Optional<Block> block(Stream stream, long span) throws SQLException {
    return select(
            "SELECT span, first_micros, last_micros, crc32c, payload FROM block"
                + " WHERE stream = ? AND span = ?",
            r -> block(stream, r),
            stream.id(),
            span)
        .stream()
        .findFirst();
  }

  Optional<Block> lastBlock(Stream stream) throws SQLException {
    return select(
            "SELECT span, first_micros, last_micros, crc32c, payload FROM block"
                + " WHERE stream = ? ORDER BY span DESC LIMIT 1",
            r -> block(stream, r),
            stream.id())
        .stream()
        .findFirst();
  }

  /** Those that overlap the time, by their start. */
  List<Gap> gaps(Stream stream, long fromMicros, long toMicros) throws SQLException {
    return select(
        "SELECT from_micros, to_micros, reason FROM gap"
            + " WHERE stream = ? AND from_micros < ? AND to_micros > ? ORDER BY from_micros",
        r -> new Gap(r.getLong(1), r.getLong(2), r.getString(3)),
        stream.id(),
        toMicros,
        fromMicros);
  }

  List<VigilEvent> events(long vigil) throws SQLException {
    return select(
        "SELECT port, first_micros, last_micros, latched, cut FROM event"
            + " WHERE vigil = ? ORDER BY first_micros, port",
        r ->
            new VigilEvent(
                r.getInt(1), r.getLong(2), r.getLong(3), r.getBoolean(4), r.getBoolean(5)),
        vigil);
  }

  List<Mark> marks(long vigil) throws SQLException {
    return select(
        "SELECT at_micros, text FROM mark WHERE vigil = ? ORDER BY at_micros",
        r -> new Mark(r.getLong(1), r.getString(2)),
        vigil);
  }

  private static Block block(Stream stream, ResultSet r) throws SQLException {
    Place place = new Place(stream.id(), 0, r.getLong(1));
    return new Block(place, r.getLong(2), r.getLong(3), new Packed(r.getLong(4), r.getBytes(5)));
  }

  private static Row row(Place place, long crc, byte[] payload) {
    return new Row(place, new Packed(crc, payload));
  }

  private long numbered(String sql, Object... values) throws SQLException {
    change(sql, values);
    return select("SELECT last_insert_rowid()", r -> r.getLong(1)).get(0);
  }

  private void change(String sql, Object... values) throws SQLException {
    try (PreparedStatement statement = prepared(sql, values)) {
      statement.executeUpdate();
    }
  }

  private <T> List<T> select(String sql, Reading<T> reading, Object... values) throws SQLException {
    try (PreparedStatement statement = prepared(sql, values);
        ResultSet rows = statement.executeQuery()) {
      List<T> read = new ArrayList<>();
      while (rows.next()) {
        read.add(reading.read(rows));
      }
      return read;
    }
  }

  private PreparedStatement prepared(String sql, Object... values) throws SQLException {
    PreparedStatement statement = connection.prepareStatement(sql);
    for (int i = 0; i < values.length; i++) {
      statement.setObject(i + 1, values[i]);
    }
    return statement;
  }
}
