package bellwire.app.job;

import java.util.List;

/**
 * A rehearsal that was done.
 *
 * @param id its key; 0 before it is in the file
 * @param atUnixMicros when it began, by the wall clock
 * @param live on the energised system
 * @param file the rehearsal file's text, which needs no other
 * @param options of the file that were chosen, each of one line
 * @param json its outcome, as {@code bellwire rehearse --json} writes it
 * @param trace what was recorded, compressed as {@code bellwire rehearse --record} writes it; may
 *     be empty
 */
@SuppressWarnings("ArrayRecordComponent") // Nobody compares them.
public record RehearsalRow(
    long id,
    long atUnixMicros,
    boolean live,
    String file,
    List<String> options,
    String json,
    byte[] trace) {
  public RehearsalRow {
    options = List.copyOf(options);
    for (String option : options) {
      if (option.indexOf('\n') >= 0) {
        throw new IllegalArgumentException("option of more than one line: option=" + option);
      }
    }
  }
}
