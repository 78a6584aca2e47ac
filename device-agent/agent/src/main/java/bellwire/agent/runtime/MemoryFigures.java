package bellwire.agent.runtime;

import com.sun.management.GarbageCollectionNotificationInfo;
import com.sun.management.ThreadMXBean;
import java.io.IOException;
import java.lang.management.GarbageCollectorMXBean;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryUsage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.atomic.AtomicLong;
import javax.management.NotificationEmitter;
import javax.management.openmbean.CompositeData;

/** What this program's Java takes: garbage made, collections, heap, and memory in all. */
public final class MemoryFigures {
  private static final double MEBI = 1 << 20;
  private static final Path STATUS = Path.of("/proc/self/status");

  private final ThreadMXBean threads = (ThreadMXBean) ManagementFactory.getThreadMXBean();
  private final long thread = Thread.currentThread().getId();
  private final long before;
  private final AtomicLong collections = new AtomicLong();
  private final AtomicLong collectionMillis = new AtomicLong();
  private final AtomicLong longestMillis = new AtomicLong();
  private final AtomicLong leftBytes = new AtomicLong();

  /** From now on, and of this thread. */
  public MemoryFigures() {
    for (GarbageCollectorMXBean each : ManagementFactory.getGarbageCollectorMXBeans()) {
      if (each instanceof NotificationEmitter emitter) {
        emitter.addNotificationListener(
            (notification, handback) -> collected((CompositeData) notification.getUserData()),
            null,
            null);
      }
    }
    before = threads.getThreadAllocatedBytes(thread);
  }

  private void collected(CompositeData data) {
    GarbageCollectionNotificationInfo info = GarbageCollectionNotificationInfo.from(data);
    long millis = info.getGcInfo().getDuration();
    collections.incrementAndGet();
    collectionMillis.addAndGet(millis);
    longestMillis.accumulateAndGet(millis, Math::max);
    leftBytes.set(
        info.getGcInfo().getMemoryUsageAfterGc().entrySet().stream()
            .filter(pool -> heap(pool.getKey()))
            .mapToLong(pool -> pool.getValue().getUsed())
            .sum());
  }

  private static boolean heap(String pool) {
    return ManagementFactory.getMemoryPoolMXBeans().stream()
        .anyMatch(
            bean ->
                bean.getName().equals(pool)
                    && bean.getType() == java.lang.management.MemoryType.HEAP);
  }

  /** Bytes that the thread has taken for objects. */
  public long allocatedBytes() {
    return threads.getThreadAllocatedBytes(thread) - before;
  }

  /**
   * For a person.
   *
   * @param steps by which the garbage is divided
   */
  public List<String> lines(long steps) {
    MemoryUsage heap = ManagementFactory.getMemoryMXBean().getHeapMemoryUsage();
    List<String> lines = new ArrayList<>();
    lines.add(
        String.format(
            Locale.ROOT,
            "objects made by the loop: %.0f bytes a step",
            steps == 0 ? 0 : (double) allocatedBytes() / steps));
    lines.add(
        String.format(
            Locale.ROOT,
            "collections: %d, together %d ms, the longest %d ms",
            collections.get(),
            collectionMillis.get(),
            longestMillis.get()));
    lines.add(
        String.format(
            Locale.ROOT,
            "heap: %.0f MiB set, %.1f MiB left by the last collection",
            heap.getMax() / MEBI,
            leftBytes.get() / MEBI));
    lines.add("in memory in all: " + resident());
    return lines;
  }

  private static String resident() {
    try {
      return Files.readAllLines(STATUS).stream()
          .filter(line -> line.startsWith("VmRSS:"))
          .map(line -> line.substring("VmRSS:".length()).trim())
          .findFirst()
          .orElse("not known");
    } catch (IOException e) {
      return "not known";
    }
  }
}
