package bellwire.agent.pi;

/** The Pi's buses or lines could not be had; the message is one sentence with the usual remedy. */
public final class PiTrouble extends Exception {
  private static final long serialVersionUID = 1;

  PiTrouble(String message, Throwable cause) {
    super(message + " (" + root(cause).getMessage() + ")", cause);
  }

  /** Pi4J wraps what the system said, and says only that something could not be initialised. */
  private static Throwable root(Throwable cause) {
    Throwable root = cause;
    for (Throwable next = root.getCause(); next != null; next = root.getCause()) {
      root = next;
    }
    return root;
  }
}
