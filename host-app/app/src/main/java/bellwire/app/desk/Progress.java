package bellwire.app.desk;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The long work that runs now, with how far it is, the time left, and a way out. One at a time:
 * there is one board. Used on the event thread.
 */
public final class Progress {
  private @Nullable Task task;
  private final List<Runnable> listeners = new ArrayList<>();

  /** Long work under way. */
  public final class Task {
    private final String what;
    private final Runnable cancel;
    private double fraction = Double.NaN;
    private double secondsLeft = Double.NaN;
    private String doing = "";
    private boolean cancelled;

    private Task(String what, Runnable cancel) {
      this.what = what;
      this.cancel = cancel;
    }

    /**
     * Says how far it is.
     *
     * @param fractionDone 0 to 1, NaN where not known
     * @param left seconds, NaN where not known
     * @param now what it is at: 'comparing pairs'; may be empty
     */
    public void at(double fractionDone, double left, String now) {
      fraction = fractionDone;
      secondsLeft = left;
      doing = now;
      tell();
    }

    /** Over, however it ended. */
    public void end() {
      if (task == this) {
        task = null;
        tell();
      }
    }

    public String what() {
      return what;
    }

    public String doing() {
      return doing;
    }

    public double fraction() {
      return fraction;
    }

    public double secondsLeft() {
      return secondsLeft;
    }

    /** Asked to stop, and not over yet. */
    public boolean cancelled() {
      return cancelled;
    }
  }

  /**
   * Shows long work that has begun.
   *
   * @param what such as 'survey of 18-5'
   * @param cancel asks the work to stop; it ends the task when it has
   */
  public Task begin(String what, Runnable cancel) {
    Task begun = new Task(what, cancel);
    task = begun;
    tell();
    return begun;
  }

  public @Nullable Task running() {
    return task;
  }

  /** Asks what runs to stop. */
  public void cancel() {
    Task running = task;
    if (running != null && !running.cancelled) {
      running.cancelled = true;
      running.cancel.run();
      tell();
    }
  }

  /** Told after each change. */
  public void listen(Runnable listener) {
    listeners.add(listener);
  }

  private void tell() {
    listeners.forEach(Runnable::run);
  }
}
