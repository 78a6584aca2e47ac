package bellwire.simbench.circuit;

import bellwire.simbench.FilterKernel;
import java.util.List;
import java.util.TreeSet;

/**
 * A filter's output over a window in which the circuit changed: Gauss-Legendre over each piece,
 * between the filter's own break points, in steps that double from each change on so that fast
 * modes are caught.
 */
public final class WindowQuadrature {
  private static final long FIRST_STEP_NANOS = 100;
  private static final int MAX_BOXES = 8;
  // Abramowitz and Stegun, table 25.4, n = 4.
  private static final double[] ABSCISSA = {0.339981043584856, 0.861136311594053};
  private static final double[] WEIGHT = {0.652145154862546, 0.347854845137454};

  private final FilterKernel filter;
  private final long windowNanos;

  public WindowQuadrature(FilterKernel filter, long windowNanos) {
    if (filter.boxNanos().length > MAX_BOXES) {
      throw new IllegalArgumentException("boxes=" + filter.boxNanos().length);
    }
    this.filter = filter;
    this.windowNanos = windowNanos;
  }

  /**
   * @param pieces in order of time; the first starts at or before the window
   * @param probes one for each piece, as what a tap shows may change with the circuit
   * @return volts
   */
  public double integrate(List<Solution> pieces, List<Probe> probes) {
    long end = windowNanos + filter.lengthNanos();
    double sum = 0;
    for (int i = 0; i < pieces.size(); i++) {
      long from = Math.max(pieces.get(i).startNanos(), windowNanos);
      long to = i + 1 < pieces.size() ? Math.min(pieces.get(i + 1).startNanos(), end) : end;
      TreeSet<Long> breaks = breaks(from, to);
      long previous = from;
      for (long next : breaks) {
        if (next > previous) {
          sum += panel(pieces.get(i), probes.get(i), previous, next);
          previous = next;
        }
      }
    }
    return sum;
  }

  private TreeSet<Long> breaks(long from, long to) {
    TreeSet<Long> breaks = new TreeSet<>();
    if (to <= from) {
      return breaks;
    }
    breaks.add(to);
    for (long step = FIRST_STEP_NANOS; from + step < to; step *= 2) {
      breaks.add(from + step);
    }
    // Even steps as well, for the tones.
    for (int i = 1; i < 64; i++) {
      breaks.add(from + (to - from) * i / 64);
    }
    long[] boxes = filter.boxNanos();
    for (int subset = 0; subset < 1 << boxes.length; subset++) {
      long at = windowNanos + length(boxes, subset);
      if (at > from && at < to) {
        breaks.add(at);
      }
    }
    return breaks;
  }

  private double panel(Solution piece, Probe probe, long from, long to) {
    double half = (to - from) * 0.5e-9;
    double mid = (from - windowNanos) * 1e-9 + half;
    double offset = (windowNanos - piece.startNanos()) * 1e-9;
    double sum = 0;
    for (int i = 0; i < ABSCISSA.length; i++) {
      double d = ABSCISSA[i] * half;
      sum +=
          WEIGHT[i]
              * (kernel(mid - d) * piece.voltsAt(probe, offset + mid - d)
                  + kernel(mid + d) * piece.voltsAt(probe, offset + mid + d));
    }
    return sum * half;
  }

  /** The impulse response: a B-spline of unequal boxes, by truncated powers. */
  private double kernel(double seconds) {
    long[] boxes = filter.boxNanos();
    int m = boxes.length;
    double sum = 0;
    for (int subset = 0; subset < 1 << m; subset++) {
      double x = seconds - length(boxes, subset) * 1e-9;
      if (x > 0) {
        double power = Integer.bitCount(subset) % 2 == 0 ? 1 : -1;
        for (int p = 1; p < m; p++) {
          power *= x / p;
        }
        sum += power;
      }
    }
    for (long box : boxes) {
      sum /= box * 1e-9;
    }
    return sum;
  }

  private static long length(long[] boxes, int subset) {
    long nanos = 0;
    for (int i = 0; i < boxes.length; i++) {
      if ((subset & 1 << i) != 0) {
        nanos += boxes[i];
      }
    }
    return nanos;
  }
}
