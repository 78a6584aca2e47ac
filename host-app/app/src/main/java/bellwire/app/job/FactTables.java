package bellwire.app.job;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Every statement on the tables of what is known of a vigil beside its samples. */
final class FactTables {
  private final Statements sql;

  FactTables(Statements sql) {
    this.sql = sql;
  }

  /** To be run in one {@link Transaction}. */
  long startVigil(Watched watched, long startedUnixMicros, long startedMicros) throws SQLException {
    long vigil =
        sql.numbered(
            "INSERT INTO vigil (program, started_unix_micros, started_micros) VALUES (?, ?, ?)",
            watched.program(),
            startedUnixMicros,
            startedMicros);
    // SQLite stores what is not a number as NULL.
    sql.change(
        "INSERT INTO watched (vigil, number, ports, returned, wetting, loads, length_micros,"
            + " board, note, shortest_opening_micros, expected_ohms, mains_hertz)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        vigil,
        watched.vigil(),
        watched.ports(),
        watched.returned(),
        watched.wetting(),
        watched.loads(),
        watched.lengthMicros(),
        watched.board(),
        watched.note(),
        watched.shortestOpeningMicros(),
        watched.expectedOhms(),
        watched.mainsHertz());
    for (Map.Entry<Integer, String> each : watched.names().entrySet()) {
      sql.change(
          "INSERT INTO name (vigil, number, text) VALUES (?, ?, ?)",
          vigil,
          each.getKey(),
          each.getValue());
    }
    return vigil;
  }

  void board(long vigil, String words) throws SQLException {
    sql.change("UPDATE watched SET board = ? WHERE vigil = ?", words, vigil);
  }

  List<VigilRow> vigils() throws SQLException {
    return sql.select(
        "SELECT id, program, started_unix_micros, started_micros, ended_micros, outcome"
            + " FROM vigil ORDER BY id",
        r ->
            new VigilRow(
                r.getLong(1), Statements.text(r, 2), r.getLong(3), r.getLong(4), ending(r)));
  }

  private static Optional<Ending> ending(ResultSet row) throws SQLException {
    String outcome = row.getString(6);
    return outcome == null ? Optional.empty() : Optional.of(new Ending(row.getLong(5), outcome));
  }

  /** Empty of a vigil that an earlier version began. */
  Optional<Watched> watched(long vigil) throws SQLException {
    Map<Integer, String> names = new HashMap<>();
    sql.select(
            "SELECT number, text FROM name WHERE vigil = ?",
            r -> Map.entry(r.getInt(1), Statements.text(r, 2)),
            vigil)
        .forEach(each -> names.put(each.getKey(), each.getValue()));
    return sql
        .select(
            "SELECT w.number, v.program, w.ports, w.returned, w.wetting, w.loads, w.length_micros,"
                + " w.board, w.note, w.shortest_opening_micros,"
                + " w.expected_ohms, w.mains_hertz"
                + " FROM watched w JOIN vigil v ON v.id = w.vigil WHERE w.vigil = ?",
            r -> {
              double shortest = r.getDouble(10);
              boolean unknown = r.wasNull();
              return new Watched(
                  r.getLong(1),
                  Statements.text(r, 2),
                  r.getInt(3),
                  r.getInt(4),
                  r.getBoolean(5),
                  r.getInt(6),
                  r.getLong(7),
                  Statements.text(r, 8),
                  Statements.text(r, 9),
                  unknown ? Double.NaN : shortest,
                  r.getDouble(11),
                  r.getInt(12),
                  names);
            },
            vigil)
        .stream()
        .findFirst();
  }

  void put(long vigil, Ending ending) throws SQLException {
    sql.change(
        "UPDATE vigil SET ended_micros = ?, outcome = ? WHERE id = ?",
        ending.micros(),
        ending.outcome(),
        vigil);
  }

  /** The latest of its boot, and of all. */
  void put(long vigil, Source source) throws SQLException {
    sql.change(
        "INSERT OR REPLACE INTO source (vigil, boot, turn, next_sequence, offset_micros)"
            + " VALUES (?1, ?2, (SELECT ifnull(max(turn), 0) + 1 FROM source WHERE vigil = ?1),"
            + " ?3, ?4)",
        vigil,
        source.boot(),
        source.nextSequence(),
        source.offsetMicros());
  }

  /** The latest first. */
  List<Source> sources(long vigil) throws SQLException {
    return sql.select(
        "SELECT boot, next_sequence, offset_micros FROM source WHERE vigil = ? ORDER BY turn DESC",
        r -> new Source(r.getLong(1), r.getLong(2), r.getLong(3)),
        vigil);
  }

  /** Of all vigils; the latest first. */
  List<Source> sources() throws SQLException {
    return sql.select(
        "SELECT boot, max(next_sequence), offset_micros FROM source GROUP BY boot"
            + " ORDER BY max(vigil) DESC, max(turn) DESC",
        r -> new Source(r.getLong(1), r.getLong(2), r.getLong(3)));
  }

  void put(long vigil, VigilEvent event) throws SQLException {
    sql.change(
        "INSERT OR REPLACE INTO event (vigil, port, others, before_micros, first_micros,"
            + " last_micros, after_micros, times, latched, cut_before, cut_after)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        vigil,
        event.port(),
        event.others(),
        event.beforeMicros(),
        event.firstMicros(),
        event.lastMicros(),
        event.afterMicros(),
        event.times(),
        event.latched(),
        event.cutBefore(),
        event.cutAfter());
  }

  List<VigilEvent> events(long vigil) throws SQLException {
    return sql.select(
        "SELECT port, others, before_micros, first_micros, last_micros, after_micros, times,"
            + " latched, cut_before, cut_after FROM event WHERE vigil = ?"
            + " ORDER BY first_micros, port",
        r ->
            new VigilEvent(
                r.getInt(1),
                r.getInt(2),
                r.getLong(3),
                r.getLong(4),
                r.getLong(5),
                r.getLong(6),
                r.getInt(7),
                r.getBoolean(8),
                r.getBoolean(9),
                r.getBoolean(10)),
        vigil);
  }

  void put(long vigil, Mark mark) throws SQLException {
    sql.change(
        "INSERT INTO mark (vigil, at_micros, text) VALUES (?, ?, ?)",
        vigil,
        mark.micros(),
        mark.text());
  }

  List<Mark> marks(long vigil) throws SQLException {
    return sql.select(
        "SELECT at_micros, text FROM mark WHERE vigil = ? ORDER BY at_micros",
        r -> new Mark(r.getLong(1), Statements.text(r, 2)),
        vigil);
  }
}
