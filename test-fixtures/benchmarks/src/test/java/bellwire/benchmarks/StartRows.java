package bellwire.benchmarks;

import java.io.File;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * Whole starts of the program, as {@code host-app/bellwire} makes them: processor time (user and
 * system), wall time, most memory resident. Beside them the same jar with Java's own defaults, and
 * a program that says one word. Every start runs the same command to the same exit code.
 */
final class StartRows {
  private static final Path ROOT = Path.of("..", "..").toAbsolutePath().normalize();
  private static final String BENCHES = "test-fixtures/simbench/src/main/resources/benches/";
  private static final int SECONDS = 120;

  /** What bash's clock says last, then the exit code. */
  private static final String TIMED =
      "TIMEFORMAT='%U %S %R'; time \"$@\" >/dev/null 2>&1 </dev/null; echo $? >&2";

  private record Took(double processorSeconds, double seconds, int status) {}

  private final List<Row> rows = new ArrayList<>();

  static List<Row> rows(Path directory) throws IOException, InterruptedException {
    StartRows starts = new StartRows();
    String cable = ROOT.resolve(BENCHES + "healthy-5.yaml").toString();
    starts.start("`bellwire --help`", 20, 0, "--help");
    starts.start("`bellwire survey --bench healthy-5.yaml`", 7, 0, "survey", "--bench", cable);
    starts.start("`bellwire demo`", 5, 1, "demo");
    starts.memory("`bellwire survey --bench healthy-5.yaml`", "survey", "--bench", cable);
    starts.memory(
        "`bellwire vigil start continuity --for \"1 h\"` on a bench",
        "vigil",
        "start",
        "continuity",
        "--job",
        directory.resolve("hour.bellwire").toString(),
        "--ports",
        "P1-P5",
        "--for",
        "1 h",
        "--bench",
        ROOT.resolve(BENCHES + "vigil-loose-clamp.yaml").toString());
    if (System.getenv("DISPLAY") != null) {
      starts.memory("`bellwire desk --demo`, its first 30 s", "desk", "--demo");
    }
    return starts.rows;
  }

  private void start(String name, int runs, int status, String... words)
      throws IOException, InterruptedException {
    List<String> ours = command(ROOT.resolve("host-app/bellwire").toString(), words);
    List<String> plain = command(java(), "-jar", jar().toString());
    plain.addAll(List.of(words));
    List<String> word = command(java(), "-cp", System.getProperty("java.class.path"));
    word.add(OneWord.class.getName());
    List<List<String>> all = List.of(ours, plain, word);
    double[][] processor = new double[3][runs];
    double[][] wall = new double[3][runs];
    // The first of each is not counted; in turn, so that all see the same machine.
    for (int run = -1; run < runs; run++) {
      for (int k = 0; k < 3; k++) {
        Took took = timed(all.get(k));
        if (took.status != (k < 2 ? status : 0)) {
          throw new IllegalStateException("status=" + took.status + " of " + all.get(k));
        }
        if (run >= 0) {
          processor[k][run] = took.processorSeconds;
          wall[k][run] = took.seconds;
        }
      }
    }
    add(name + ", processor time", "s", processor);
    add(name + ", wall time", "s", wall);
  }

  private void add(String work, String unit, double[][] figures) {
    rows.add(
        new Row(
            work,
            unit,
            "as started",
            Figure.of(figures[0]),
            List.of(
                new Row.Peer("its jar, Java's defaults", Figure.of(figures[1])),
                new Row.Peer("a Java program that says one word", Figure.of(figures[2])))));
  }

  private static Took timed(List<String> command) throws IOException, InterruptedException {
    List<String> shell = command("bash", "-c", TIMED, "bash");
    shell.addAll(command);
    Process process = new ProcessBuilder(shell).redirectErrorStream(true).start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    if (!process.waitFor(SECONDS, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new IllegalStateException("seconds=" + SECONDS + " of " + command);
    }
    String[] words = said.strip().split("\\s+");
    return new Took(
        Double.parseDouble(words[0]) + Double.parseDouble(words[1]),
        Double.parseDouble(words[2]),
        Integer.parseInt(words[3]));
  }

  private void memory(String name, String... words) throws IOException, InterruptedException {
    List<String> ours = command(ROOT.resolve("host-app/bellwire").toString(), words);
    List<String> word = command(java(), "-cp", System.getProperty("java.class.path"));
    word.add(OneWord.class.getName());
    rows.add(
        new Row(
            name + ", most memory resident",
            "MB",
            "as started",
            Figure.of(residentMegabytes(ours)),
            List.of(
                new Row.Peer(
                    "a Java program that says one word", Figure.of(residentMegabytes(word))))));
  }

  /** By the kernel's own mark of the highest, looked at until the end, or for half a minute. */
  private static double residentMegabytes(List<String> command)
      throws IOException, InterruptedException {
    Process process =
        new ProcessBuilder(command)
            .redirectInput(new File("/dev/null"))
            .redirectErrorStream(true)
            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
            .start();
    long kilobytes = 0;
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(30);
    while (process.isAlive() && System.nanoTime() < end) {
      Path status = Path.of("/proc", String.valueOf(process.pid()), "status");
      try {
        for (String line : Files.readAllLines(status)) {
          if (line.startsWith("VmHWM:")) {
            kilobytes = Math.max(kilobytes, Long.parseLong(line.replaceAll("\\D", "")));
          }
        }
      } catch (IOException e) {
        break; // It ended meanwhile.
      }
      process.waitFor(5, TimeUnit.MILLISECONDS);
    }
    process.destroy();
    if (!process.waitFor(10, TimeUnit.SECONDS)) {
      process.destroyForcibly();
    }
    if (kilobytes == 0) {
      throw new IllegalStateException("no memory seen of " + command);
    }
    return kilobytes / 1e3;
  }

  private static List<String> command(String first, String... more) {
    List<String> command = new ArrayList<>(List.of(first));
    command.addAll(List.of(more));
    return command;
  }

  private static String java() {
    return Path.of(System.getProperty("java.home"), "bin", "java").toString();
  }

  static Path jar() {
    return ROOT.resolve("host-app/app/target/bellwire.jar");
  }
}
