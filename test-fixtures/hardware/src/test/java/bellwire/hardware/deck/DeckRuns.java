package bellwire.hardware.deck;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import java.nio.file.Path;

/**
 * How the decks' tests run: all of a study or the gate's part of it, and whether to write tables.
 */
public final class DeckRuns {
  private static final Path NOTES = Path.of("../../hardware-notes");

  private DeckRuns() {}

  /** Where ngspice is missing tests are skipped, in CI they fail. */
  public static void requireNgspice() throws InterruptedException {
    if (Ngspice.installed()) {
      return;
    }
    String message = "ngspice is not installed (Debian package ngspice)";
    if ("true".equals(System.getenv("CI"))) {
      fail(message);
    }
    abort(message);
  }

  public static boolean all() {
    return write() || "all".equals(System.getProperty("bellwire.decks"));
  }

  public static boolean write() {
    return Boolean.getBoolean("bellwire.write");
  }

  public static NotesTable table(String name) {
    return new NotesTable(NOTES, name);
  }
}
