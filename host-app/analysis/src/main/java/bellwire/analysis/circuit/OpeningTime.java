package bellwire.analysis.circuit;

/**
 * When a fuse opens, as far as its published limits tell.
 *
 * @param earliestSeconds it does not open before
 * @param latestSeconds it has opened by then; infinite where it may never
 */
public record OpeningTime(double earliestSeconds, double latestSeconds) {
  /** Carries its current for good. */
  public static final OpeningTime NEVER =
      new OpeningTime(Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);

  public boolean certain() {
    return latestSeconds < Double.POSITIVE_INFINITY;
  }

  public boolean possible() {
    return earliestSeconds < Double.POSITIVE_INFINITY;
  }
}
