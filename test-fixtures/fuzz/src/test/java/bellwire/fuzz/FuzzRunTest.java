package bellwire.fuzz;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * Runs the fuzzer in a process of its own: in the gate for a moment, to see that it runs;
 * DEVELOPERS.md says how for longer. Goes on from what an earlier run has found.
 */
class FuzzRunTest {
  private static final Entry ENTRY = Entry.of(System.getProperty("bellwire.target", "item"));
  private static final long SECONDS = Long.getLong("bellwire.seconds", 0);
  private static final boolean KEEP = Boolean.getBoolean("bellwire.keep");
  private static final long SEED = Long.getLong("bellwire.seed", 1);
  private static final int BRIEF_RUNS = 2000;
  private static final Path IN_MEMORY = Path.of("/dev/shm");

  /** How pages and drawings are set tells nothing of what was read, and is most of an export. */
  private static final String SETTING =
      "bellwire.app.document.page.**:bellwire.app.document.type.**:bellwire.app.drawing.**";

  private static final String FOUND = "(crash|timeout|oom)-[0-9a-f]+";
  private static final Path RESOURCES = Path.of("src/main/resources/bellwire/fuzz");
  private static final Pattern COVERED = Pattern.compile("cov: (\\d+) ft: (\\d+) corp: (\\d+)");
  private static final Pattern EXECUTED =
      Pattern.compile("stat::number_of_executed_units: +(\\d+)");

  @Test
  void nothingIsFound() throws Exception {
    Path work = Files.createDirectories(Path.of("target/fuzz", ENTRY.word()).toAbsolutePath());
    Path corpus = Files.createDirectories(work.resolve("corpus"));
    begin(corpus);
    Path log = work.resolve("log.txt");
    String extent = SECONDS == 0 ? "-runs=" + BRIEF_RUNS : "-max_total_time=" + SECONDS;
    long began = System.nanoTime();
    int status = jazzer(work, log, List.of(extent, "-seed=" + SEED, corpus.toString()));
    double seconds = (System.nanoTime() - began) * 1e-9;
    String said = Files.readString(log, StandardCharsets.ISO_8859_1);
    long executed = number(EXECUTED, said, 1);
    System.out.printf(
        Locale.ROOT,
        "fuzz: target=%s seed=%d executions=%d seconds=%.0f edges=%d features=%d corpus=%d found=%s%n",
        ENTRY.word(),
        SEED,
        executed,
        seconds,
        number(COVERED, said, 1),
        number(COVERED, said, 2),
        number(COVERED, said, 3),
        status == 0 ? "nothing" : "see " + log);
    for (Path found : found(work)) {
      // With its stack, which the run leaves out for the sake of speed.
      new Watched(ENTRY).take(Files.readAllBytes(found));
    }
    assertThat(status).as("see %s", log).isZero();
    assertThat(executed).isGreaterThanOrEqualTo(SECONDS == 0 ? BRIEF_RUNS : 1);
    if (KEEP) {
      Files.write(RESOURCES.resolve(ENTRY.word() + ".zip"), Kept.packed(ENTRY, corpus));
    }
  }

  private static List<Path> found(Path work) throws IOException {
    try (Stream<Path> files = Files.list(work)) {
      return files.filter(file -> file.getFileName().toString().matches(FOUND)).toList();
    }
  }

  /** Seeds and what was kept, beside what is there. */
  private static void begin(Path corpus) throws IOException {
    List<byte[]> inputs = new ArrayList<>(ENTRY.seeds());
    inputs.addAll(Kept.inputs(ENTRY));
    for (int i = 0; i < inputs.size(); i++) {
      Files.write(corpus.resolve(Kept.BEGUN_WITH + i), inputs.get(i));
    }
  }

  private static int jazzer(Path work, Path log, List<String> more) throws Exception {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    if (Files.isDirectory(IN_MEMORY)) {
      command.add("-Djava.io.tmpdir=" + IN_MEMORY);
    }
    command.addAll(
        List.of(
            "-Xmx1g",
            "-XX:+UseSerialGC",
            "-XX:-StackTraceInThrowable",
            "-Djava.awt.headless=true",
            "-cp"));
    command.add(
        System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")));
    command.add("com.code_intelligence.jazzer.Jazzer");
    command.add("--target_class=" + Driver.class.getName());
    command.add("--target_args=" + ENTRY.word());
    command.add("--instrumentation_includes=bellwire.**");
    command.add("--instrumentation_excludes=" + SETTING);
    command.add("--reproducer_path=" + work);
    command.add("-artifact_prefix=" + work + "/");
    command.add("-print_final_stats=1");
    command.add("-timeout=120");
    command.add("-max_len=" + Math.min(ENTRY.bounds().inputBytes(), 1 << 15));
    Path words = work.resolve("words.txt");
    Files.write(words, Words.of(ENTRY.seeds()), StandardCharsets.US_ASCII);
    command.add("-dict=" + words);
    command.addAll(more);
    return new ProcessBuilder(command)
        .directory(work.toFile())
        .redirectErrorStream(true)
        .redirectOutput(log.toFile())
        .start()
        .waitFor();
  }

  /** Of the last place where it stands; 0 for none. */
  private static long number(Pattern pattern, String text, int group) {
    Matcher matcher = pattern.matcher(text);
    long number = 0;
    while (matcher.find()) {
      number = Long.parseLong(matcher.group(group));
    }
    return number;
  }
}
