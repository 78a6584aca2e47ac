package bellwire.analysis.loop;

import bellwire.analysis.circuit.FuseKind;

/**
 * A fuse or a breaker.
 *
 * @param ratedAmps rated current
 */
public record Fuse(String name, Point a, Point b, FuseKind kind, double ratedAmps)
    implements Element {}
