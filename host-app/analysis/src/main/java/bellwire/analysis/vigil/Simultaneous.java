package bellwire.analysis.vigil;

/**
 * Conductors that opened together, within a reading of one another.
 *
 * @param ports that did
 * @param kind what that says
 * @param suspect as in {@link Together}
 * @param count how often just these did
 * @param expected how often two of them would by chance, at their own rates
 */
public record Simultaneous(
    int ports, Together.Kind kind, int suspect, long count, double expected) {}
