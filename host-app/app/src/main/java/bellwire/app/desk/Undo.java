package bellwire.app.desk;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;

/**
 * What can be taken back in this visit's window, newest first; a hundred edits at most. Used on the
 * event thread.
 */
public final class Undo {
  private static final int MOST = 100;

  /** Something that was edited. */
  public interface Edit {
    /** What was done: 'customer changed'. */
    String words();

    /** The page it was done on; it is shown when the edit is taken back. */
    String page();

    void undo();

    void redo();
  }

  private final Deque<Edit> done = new ArrayDeque<>();
  private final Deque<Edit> undone = new ArrayDeque<>();

  /** Something has just been edited. */
  public void did(Edit edit) {
    undone.clear();
    done.push(edit);
    if (done.size() > MOST) {
      done.removeLast();
    }
  }

  /** An edit told by two actions. */
  public void did(String page, String words, Runnable undo, Runnable redo) {
    did(
        new Edit() {
          @Override
          public String words() {
            return words;
          }

          @Override
          public String page() {
            return page;
          }

          @Override
          public void undo() {
            undo.run();
          }

          @Override
          public void redo() {
            redo.run();
          }
        });
  }

  /** Takes the newest edit back; it is returned. */
  public Optional<Edit> undo() {
    Optional<Edit> edit = Optional.ofNullable(done.poll());
    edit.ifPresent(
        e -> {
          undone.push(e);
          e.undo();
        });
    return edit;
  }

  /** Does again what was taken back last. */
  public Optional<Edit> redo() {
    Optional<Edit> edit = Optional.ofNullable(undone.poll());
    edit.ifPresent(
        e -> {
          done.push(e);
          e.redo();
        });
    return edit;
  }
}
