package bellwire.app.desk;

import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ExecutionException;

/**
 * What the desk has to say or to ask, in the window instead of in dialogs. A note gives way to the
 * next note; trouble and questions stay until somebody has dealt with them. Used on the event
 * thread.
 */
public final class Notices {
  private static final int MOST = 12;

  /** How it is marked: a shape and a word each. */
  public enum Kind {
    NOTE,
    TROUBLE,
    QUESTION
  }

  /**
   * Something said or asked.
   *
   * @param words what happened, and what to do
   * @param choices buttons, the first for Enter; none for what is only dismissed
   */
  public record Notice(Kind kind, String words, List<Choice> choices) {
    public Notice {
      choices = List.copyOf(choices);
    }
  }

  /** A button under a question; pressing it also takes the question away. */
  public record Choice(String words, Runnable run) {}

  private final List<Notice> shown = new ArrayList<>();
  private final List<Runnable> listeners = new ArrayList<>();

  /** Something worth knowing that needs nobody. */
  public Notice note(String words) {
    shown.removeIf(n -> n.kind() == Kind.NOTE);
    return add(new Notice(Kind.NOTE, words, List.of()));
  }

  /** Something that failed: what, and the remedy. */
  public Notice trouble(String words) {
    shown.removeIf(n -> n.kind() == Kind.TROUBLE && n.words().equals(words));
    return add(new Notice(Kind.TROUBLE, words, List.of()));
  }

  /** The same of a failure that carries its words. */
  public Notice trouble(Throwable failure) {
    return trouble(words(failure));
  }

  public Notice ask(String question, Choice... choices) {
    return add(new Notice(Kind.QUESTION, question, List.of(choices)));
  }

  public void dismiss(Notice notice) {
    if (shown.remove(notice)) {
      tell();
    }
  }

  /** Oldest first. */
  public List<Notice> shown() {
    return List.copyOf(shown);
  }

  /** Told after each change. */
  public void listen(Runnable listener) {
    listeners.add(listener);
  }

  /** The sentence in a failure, without what wraps it. */
  public static String words(Throwable failure) {
    Throwable cause = failure;
    while ((cause instanceof CompletionException || cause instanceof ExecutionException)
        && cause.getCause() != null) {
      cause = cause.getCause();
    }
    String message = cause.getMessage();
    return message == null || message.isBlank()
        ? "Something went wrong inside Bellwire: " + cause.getClass().getSimpleName()
        : message;
  }

  private Notice add(Notice notice) {
    shown.add(notice);
    if (shown.size() > MOST) {
      shown.remove(0);
    }
    tell();
    return notice;
  }

  private void tell() {
    listeners.forEach(Runnable::run);
  }
}
