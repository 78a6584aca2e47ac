package bellwire.app.vigil;

import java.util.List;

/**
 * A vigil under way, as a person looks at it.
 *
 * @param sinceMicros since it was begun
 * @param watchedMicros of that, really watched
 * @param leftMicros until it ends by itself
 * @param rows one a conductor or lead
 * @param up whether the link is up; the agent goes on without
 * @param boardDiskBytes what the agent's own record may still take; 0 where it has none
 * @param lost messages that the agent could not keep
 */
public record VigilView(
    long sinceMicros,
    long watchedMicros,
    long leftMicros,
    List<Row> rows,
    boolean up,
    long boardDiskBytes,
    long lost) {
  public VigilView {
    rows = List.copyOf(rows);
  }

  /**
   * What was seen of one.
   *
   * @param name such as 'P3 red'
   * @param events openings, touches, or drop-outs of calls
   * @param brief of those, shorter than a tick
   * @param lastMicros since the last one began; -1 for none
   * @param longestMicros the longest
   * @param now what it is at this moment, in a word; may be empty
   */
  public record Row(
      String name, long events, long brief, long lastMicros, long longestMicros, String now) {}
}
