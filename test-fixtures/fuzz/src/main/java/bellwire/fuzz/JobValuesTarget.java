package bellwire.fuzz;

import bellwire.app.export.JobFormat;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.zip.CRC32C;
import java.util.zip.Deflater;

/**
 * A job file that any SQL tool has written values into: absurd numbers, texts, payloads whose
 * checksums are right. What is exported of it holds nothing but text where it holds text.
 */
final class JobValuesTarget implements Target {
  private static final Set<JobFormat> ALL = EnumSet.allOf(JobFormat.class);
  private static final Set<JobFormat> MANY =
      EnumSet.of(JobFormat.CSV, JobFormat.JSON, JobFormat.HTML);
  private static final int MOST_CHANGES = 48;

  /** The first byte of a script whose job is exported in all formats. */
  private static final int EVERYTHING = 31;

  private static final int TURNS = 3;
  private static final List<String> HARMFUL =
      List.of(
          "<script>alert(1)</script>]]>",
          "\"><img src=x onerror='y'>&amp;&#x0;",
          "=HYPERLINK(\"http://x.example\")",
          "@SUM(1)\r\n-1+1,\"",
          "../../../etc/x",
          "\u001b]0;x\u0007\u202Eexe\u0000",
          "javascript:alert(1)//\uFFFE\uD83D");

  private static final Set<String> WORDS =
      Set.of(
          "text",
          "what",
          "reading",
          "person",
          "name",
          "near_place",
          "far_place",
          "note",
          "near_colour",
          "far_colour",
          "caption",
          "board",
          "outcome",
          "reason");

  private record Column(String table, String name) {}

  private final Scratch scratch = new Scratch("values");
  private final byte[] sample;
  private final List<Column> columns = new ArrayList<>();
  private final Exported plain;

  JobValuesTarget() {
    try {
      Path file = scratch.directory().resolve("sample.bellwire");
      SampleJob.write(file);
      sample = Files.readAllBytes(file);
      try (Connection sql = connect(file);
          ResultSet rows = sql.getMetaData().getColumns(null, null, "%", "%")) {
        while (rows.next()) {
          if (!rows.getString(3).startsWith("sqlite_")) {
            columns.add(new Column(rows.getString(3), rows.getString(4)));
          }
        }
      }
      Path into = Files.createDirectory(scratch.directory().resolve("plain"));
      JobReading.exported(file, into, MANY);
      plain = Exported.of(into);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (SQLException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Connection connect(Path file) throws SQLException {
    return DriverManager.getConnection("jdbc:sqlite:" + file);
  }

  @Override
  public void take(byte[] input) throws IOException, SQLException {
    scratch.empty();
    Path job = scratch.file("job.bellwire", sample);
    Script script = new Script(input);
    int how = script.octet();
    try (Connection sql = connect(job)) {
      run(sql, "PRAGMA ignore_check_constraints = ON");
      run(sql, "PRAGMA synchronous = OFF");
      sql.setAutoCommit(false);
      for (int i = 0; i < MOST_CHANGES && !script.atEnd(); i++) {
        change(sql, script);
      }
      mend(sql);
      sql.commit();
    }
    JobReading.read(job);
    if (how % 8 == 0 || how == EVERYTHING) {
      Path into = Files.createDirectory(scratch.directory().resolve("out"));
      if (JobReading.exported(job, into, how == EVERYTHING ? ALL : MANY)) {
        Exported.of(into).check(plain);
      }
    }
    JobReading.opened(job);
  }

  private void change(Connection sql, Script script) throws SQLException {
    Column column = columns.get(script.octet() % columns.size());
    Object value =
        switch (script.octet() % 5) {
          case 0 -> script.eight();
          case 1 -> Double.longBitsToDouble(script.eight());
          case 2 -> deflated(script.bytes(script.pair() % 2048));
          case 3 -> script.bytes(script.pair() % 2048);
          default -> new String(script.bytes(script.pair() % 2048), StandardCharsets.UTF_8);
        };
    String statement = "UPDATE OR IGNORE " + column.table + " SET " + column.name + " = ?";
    try (PreparedStatement update = sql.prepareStatement(statement)) {
      update.setObject(1, value);
      update.executeUpdate();
    } catch (SQLException e) {
      // A STRICT table takes no value of another type; JobBytesTarget goes past that.
    }
  }

  /** As a payload is stored: its length before compression, then RFC 1951. */
  private static byte[] deflated(byte[] plain) {
    Deflater deflater = new Deflater(1, true);
    deflater.setInput(plain);
    deflater.finish();
    byte[] room = new byte[plain.length + 64];
    int length = deflater.deflate(room);
    deflater.end();
    ByteBuffer out = ByteBuffer.allocate(length + 5);
    int left = plain.length;
    for (; left >= 0x80; left >>= 7) {
      out.put((byte) (left | 0x80));
    }
    out.put((byte) left).put(room, 0, length);
    return Arrays.copyOf(out.array(), out.position());
  }

  private static void mend(Connection sql) throws SQLException {
    mend(sql, "block", "stream", "0", "span", "stream = ? AND span = ?");
    mend(sql, "pyramid", "stream", "level", "row", "stream = ? AND row = ? AND level = ?");
    mend(sql, "journal", "vigil", "-1", "number", "vigil = ? AND number = ?");
  }

  private static void mend(
      Connection sql, String table, String of, String level, String index, String where)
      throws SQLException {
    String all = "SELECT " + of + ", " + level + ", " + index + ", payload FROM " + table;
    String put = "UPDATE " + table + " SET crc32c = ? WHERE " + where;
    try (Statement query = sql.createStatement();
        ResultSet rows = query.executeQuery(all);
        PreparedStatement update = sql.prepareStatement(put)) {
      while (rows.next()) {
        update.setLong(1, crc(rows.getLong(1), rows.getInt(2), rows.getLong(3), rows.getBytes(4)));
        update.setLong(2, rows.getLong(1));
        update.setLong(3, rows.getLong(3));
        if (table.equals("pyramid")) {
          update.setInt(4, rows.getInt(2));
        }
        update.executeUpdate();
      }
    }
  }

  private static long crc(long of, int level, long index, byte[] payload) {
    CRC32C crc = new CRC32C();
    crc.update(ByteBuffer.allocate(20).putLong(of).putInt(level).putLong(index).flip());
    crc.update(payload);
    return crc.getValue();
  }

  private static void run(Connection sql, String statement) throws SQLException {
    try (Statement one = sql.createStatement()) {
      one.execute(statement);
    }
  }

  /** Texts that do harm somewhere, in every column that a person's words are in; in turn. */
  static List<byte[]> seeds() {
    JobValuesTarget target = new JobValuesTarget();
    List<byte[]> seeds = new ArrayList<>();
    for (int turn = 0; turn < TURNS; turn++) {
      ByteArrayOutputStream seed = new ByteArrayOutputStream();
      seed.write(turn == 0 ? EVERYTHING : 0);
      for (int i = 0; i < target.columns.size(); i++) {
        if (WORDS.contains(target.columns.get(i).name())) {
          String text = HARMFUL.get((i + turn) % HARMFUL.size());
          byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
          seed.writeBytes(new byte[] {(byte) i, 4, (byte) bytes.length, 0});
          seed.writeBytes(bytes);
        }
      }
      seeds.add(seed.toByteArray());
    }
    return seeds;
  }
}
