package bellwire.app.export;

import bellwire.app.export.Table.Column;
import bellwire.app.export.Table.Type;
import bellwire.app.job.Stream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** The tables of an exported vigil: names and columns. docs/vigil-export.md lists them. */
final class VigilTableShapes {
  static final List<Column> EVENTS =
      List.of(
          column("port", Type.TEXT, "P1 to P16, M for the clip on bare metal"),
          column("others", Type.TEXT, "touch: ports that may be the other one; else empty"),
          column("first_utc", Type.UTC, "wall time of its first tick"),
          column("before_micros", Type.LONG, "last tick without it, before it"),
          column("first_micros", Type.LONG, "its first tick"),
          column("last_micros", Type.LONG, "its last tick"),
          column("after_micros", Type.LONG, "first tick without it, after it"),
          column("times", Type.SHORT, "how often it came and went in that time"),
          column("latched", Type.FLAG, "only a latch saw it: shorter than a tick"),
          column("cut_before", Type.FLAG, "a gap or the start hides its beginning"),
          column("cut_after", Type.FLAG, "a gap or the end hides its end"));

  static final List<Column> MARKS =
      List.of(
          column("utc", Type.UTC, "wall time"),
          column("micros", Type.LONG, "device time"),
          column("text", Type.TEXT, "what a person noted"));

  static final List<Column> GAPS =
      List.of(
          column("stream", Type.TEXT, "of which there are no samples in that time"),
          column("from_utc", Type.UTC, "wall time of its begin"),
          column("from_micros", Type.LONG, "where the first missing sample would have been"),
          column("to_micros", Type.LONG, "the next sample, or the end that was told"),
          column("reason", Type.TEXT, "why"));

  static final List<Column> FACTS =
      List.of(
          column("fact", Type.TEXT, "what is told"), column("value", Type.TEXT, "of this vigil"));

  private static final List<Column> RUNS =
      List.of(
          column("first_utc", Type.UTC, "wall time of the run's first tick"),
          column("first_micros", Type.LONG, "device time of the run's first tick"),
          column("ticks", Type.SHORT, "ticks alike, one period apart"),
          column("word", Type.SHORT, "bits at each of them: 1 for P1, 2 for P2, 4 for P3 ..."),
          column("latches", Type.SHORT, "bits that were set at any time since the tick before"));

  private static final Column CODE =
      column("group_code", Type.SHORT, "group pattern of the first tick, going on by one each");

  private static final List<Column> CODES =
      List.of(
          column("utc", Type.UTC, "wall time"),
          column("micros", Type.LONG, "device time at the conversion's end"),
          column("code", Type.SHORT, "the converter's, signed 24 bit"));

  private VigilTableShapes() {}

  private static Column column(String name, Type type, String meaning) {
    return new Column(name, type, meaning);
  }

  static Table of(String name, List<Column> columns, Map<String, String> facts) {
    return new Table(name, columns, facts);
  }

  /** Words as runs of like ticks: a quiet day is few rows. */
  static Table samples(Stream stream, Map<String, String> facts) {
    List<Column> columns = new ArrayList<>(stream.kind() == Stream.Kind.WORDS ? RUNS : CODES);
    if (stream.codes() > 1) {
      columns.add(CODE);
    }
    Map<String, String> all = new java.util.TreeMap<>(facts);
    all.put("stream", stream.name());
    all.put("period_micros", Long.toString(stream.periodMicros()));
    all.put("group_codes", Integer.toString(stream.codes()));
    return new Table("samples-" + fileName(stream.name()), columns, all);
  }

  /** Only what every system takes in a file's name. */
  private static String fileName(String stream) {
    String plain = stream.toLowerCase(Locale.ROOT).replaceAll("[^a-z0-9]+", "-");
    return plain.replaceAll("^-|-$", "");
  }

  /** 'P3', 'M'. */
  static String port(int port) {
    return port == 16 ? "M" : "P" + (port + 1);
  }

  /** 'P3 P5 M'. */
  static String ports(int bits) {
    List<String> names = new ArrayList<>();
    for (int port = 0; port <= 16; port++) {
      if ((bits >> port & 1) != 0) {
        names.add(port(port));
      }
    }
    return String.join(" ", names);
  }
}
