package bellwire.app.job;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.Locale;

/** Every statement on the tables of a visit's records. */
final class RecordTables {
  private final Statements sql;

  RecordTables(Statements sql) {
    this.sql = sql;
  }

  Statements sql() {
    return sql;
  }

  String fact(String name) throws SQLException {
    return one("SELECT text FROM fact WHERE name = ?", name);
  }

  void putFact(String name, String text) throws SQLException {
    sql.change(
        "INSERT INTO fact (name, text) VALUES (?, ?)"
            + " ON CONFLICT (name) DO UPDATE SET text = excluded.text",
        name,
        text);
  }

  String left(String key) throws SQLException {
    return one("SELECT value FROM desk WHERE key = ?", key);
  }

  void putLeft(String key, String value) throws SQLException {
    sql.change(
        "INSERT INTO desk (key, value) VALUES (?, ?)"
            + " ON CONFLICT (key) DO UPDATE SET value = excluded.value",
        key,
        value);
  }

  private String one(String query, String key) throws SQLException {
    List<String> found = sql.select(query, r -> Statements.text(r, 1), key);
    return found.isEmpty() ? "" : found.get(0);
  }

  List<Act> acts() throws SQLException {
    return sql.select(
        "SELECT id, kind, what, reading, person, at_unix_micros, withdrawn FROM act ORDER BY id",
        r ->
            new Act(
                r.getLong(1),
                named(Act.Kind.class, Statements.text(r, 2)),
                Statements.text(r, 3),
                Statements.text(r, 4),
                Statements.text(r, 5),
                r.getLong(6),
                r.getBoolean(7)));
  }

  long addAct(Act a) throws SQLException {
    return sql.numbered(
        "INSERT INTO act (kind, what, reading, person, at_unix_micros, withdrawn)"
            + " VALUES (?, ?, ?, ?, ?, ?)",
        name(a.kind()),
        a.what(),
        a.reading(),
        a.by(),
        a.atUnixMicros(),
        a.withdrawn());
  }

  int withdrawAct(long act) throws SQLException {
    return sql.change("UPDATE act SET withdrawn = 1 WHERE id = ?", act);
  }

  List<CableRow> cables() throws SQLException {
    return sql.select(
        "SELECT id, name, gauge, metres, celsius, near_place, far_place, note FROM cable"
            + " ORDER BY id",
        r ->
            new CableRow(
                r.getLong(1),
                Statements.text(r, 2),
                Statements.text(r, 3),
                real(r, 4),
                real(r, 5),
                Statements.text(r, 6),
                Statements.text(r, 7),
                Statements.text(r, 8)));
  }

  /** SQLite stores what is not a number as NULL. */
  private static double real(ResultSet row, int column) throws SQLException {
    double value = row.getDouble(column);
    return row.wasNull() ? Double.NaN : value;
  }

  long addCable(CableRow c) throws SQLException {
    return sql.numbered(
        "INSERT INTO cable (name, gauge, metres, celsius, near_place, far_place, note)"
            + " VALUES (?, ?, ?, ?, ?, ?, ?)",
        c.name(),
        c.gauge(),
        c.metres(),
        c.celsius(),
        c.nearPlace(),
        c.farPlace(),
        c.note());
  }

  int changeCable(CableRow c) throws SQLException {
    return sql.change(
        "UPDATE cable SET name = ?, gauge = ?, metres = ?, celsius = ?, near_place = ?,"
            + " far_place = ?, note = ? WHERE id = ?",
        c.name(),
        c.gauge(),
        c.metres(),
        c.celsius(),
        c.nearPlace(),
        c.farPlace(),
        c.note(),
        c.id());
  }

  boolean hasCable(long cable) throws SQLException {
    return !sql.select("SELECT 1 FROM cable WHERE id = ?", r -> 1, cable).isEmpty();
  }

  List<ConductorRow> conductors(long cable) throws SQLException {
    return sql.select(
        "SELECT port, near_colour, far_colour, note FROM conductor WHERE cable = ? ORDER BY port",
        r ->
            new ConductorRow(
                cable,
                r.getInt(1),
                Statements.text(r, 2),
                Statements.text(r, 3),
                Statements.text(r, 4)),
        cable);
  }

  void putConductor(ConductorRow c) throws SQLException {
    sql.change(
        "INSERT INTO conductor (cable, port, near_colour, far_colour, note) VALUES (?, ?, ?, ?, ?)"
            + " ON CONFLICT (cable, port) DO UPDATE SET near_colour = excluded.near_colour,"
            + " far_colour = excluded.far_colour, note = excluded.note",
        c.cable(),
        c.port(),
        c.nearColour(),
        c.farColour(),
        c.note());
  }

  void removeConductor(long cable, int port) throws SQLException {
    sql.change("DELETE FROM conductor WHERE cable = ? AND port = ?", cable, port);
  }

  /** Those with greater keys, in their order, without their readings. */
  List<SurveyRow> surveyResults(long after) throws SQLException {
    return sql.select(
        "SELECT id, cable, in_place, stage, at_unix_micros, json FROM survey WHERE id > ? ORDER BY"
            + " id",
        r -> survey(r, new byte[0]),
        after);
  }

  List<SurveyRow> surveys() throws SQLException {
    return sql.select(
        "SELECT id, cable, in_place, stage, at_unix_micros, json, readings FROM survey ORDER BY id",
        r -> survey(r, Statements.bytes(r, 7)));
  }

