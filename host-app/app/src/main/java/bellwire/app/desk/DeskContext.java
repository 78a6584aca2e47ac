package bellwire.app.desk;

import bellwire.app.drawing.Palette;
import bellwire.app.visit.Change;
import bellwire.app.visit.Visit;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;
import javax.swing.SwingUtilities;

/**
 * What a page has of the window and of the visit it shows. Used on the event thread. A visit that
 * is opened later gets a context and pages of its own.
 */
public final class DeskContext {
  private final Visit visit;
  private final DeskWindow window;
  private final LeftAs left;
  private final Undo undo = new Undo();
  private final List<Runnable> repainted = new ArrayList<>();
  private final List<Consumer<Change>> changes = new ArrayList<>();
  private final List<Runnable> flushes = new ArrayList<>();
  private final List<Runnable> closes = new ArrayList<>();
  private boolean closed;
  private Units units = Units.METRES;

  DeskContext(Visit visit, DeskWindow window, LeftAs left) {
    this.visit = visit;
    this.window = window;
    this.left = left;
    visit.listen(change -> SwingUtilities.invokeLater(() -> told(change)));
    UnkeptNotice notice = new UnkeptNotice(window.notices());
    visit.listenUnkept(
        now ->
            SwingUtilities.invokeLater(
                () -> {
                  if (!closed) {
                    notice.show(now);
                  }
                }));
    closes.add(notice::clear);
  }

  public Visit visit() {
    return visit;
  }

  public Palette palette() {
    return window.theme().palette();
  }

  /** 1 to 2: what to multiply pixels of one's own painting with. */
  public double scale() {
    return window.scale();
  }

  public Notices notices() {
    return window.notices();
  }

  public Progress progress() {
    return window.progress();
  }

  public Undo undo() {
    return undo;
  }

  public Sounds sounds() {
    return window.sounds();
  }

  public Units units() {
    return units;
  }

  void units(Units chosen) {
    units = chosen;
  }

  /** The interlock's state in the band; of the job that is shown alone. */
  public void interlock(InterlockState state) {
    if (isShown()) {
      window.interlock(state);
    }
  }

  /** Whether long work is under way, which is said: there is one board, and one way to stop. */
  public boolean isBusy() {
    Progress.Task busy = progress().running();
    if (busy != null) {
      notices().note("Wait for this to end, or stop it with Esc: " + busy.what() + ".");
    }
    return busy != null;
  }

  /** Not any more once another job is opened in the window. */
  private boolean isShown() {
    return window.context() == this;
  }

  /** What comes of work elsewhere, on the event thread; a failure becomes a notice. */
  public <T> void later(CompletableFuture<T> work, Consumer<T> onEventThread) {
    later(work, onEventThread, failure -> notices().trouble(failure));
  }

  /** The same with one's own way to tell a failure. */
  public <T> void later(
      CompletableFuture<T> work, Consumer<T> onEventThread, Consumer<Throwable> failed) {
    var unused =
        work.whenComplete(
            (result, failure) ->
                SwingUtilities.invokeLater(
                    () -> {
                      if (failure == null) {
                        onEventThread.accept(result);
                      } else {
                        failed.accept(failure);
                      }
                    }));
  }

  /** Told on the event thread after each change of the job's records. */
  public void onChange(Consumer<Change> listener) {
    changes.add(listener);
  }

  /** Told when colours or scale have changed, for what is painted by hand or held by a chart. */
  public void onLook(Runnable listener) {
    repainted.add(listener);
  }

  /**
   * Told before an undo, a change of page and closing: what is being typed is to be kept as typed.
   */
  public void onFlush(Runnable listener) {
    flushes.add(listener);
  }

  void flush() {
    flushes.forEach(Runnable::run);
  }

  /**
   * Told once, when another job takes this one's place or the window closes: threads are to end,
   * files and timers to be let go of. What was told to {@link #later} still comes.
   */
  public void onClose(Runnable listener) {
    closes.add(listener);
  }

  /** Changes are told no more. */
  void close() {
    if (!closed) {
      closed = true;
      closes.forEach(Runnable::run);
    }
  }

  DeskWindow window() {
    return window;
  }

  /** The page's next action or its word on the rail is another now. */
  public void changed(Page page) {
    window.changed(page);
  }

  /** Shows another page. */
  public void go(String pageKey) {
    window.go(pageKey);
  }

  /** How the desk was left; empty where nothing is remembered. */
  public String left(String key) {
    return left.get(key);
  }

  /** Remembered with the job, soon. */
  public void left(String key, String value) {
    left.put(key, value);
  }

  void lookChanged() {
    repainted.forEach(Runnable::run);
  }

  private void told(Change change) {
    if (isShown() && !closed) {
      List.copyOf(changes).forEach(listener -> listener.accept(change));
    }
  }
}
