package bellwire.app.rehearsal;

/**
 * What may run in a rehearsal.
 *
 * @param live whether equipment is connected
 * @param cold whether it is too cold for the compressor
 */
public record RehearsalSite(boolean live, boolean cold) {
  /** How a step is noted that was done so that the compressor could not run. */
  public static final String CALL_ONLY = "call only, outdoor pair lifted";

  /** Whether the step may be done only so that the call is seen and the compressor can't run. */
  public boolean callOnly(Step step) {
    return cold && step.runsCompressor();
  }
}
