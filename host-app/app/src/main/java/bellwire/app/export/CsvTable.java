package bellwire.app.export;

import java.io.BufferedWriter;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.regex.Pattern;

/**
 * Comma-separated values (RFC 4180) in UTF-8; wall time as in RFC 3339, always with µs. A text that
 * a spreadsheet would compute has an apostrophe before it.
 */
final class CsvTable implements TableWriter {
  private static final long DAY_MICROS = 86_400_000_000L;

  /** What a spreadsheet takes for the beginning of a formula; the last four are full-width. */
  private static final String FORMULA = "=+-@\t\r\uFF1D\uFF0B\uFF0D\uFF20";

  private static final Pattern NUMBER =
      Pattern.compile("[-+]?(\\d+\\.?\\d*|\\.\\d+)([eE][-+]?\\d+)?");

  private final BufferedWriter out;
  private boolean rowBegun;
  private long day = Long.MIN_VALUE;
  private String date = "";

  CsvTable(Path file, Table table) throws IOException {
    out = Files.newBufferedWriter(file, StandardCharsets.UTF_8);
    for (Table.Column column : table.columns()) {
      text(column.name());
    }
    endRow();
  }

  @Override
  public CsvTable number(long value) throws IOException {
    next().write(Long.toString(value));
    return this;
  }

  @Override
  public CsvTable utc(long unixMicros) throws IOException {
    long days = Math.floorDiv(unixMicros, DAY_MICROS);
    if (days != day) {
      day = days;
      date = LocalDate.ofEpochDay(days) + "T";
    }
    long micros = Math.floorMod(unixMicros, DAY_MICROS);
    long seconds = micros / 1_000_000;
    next().write(date);
    padded(seconds / 3600, 2).write(':');
    padded(seconds / 60 % 60, 2).write(':');
    padded(seconds % 60, 2).write('.');
    padded(micros % 1_000_000, 6).write('Z');
    return this;
  }

  @Override
  public CsvTable text(String value) throws IOException {
    String cell = computed(value) ? "'" + value : value;
    boolean quoted = cell.chars().anyMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r');
    next().write(quoted ? '"' + cell.replace("\"", "\"\"") + '"' : cell);
    return this;
  }

  private static boolean computed(String value) {
    return !value.isEmpty()
        && FORMULA.indexOf(value.charAt(0)) >= 0
        && !NUMBER.matcher(value).matches();
  }

  @Override
  public CsvTable flag(boolean value) throws IOException {
    next().write(value ? "true" : "false");
    return this;
  }

  @Override
  public void endRow() throws IOException {
    out.write("\r\n");
    rowBegun = false;
  }

  private BufferedWriter next() throws IOException {
    if (rowBegun) {
      out.write(',');
    }
    rowBegun = true;
    return out;
  }

  private BufferedWriter padded(long value, int digits) throws IOException {
    String text = Long.toString(value);
    for (int i = text.length(); i < digits; i++) {
      out.write('0');
    }
    out.write(text);
    return out;
  }

  @Override
  public void close() throws IOException {
    out.close();
  }
}
