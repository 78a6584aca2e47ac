package bellwire.app.desk;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.CompletableFuture;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/** The desk's entry, for the command line. */
public final class DeskMain {
  /** Names a file that the times of all events are written to at the end. */
  private static final String STALLS = "bellwire.desk.stalls";

  private DeskMain() {}

  /**
   * Opens the window and returns.
   *
   * @param job a job file, made where there is none; null for the choice in the window
   * @param demo a new job on the simulated bench instead
   * @return completes when the window has been closed and everything let go
   */
  public static CompletableFuture<Void> open(@Nullable Path job, boolean demo) {
    Look.prepare();
    DeskPrefs prefs = DeskPrefs.ofUser();
    CompletableFuture<Void> closed = new CompletableFuture<>();
    String stalls = System.getProperty(STALLS, "");
    EventThreadWatch watch = stalls.isEmpty() ? null : EventThreadWatch.start();
    SwingUtilities.invokeLater(
        () -> {
          try {
            DeskWindow window = window(prefs, job, demo);
            var unused = window.closed().thenRun(() -> closed.complete(null));
          } catch (RuntimeException e) {
            closed.completeExceptionally(e);
          }
        });
    return watch == null ? closed : closed.thenRun(() -> write(watch, Path.of(stalls)));
  }

  private static void write(EventThreadWatch watch, Path file) {
    try {
      Files.writeString(file, watch.histogram());
    } catch (IOException e) {
      throw new UncheckedIOException(file + ": the events' times cannot be written", e);
    }
  }

  /**
   * The same for tests, with likings of their own; on the event thread, after {@link Look#prepare}.
   */
  static DeskWindow window(DeskPrefs prefs, @Nullable Path job, boolean demo) {
    DeskWindow window = new DeskWindow(prefs);
    window.door().none();
    window.open();
    if (demo) {
      window.door().demo();
    } else if (job != null) {
      window.openJob(job);
    }
    return window;
  }
}
