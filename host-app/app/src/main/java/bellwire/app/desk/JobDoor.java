package bellwire.app.desk;

import bellwire.app.job.JobFileException;
import bellwire.app.visit.DemoHouse;
import bellwire.app.visit.Visit;
import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/**
 * Where job files come in and go out: opens one on a thread of its own, and lets one go so that
 * nothing is lost: a vigil that runs is told to go on alone, other work is cancelled and waited
 * for, since its end opens the board's relays ({@link Visit#close}).
 */
final class JobDoor {
  private final DeskWindow window;
  private final DeskPrefs prefs;
  private final ExecutorService files =
      Executors.newSingleThreadExecutor(
          task -> {
            Thread thread = new Thread(task, "desk-files");
            thread.setDaemon(true);
            return thread;
          });
  private @Nullable Visit visit;
  private @Nullable LeftAs left;
  private @Nullable Path asked;
  private boolean closing;

  private record Opened(Visit visit, String left) {}

  JobDoor(DeskWindow window, DeskPrefs prefs) {
    this.window = window;
    this.prefs = prefs;
  }

  /** No job yet: the page to choose one. */
  void none() {
    window.show(Pages.withoutJob(window), null, Path.of(""));
  }

  void open(Path file) {
    if (isOpen(file)) {
      window.notices().note(file.getFileName() + " is open in this window already.");
    } else {
      window.leaving(() -> open(file, false));
    }
  }

  /** The demo's house, in a file of its own that nobody has to keep. */
  void demo() {
    window.leaving(this::makeDemo);
  }

  private void makeDemo() {
    if (closing) {
      return;
    }
    CompletableFuture<Path> made =
        CompletableFuture.supplyAsync(
            () -> {
              try {
                return DemoFolder.make();
              } catch (IOException e) {
                throw new CompletionException(e);
              }
            },
            files);
    onEventThread(made, path -> open(path, true));
  }

  private boolean isOpen(Path file) {
    return visit != null
        && visit.file().toAbsolutePath().normalize().equals(file.toAbsolutePath().normalize());
  }

  private void open(Path file, boolean demo) {
    if (closing) {
      return;
    }
    asked = file;
    Path path = file.toAbsolutePath().normalize();
    CompletableFuture<Opened> opening =
        CompletableFuture.supplyAsync(() -> visitOf(path, demo), files).thenCompose(this::asLeft);
    onEventThread(opening, opened -> replaceBy(opened, !demo));
  }

  /** Lets the job go again where that can't be read: nobody else would. */
  private CompletableFuture<Opened> asLeft(Visit visit) {
    return visit
        .ask(records -> records.left(LeftAs.KEY))
        .handle(
            (text, failure) -> {
              if (failure == null) {
                return new Opened(visit, text);
              }
              var unused = CompletableFuture.runAsync(() -> letGo(visit));
              throw new CompletionException(failure);
            });
  }

  /** A real job never begins on a simulated bench: its figures would be taken for the cable's. */
  private static Visit visitOf(Path path, boolean demo) {
    try {
      return demo ? DemoHouse.open(path) : Visit.open(path, BoardPlace.firstSerial());
    } catch (JobFileException e) {
      throw new CompletionException(e);
    }
  }

  private void replaceBy(Opened opened, boolean remembered) {
    if (closing) {
      var unused = CompletableFuture.runAsync(() -> letGo(opened.visit()));
      return;
    }
    Visit before = visit;
    LeftAs leftBefore = left;
    LeftAs leftAs = new LeftAs(opened.visit(), opened.left());
    BoardPlace.of(leftAs.get(BoardPlace.KEY)).ifPresent(opened.visit()::boards);
    visit = opened.visit();
    left = leftAs;
    DeskContext ctx = new DeskContext(opened.visit(), window, leftAs);
    window.show(Pages.of(ctx), ctx, opened.visit().file());
    if (leftBefore != null) {
      // Only now: the page that went out of view has told how it was left.
      leftBefore.flush();
    }
    if (remembered) {
      prefs.opened(opened.visit().file());
      save();
    }
    if (before != null) {
      files.execute(() -> letGo(before));
    }
  }

  /** The open job. */
  Optional<Visit> visit() {
    return Optional.ofNullable(visit);
  }

  /** Lets go of everything, then tells, on the event thread. */
  void close(Runnable gone) {
    if (closing) {
      return;
    }
    closing = true;
    if (left != null) {
      left.flush();
    }
    Visit last = visit;
    visit = null;
    files.execute(
        () -> {
          prefs.save();
          if (last != null) {
            letGo(last);
          }
          SwingUtilities.invokeLater(gone);
        });
    files.shutdown();
  }

  /** The user's likings, soon; at the close they are saved anyway. */
  void save() {
    if (!closing) {
      files.execute(prefs::save);
    }
  }

  /** To the page where a file is chosen. */
  void another() {
    window.go("visit");
  }

  void again() {
    if (asked != null) {
      open(asked);
    }
  }

  private void letGo(Visit visit) {
    try {
      visit.close();
      DemoFolder.remove(visit.file());
    } catch (JobFileException e) {
      SwingUtilities.invokeLater(() -> window.notices().trouble(e));
    }
  }

  private <T> void onEventThread(CompletableFuture<T> work, java.util.function.Consumer<T> then) {
    var unused =
        work.whenComplete(
            (result, failure) ->
                SwingUtilities.invokeLater(
                    () -> {
                      if (failure == null) {
                        then.accept(result);
                      } else {
                        refused(failure);
                      }
                    }));
  }

  private void refused(Throwable failure) {
    if (visit == null && window.pages().isEmpty()) {
      none();
    }
    Throwable cause =
        failure instanceof CompletionException && failure.getCause() != null
            ? failure.getCause()
            : failure;
    if (cause instanceof JobFileException trouble
        && trouble.trouble() == JobFileException.Trouble.IN_USE) {
      window.inUse(Notices.words(failure));
    } else {
      window.notices().trouble(failure);
    }
  }
}
