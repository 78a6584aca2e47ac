package bellwire.hardware.deck;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;

/** What ngspice wrote of a run in time: seconds, and volts of each node. */
final class Waves {
  private final Map<String, Integer> columns = new LinkedHashMap<>();
  private final double[][] rows;

  private Waves(double[][] rows) {
    this.rows = rows;
  }

  /** A binary raw file: header lines, then a row of doubles a point, in the machine's order. */
  static Waves read(Path raw) throws IOException {
    byte[] bytes = Files.readAllBytes(raw);
    String head =
        new String(bytes, 0, Math.min(bytes.length, 200_000), StandardCharsets.ISO_8859_1);
    int data = head.indexOf("Binary:\n");
    if (data < 0) {
      throw new IOException("no binary plot in " + raw);
    }
    String[] lines = head.substring(0, data).split("\n");
    int variables = number(lines, "No. Variables:");
    int points = number(lines, "No. Points:");
    ByteBuffer buffer =
        ByteBuffer.wrap(bytes, data + 8, bytes.length - data - 8)
            .slice()
            .order(ByteOrder.nativeOrder());
    double[][] rows = new double[points][variables];
    for (double[] row : rows) {
      for (int v = 0; v < variables; v++) {
        row[v] = buffer.getDouble();
      }
    }
    Waves waves = new Waves(rows);
    for (int v = 0; v < variables; v++) {
      String name = lines[lines.length - variables + v].trim().split("\\s+")[1];
      waves.columns.put(name.replaceAll("^v\\((.*)\\)$", "$1"), v);
    }
    return waves;
  }

  private static int number(String[] lines, String key) throws IOException {
    for (String line : lines) {
      if (line.startsWith(key)) {
        return Integer.parseInt(line.substring(key.length()).trim());
      }
    }
    throw new IOException("no line " + key);
  }

  int points() {
    return rows.length;
  }

  double seconds(int point) {
    return rows[point][0];
  }

  /** Volts of a deck's node at a point; node 0 is common. */
  double volts(String node, int point) {
    if (node.equals("0")) {
      return 0;
    }
    Integer column = columns.get(node);
    if (column == null) {
      throw new IllegalArgumentException("node=" + node);
    }
    return rows[point][column];
  }
}
