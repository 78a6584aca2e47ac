package bellwire.analysis.circuit;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.hipparchus.complex.Complex;

/**
 * The operating point of a netlist, or its voltages at one frequency, by ngspice in batch mode;
 * where it is missing, tests are skipped, in CI they fail.
 */
public final class Ngspice {
  private static final int SECONDS = 60;

  /** The shell's last line is what its children took. */
  private static final String TIMED =
      "ngspice -b -r \"$0\" -o \"$1\" \"$2\" > /dev/null 2>&1; times";

  private Ngspice() {}

  public static void require() {
    try {
      Process process =
          new ProcessBuilder("ngspice", "--version").redirectErrorStream(true).start();
      process.getInputStream().readAllBytes();
      if (process.waitFor(20, TimeUnit.SECONDS) && process.exitValue() == 0) {
        return;
      }
    } catch (IOException e) {
      // Not installed: said below.
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    String message = "ngspice is not installed (Debian package ngspice)";
    if ("true".equals(System.getenv("CI")) || Boolean.getBoolean("CI")) {
      fail(message);
    }
    abort(message);
  }

  /**
   * @return volts by node name, lower case
   */
  public static Map<String, Double> operatingPoint(Path directory, String netlist)
      throws IOException, InterruptedException {
    Map<String, Double> volts = new HashMap<>();
    parse(run(directory, netlist), "real", 1).forEach((name, v) -> volts.put(name, v[0]));
    return volts;
  }

  /**
   * @param netlist with one analysis {@code .ac} of one frequency
   * @return complex volts by node name, lower case
   */
  public static Map<String, Complex> oneFrequency(Path directory, String netlist)
      throws IOException, InterruptedException {
    Map<String, Complex> volts = new HashMap<>();
    parse(run(directory, netlist), "complex", 2)
        .forEach((name, v) -> volts.put(name, new Complex(v[0], v[1])));
    return volts;
  }

  private static byte[] run(Path directory, String netlist)
      throws IOException, InterruptedException {
    Path input = directory.resolve("circuit.cir");
    Path raw = directory.resolve("circuit.raw");
    Path log = directory.resolve("circuit.log");
    Files.writeString(input, netlist);
    Files.deleteIfExists(raw);
    Process process =
        new ProcessBuilder("sh", "-c", TIMED, raw.toString(), log.toString(), input.toString())
            .redirectErrorStream(true)
            .start();
    String printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    if (!process.waitFor(SECONDS, TimeUnit.SECONDS) || !Files.exists(raw)) {
      process.destroyForcibly();
      throw new IOException("ngspice gave nothing: " + Files.readString(log));
    }
    Files.writeString(directory.resolve("circuit.times"), printed);
    return Files.readAllBytes(raw);
  }

  /** User and system time of the last run in a directory, its start and its reading included. */
  public static Duration processorTime(Path directory) throws IOException {
    List<String> lines = Files.readAllLines(directory.resolve("circuit.times"));
    Duration sum = Duration.ZERO;
    for (String part : lines.get(lines.size() - 1).trim().split("\\s+")) {
      String[] minutes = part.replace("s", "").split("m");
      sum =
          sum.plusMinutes(Long.parseLong(minutes[0]))
              .plusMillis(Math.round(1000 * Double.parseDouble(minutes[1])));
    }
    return sum;
  }

  /** A binary raw file of one point: header lines, then doubles in the machine's order. */
  private static Map<String, double[]> parse(byte[] raw, String flag, int parts)
      throws IOException {
    String head = new String(raw, StandardCharsets.ISO_8859_1);
    int data = head.indexOf("Binary:\n");
    int names = head.indexOf("Variables:\n", head.indexOf("No. Points:"));
    if (data < 0 || names < 0 || !head.substring(0, data).contains("Flags: " + flag)) {
      throw new IOException(
          "no " + flag + " binary plot: " + head.substring(0, Math.min(300, Math.max(0, data))));
    }
    ByteBuffer values =
        ByteBuffer.wrap(raw, data + 8, raw.length - data - 8)
            .slice()
            .order(ByteOrder.nativeOrder());
    Map<String, double[]> volts = new HashMap<>();
    for (String line : head.substring(names, data).split("\n")) {
      String[] words = line.trim().split("\\s+");
      if (words.length >= 3 && words[0].matches("\\d+")) {
        double[] value = new double[parts];
        for (int i = 0; i < parts; i++) {
          value[i] = values.getDouble();
        }
        volts.put(words[1].replaceAll("^v\\((.*)\\)$", "$1"), value);
      }
    }
    return volts;
  }
}
