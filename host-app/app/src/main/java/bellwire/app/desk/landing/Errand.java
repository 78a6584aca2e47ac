package bellwire.app.desk.landing;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Progress;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import javax.swing.SwingUtilities;

/** Long computing off the event thread, one at a time, with progress and a way out. */
final class Errand {
  /** What computes: it asks often whether to go on. */
  interface Work<T> {
    T run(Watch watch) throws Exception;
  }

  /** How far it is, and whether to go on. */
  interface Watch {
    /**
     * @param share 0 to 1, NaN where not known
     * @return false: stop
     */
    boolean at(double share, String words);
  }

  private static final long TELL_NANOS = 150_000_000;

  private final DeskContext ctx;
  private final ExecutorService worker = Aside.thread("bellwire-landing-errand");
  private final AtomicBoolean closed = new AtomicBoolean();

  Errand(DeskContext ctx) {
    this.ctx = ctx;
    ctx.onClose(
        () -> {
          closed.set(true);
          worker.shutdown();
        });
  }

  /**
   * @param done on the event thread; not after it was stopped
   * @param stopped on the event thread, after a stop or a failure, which is told
   */
  <T> void run(String what, Work<T> work, Consumer<T> done, Runnable stopped) {
    if (ctx.isBusy()) {
      stopped.run();
      return;
    }
    AtomicBoolean stop = new AtomicBoolean();
    Progress.Task task = ctx.progress().begin(what, () -> stop.set(true));
    CompletableFuture<T> future = new CompletableFuture<>();
    worker.execute(() -> compute(work, new Told(task, () -> stop.get() || closed.get()), future));
    ctx.later(
        future,
        result -> {
          task.end();
          done.accept(result);
        },
        failure -> {
          task.end();
          if (stop.get() || closed.get()) {
            ctx.notices().note("Stopped: " + what + ".");
          } else {
            ctx.notices().trouble(failure);
          }
          stopped.run();
        });
  }

  private static <T> void compute(Work<T> work, Watch watch, CompletableFuture<T> future) {
    try {
      future.complete(work.run(watch));
    } catch (Exception | StackOverflowError e) {
      future.completeExceptionally(e);
    }
  }

  /** Seldom enough for the event thread. */
  private static final class Told implements Watch {
    private final Progress.Task task;
    private final BooleanSupplier stop;
    private final long began = System.nanoTime();
    private long last;

    Told(Progress.Task task, BooleanSupplier stop) {
      this.task = task;
      this.stop = stop;
    }

    @Override
    public boolean at(double share, String words) {
      long now = System.nanoTime();
      if (now - last > TELL_NANOS) {
        last = now;
        double left = share > 0.02 ? (now - began) * 1e-9 * (1 - share) / share : Double.NaN;
        SwingUtilities.invokeLater(() -> task.at(share, left, words));
      }
      return !stop.getAsBoolean();
    }
  }
}
