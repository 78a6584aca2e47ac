package bellwire.agent.serial;

/** The serial device cannot be had; the message is one sentence with the usual remedy. */
public final class SerialTrouble extends Exception {
  private static final long serialVersionUID = 1;

  SerialTrouble(String message) {
    super(message);
  }
}
