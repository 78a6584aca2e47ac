package bellwire.soak;

import bellwire.simbench.file.Bench;
import java.util.List;

/**
 * A visit as it was drawn.
 *
 * @param text the bench's file
 * @param ports with a conductor, bit 0 for P1
 * @param returned the port that the others' current comes back through in a vigil
 * @param unsound ports whose conductors must not be called sound
 * @param slots one after another; the last is a survey in which nothing goes wrong
 * @param mishaps by their beginning
 */
record Scenario(
    long seed,
    String text,
    Bench bench,
    int ports,
    int returned,
    int unsound,
    List<Slot> slots,
    List<Mishap> mishaps) {
  /** The terminals of the control on X1, X2 and so on. */
  static final List<String> LEADS = List.of("G", "W1", "Y1");

  Scenario {
    slots = List.copyOf(slots);
    mishaps = List.copyOf(mishaps);
  }

  /** Ports whose conductors have no fault. */
  int sound() {
    return ports & ~unsound;
  }

  long endMicros() {
    return slots.get(slots.size() - 1).untilMicros();
  }
}
