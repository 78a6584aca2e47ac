package bellwire.app.cli;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * Runs what is started often, and says nothing. The build runs it under {@code
 * -XX:DumpLoadedClassList}; an archive of the classes on that list is what later starts find them
 * in, read and checked. Decision 0044.
 */
public final class UsualStarts {
  /** A line each; JOB and what ends in .yaml are files, an underscore is a blank. */
  private static final String STARTS =
      """
      --help
      --version
      survey --help
      ports
      ties 8
      job new JOB --customer nobody
      demo
      survey --bench healthy-5.yaml --ports P1-P5 --gauge 18_AWG --job JOB
      job show JOB
      landing list
      landing check example-before-power
      landing plan example-before-power
      landing explain example-before-power --single --no-questions --seen fan_always_on
      rehearse electric-heat --bench control-healthy.yaml
      vigil start continuity --job JOB --ports P1-P5 --for 2_min --bench vigil-loose-clamp.yaml
      vigil show JOB
      """;

  private UsualStarts() {}

  /**
   * @param arguments a directory for files of its own; it exists
   */
  public static void main(String[] arguments) throws IOException {
    Path directory = Path.of(arguments[0]);
    Path job = directory.resolve("usual.bellwire");
    Files.deleteIfExists(job);
    // Nobody is there to answer a question.
    System.setIn(new ByteArrayInputStream(new byte[0]));
    for (String start : STARTS.lines().toList()) {
      String[] words = start.split(" ");
      for (int i = 0; i < words.length; i++) {
        words[i] =
            words[i].equals("JOB")
                ? job.toString()
                : words[i].endsWith(".yaml")
                    ? bench(directory, words[i])
                    : words[i].replace('_', ' ');
      }
      int status = start(words);
      if (status != ExitCode.ALL_SOUND.status() && status != ExitCode.FAULT_FOUND.status()) {
        throw new IllegalStateException("start=" + start + " status=" + status);
      }
    }
  }

  private static int start(String... words) {
    PrintWriter nowhere = new PrintWriter(Writer.nullWriter());
    return CommandTree.leadingTo(words).setOut(nowhere).setErr(nowhere).execute(words);
  }

  /** A bench's file as a person would have it. */
  private static String bench(Path directory, String name) throws IOException {
    Path file = directory.resolve(name);
    try (InputStream in = UsualStarts.class.getResourceAsStream("/benches/" + name)) {
      if (in == null) {
        throw new IllegalStateException("bench=" + name);
      }
      Files.write(file, in.readAllBytes());
    }
    return file.toString();
  }
}
