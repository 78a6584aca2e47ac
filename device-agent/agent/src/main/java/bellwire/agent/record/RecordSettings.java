package bellwire.agent.record;

import java.nio.file.Path;

/**
 * @param directory of the record; made where it is missing
 * @param bytes that the record may take, {@link #LEAST_BYTES} at least; what is oldest makes room
 */
public record RecordSettings(Path directory, long bytes) {
  public static final long LEAST_BYTES = 1 << 16;

  /** A day of a busy vigil takes less than a hundredth of it. */
  public static final long USUAL_BYTES = 1 << 30;

  private static final long LARGEST_SEGMENT_BYTES = 4 << 20;

  public RecordSettings {
    if (bytes < LEAST_BYTES) {
      throw new IllegalArgumentException("bytes=" + bytes);
    }
  }

  /** Size from which a segment is closed and the next one begun. */
  long segmentBytes() {
    return Math.min(LARGEST_SEGMENT_BYTES, bytes / 16);
  }
}
