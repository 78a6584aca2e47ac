package bellwire.app.desk;

import java.awt.AWTEvent;
import java.awt.EventQueue;
import java.awt.Toolkit;
import java.lang.reflect.InvocationTargetException;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicLongArray;
import java.util.function.LongSupplier;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/**
 * Times every event on the event thread. While one lasts the window neither moves nor answers;
 * nothing may last longer than 100 ms. Counts in a histogram whose steps double, from 1 ms on. Time
 * in which the thread could have gone on, and other programs had all the processors, is taken off
 * where the system tells it: it says how busy the machine is and nothing of the window.
 */
public final class EventThreadWatch implements AutoCloseable {
  /** What a person takes for 'at once'. */
  public static final long LIMIT_MILLIS = 100;

  private static final int STEPS = 16;
  private static final double NANOS_A_MILLI = 1e6;

  private final LongSupplier nanoTime;
  private final ProcessorWait processor = new ProcessorWait();
  private final AtomicLongArray counts = new AtomicLongArray(STEPS);
  private final AtomicLong worstNanos = new AtomicLong();
  private final AtomicLong overLimit = new AtomicLong();
  private final AtomicLong waitedNanos = new AtomicLong();
  private volatile String worstEvent = "";
  private final Queue queue = new Queue();
  private boolean closed;

  private EventThreadWatch(LongSupplier nanoTime) {
    this.nanoTime = nanoTime;
  }

  /** Begins; until closed every event passes it. */
  public static EventThreadWatch start() {
    EventThreadWatch watch = new EventThreadWatch(System::nanoTime);
    Toolkit.getDefaultToolkit().getSystemEventQueue().push(watch.queue);
    return watch;
  }

  /** One that events are told to, by {@link #took}. */
  static EventThreadWatch detached() {
    return new EventThreadWatch(() -> 0);
  }

  /** The longest event so far, in milliseconds. */
  public double worstMillis() {
    return worstNanos.get() / NANOS_A_MILLI;
  }

  /** What the longest event was. */
  public String worstEvent() {
    return worstEvent;
  }

  /** Events longer than {@link #LIMIT_MILLIS}. */
  public long stalls() {
    return overLimit.get();
  }

  /** Events so far. */
  public long events() {
    long sum = 0;
    for (int i = 0; i < STEPS; i++) {
      sum += counts.get(i);
    }
    return sum;
  }

  /** Forgets what was counted: what comes before a measurement. */
  public void reset() {
    for (int i = 0; i < STEPS; i++) {
      counts.set(i, 0);
    }
    worstNanos.set(0);
    overLimit.set(0);
    waitedNanos.set(0);
    worstEvent = "";
  }

  /** A line a step: 'under 2 ms: 1830', with the worst and the number above the limit below. */
  public String histogram() {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < STEPS; i++) {
      if (counts.get(i) > 0) {
        text.append(String.format(Locale.ROOT, "under %5d ms: %d%n", 1L << i, counts.get(i)));
      }
    }
    return text.append(
            String.format(
                Locale.ROOT,
                "events: %d, longest %.1f ms (%s), longer than %d ms: %d; no processor free for %.0f ms"
                    + " in all%n",
                events(),
                worstMillis(),
                worstEvent,
                LIMIT_MILLIS,
                stalls(),
                waitedNanos.get() / NANOS_A_MILLI))
        .toString();
  }

  void took(long nanos, String event) {
    double millis = nanos / NANOS_A_MILLI;
    int step = 0;
    while (step < STEPS - 1 && millis >= (1L << step)) {
      step++;
    }
    counts.incrementAndGet(step);
    if (millis > LIMIT_MILLIS) {
      overLimit.incrementAndGet();
    }
    if (nanos > worstNanos.get()) {
      worstNanos.set(nanos);
      worstEvent = event;
    }
  }

  /** Lets the events pass as before. */
  @Override
  public void close() {
    if (!closed) {
      closed = true;
      queue.remove();
    }
  }

  private final class Queue extends EventQueue {
    /** An event that waits in a loop of its own dispatches others; those count, the waiting not. */
    private int depth;

    private @Nullable AWTEvent outermost;

    @Override
    protected void dispatchEvent(AWTEvent event) {
      long waited = processor.nanos();
      long begun = nanoTime.getAsLong();
      boolean outer = depth == 0;
      if (outer) {
        outermost = event;
      } else {
        outermost = null;
      }
      depth++;
      try {
        super.dispatchEvent(event);
      } finally {
        depth--;
        if (!outer || outermost == event) {
          long lasted = nanoTime.getAsLong() - begun;
          long without = Math.min(lasted, processor.nanos() - waited);
          waitedNanos.addAndGet(without);
          took(lasted - without, event.paramString());
        }
      }
    }

    void remove() {
      Runnable pop = this::pop;
      if (SwingUtilities.isEventDispatchThread()) {
        pop.run();
        return;
      }
      try {
        SwingUtilities.invokeAndWait(pop);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      } catch (InvocationTargetException e) {
        throw new IllegalStateException("cannot take the watch from the event queue", e);
      }
    }
  }
}
