package bellwire.app.job;

import java.util.List;

/**
 * A stretch of a stream in few columns.
 *
 * @param columns one beside the other, in order of time
 * @param unreadable blocks in it that are damaged: their samples are in no column
 */
public record Overview(List<Column> columns, List<Unreadable> unreadable) {
  public Overview {
    columns = List.copyOf(columns);
    unreadable = List.copyOf(unreadable);
  }

  /**
   * What was seen in a part of it.
   *
   * @param fromMicros begin, device time
   * @param toMicros end, not part of it
   * @param sampled whether it has any sample; without one the values mean nothing
   * @param low the least code, exactly; of words the bits set throughout
   * @param high the greatest code, exactly; of words the bits set at any time
   * @param latches ports whose latch was set at any time
   * @param gapShare of its length in gaps, 0 to 1
   */
  public record Column(
      long fromMicros,
      long toMicros,
      boolean sampled,
      int low,
      int high,
      int latches,
      double gapShare) {}

  /**
   * A damaged block.
   *
   * @param firstMicros time of its first sample
   * @param lastMicros time of its last sample
   */
  public record Unreadable(long firstMicros, long lastMicros, String reason) {}
}
