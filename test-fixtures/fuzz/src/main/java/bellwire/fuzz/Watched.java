package bellwire.fuzz;

import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;

/** Takes inputs one after the other and holds each to its bounds. */
public final class Watched {
  private static final ThreadMXBean THREADS = (ThreadMXBean) ManagementFactory.getThreadMXBean();

  private final String name;
  private final Target target;
  private final Bounds bounds;

  /** Ready for inputs. */
  public Watched(Entry entry) {
    name = entry.word();
    target = entry.open();
    bounds = entry.bounds();
  }

  /**
   * Takes an input; one that is longer than any that is tried is passed over.
   *
   * @throws AssertionError where it costs too much, the second time too: the first one may have
   *     loaded classes, or waited for a processor
   */
  public void take(byte[] input) throws Exception {
    if (input.length > bounds.inputBytes()) {
      return;
    }
    long bytes = THREADS.getCurrentThreadAllocatedBytes();
    long nanos = System.nanoTime();
    target.take(input);
    if (THREADS.getCurrentThreadAllocatedBytes() - bytes > bounds.bytes(input.length)
        || System.nanoTime() - nanos > bounds.cpuMillis() * 1_000_000) {
      again(input);
    }
  }

  private void again(byte[] input) throws Exception {
    long bytes = THREADS.getCurrentThreadAllocatedBytes();
    long nanos = THREADS.getCurrentThreadCpuTime();
    target.take(input);
    nanos = THREADS.getCurrentThreadCpuTime() - nanos;
    bytes = THREADS.getCurrentThreadAllocatedBytes() - bytes;
    String of = " target=" + name + " length=" + input.length;
    if (bytes > bounds.bytes(input.length)) {
      throw new AssertionError(
          "too much memory: bytes=" + bytes + " limit=" + bounds.bytes(input.length) + of);
    }
    if (nanos > bounds.cpuMillis() * 1_000_000) {
      throw new AssertionError(
          "too slow: cpuMillis=" + nanos / 1_000_000 + " limit=" + bounds.cpuMillis() + of);
    }
  }
}
