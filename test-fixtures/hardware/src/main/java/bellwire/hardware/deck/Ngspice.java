package bellwire.hardware.deck;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;

/** Runs ngspice in batch mode, a process a deck. */
public final class Ngspice {
  private static final int MAX_SECONDS = 900;

  private Ngspice() {}

  public static boolean installed() throws InterruptedException {
    try {
      Process process =
          new ProcessBuilder("ngspice", "--version").redirectErrorStream(true).start();
      process.getInputStream().readAllBytes();
      return process.waitFor(20, TimeUnit.SECONDS) && process.exitValue() == 0;
    } catch (IOException e) {
      return false;
    }
  }

  /**
   * @param directory for the deck and what it writes
   * @return standard output
   */
  public static String run(Path directory, String name, String deck)
      throws IOException, InterruptedException {
    Path input = directory.resolve(name + ".cir");
    Path errors = directory.resolve(name + ".err");
    Path output = directory.resolve(name + ".out");
    Files.writeString(input, deck);
    Process process =
        new ProcessBuilder("ngspice", "-b", input.getFileName().toString())
            .directory(directory.toFile())
            .redirectOutput(output.toFile())
            .redirectError(errors.toFile())
            .start();
    if (!process.waitFor(MAX_SECONDS, TimeUnit.SECONDS)) {
      process.destroyForcibly();
      throw new IOException("ngspice did not end: deck=" + input);
    }
    return Files.readString(output);
  }
}
