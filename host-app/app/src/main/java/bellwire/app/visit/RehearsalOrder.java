package bellwire.app.visit;

import java.util.Map;
import java.util.Set;

/**
 * A rehearsal to be gone through.
 *
 * @param name of the file, with or without its ending, to blame and to head the outcome
 * @param file the rehearsal file's text
 * @param times other values of its times, such as rest to '4 min'
 * @param options names of the file's options that hold here
 * @param live whether the control is on its wall and the equipment connected
 * @param loads whether the dummy loads are switched on
 */
public record RehearsalOrder(
    String name,
    String file,
    Map<String, String> times,
    Set<String> options,
    boolean live,
    boolean loads) {
  public RehearsalOrder {
    times = Map.copyOf(times);
    options = Set.copyOf(options);
  }
}