  private static SurveyRow survey(ResultSet r, byte[] readings) throws SQLException {
    return new SurveyRow(
        r.getLong(1),
        r.getLong(2),
        r.getBoolean(3),
        named(Stage.class, Statements.text(r, 4)),
        r.getLong(5),
        Statements.text(r, 6),
        readings);
  }

  long addSurvey(SurveyRow s) throws SQLException {
    return sql.numbered(
        "INSERT INTO survey (cable, in_place, stage, at_unix_micros, json, readings)"
            + " VALUES (?, ?, ?, ?, ?, ?)",
        s.cable(),
        s.inPlace(),
        name(s.stage()),
        s.atUnixMicros(),
        s.json(),
        s.readings());
  }

  List<LandingRow> landings() throws SQLException {
    return sql.select(
        "SELECT id, cable, at_unix_micros, text FROM landing ORDER BY id",
        r -> new LandingRow(r.getLong(1), r.getLong(2), r.getLong(3), Statements.text(r, 4)));
  }

  long addLanding(LandingRow l) throws SQLException {
    return sql.numbered(
        "INSERT INTO landing (cable, at_unix_micros, text) VALUES (NULLIF(?, 0), ?, ?)",
        l.cable(),
        l.atUnixMicros(),
        l.text());
  }

  int changeLanding(LandingRow l) throws SQLException {
    return sql.change(
        "UPDATE landing SET cable = NULLIF(?, 0), at_unix_micros = ?, text = ? WHERE id = ?",
        l.cable(),
        l.atUnixMicros(),
        l.text(),
        l.id());
  }

  List<RehearsalRow> rehearsals() throws SQLException {
    return sql.select(
        "SELECT id, at_unix_micros, live, file, options, json, trace FROM rehearsal ORDER BY id",
        r ->
            new RehearsalRow(
                r.getLong(1),
                r.getLong(2),
                r.getBoolean(3),
                Statements.text(r, 4),
                Statements.text(r, 5).lines().toList(),
                Statements.text(r, 6),
                Statements.bytes(r, 7)));
  }

  /** 0 where there is none. */
  long lastRehearsal() throws SQLException {
    return sql.select("SELECT COALESCE(MAX(at_unix_micros), 0) FROM rehearsal", r -> r.getLong(1))
        .get(0);
  }

  long addRehearsal(RehearsalRow r) throws SQLException {
    return sql.numbered(
        "INSERT INTO rehearsal (at_unix_micros, live, file, options, json, trace)"
            + " VALUES (?, ?, ?, ?, ?, ?)",
        r.atUnixMicros(),
        r.live(),
        r.file(),
        String.join("\n", r.options()),
        r.json(),
        r.trace());
  }

  List<Tick> ticks() throws SQLException {
    return sql.select(
        "SELECT item, state, basis, person, at_unix_micros, note FROM tick ORDER BY item",
        r ->
            new Tick(
                Statements.text(r, 1),
                named(Tick.State.class, Statements.text(r, 2)),
                named(Tick.Basis.class, Statements.text(r, 3)),
                Statements.text(r, 4),
                r.getLong(5),
                Statements.text(r, 6)));
  }

  void putTick(Tick t) throws SQLException {
    sql.change(
        "INSERT INTO tick (item, state, basis, person, at_unix_micros, note)"
            + " VALUES (?, ?, ?, ?, ?, ?) ON CONFLICT (item) DO UPDATE SET state = excluded.state,"
            + " basis = excluded.basis, person = excluded.person,"
            + " at_unix_micros = excluded.at_unix_micros, note = excluded.note",
        t.item(),
        name(t.state()),
        name(t.basis()),
        t.by(),
        t.atUnixMicros(),
        t.note());
  }

  List<Photo> photos() throws SQLException {
    return sql.select(
        "SELECT id, stage, caption, at_unix_micros, mime, length(picture) FROM photo ORDER BY id",
        r ->
            new Photo(
                r.getLong(1),
                named(Stage.class, Statements.text(r, 2)),
                Statements.text(r, 3),
                r.getLong(4),
                Statements.text(r, 5),
                r.getLong(6)));
  }

  long photoCount() throws SQLException {
    return sql.select("SELECT count(*) FROM photo", r -> r.getLong(1)).get(0);
  }

  long addPhoto(Photo p, String mime, byte[] picture) throws SQLException {
    return sql.numbered(
        "INSERT INTO photo (stage, caption, at_unix_micros, mime, picture) VALUES (?, ?, ?, ?, ?)",
        name(p.stage()),
        p.caption(),
        p.atUnixMicros(),
        mime,
        picture);
  }

  int changePhoto(long photo, Stage stage, String caption) throws SQLException {
    return sql.change(
        "UPDATE photo SET stage = ?, caption = ? WHERE id = ?", name(stage), caption, photo);
  }

  int removePhoto(long photo) throws SQLException {
    return sql.change("DELETE FROM photo WHERE id = ?", photo);
  }

  List<byte[]> picture(long photo) throws SQLException {
    return sql.select("SELECT picture FROM photo WHERE id = ?", r -> Statements.bytes(r, 1), photo);
  }

  /** A name as the tables have it: not-done for NOT_DONE. */
  static String name(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static <E extends Enum<E>> E named(Class<E> type, String name) throws SQLException {
    try {
      return Enum.valueOf(type, name.toUpperCase(Locale.ROOT).replace('-', '_'));
    } catch (IllegalArgumentException e) {
      throw new SQLException("a row has a word that this version does not know: " + name, e);
    }
  }
}
