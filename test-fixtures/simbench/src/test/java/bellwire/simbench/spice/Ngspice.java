package bellwire.simbench.spice;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.TimeUnit;

/**
 * Runs ngspice in batch mode on a netlist; where it is missing, tests are skipped, in CI they fail.
 */
final class Ngspice {
  /** A node's values, one for each point: real, or real and imaginary parts. */
  record Plot(List<String> names, List<double[]> re, List<double[]> im) {
    double[] real(String name) {
      return re.get(index(name));
    }

    double[] imaginary(String name) {
      return im.get(index(name));
    }

    private int index(String name) {
      int at = names.indexOf(name.toLowerCase(Locale.ROOT));
      if (at < 0) {
        throw new IllegalArgumentException("name=" + name + " in " + names);
      }
      return at;
    }
  }

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

  static Plot run(Path directory, String netlist) throws IOException, InterruptedException {
    Path input = directory.resolve("circuit.cir");
    Path raw = directory.resolve("circuit.raw");
    Path log = directory.resolve("circuit.log");
    Files.writeString(input, netlist);
    Files.deleteIfExists(raw);
    ProcessBuilder builder =
        new ProcessBuilder(
            "ngspice", "-b", "-r", raw.toString(), "-o", log.toString(), input.toString());
    builder.redirectErrorStream(true);
    Process process = builder.start();
    process.getInputStream().readAllBytes();
    if (!process.waitFor(60, TimeUnit.SECONDS) || !Files.exists(raw)) {
      process.destroyForcibly();
      throw new IOException("ngspice gave nothing: " + Files.readString(log));
    }
    return parse(Files.readAllBytes(raw));
  }

  /** A binary raw file: header lines, then doubles in the machine's order. */
  private static Plot parse(byte[] raw) throws IOException {
    String head = new String(raw, StandardCharsets.ISO_8859_1);
    int data = head.indexOf("Binary:\n");
    if (data < 0) {
      throw new IOException("no binary plot");
    }
    List<String> names = new ArrayList<>();
    int variables = 0;
    int points = 0;
    boolean complex = false;
    boolean listing = false;
    for (String line : head.substring(0, data).split("\n")) {
      if (line.startsWith("No. Variables:")) {
        variables = Integer.parseInt(line.substring(14).trim());
      } else if (line.startsWith("No. Points:")) {
        points = Integer.parseInt(line.substring(11).trim());
      } else if (line.startsWith("Flags:")) {
        complex = line.contains("complex");
      } else if (line.startsWith("Variables:")) {
        listing = true;
      } else if (listing) {
        String[] words = line.trim().split("\\s+");
        names.add(words[1].replaceAll("^v\\((.*)\\)$", "$1"));
      }
    }
    java.nio.ByteBuffer buffer =
        java.nio.ByteBuffer.wrap(raw, data + 8, raw.length - data - 8)
            .slice()
            .order(java.nio.ByteOrder.nativeOrder());
    List<double[]> re = new ArrayList<>();
    List<double[]> im = new ArrayList<>();
    for (int v = 0; v < variables; v++) {
      re.add(new double[points]);
      im.add(new double[points]);
    }
    for (int p = 0; p < points; p++) {
      for (int v = 0; v < variables; v++) {
        re.get(v)[p] = buffer.getDouble();
        im.get(v)[p] = complex ? buffer.getDouble() : 0;
      }
    }
    return new Plot(names, re, im);
  }
}
