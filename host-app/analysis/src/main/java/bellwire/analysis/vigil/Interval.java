package bellwire.analysis.vigil;

/**
 * A confidence interval.
 *
 * @param low at least 0
 * @param high infinite where nothing bounds it
 */
public record Interval(double low, double high) {}
