package bellwire.app.job;

import java.util.Map;

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
 * @param expectedOhms trend: of a conductor and what is on its far end, about, which the gains
 *     follow from; else 0
 * @param mainsHertz 50 or 60
 * @param names of conductors or leads, by number from 0, where they have one
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
    double expectedOhms,
    int mainsHertz,
    Map<Integer, String> names) {
  private static final int MOST_TEXT = 1000;

  public Watched {
    names = Map.copyOf(names);
    bounded(program);
    bounded(board);
    bounded(note);
    names.values().forEach(Watched::bounded);
  }

  private static void bounded(String text) {
    if (text.length() > MOST_TEXT) {
      throw new IllegalArgumentException("text too long: length=" + text.length());
    }
  }
}
