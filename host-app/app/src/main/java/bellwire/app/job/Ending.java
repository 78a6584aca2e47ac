package bellwire.app.job;

/**
 * How a vigil ended.
 *
 * @param micros device time
 * @param outcome in words, for people
 */
public record Ending(long micros, String outcome) {}
