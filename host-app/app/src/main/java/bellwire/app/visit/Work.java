package bellwire.app.visit;

import bellwire.app.survey.Cancelled;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.ExecutionException;

/** {@link Running} on a thread of its own, until its work returns or throws. */
abstract class Work<T> implements Running<T> {
  private final String what;
  private final CompletableFuture<T> done = new CompletableFuture<>();
  private volatile boolean cancelled;

  Work(String what) {
    this.what = what;
  }

  /**
   * Does it all, the job file's row included.
   *
   * @throws Cancelled as soon as {@link #cancelled} is noticed
   */
  abstract T work() throws Exception;

  /** Whether the board has let go, for all that is known. */
  abstract boolean letGo();

  final void start(Runnable over) {
    Thread thread = new Thread(() -> run(over), "bellwire-" + what.replace(' ', '-'));
    thread.setDaemon(true);
    thread.start();
  }

  private void run(Runnable over) {
    T result;
    try {
      result = work();
    } catch (Cancelled e) {
      fail(over, new Stopped(letGo()));
      return;
    } catch (ExecutionException | CompletionException e) {
      fail(over, e.getCause() == null ? e : e.getCause());
      return;
    } catch (Exception | Error e) {
      fail(over, e);
      return;
    }
    over.run();
    done.complete(result);
  }

  private void fail(Runnable over, Throwable cause) {
    over.run();
    done.completeExceptionally(cause);
  }

  /** For what cannot even begin. */
  final void refuse(Exception cause) {
    done.completeExceptionally(cause);
  }

  final boolean cancelled() {
    return cancelled;
  }

  @Override
  public final String what() {
    return what;
  }

  @Override
  public final CompletableFuture<T> done() {
    return done;
  }

  @Override
  public void cancel() {
    cancelled = true;
  }

  /** The program ends: what can go on without it does. */
  void leave() {
    cancel();
  }
}
