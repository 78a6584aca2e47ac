package bellwire.analysis.attached;

import java.util.List;

/**
 * A difference between two landings.
 *
 * @param kind of difference
 * @param ports where
 * @param words what was seen, with its figures
 */
public record LandingChange(Kind kind, List<Integer> ports, String words) {

  /** The kinds, and what to do about each. */
  public enum Kind {
    JOINED(
        "joined now, and not before",
        "A jumper too many, or bare copper that touches: look at both terminals, cut the conductors back to sound"
            + " insulation, strip to the clamp's length, land again."),
    PARTED(
        "joined before, and not now",
        "A jumper is missing, or a conductor is not under its terminal: put it back, tug it, measure again."),
    LOOSE(
        "a clamp is loose",
        "Re-seat the conductor under its clamp and tug it, then measure again. A few milliamperes cannot show how a"
            + " contact behaves under a contactor's inrush."),
    GONE(
        "a conductor is missing",
        "It is not under its terminal, or its insulation is under the clamp: strip it to the clamp's length, seat it,"
            + " tug it, measure again.");

    private final String title;
    private final String remedy;

    Kind(String title, String remedy) {
      this.title = title;
      this.remedy = remedy;
    }

    public String title() {
      return title;
    }

    public String remedy() {
      return remedy;
    }
  }
}
