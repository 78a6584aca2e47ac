package bellwire.reference;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Named cells. The unit of a number is the end of its name. Decimals keep the digits of the file,
 * so {@link #exact} and {@link #lastPlace} see what the source printed.
 *
 * @param table name of the table the row stands in
 * @param cells values as read: number, text, truth value, or lists of these
 */
public record Row(String table, Status status, Map<String, Object> cells) {

  public Row {
    cells = Map.copyOf(cells);
  }

  public boolean has(String name) {
    return cells.containsKey(name);
  }

  public Set<String> names() {
    return cells.keySet();
  }

  public double number(String name) {
    return toNumber(name, cell(name));
  }

  public int integer(String name) {
    return toInteger(name, cell(name));
  }

  public boolean truth(String name) {
    return has(name) && Boolean.TRUE.equals(cell(name));
  }

  public String text(String name) {
    return String.valueOf(cell(name));
  }

  /** The number with exactly the digits of the file. */
  public BigDecimal exact(String name) {
    return toExact(name, cell(name));
  }

  /** One unit in the last place that the file prints: 0.001 for 4.016. */
  public double lastPlace(String name) {
    return exact(name).ulp().doubleValue();
  }

  public double[] numbers(String name) {
    return list(name, cell(name)).stream().mapToDouble(v -> toNumber(name, v)).toArray();
  }

  public int[] integers(String name) {
    return list(name, cell(name)).stream().mapToInt(v -> toInteger(name, v)).toArray();
  }

  public List<BigDecimal> exacts(String name) {
    return list(name, cell(name)).stream().map(v -> toExact(name, v)).toList();
  }

  /** A list of lists of numbers; the inner ones may differ in length. */
  public double[][] matrix(String name) {
    return list(name, cell(name)).stream()
        .map(row -> list(name, row).stream().mapToDouble(v -> toNumber(name, v)).toArray())
        .toArray(double[][]::new);
  }

  /** A list of lists of text, numbers as they print. */
  public List<List<String>> texts(String name) {
    return list(name, cell(name)).stream()
        .map(row -> list(name, row).stream().map(String::valueOf).toList())
        .toList();
  }

  private Object cell(String name) {
    Object cell = cells.get(name);
    if (cell == null) {
      throw new IllegalArgumentException("table=" + table + " cell=" + name);
    }
    return cell;
  }

  private double toNumber(String name, Object value) {
    if (value instanceof Number number) {
      return number.doubleValue();
    }
    throw notA("number", name, value);
  }

  private int toInteger(String name, Object value) {
    if (value instanceof Integer number) {
      return number;
    }
    throw notA("whole number", name, value);
  }

  private BigDecimal toExact(String name, Object value) {
    if (value instanceof BigDecimal decimal) {
      return decimal;
    }
    if (value instanceof Integer || value instanceof Long) {
      return BigDecimal.valueOf(((Number) value).longValue());
    }
    throw notA("finite number", name, value);
  }

  private List<?> list(String name, Object value) {
    if (value instanceof List<?> list) {
      return list;
    }
    throw notA("list", name, value);
  }

  private IllegalArgumentException notA(String kind, String name, Object value) {
    return new IllegalArgumentException(
        "table=" + table + " is no " + kind + ": " + name + "=" + value);
  }
}
