package bellwire.app.desk.landing;

import java.util.concurrent.Executor;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

/** A thread beside the event thread, one piece of work after the other; it ends when idle. */
final class Aside {
  private static final long IDLE_SECONDS = 5;

  private Aside() {}

  static Executor thread(String name) {
    ThreadPoolExecutor one =
        new ThreadPoolExecutor(
            1,
            1,
            IDLE_SECONDS,
            TimeUnit.SECONDS,
            new LinkedBlockingQueue<>(),
            work -> {
              Thread thread = new Thread(work, name);
              thread.setDaemon(true);
              return thread;
            });
    one.allowCoreThreadTimeOut(true);
    return one;
  }
}
