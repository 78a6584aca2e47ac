package bellwire.app.job;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.file.Path;
import java.sql.DriverManager;

/**
 * Opens a file and draws every stream of a vigil in 1000 columns; says the milliseconds it took,
 * those of the processor in it, and those of loading the library before.
 */
final class ColdOverview {
  private ColdOverview() {}

  public static void main(String[] arguments) throws Exception {
    long start = System.nanoTime();
    DriverManager.getConnection("jdbc:sqlite::memory:").close();
    ThreadMXBean threads = ManagementFactory.getThreadMXBean();
    long cpuBegin = threads.getCurrentThreadCpuTime();
    long begin = System.nanoTime();
    long from = Long.parseLong(arguments[2]);
    long to = Long.parseLong(arguments[3]);
    int columns = 0;
    try (VigilReader reader =
        VigilReader.open(Path.of(arguments[0]), Long.parseLong(arguments[1]))) {
      for (Stream stream : reader.streams()) {
        columns += reader.overview(stream, from, to, 1000).columns().size();
      }
    }
    long end = System.nanoTime();
    long cpu = threads.getCurrentThreadCpuTime() - cpuBegin;
    System.out.println((end - begin) * 1e-6 + " " + cpu * 1e-6 + " " + (begin - start) * 1e-6);
    System.exit(columns > 0 ? 0 : 1);
  }
}
