package bellwire.app.serial;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import bellwire.simbench.SimulatedBoard;
import bellwire.simbench.file.Bench;
import bellwire.simbench.kernel.KernelDevices;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;

/**
 * The agent's own program as it runs on a Pi: Java and Pi4J's native libraries for 64-bit Arm under
 * emulation, on simulated device files, with a serial cable to this side. In real time.
 */
final class PiRig implements AutoCloseable {
  private static final String COMPILER = "aarch64-linux-gnu-gcc";
  private static final String EMULATOR = "qemu-aarch64";

  /** Until the agent speaks to its converter, on a slow and loaded machine too. */
  private static final long START_SECONDS = 90;

  private final Path directory;
  private final Path socket;
  private final Path library;
  private final SerialRig serial;
  private final KernelDevices devices;
  private final ChildProgram agent;

  /**
   * @param words to the agent's program before its configuration
   */
  PiRig(Path directory, Bench bench, String... words) throws IOException, InterruptedException {
    this.directory = directory;
    serial = new SerialRig(directory);
    socket = directory.resolve("devices");
    devices = new KernelDevices(new SimulatedBoard(bench, bench.seed()), socket, 1);
    library = compile();
    agent = start(words);
  }

  /** Without the emulator, the compiler or Java for Arm the test is skipped; in CI it fails. */
  static void require() throws InterruptedException {
    SerialRig.require();
    String missing = missing();
    if (missing.isEmpty()) {
      return;
    }
    if ("true".equals(System.getenv("CI")) || Boolean.getBoolean("CI")) {
      fail(missing);
    }
    abort(missing);
  }

  private static String missing() throws InterruptedException {
    if (!SerialRig.runs(COMPILER, "--version") || !SerialRig.runs(EMULATOR, "-version")) {
      return "no compiler or no emulator for Arm (Debian packages gcc-aarch64-linux-gnu,"
          + " libc6-dev-arm64-cross, qemu-user)";
    }
    if (!Files.exists(java())) {
      return "no Java for Arm in " + arm() + "; test-fixtures/simbench/arm64-java puts it there";
    }
    return "";
  }

  /** Where Java for Arm and its libraries are. */
  private static Path arm() {
    String told = System.getenv("BELLWIRE_ARM64");
    return told == null
        ? Path.of(System.getProperty("user.home"), ".cache", "bellwire", "arm64")
        : Path.of(told);
  }

  private static Path java() {
    return arm().resolve("java/bin/java");
  }

  private Path compile() throws IOException, InterruptedException {
    Path source = directory.resolve("devices.c");
    Path library = directory.resolve("devices.so");
    try (InputStream text = KernelDevices.class.getResourceAsStream("devices.c")) {
      Files.write(source, text.readAllBytes());
    }
    ChildProgram compiler =
        ChildProgram.command(
            directory,
            "compiler",
            List.of(
                COMPILER,
                "-Wall",
                "-Wextra",
                "-Werror",
                "-O1",
                "-fPIC",
                "-shared",
                "-o",
                library.toString(),
                source.toString()));
    if (compiler.status() != 0) {
      throw new IOException(compiler.errors());
    }
    return library;
  }

  private ChildProgram start(String... words) throws IOException, InterruptedException {
    Path configuration = directory.resolve("agent.conf");
    Files.writeString(
        configuration,
        "serial-device = " + directory.resolve("agent") + "\nrecord-directory = none\n");
    List<String> command = new ArrayList<>(PackagedAgent.priority());
    command.addAll(List.of(EMULATOR, "-L", arm().toString()));
    command.addAll(List.of("-E", "LD_PRELOAD=" + library));
    command.addAll(List.of("-E", "BELLWIRE_DEVICES=" + socket));
    command.add(java().toString());
    command.addAll(PackagedAgent.settings());
    command.add("-cp");
    command.add(
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")));
    command.add("bellwire.agent.AgentMain");
    command.addAll(List.of(words));
    command.add(configuration.toString());
    return ChildProgram.command(directory, "agent", command);
  }

  /** Waits until the agent has been at its board. */
  PiRig awaitAgent() throws IOException {
    long deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(START_SECONDS);
    while (devices.with(SimulatedBoard::nanos) == 0) {
      if (!agent.running() || System.nanoTime() > deadline) {
        throw new IOException("the agent does not start: " + agent.errors());
      }
      LockSupport.parkNanos(20_000_000);
    }
    return this;
  }

  /** Ends the agent as a power cut would, and has its program check what it needs instead. */
  ChildProgram check() throws IOException, InterruptedException {
    agent.close();
    return start("check");
  }

  KernelDevices devices() {
    return devices;
  }

  SerialRig serial() {
    return serial;
  }

  ChildProgram agent() {
    return agent;
  }

  @Override
  public void close() throws InterruptedException {
    agent.close();
    devices.close();
    serial.close();
  }
}
