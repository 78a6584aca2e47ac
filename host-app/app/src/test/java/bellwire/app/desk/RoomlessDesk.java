package bellwire.app.desk;

import bellwire.app.job.Fact;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobReader;
import java.awt.EventQueue;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import java.util.concurrent.FutureTask;
import java.util.concurrent.TimeUnit;
import javax.swing.text.JTextComponent;

/**
 * A desk of its own process on a small file system, which is read-only first, then filled and
 * emptied while somebody types; says what the window tells.
 */
final class RoomlessDesk {
  private static final String FULL = "sub-base rusty, ".repeat(500);
  private static final long WAIT_NANOS = 20_000_000_000L;

  private RoomlessDesk() {}

  public static void main(String[] arguments) {
    try {
      run(Path.of(arguments[0]));
    } catch (Exception | Error e) {
      e.printStackTrace(System.out);
      System.exit(1); // the window would keep the process
    }
    System.exit(0);
  }

  private static void run(Path directory) throws Exception {
    Path file = directory.resolve("job.bellwire");
    JobFile.open(file).close();
    mount(directory, "remount,ro");
    Look.prepare();
    DeskWindow window =
        edt(() -> DeskMain.window(DeskPrefs.read(directory.resolve("desk")), file, false));
    until("it is refused", () -> !window.notices().shown().isEmpty());
    System.out.println("read-only: " + edt(() -> window.notices().shown().toString()));
    mount(directory, "remount,rw");
    edt(
        () -> {
          window.openJob(file);
          return true;
        });
    until("the job is open", () -> window.pages().size() > 1);

    Path ballast = directory.resolve("ballast");
    fill(ballast);
    typed(window, "the disk is full; make room");
    Files.delete(ballast);
    until("it is kept", () -> window.notices().shown().toString().contains("There is room again"));
    compare(file);
    edt(
        () -> {
          window.close();
          return true;
        });
    window.closed().get(20, TimeUnit.SECONDS);
  }

  private static void fill(Path ballast) throws IOException {
    try (OutputStream out = Files.newOutputStream(ballast)) {
      for (byte[] part = new byte[1024]; true; ) {
        out.write(part);
      }
    } catch (IOException e) {
      System.out.println("filled: " + Files.size(ballast) + " bytes");
    }
  }

  private static void mount(Path directory, String options) throws Exception {
    Process mount =
        new ProcessBuilder("mount", "-o", options, directory.toString()).inheritIO().start();
    if (mount.waitFor() != 0) {
      throw new IllegalStateException("cannot mount, options=" + options);
    }
  }

  /** Types, waits until the window tells that it waits, and looks that it is still there. */
  private static void typed(DeskWindow window, String told) throws Exception {
    JTextComponent notes = edt(() -> TypingDesk.find(window.frame()));
    edt(
        () -> {
          notes.setText(FULL);
          return true;
        });
    until(
        "it is told",
        () -> window.notices().shown().stream().anyMatch(n -> n.words().contains("change waits")));
    String words = edt(() -> window.notices().shown().toString());
    System.out.println("told: " + words);
    if (!words.contains(told) || !edt(notes::getText).equals(FULL)) {
      throw new IllegalStateException("not as it was typed, or not told, words=" + words);
    }
  }

  private static void compare(Path file) throws Exception {
    try (JobReader reader = JobReader.open(file)) {
      if (!reader.records().fact(Fact.NOTES).equals(FULL.strip())) {
        throw new IllegalStateException("the file has other notes, file=" + file);
      }
      System.out.println("kept: " + FULL.length() + " characters");
    }
  }

  private static void until(String what, Callable<Boolean> holds) throws Exception {
    long end = System.nanoTime() + WAIT_NANOS;
    while (!edt(holds)) {
      if (System.nanoTime() > end) {
        throw new IllegalStateException("not in time: " + what);
      }
      Thread.onSpinWait();
    }
  }

  private static <T> T edt(Callable<T> task) throws Exception {
    FutureTask<T> future = new FutureTask<>(task);
    EventQueue.invokeLater(future);
    return future.get();
  }
}
