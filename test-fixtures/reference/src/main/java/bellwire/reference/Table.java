package bellwire.reference;

import java.util.List;

/**
 * Rows of one kind from one source.
 *
 * @param name topic and table, as in {@code copper/solid-20-celsius}
 * @param source where the values come from
 * @param status how they were obtained; a row may have its own
 * @param note what to know before using them, possibly empty
 */
public record Table(String name, String source, Status status, String note, List<Row> rows) {

  public Table {
    rows = List.copyOf(rows);
  }

  /** The only row of a table that has one. */
  public Row only() {
    if (rows.size() != 1) {
      throw new IllegalStateException("table=" + name + " rows=" + rows.size());
    }
    return rows.get(0);
  }

  /** The first row whose cell reads as the given text. */
  public Row row(String column, String text) {
    for (Row row : rows) {
      if (row.has(column) && row.text(column).equals(text)) {
        return row;
      }
    }
    throw new IllegalArgumentException("table=" + name + " " + column + "=" + text);
  }

  /** A column of numbers, from those rows that have it. */
  public double[] column(String column) {
    return rows.stream().filter(r -> r.has(column)).mapToDouble(r -> r.number(column)).toArray();
  }
}
