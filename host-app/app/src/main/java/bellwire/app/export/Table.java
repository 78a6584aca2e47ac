package bellwire.app.export;

import java.util.List;
import java.util.Map;

/**
 * What a file holds.
 *
 * @param name the file's, without its ending
 * @param columns in their order
 * @param facts what holds for all rows; a format that has no place for them leaves them out
 */
public record Table(String name, List<Column> columns, Map<String, String> facts) {
  public Table {
    columns = List.copyOf(columns);
    facts = Map.copyOf(facts);
  }

  /** What a column's values are. */
  public enum Type {
    /** A whole number of 32 bit. */
    SHORT,
    /** A whole number of 64 bit. */
    LONG,
    /** Wall time, µs since 1970 UTC. */
    UTC,
    /** Words. */
    TEXT,
    /** Yes or no. */
    FLAG
  }

  /**
   * A column.
   *
   * @param name with its unit last
   * @param meaning for people
   */
  public record Column(String name, Type type, String meaning) {}
}
