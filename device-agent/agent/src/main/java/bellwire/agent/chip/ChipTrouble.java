package bellwire.agent.chip;

/**
 * A chip of the sensing board failed to answer, or answered nonsense. Nothing it said since its
 * last good answer may be believed.
 */
public final class ChipTrouble extends Exception {
  private static final long serialVersionUID = 1;

  private final String chip;

  /**
   * @param chip name of the chip in the board description, or of one of its kind
   * @param reason a sentence for people
   */
  public ChipTrouble(String chip, String reason) {
    super(reason);
    this.chip = chip;
  }

  public String chip() {
    return chip;
  }

  public String reason() {
    return String.valueOf(getMessage());
  }

  @Override
  public String toString() {
    return chip + ": " + reason();
  }
}
