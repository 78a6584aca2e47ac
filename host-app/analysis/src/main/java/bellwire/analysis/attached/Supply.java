package bellwire.analysis.attached;

import bellwire.analysis.survey.Foreign;
import java.util.Optional;

/** What a voltage found on a cable that should be dead may come from. */
public final class Supply {
  /** One primary cell to a few in series. */
  private static final double LEAST_CELL_VOLTS = 1;

  private static final double MOST_CELL_VOLTS = 10;

  private Supply() {}

  /** A sentence on it; empty where nothing more can be said. */
  public static Optional<String> words(Foreign foreign) {
    if (!foreign.driven() || foreign.alternating()) {
      return Optional.empty();
    }
    boolean cell = foreign.volts() >= LEAST_CELL_VOLTS && foreign.volts() <= MOST_CELL_VOLTS;
    return Optional.of(
        cell
            ? "A steady DC voltage of this size is a cell or a small supply: lift the control from its"
                + " base, or take its batteries out, then measure again."
            : "A steady DC voltage: a DC supply, or a charge that something holds.");
  }
}
