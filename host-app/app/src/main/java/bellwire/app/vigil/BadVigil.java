package bellwire.app.vigil;

/** A vigil that can't be analysed, in a sentence that says what to do. */
public final class BadVigil extends Exception {
  private static final long serialVersionUID = 1;

  public BadVigil(String words) {
    super(words);
  }
}
