package bellwire.app.job;

/**
 * Time of which a stream has no samples.
 *
 * @param fromMicros device time where the first missing sample would have been
 * @param toMicros device time of the next sample, or of what was said to be missing
 */
public record Gap(long fromMicros, long toMicros, String reason) {}
