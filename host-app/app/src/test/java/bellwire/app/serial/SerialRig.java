package bellwire.app.serial;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * Two linked pseudo-terminals, the nearest thing to a serial cable without one, and the programs at
 * its ends.
 */
final class SerialRig implements AutoCloseable {
  /** After which a forgotten bench ends by itself. */
  private static final String BENCH_SECONDS = "300";

  private final Path directory;
  private final List<ChildProgram> programs = new ArrayList<>();
  private Process cable;

  SerialRig(Path directory) throws IOException, InterruptedException {
    this.directory = directory;
    cable = plug();
  }

  /** Without socat the test is skipped; in CI it fails. */
  static void require() throws InterruptedException {
    if (runs("socat", "-V")) {
      return;
    }
    String message = "socat is not installed (Debian package socat)";
    if ("true".equals(System.getenv("CI")) || Boolean.getBoolean("CI")) {
      fail(message);
    }
    abort(message);
  }

  String hostDevice() {
    return directory.resolve("host").toString();
  }

  String agentDevice() {
    return directory.resolve("agent").toString();
  }

  /**
   * A simulated device at the agent's end.
   *
   * @param speed its seconds in one second
   */
  ChildProgram bench(String yaml, double speed) throws IOException, InterruptedException {
    Path file = Files.writeString(directory.resolve("bench.yaml"), yaml);
    ChildProgram bench =
        started(
            List.of(),
            "bellwire.simbench.serve.BenchOverSerial",
            file.toString(),
            agentDevice(),
            "--speed",
            Double.toString(speed),
            "--for",
            BENCH_SECONDS);
    bench.awaitLine("serving ");
    return bench;
  }

  /** The real command line. */
  ChildProgram bellwire(String... arguments) throws IOException, InterruptedException {
    // A build in the background ignores Ctrl-C, and its children would inherit that.
    List<String> prefix = List.of("env", "--default-signal=INT");
    return started(
        runs("env", "--default-signal=INT", "true") ? prefix : List.of(),
        "bellwire.app.cli.BellwireMain",
        arguments);
  }

  private ChildProgram started(List<String> prefix, String main, String... arguments)
      throws IOException {
    ChildProgram program = ChildProgram.java(directory, prefix, main, List.of(arguments));
    programs.add(program);
    return program;
  }

  /** Pulls the cable: both ends lose their device. */
  void pull() throws InterruptedException {
    cable.destroyForcibly().waitFor();
  }

  /** Plugs it in again, under the same names. */
  void plugAgain() throws IOException, InterruptedException {
    cable = plug();
  }

  private Process plug() throws IOException {
    Path host = directory.resolve("host");
    Path agent = directory.resolve("agent");
    Files.deleteIfExists(host);
    Files.deleteIfExists(agent);
    Process process =
        new ProcessBuilder(
                "socat", "PTY,link=" + host + ",raw,echo=0", "PTY,link=" + agent + ",raw,echo=0")
            .redirectErrorStream(true)
            .start();
    long deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(ChildProgram.PATIENCE_SECONDS);
    while (!(Files.exists(host) && Files.exists(agent))) {
      if (System.nanoTime() > deadline || !process.isAlive()) {
        process.destroyForcibly();
        throw new IOException("socat made no pair: directory=" + directory);
      }
      LockSupport.parkNanos(5_000_000);
    }
    return process;
  }

  static boolean runs(String... command) throws InterruptedException {
    try {
      Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
      process.getInputStream().readAllBytes();
      return process.waitFor() == 0;
    } catch (IOException e) {
      return false;
    }
  }

  @Override
  public void close() throws InterruptedException {
    for (ChildProgram program : programs) {
      program.close();
    }
    cable.destroyForcibly().waitFor();
  }
}
