package bellwire.app.document;

import bellwire.app.job.JobFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;

/**
 * Everything of a job, read once: reports, labels and the JSON are made of it, and nothing else.
 *
 * @param job the file it was read from
 * @param madeAt when
 * @param zone of the times that are shown
 * @param version of this program
 */
public record ReportContents(Path job, Instant madeAt, ZoneId zone, String version) {
  /**
   * Reads a job, beside a writer where there is one. What can't be read of it is told in its place;
   * only a file that is no readable job throws. Takes as long as the vigils in it take to be read:
   * never on the event thread.
   *
   * @param zone of the times that are shown
   * @param version of this program, such as "0.7"
   */
  public static ReportContents gather(Path job, Instant now, ZoneId zone, String version)
      throws JobFileException {
    return new ReportContents(job, now, zone, version);
  }
}
