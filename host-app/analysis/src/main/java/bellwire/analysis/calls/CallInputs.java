package bellwire.analysis.calls;

/**
 * What the call-sense connector's inputs are, as far as the interpretation needs it.
 *
 * @param acVolts magnitude above which an input shows a one, wetting off
 * @param acToleranceVolts half-width of its tolerance
 * @param delayMicros longest time from a lead to its bit; the shortest is 0
 */
public record CallInputs(double acVolts, double acToleranceVolts, int delayMicros) {
  /** hardware-notes/sensing-board-a.yaml; a test holds them together. */
  public static final CallInputs REVISION_A = new CallInputs(9.0, 0.6, 50);

  public CallInputs {
    if (!(acVolts > 0)
        || !(acToleranceVolts >= 0 && acToleranceVolts < acVolts)
        || delayMicros < 0
        || delayMicros > 1000) {
      throw new IllegalArgumentException(
          "acVolts="
              + acVolts
              + " acToleranceVolts="
              + acToleranceVolts
              + " delayMicros="
              + delayMicros);
    }
  }
}
