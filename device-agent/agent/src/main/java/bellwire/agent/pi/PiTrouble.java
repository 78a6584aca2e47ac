package bellwire.agent.pi;

/** The Pi's buses or lines could not be had; the message is one sentence with the usual remedy. */
public final class PiTrouble extends Exception {
  private static final long serialVersionUID = 1;

  PiTrouble(String message, Throwable cause) {
    super(message + " (" + cause.getMessage() + ")", cause);
  }
}
