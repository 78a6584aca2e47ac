package bellwire.analysis.calls;

/**
 * A lead's level changed once, at a moment between two device times.
 *
 * @param lead 0 for X1 to 15 for X16
 * @param level from then on
 * @param earliestMicros device time, no change of level before it
 * @param latestMicros device time, the new level holds from it on
 */
public record LevelChange(int lead, Level level, long earliestMicros, long latestMicros) {
  public LevelChange {
    if (lead < 0 || lead > 15 || earliestMicros > latestMicros) {
      throw new IllegalArgumentException(
          "lead=" + lead + " earliestMicros=" + earliestMicros + " latestMicros=" + latestMicros);
    }
  }
}
