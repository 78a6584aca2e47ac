package bellwire.app.job;

/**
 * A vigil in a job file.
 *
 * @param id for {@link JobFile#resumeVigil} and {@link VigilReader#open}
 * @param program what was watched for
 * @param startedUnixMicros wall time of its start
 * @param startedMicros device time of its start
 */
public record VigilRow(long id, String program, long startedUnixMicros, long startedMicros) {}
