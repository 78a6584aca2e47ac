package bellwire.app.job;

import java.util.List;

/**
 * What a vigil was asked to watch; kept with it.
 *
 * @param vigil its number on the link, by which the agent knows it
 * @param program continuity, touch, trend or calls
 * @param ports that have a conductor, bit 0 for P1; of calls the leads, bit 0 for X1
 * @param returned continuity: the port from 0 that the others' current comes back through; else 0
 * @param wetting calls: the 5 V wetting supply was on XW
 * @param loads calls: leads whose dummy load was on, bit 0 for X1
 * @param lengthMicros after which it ends by itself
 * @param board the sensing board's revision and what else names it
 * @param note what the person called it; may be empty
 * @param shortestOpeningMicros continuity: that this cable lets through to the latches; NaN where
 *     it is not known
 * @param steps trend: what each stream measures, in the order of the streams; else none
 */
public record Watched(
    long vigil,
    String program,
    int ports,
    int returned,
    boolean wetting,
    int loads,
    long lengthMicros,
    String board,
    String note,
    double shortestOpeningMicros,
    List<String> steps) {
  private static final int MOST_STEPS = 1024;
  private static final int MOST_TEXT = 1000;

  public Watched {
    steps = List.copyOf(steps);
    if (steps.size() > MOST_STEPS) {
      throw new IllegalArgumentException("too many steps: count=" + steps.size());
    }
    bounded(program);
    bounded(board);
    bounded(note);
    steps.forEach(Watched::bounded);
  }

  private static void bounded(String text) {
    if (text.length() > MOST_TEXT) {
      throw new IllegalArgumentException("text too long: length=" + text.length());
    }
  }
}
