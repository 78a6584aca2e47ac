package bellwire.app.job;

/**
 * Something that a vigil found at a port. Times are device time; the event itself began between
 * {@code beforeMicros} and {@code firstMicros}, and ended between {@code lastMicros} and {@code
 * afterMicros}.
 *
 * @param port 0 for P1 to 15 for P16, 16 for M
 * @param others touch: ports that may be the other one, bit 0 for P1, bit 16 for M; else 0
 * @param beforeMicros last tick without it, before it
 * @param firstMicros its first tick
 * @param lastMicros its last tick
 * @param afterMicros first tick without it, after it
 * @param times how often it came and went in that time, closer than events are told apart
 * @param latched only a latch saw it: shorter than a tick
 * @param cutBefore a gap, or the vigil's start, hides its beginning
 * @param cutAfter a gap, or the vigil's end, hides its end
 */
public record VigilEvent(
    int port,
    int others,
    long beforeMicros,
    long firstMicros,
    long lastMicros,
    long afterMicros,
    int times,
    boolean latched,
    boolean cutBefore,
    boolean cutAfter) {}
