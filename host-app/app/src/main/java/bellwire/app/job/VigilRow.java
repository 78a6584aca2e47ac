package bellwire.app.job;

import java.util.Optional;

/**
 * A vigil in a job file.
 *
 * @param id for {@link JobFile#resumeVigil} and {@link VigilReader#open}
 * @param program what was watched for
 * @param startedUnixMicros wall time of its start
 * @param startedMicros device time of its start
 * @param ending empty while it is under way, or where it was left: {@link JobFile#isBeingWritten}
 *     tells which
 */
public record VigilRow(
    long id, String program, long startedUnixMicros, long startedMicros, Optional<Ending> ending) {
  /** Wall time, µs since 1970 UTC, of a device time of this vigil. */
  public long unixMicros(long deviceMicros) {
    return startedUnixMicros + (deviceMicros - startedMicros);
  }
}
