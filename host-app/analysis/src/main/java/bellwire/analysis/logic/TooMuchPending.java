package bellwire.analysis.logic;

/**
 * A formula asks for more to be kept in mind than the monitor may hold: an operator without an
 * upper bound, inside another one, waits while the signals beside it keep changing.
 */
public final class TooMuchPending extends RuntimeException {

  private static final long serialVersionUID = 1L;

  TooMuchPending(int pieces) {
    super(
        "an operator without an upper bound has waited too long; give it a bound: pendingPieces="
            + pieces);
  }
}
