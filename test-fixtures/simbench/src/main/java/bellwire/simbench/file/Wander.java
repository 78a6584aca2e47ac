package bellwire.simbench.file;

/**
 * A joint whose resistance changes slowly, in steps.
 *
 * @param port its conductor, from 0
 * @param at fraction of the length from the near end
 * @param ohms what it has before {@code fromNanos}
 * @param walkOhms standard deviation of a step, normally distributed; never below 0 ohm
 * @param rampOhmsPerHour added evenly, once it has begun
 * @param everyNanos from step to step
 * @param untilNanos from then on it stays as it is
 */
public record Wander(
    int port,
    double at,
    double ohms,
    double walkOhms,
    double rampOhmsPerHour,
    long everyNanos,
    long fromNanos,
    long untilNanos) {}
