package bellwire.agent.runtime;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.HdrHistogram.Histogram;

/**
 * How well a loop has kept its tick: how late its steps began, how long they took, how many were
 * left out. Recording makes no garbage.
 */
public final class TickFigures {
  /** What is later than this counts as so late. */
  private static final long MOST_MICROS = 60_000_000;

  private static final int DIGITS = 2;
  private static final long[] BOUNDS_MICROS = {
    10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000
  };

  private final long tickMicros;
  private final Histogram late = new Histogram(MOST_MICROS, DIGITS);
  private final Histogram took = new Histogram(MOST_MICROS, DIGITS);
  private long firstMicros;
  private long lastMicros;

  /**
   * @param tickMicros from one step to the next
   */
  public TickFigures(long tickMicros) {
    this.tickMicros = tickMicros;
  }

  /** A step that should have begun at one time, did at another, and ended at a third. */
  void step(long dueMicros, long beganMicros, long endedMicros) {
    if (late.getTotalCount() == 0) {
      firstMicros = dueMicros;
    }
    lastMicros = beganMicros;
    late.recordValue(Math.min(MOST_MICROS, beganMicros - dueMicros));
    took.recordValue(Math.min(MOST_MICROS, endedMicros - beganMicros));
  }

  public long steps() {
    return late.getTotalCount();
  }

  /** Steps for which there was no time, since others were late. */
  public long leftOut() {
    return Math.max(0, (lastMicros - firstMicros) / tickMicros + 1 - steps());
  }

  public long latestMicros() {
    return late.getMaxValue();
  }

  /** The histograms, for a person. */
  public List<String> lines() {
    List<String> lines = new ArrayList<>();
    lines.add(
        String.format(
            Locale.ROOT,
            "tick of %d us over %.1f s: %d steps, %d left out",
            tickMicros,
            (lastMicros - firstMicros) * 1e-6,
            steps(),
            leftOut()));
    lines.add("       up to   began late        share   took              share");
    long lateBelow = 0;
    long tookBelow = 0;
    for (long bound : BOUNDS_MICROS) {
      long lateUpTo = upTo(late, bound);
      long tookUpTo = upTo(took, bound);
      lines.add(
          String.format(
              Locale.ROOT,
              "%9d us %12d %11.5f %% %12d %11.5f %%",
              bound,
              lateUpTo - lateBelow,
              percent(lateUpTo),
              tookUpTo - tookBelow,
              percent(tookUpTo)));
      lateBelow = lateUpTo;
      tookBelow = tookUpTo;
    }
    lines.add(
        String.format(
            Locale.ROOT,
            "     later   %12d               %12d",
            steps() - lateBelow,
            steps() - tookBelow));
    lines.add(
        String.format(
            Locale.ROOT,
            "    median %9d us              %9d us",
            late.getValueAtPercentile(50),
            took.getValueAtPercentile(50)));
    lines.add(
        String.format(
            Locale.ROOT,
            "   longest %9d us              %9d us",
            late.getMaxValue(),
            took.getMaxValue()));
    return lines;
  }

  private static long upTo(Histogram histogram, long micros) {
    return histogram.getCountBetweenValues(0, micros);
  }

  private double percent(long count) {
    return steps() == 0 ? 0 : 100.0 * count / steps();
  }
}
