package bellwire.app.desk;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Where a demo's job is kept while it is open: in a directory of its own that goes with it. */
final class DemoFolder {
  private static final String PREFIX = "bellwire-demo";
  private static final String JOB = "demo.bellwire";

  /** What a job file has beside it while it is open. */
  private static final List<String> FILES = List.of("", "-wal", "-shm", ".lock");

  private DemoFolder() {}

  /** Makes one; where the program ends before {@link #remove}, it is removed then. */
  static Path make() throws IOException {
    Path folder = Files.createTempDirectory(PREFIX);
    folder.toFile().deleteOnExit(); // the last that was asked for is deleted first
    Path job = folder.resolve(JOB);
    FILES.forEach(end -> new File(job + end).deleteOnExit());
    return job;
  }

  /** Removes a demo's directory; any other job stays, and so does what a person put beside it. */
  static void remove(Path job) {
    Path folder = job.toAbsolutePath().getParent();
    if (folder == null
        || !String.valueOf(folder.getFileName()).startsWith(PREFIX)
        || !String.valueOf(job.getFileName()).equals(JOB)) {
      return;
    }
    try {
      for (String end : FILES) {
        Files.deleteIfExists(Path.of(job + end));
      }
      Files.delete(folder);
    } catch (IOException e) {
      // Somebody keeps a file there.
    }
  }
}
