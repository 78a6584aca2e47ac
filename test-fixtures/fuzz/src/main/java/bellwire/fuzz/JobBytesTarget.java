package bellwire.fuzz;

import bellwire.app.export.JobFormat;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;

/** A job file with some of its bytes changed, as a database of its own kind reads them. */
final class JobBytesTarget implements Target {
  private static final Set<JobFormat> FORMATS =
      EnumSet.of(JobFormat.CSV, JobFormat.JSON, JobFormat.HTML);
  private static final int MOST_PATCHES = 64;

  private final Scratch scratch = new Scratch("job");
  private final byte[] sample;

  JobBytesTarget() {
    try {
      Path file = scratch.directory().resolve("sample.bellwire");
      SampleJob.write(file);
      sample = Files.readAllBytes(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  @Override
  public void take(byte[] input) throws IOException {
    byte[] bytes = sample.clone();
    Script script = new Script(input);
    for (int i = 0; i < MOST_PATCHES && !script.atEnd(); i++) {
      int at = (script.pair() | script.octet() << 16) % bytes.length;
      byte[] patch = script.bytes(1 + script.octet() % 32);
      System.arraycopy(patch, 0, bytes, at, Math.min(patch.length, bytes.length - at));
    }
    scratch.empty();
    Path job = scratch.file("job.bellwire", bytes);
    JobReading.read(job);
    // To export it costs as much as to read it thirty times.
    if (Arrays.hashCode(input) % 8 == 0) {
      JobReading.exported(job, Files.createDirectory(scratch.directory().resolve("out")), FORMATS);
    }
    JobReading.opened(job);
  }

  /** Places to begin with: the head, a page's head, a text. */
  static List<byte[]> seeds() {
    return List.of(
        new byte[] {18, 0, 0, 0, 1},
        new byte[] {96, 0, 0, 3, 0, 0, 0, 9},
        new byte[] {0, 4, 0, 7, 13, 0, 0, 0, 1, 0, 1, 0},
        new byte[] {100, 0, 0, 7, 13, 0, 0, 0, 1, 0, 1, 0});
  }
}
