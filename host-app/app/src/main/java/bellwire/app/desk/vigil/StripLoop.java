package bellwire.app.desk.vigil;

import bellwire.app.job.JobFileException;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.VigilCourse;
import bellwire.app.vigil.VigilPicture;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.Condition;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * Reads and draws a vigil on a thread of its own: only the latest of what was asked for, at most
 * twenty times a second.
 */
final class StripLoop implements AutoCloseable {
  private static final long LEAST_NANOS = 50_000_000;
  private static final long REFRESH_NANOS = 500_000_000;

  /** What is being read for the first time is shown as far as it is. */
  private static final long READ_NANOS = 300_000_000;

  /** The file is let go when nobody has looked for so long. */
  private static final long IDLE_MILLIS = 2000;

  /** What to draw. */
  record Order(StripView view, int width, int height, StripPlot.Look look) {}

  /** Told what was done; on the loop's thread. */
  interface Sink {
    void drawn(StripImage image);

    /** The share that is read; 1 once all is. */
    void read(double share);

    void trouble(String words);
  }

  private final Path job;
  private final long vigil;
  private final Sink sink;
  private final ReentrantLock lock = new ReentrantLock();
  private final Condition wake = lock.newCondition();
  private @Nullable Order wanted;
  private boolean fresh;
  private boolean live;
  private boolean stale;
  private boolean closed;
  private boolean whole;
  private long refreshedNanos;
  private volatile boolean hurry;

  /**
   * @param live whether it is being written
   */
  StripLoop(Path job, long vigil, boolean live, Sink sink) {
    this.job = job;
    this.vigil = vigil;
    this.live = live;
    this.sink = sink;
    Thread thread = new Thread(this::run, "vigil-chart");
    thread.setDaemon(true);
    thread.setPriority(Thread.NORM_PRIORITY - 1); // the window comes first
    thread.start();
  }

  /** Asks for a drawing; one that was not begun is forgotten. */
  void draw(Order order) {
    change(
        () -> {
          wanted = order;
          fresh = true;
          hurry = true;
        });
  }

  /** Whether it is still being written; it is read once more when it no longer is. */
  void live(boolean now) {
    change(
        () -> {
          stale |= live && !now;
          live = now;
        });
  }

  /** Something that is not a reading has changed, such as a mark. */
  void changed() {
    change(() -> stale = true);
  }

  private void change(Runnable what) {
    lock.lock();
    try {
      what.run();
      wake.signalAll();
    } finally {
      lock.unlock();
    }
  }

  @Override
  public void close() {
    change(() -> closed = true);
  }

  private void run() {
    try (VigilCourse course = new VigilCourse(job, vigil)) {
      Order order = next(course);
      while (order != null) {
        long began = System.nanoTime();
        step(course, order);
        pause(LEAST_NANOS - (System.nanoTime() - began));
        order = next(course);
      }
    } catch (JobFileException | BadVigil e) {
      sink.trouble(String.valueOf(e.getMessage()));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void step(VigilCourse course, Order order) throws JobFileException, BadVigil {
    long now = System.nanoTime();
    if (!whole || due(now)) {
      hurry = false;
      long end = now + READ_NANOS;
      boolean begin = !whole;
      whole = course.refresh(share -> tell(begin, share), () -> hurry || System.nanoTime() > end);
      refreshedNanos = System.nanoTime();
      if (begin && whole) {
        sink.read(1);
      }
    }
    long first = course.firstMicros();
    long last = course.lastMicros();
    StripView view = order.view().over(first, last).within(first, Math.max(first, last));
    VigilPicture picture =
        course.picture(view.fromMicros(), view.toMicros(), Math.max(1, order.width()));
    if (picture != null) {
      sink.drawn(new StripPlot(order.look()).draw(picture, order.width(), order.height()));
    }
  }

  private void tell(boolean first, double share) {
    if (first) {
      sink.read(Math.min(0.999, share));
    }
  }

  private boolean due(long now) {
    lock.lock();
    try {
      boolean was = stale;
      stale = false;
      return was || live && now - refreshedNanos >= REFRESH_NANOS;
    } finally {
      lock.unlock();
    }
  }

  /** What is to be done next; null once closed. */
  private @Nullable Order next(VigilCourse course) throws InterruptedException, JobFileException {
    lock.lock();
    try {
      while (!closed) {
        boolean more = fresh || !whole || stale;
        Order order = wanted;
        if (order != null && more) {
          fresh = false;
          return order;
        }
        long left = refreshedNanos + REFRESH_NANOS - System.nanoTime();
        if (order != null && live && left <= 0) {
          return order;
        }
        long millis = live ? Math.max(1, TimeUnit.NANOSECONDS.toMillis(left)) : IDLE_MILLIS;
        if (!wake.await(millis, TimeUnit.MILLISECONDS) && !live) {
          course.rest();
        }
      }
      return null;
    } finally {
      lock.unlock();
    }
  }

  private void pause(long nanos) throws InterruptedException {
    lock.lock();
    try {
      long left = nanos;
      while (left > 0 && !closed) {
        left = wake.awaitNanos(left);
      }
    } finally {
      lock.unlock();
    }
  }

  /** For those that only want to know when something was drawn. */
  static Sink drawing(Consumer<StripImage> drawn) {
    return new Sink() {
      @Override
      public void drawn(StripImage image) {
        drawn.accept(image);
      }

      @Override
      public void read(double share) {}

      @Override
      public void trouble(String words) {
        throw new IllegalStateException(words);
      }
    };
  }
}
