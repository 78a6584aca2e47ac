package bellwire.app.desk.landing;

import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;

/**
 * A thread beside the event thread, one piece of work after the other; it ends when idle. More than
 * a few that wait are refused, the oldest first: who asks that often wants the newest.
 */
final class Aside {
  private static final long IDLE_SECONDS = 5;
  private static final int MOST_WAITING = 16;

  private Aside() {}

  static ExecutorService thread(String name) {
    ThreadPoolExecutor one =
        new ThreadPoolExecutor(
            1,
            1,
            IDLE_SECONDS,
            TimeUnit.SECONDS,
            new ArrayBlockingQueue<>(MOST_WAITING),
            work -> {
              Thread thread = new Thread(work, name);
              thread.setDaemon(true);
              return thread;
            },
            new ThreadPoolExecutor.DiscardOldestPolicy());
    one.allowCoreThreadTimeOut(true);
    return one;
  }
}
