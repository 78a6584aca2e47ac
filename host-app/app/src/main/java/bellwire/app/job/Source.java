package bellwire.app.job;

/**
 * How far an agent's frames are in the file.
 *
 * @param boot the agent's boot that numbered them
 * @param nextSequence those of this boot below it are in
 * @param offsetMicros that boot's device time plus this is the vigil's time; {@link #NOT_KNOWN}
 *     while nothing of the vigil has come from that boot
 */
public record Source(long boot, long nextSequence, long offsetMicros) {
  public static final long NOT_KNOWN = Long.MIN_VALUE;
}
