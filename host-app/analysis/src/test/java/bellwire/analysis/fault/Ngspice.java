package bellwire.analysis.fault;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.TimeUnit;

/**
 * The operating point of a netlist, by ngspice in batch mode; where it is missing, tests are
 * skipped, in CI they fail.
 */
final class Ngspice {
  private static final int SECONDS = 60;

  private Ngspice() {}

  static void require() {
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
  static Map<String, Double> operatingPoint(Path directory, String netlist)
      throws IOException, InterruptedException {
    Path input = directory.resolve("circuit.cir");
    Path raw = directory.resolve("circuit.raw");
    Path log = directory.resolve("circuit.log");
    Files.writeString(input, netlist);
    Files.deleteIfExists(raw);
    Process process =
        new ProcessBuilder(
                "ngspice", "-b", "-r", raw.toString(), "-o", log.toString(), input.toString())
            .redirectErrorStream(true)
            .start();
    process.getInputStream().readAllBytes();
    if (!process.waitFor(SECONDS, TimeUnit.SECONDS) || !Files.exists(raw)) {
      process.destroyForcibly();
      throw new IOException("ngspice gave nothing: " + Files.readString(log));
    }
    return parse(Files.readAllBytes(raw));
  }

  /** A binary raw file of one real point: header lines, then doubles in the machine's order. */
  private static Map<String, Double> parse(byte[] raw) throws IOException {
    String head = new String(raw, StandardCharsets.ISO_8859_1);
    int data = head.indexOf("Binary:\n");
    int names = head.indexOf("Variables:\n", head.indexOf("No. Points:"));
    if (data < 0 || names < 0 || !head.substring(0, data).contains("Flags: real")) {
      throw new IOException("no real binary plot: " + head.substring(0, Math.min(300, data)));
    }
    ByteBuffer values =
        ByteBuffer.wrap(raw, data + 8, raw.length - data - 8)
            .slice()
            .order(ByteOrder.nativeOrder());
    Map<String, Double> volts = new HashMap<>();
    for (String line : head.substring(names, data).split("\n")) {
      String[] words = line.trim().split("\\s+");
      if (words.length == 3) {
        volts.put(words[1].replaceAll("^v\\((.*)\\)$", "$1"), values.getDouble());
      }
    }
    return volts;
  }
}
