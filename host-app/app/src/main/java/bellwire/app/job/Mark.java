package bellwire.app.job;

/**
 * What a person noted during a vigil.
 *
 * @param micros device time
 */
public record Mark(long micros, String text) {}
