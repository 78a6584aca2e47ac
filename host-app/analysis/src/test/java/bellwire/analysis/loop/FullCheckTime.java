package bellwire.analysis.loop;

import com.sun.management.OperatingSystemMXBean;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.List;

/**
 * Prints the processor time of a full check by the cable's conductors: on one thread, the first
 * time in a fresh machine (and with the compiler's own threads), then the least of some more.
 */
final class FullCheckTime {
  private static final ThreadMXBean THREAD = ManagementFactory.getThreadMXBean();
  private static final OperatingSystemMXBean PROCESS =
      ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class);

  private FullCheckTime() {}

  /**
   * @param args how often again, then counts of conductors
   */
  public static void main(String[] args) {
    List<Integer> counts = new ArrayList<>();
    for (String arg : args) {
      counts.add(Integer.valueOf(arg));
    }
    int again = counts.remove(0);
    long processNanos = PROCESS.getProcessCpuTime();
    long threadNanos = THREAD.getCurrentThreadCpuTime();
    FullCheck first = new FullCheck(counts.get(0));
    int findings = first.check();
    System.out.printf(
        "full check, %d conductors, %d states, %d mistakes, %d findings: first time %.0f ms,"
            + " %.0f ms with all threads%n",
        counts.get(0),
        first.states(),
        first.mistakes(),
        findings,
        (THREAD.getCurrentThreadCpuTime() - threadNanos) / 1e6,
        (PROCESS.getProcessCpuTime() - processNanos) / 1e6);
    System.out.println("conductors mistakes circuits      ms ms/mistake");
    for (int conductors : counts) {
      FullCheck check = new FullCheck(conductors);
      int circuits = check.solvings(Integer.MAX_VALUE).size();
      long least = Long.MAX_VALUE;
      for (int i = 0; i < again; i++) {
        long start = THREAD.getCurrentThreadCpuTime();
        check.check();
        least = Math.min(least, THREAD.getCurrentThreadCpuTime() - start);
      }
      System.out.printf(
          "%10d %8d %8d %7.0f %10.2f%n",
          conductors, check.mistakes(), circuits, least / 1e6, least / 1e6 / check.mistakes());
    }
  }
}
