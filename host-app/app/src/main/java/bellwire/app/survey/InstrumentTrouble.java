package bellwire.app.survey;

import bellwire.yaml.Shown;

/** The board, its agent or the link to it cannot do what was asked; the message says what to do. */
public final class InstrumentTrouble extends Exception {
  private static final long serialVersionUID = 1L;
  private static final int MOST_WORDS = 1500;

  public InstrumentTrouble(String message) {
    super(Shown.line(message, MOST_WORDS));
  }
}
