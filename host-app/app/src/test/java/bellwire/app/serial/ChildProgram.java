package bellwire.app.serial;

import static org.assertj.core.api.Assertions.fail;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;

/** A program of ours in a process of its own, with what it says. */
final class ChildProgram implements AutoCloseable {
  /** Long after anything ought to have happened, on a slow and loaded machine too. */
  static final long PATIENCE_SECONDS = 60;

  private final String name;
  private final Process process;
  private final Path errors;
  private final BlockingQueue<String> lines = new LinkedBlockingQueue<>();
  private final List<String> seen = new ArrayList<>();
  private final CompletableFuture<Long> endNanos;
  private final Thread reader;
  private final long startNanos = System.nanoTime();

  private ChildProgram(String name, List<String> command, Path directory) throws IOException {
    this.name = name;
    errors = Files.createTempFile(directory, name, ".err");
    process = new ProcessBuilder(command).redirectError(errors.toFile()).start();
    endNanos = process.onExit().thenApply(ended -> System.nanoTime());
    reader = new Thread(this::collect, name);
    reader.setDaemon(true);
    reader.start();
  }

  /**
   * @param prefix what to start it with, such as env and its options
   * @param main class to run
   */
  static ChildProgram java(Path directory, List<String> prefix, String main, List<String> arguments)
      throws IOException {
    List<String> command = new ArrayList<>(prefix);
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1", "-cp"));
    command.add(
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")));
    command.add(main);
    command.addAll(arguments);
    return command(directory, main.substring(main.lastIndexOf('.') + 1), command);
  }

  /** Any program. */
  static ChildProgram command(Path directory, String name, List<String> command)
      throws IOException {
    return new ChildProgram(name, command, directory);
  }

  /** Waits for a line that begins so, leading blanks aside. */
  String awaitLine(String beginning) throws InterruptedException, IOException {
    long deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
    while (true) {
      String line = lines.poll(deadline - System.nanoTime(), TimeUnit.NANOSECONDS);
      if (line == null) {
        return fail(name + " did not say '" + beginning + "' but " + seen + errors());
      }
      seen.add(line);
      if (line.strip().startsWith(beginning)) {
        return line.strip();
      }
    }
  }

  /** Says a line to it. */
  void tell(String line) throws IOException {
    process.getOutputStream().write((line + "\n").getBytes(StandardCharsets.UTF_8));
    process.getOutputStream().flush();
  }

  /** Waits for its end and gives its exit status. */
  int status() throws InterruptedException, IOException {
    if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
      return fail(name + " did not end: " + seen + errors());
    }
    return process.exitValue();
  }

  /** Waits for its end and gives all that it said and nobody has waited for. */
  List<String> output(long seconds) throws InterruptedException, IOException {
    if (!process.waitFor(seconds, TimeUnit.SECONDS)) {
      return fail(name + " did not end: " + errors());
    }
    reader.join(TimeUnit.SECONDS.toMillis(PATIENCE_SECONDS));
    return List.copyOf(lines);
  }

  boolean running() {
    return process.isAlive();
  }

  /** From its start to its end. */
  double seconds() {
    return (endNanos.join() - startNanos) * 1e-9;
  }

  /** When it ended, as {@link System#nanoTime}. */
  long endNanos() {
    return endNanos.join();
  }

  /** All it said on standard error. */
  String errors() throws IOException {
    return Files.readString(errors);
  }

  void interrupt() throws IOException, InterruptedException {
    new ProcessBuilder("kill", "-INT", Long.toString(process.pid())).start().waitFor();
  }

  @Override
  public void close() throws InterruptedException {
    process.destroyForcibly().waitFor();
  }

  private void collect() {
    try (BufferedReader reader =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      for (String line = reader.readLine(); line != null; line = reader.readLine()) {
        lines.add(line);
      }
    } catch (IOException e) {
      // It has ended.
    }
  }
}
