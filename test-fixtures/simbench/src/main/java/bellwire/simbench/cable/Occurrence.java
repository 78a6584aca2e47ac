package bellwire.simbench.cable;

import bellwire.simbench.file.Intermittent;

/**
 * One time that a conductor was open, or two touched.
 *
 * @param entry of the bench's intermittent openings and touches, from 0
 * @param portA the conductor, from 0
 * @param portB the other one, 16 for M; −1 for an opening
 * @param at fraction of the length from the near end
 * @param endNanos when it was over
 */
public record Occurrence(
    int entry,
    Intermittent.Kind kind,
    int portA,
    int portB,
    double at,
    long startNanos,
    long endNanos) {

  public long nanos() {
    return endNanos - startNanos;
  }
}
