package bellwire.app.job;

/**
 * Something that a vigil found at a port.
 *
 * @param port 0 for P1 to 15 for P16
 * @param firstMicros device time of its first tick
 * @param lastMicros device time of its last tick
 * @param latched only a latch saw it: shorter than a tick
 * @param cut a gap began or ended it
 */
public record VigilEvent(
    int port, long firstMicros, long lastMicros, boolean latched, boolean cut) {}
