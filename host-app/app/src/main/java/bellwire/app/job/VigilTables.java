package bellwire.app.job;

import bellwire.app.job.Packed.Place;
import bellwire.app.job.Stream.Kind;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Consumer;

/**
 * Every statement on the tables of a vigil's samples. Those that belong together are run in one
 * {@link Transaction}.
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

  private final Statements sql;
  private final FactTables facts;

  VigilTables(Connection connection) {
    sql = new Statements(connection);
    facts = new FactTables(sql);
  }

  Connection connection() {
    return sql.connection();
  }

  FactTables facts() {
    return facts;
  }

  long addStream(long vigil, Stream stream) throws SQLException {
    return sql.numbered(
        "INSERT INTO stream (vigil, kind, name, period_micros, codes, bucket_micros, buckets)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?)",
        vigil,
        stream.kind().name().toLowerCase(Locale.ROOT),
        stream.name(),
        stream.periodMicros(),
        stream.codes(),
        stream.bucketMicros(),
        stream.buckets());
  }

  void put(Block block) throws SQLException {
    sql.change(
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
    sql.change(
        "INSERT OR REPLACE INTO pyramid (stream, level, row, crc32c, payload)"
            + " VALUES (?, ?, ?, ?, ?)",
        row.place.stream(),
        row.place.level(),
        row.place.index(),
        row.packed.crc32c(),
        row.packed.payload());
  }

  void putJournal(Row row) throws SQLException {
    sql.change(
        "INSERT INTO journal (vigil, number, crc32c, payload) VALUES (?, ?, ?, ?)",
        row.place.stream(),
        row.place.index(),
        row.packed.crc32c(),
        row.packed.payload());
  }

  void dropJournal(long vigil) throws SQLException {
    sql.change("DELETE FROM journal WHERE vigil = ?", vigil);
  }

  void put(Stream stream, Gap gap) throws SQLException {
    sql.change(
        "INSERT OR IGNORE INTO gap (stream, from_micros, to_micros, reason) VALUES (?, ?, ?, ?)",
        stream.id(),
        gap.fromMicros(),
        gap.toMicros(),
        gap.reason());
  }

  List<Stream> streams(long vigil) throws SQLException {
    return sql.select(
        "SELECT id, kind, name, period_micros, codes, bucket_micros, buckets FROM stream"
            + " WHERE vigil = ? ORDER BY id",
        r ->
            new Stream(
                r.getLong(1),
                Kind.valueOf(Statements.text(r, 2).toUpperCase(Locale.ROOT)),
                Statements.text(r, 3),
                r.getLong(4),
                r.getInt(5),
                r.getLong(6),
                r.getInt(7)),
        vigil);
  }

  List<Row> journal(long vigil) throws SQLException {
    return sql.select(
        "SELECT number, crc32c, payload FROM journal WHERE vigil = ? ORDER BY number",
        r -> row(new Place(vigil, -1, r.getLong(1)), r.getLong(2), Statements.bytes(r, 3)),
        vigil);
  }

  List<Row> pyramid(Stream stream, int level, long firstRow, long lastRow) throws SQLException {
    return sql.select(
        "SELECT row, crc32c, payload FROM pyramid"
            + " WHERE stream = ? AND level = ? AND row BETWEEN ? AND ? ORDER BY row",
        r -> row(new Place(stream.id(), level, r.getLong(1)), r.getLong(2), Statements.bytes(r, 3)),
        stream.id(),
        level,
        firstRow,
        lastRow);
  }

  /** One after the other, so that memory holds one at a time. */
  void blocks(Stream stream, long firstSpan, long lastSpan, Consumer<Block> blocks)
      throws SQLException {
    sql.each(
        "SELECT span, first_micros, last_micros, crc32c, payload FROM block"
            + " WHERE stream = ? AND span BETWEEN ? AND ? ORDER BY span",
        r -> block(stream, r),
        blocks,
        stream.id(),
        firstSpan,
        lastSpan);
  }

  Optional<Block> lastBlock(Stream stream) throws SQLException {
    return sql
        .select(
            "SELECT span, first_micros, last_micros, crc32c, payload FROM block"
                + " WHERE stream = ? ORDER BY span DESC LIMIT 1",
            r -> block(stream, r),
            stream.id())
        .stream()
        .findFirst();
  }

  /** Those that overlap the time, by their start. */
  List<Gap> gaps(Stream stream, long fromMicros, long toMicros) throws SQLException {
    return sql.select(
        "SELECT from_micros, to_micros, reason FROM gap"
            + " WHERE stream = ? AND from_micros < ? AND to_micros > ? ORDER BY from_micros",
        r -> new Gap(r.getLong(1), r.getLong(2), Statements.text(r, 3)),
        stream.id(),
        toMicros,
        fromMicros);
  }

  private static Block block(Stream stream, ResultSet r) throws SQLException {
    Place place = new Place(stream.id(), 0, r.getLong(1));
    return new Block(
        place, r.getLong(2), r.getLong(3), new Packed(r.getLong(4), Statements.bytes(r, 5)));
  }

  private static Row row(Place place, long crc, byte[] payload) {
    return new Row(place, new Packed(crc, payload));
  }
}
