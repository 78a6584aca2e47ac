package bellwire.app.document.block;

/** How a statement is known. Told by a shape and a word, not by colour. */
public enum Mark {
  /** The board measured it, or this program computed it from what the board measured. */
  MEASURED("\u25a0", "measured"),
  /** Somebody saw, did or read it, and says so. */
  WITNESSED("\u25b2", "witnessed"),
  /** Taken for true; nobody looked. */
  ASSUMED("\u25cb", "assumed"),
  /** Not looked at, for the reason told. */
  NOT_TESTED("\u2013", "not tested");

  private final String shape;
  private final String word;

  Mark(String shape, String word) {
    this.shape = shape;
    this.word = word;
  }

  public String shape() {
    return shape;
  }

  public String word() {
    return word;
  }
}
