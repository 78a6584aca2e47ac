package bellwire.analysis.fault;

/**
 * Where on the coded plug a conductor is.
 *
 * @param position from 0
 * @param odds of this position to all others and to no explanation together
 */
public record Position(int position, double odds) {}
