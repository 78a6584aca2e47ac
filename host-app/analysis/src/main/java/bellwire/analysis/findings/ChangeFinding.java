package bellwire.analysis.findings;

/** How a landing differs from what it was. */
public enum ChangeFinding implements FindingKind {
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

  ChangeFinding(String title, String remedy) {
    this.title = title;
    this.remedy = remedy;
  }

  @Override
  public String title() {
    return title;
  }

  @Override
  public String remedy() {
    return remedy;
  }
}
