package bellwire.hardware.deck;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What ngspice printed, a {@code name = value} a line. */
record Printed(String name, double value) {
  private static final Pattern LINE = Pattern.compile("^(\\S+)\\s+=\\s+(\\S+).*$");

  /**
   * @param names the names printed for each case, in their order
   * @return a row of values a case
   */
  static List<double[]> rows(String output, List<String> names, int cases) throws IOException {
    List<double[]> rows = new ArrayList<>();
    int column = 0;
    for (String line : output.split("\n")) {
      Matcher printed = LINE.matcher(line.strip());
      if (!printed.matches() || !printed.group(1).equals(names.get(column))) {
        continue;
      }
      if (column == 0) {
        rows.add(new double[names.size()]);
      }
      double value = Double.parseDouble(printed.group(2));
      if (!Double.isFinite(value)) {
        throw new IOException("ngspice printed " + line);
      }
      rows.get(rows.size() - 1)[column] = value;
      column = (column + 1) % names.size();
    }
    if (rows.size() != cases || column != 0) {
      throw new IOException("ngspice solved " + rows.size() + " of " + cases);
    }
    return rows;
  }
}
