package bellwire.analysis.circuit;

import java.util.List;

/**
 * Kinds of fuse, with what is published on their opening times: the one place for it. A current
 * between two published multiples of the rating is bounded by both, for a fuse opens the sooner the
 * more it carries; nothing is interpolated.
 */
public enum FuseKind {
  /** ISO 8820-3, types C and F: from memory, a default. */
  BLADE(
      "ISO 8820-3, from memory",
      false,
      carriesRated(),
      gate(1.10, 360_000, Double.POSITIVE_INFINITY),
      gate(1.35, 0.75, 600),
      gate(1.60, 0.25, 50),
      gate(2.0, 0.15, 5),
      gate(3.5, 0.04, 0.5),
      gate(6.0, 0.02, 0.1)),
  /** UL 248-14, fast. */
  FAST(
      "UL 248-14",
      true,
      carriesRated(),
      gate(1.10, 14_400, Double.POSITIVE_INFINITY),
      gate(1.35, 0, 3600),
      gate(2.0, 0, 120)),
  /** UL 248-14, time-lag; between 3 and 3.15 A the shorter of its two least times. */
  TIME_LAG(
      "UL 248-14",
      true,
      carriesRated(),
      gate(2.0, 5, 120).upToRating(3.15),
      gate(2.0, 12, 120).aboveRating(3.15)),
  /** IEC 60127-2, quick-acting, 32 mA to 100 mA and 125 mA to 10 A. */
  QUICK_ACTING(
      "IEC 60127-2",
      true,
      carriesRated(),
      gate(1.5, 3600, Double.POSITIVE_INFINITY).aboveRating(0.1249).upToRating(10),
      gate(2.1, 0, 1800).aboveRating(0.1249).upToRating(10),
      gate(2.75, 0.05, 2).aboveRating(0.1249).upToRating(10),
      gate(4, 0.01, 0.3).aboveRating(0.1249).upToRating(10),
      gate(10, 0, 0.02).aboveRating(0.1249).upToRating(10),
      gate(2.75, 0.01, 0.5).aboveRating(0.0319).upToRating(0.1),
      gate(4, 0.003, 0.1).aboveRating(0.0319).upToRating(0.1)),
  /** A thermal breaker: common practice, no source, a default. */
  BREAKER(
      "common practice, no source",
      false,
      carriesRated(),
      gate(1.35, 10, 3600),
      gate(2.0, 2, 120),
      gate(6.0, 0.1, 10));

  /**
   * At a multiple of the rated current, the least and the most time to opening; for ratings above
   * one and up to another.
   */
  private record Gate(
      double multiple,
      double earliestSeconds,
      double latestSeconds,
      double aboveAmps,
      double upToAmps) {

    Gate aboveRating(double amps) {
      return new Gate(multiple, earliestSeconds, latestSeconds, amps, upToAmps);
    }

    Gate upToRating(double amps) {
      return new Gate(multiple, earliestSeconds, latestSeconds, aboveAmps, amps);
    }

    boolean forRating(double amps) {
      return amps > aboveAmps && amps <= upToAmps;
    }
  }

  private final String source;
  private final boolean published;
  private final List<Gate> gates;

  FuseKind(String source, boolean published, Gate... gates) {
    this.source = source;
    this.published = published;
    this.gates = List.of(gates);
  }

  private static Gate gate(double multiple, double earliestSeconds, double latestSeconds) {
    return new Gate(multiple, earliestSeconds, latestSeconds, 0, Double.POSITIVE_INFINITY);
  }

  /** What a rating means: that current is carried for good. */
  private static Gate carriesRated() {
    return gate(1, Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY);
  }

  /** Where its times are from, in words. */
  public String source() {
    return source;
  }

  /** Whether its times were read; otherwise they are a default, to be labelled as one. */
  public boolean published() {
    return published;
  }

  /**
   * When a fuse opens, theory (69).
   *
   * @param ratedAmps above 0
   * @param amps A rms, constant
   */
  public OpeningTime opening(double ratedAmps, double amps) {
    if (!(ratedAmps > 0) || !(amps >= 0)) {
      throw new IllegalArgumentException("ratedAmps=" + ratedAmps + " amps=" + amps);
    }
    double earliest = 0;
    double latest = Double.POSITIVE_INFINITY;
    for (Gate gate : gates) {
      if (gate.forRating(ratedAmps)) {
        if (amps <= gate.multiple() * ratedAmps) {
          earliest = Math.max(earliest, gate.earliestSeconds());
        }
        if (amps >= gate.multiple() * ratedAmps) {
          latest = Math.min(latest, gate.latestSeconds());
        }
      }
    }
    return new OpeningTime(earliest, latest);
  }
}
