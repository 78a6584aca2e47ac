package bellwire.app.survey;

/** The board, its agent or the link to it cannot do what was asked; the message says what to do. */
public final class InstrumentTrouble extends Exception {
  private static final long serialVersionUID = 1L;

  public InstrumentTrouble(String message) {
    super(message);
  }
}
