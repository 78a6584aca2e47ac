package bellwire.analysis.calls;

import java.util.Arrays;

/**
 * Moments that recur with the mains: the middles of one lead's gaps at the zero crossings, or of
 * its conducting pulses. Finds the half period, and says whether the moments keep to it; equations
 * (53) and (54) of docs/theory.md. Keeps the last {@value #KEPT}.
 */
final class MainsFit {
  /** Half periods of 65 and 45 Hz. */
  static final double SHORTEST_MICROS = 1e6 / 130;

  static final double LONGEST_MICROS = 1e6 / 90;
  static final int KEPT = 64;
  static final int FEWEST = 5;

  /** Moments that keep to the period, at least: a contact that bounces adds a stray gap. */
  private static final double IN_STEP = 0.85;

  /** What a middle may be off beyond its sampling: the supply's own distortion. */
  private static final double SLACK_MICROS = 350;

  private static final int GRID = 28;

  private final long[] middle = new long[KEPT]; // in quarter microseconds, from the first
  private final int[] halfWidth = new int[KEPT];
  private final int[] length = new int[KEPT];
  private int count;
  private int next;
  private long origin;
  private double halfPeriodMicros;
  private double phaseMicros;

  void clear() {
    count = 0;
    next = 0;
    halfPeriodMicros = 0;
  }

  int count() {
    return count;
  }

  /**
   * @param beforeMicros last sample before the gap or pulse
   * @param firstMicros first sample in it
   * @param lastMicros last sample in it
   * @param afterMicros first sample after it
   */
  void add(long beforeMicros, long firstMicros, long lastMicros, long afterMicros) {
    if (count == 0) {
      origin = beforeMicros;
    }
    middle[next] = beforeMicros + firstMicros + lastMicros + afterMicros - 4 * origin;
    halfWidth[next] = (int) ((firstMicros - beforeMicros + afterMicros - lastMicros) / 2);
    length[next] = (int) ((lastMicros + afterMicros - beforeMicros - firstMicros) / 2);
    next = (next + 1) % KEPT;
    count = Math.min(KEPT, count + 1);
  }

  /** Device time of the oldest among the last moments; there must be one. */
  long oldestMicros(int last) {
    return origin + (long) at(Math.max(0, count - last));
  }

  /** Device time of the newest moment; far back where there is none. */
  long newestMicros() {
    return count == 0 ? Long.MIN_VALUE / 2 : origin + (long) at(count - 1);
  }

  /** The half period found last, 0 for none. */
  double halfPeriodMicros() {
    return halfPeriodMicros;
  }

  /**
   * Whether the last moments keep to one half period from 45 to 65 Hz.
   *
   * @param last how many of them to look at
   */
  boolean regular(int last) {
    int from = Math.max(0, count - last);
    if (count - from < FEWEST) {
      return false;
    }
    double known = halfPeriodMicros;
    double best = -1;
    for (int k = 0; k <= GRID && (known == 0 || k == 0); k++) {
      double half =
          known > 0 ? known : SHORTEST_MICROS + k * (LONGEST_MICROS - SHORTEST_MICROS) / GRID;
      best = agree(from, half, best);
    }
    for (int round = 0; round < 3; round++) {
      if (!refine(from)) {
        halfPeriodMicros = 0;
        return false;
      }
    }
    int within = 0;
    for (int i = from; i < count; i++) {
      within += inStep(i) ? 1 : 0;
    }
    boolean regular =
        within >= IN_STEP * (count - from)
            && halfPeriodMicros >= SHORTEST_MICROS
            && halfPeriodMicros <= LONGEST_MICROS;
    if (!regular) {
      halfPeriodMicros = 0;
    }
    return regular;
  }

  /** The part of the time that the moments' stretches take, over the last ones. */
  double share(int last) {
    int from = Math.max(0, count - last);
    double sum = 0;
    for (int i = from + 1; i < count; i++) {
      sum += length[slot(i)];
    }
    return sum / Math.max(1, at(count - 1) - at(from));
  }

  /** The middle one of the last stretches' lengths, as a part of the half period found. */
  double medianLength(int last) {
    int from = Math.max(0, count - last);
    int[] lengths = new int[count - from];
    for (int i = from; i < count; i++) {
      lengths[i - from] = length[slot(i)];
    }
    Arrays.sort(lengths);
    return lengths[lengths.length / 2] / halfPeriodMicros;
  }

  /** Whether the last moments lie whole periods apart: a half wave. Call it when regular. */
  boolean everySecond(int last) {
    for (int i = Math.max(0, count - last) + 1; i < count; i++) {
      if (Math.rint((at(i) - at(i - 1)) / halfPeriodMicros) % 2 != 0) {
        return false;
      }
    }
    return true;
  }

  private boolean inStep(int i) {
    return Math.abs(residual(i)) <= halfWidth[slot(i)] + SLACK_MICROS;
  }

  private double residual(int i) {
    double cycles = (at(i) - phaseMicros) / halfPeriodMicros;
    return (cycles - Math.rint(cycles)) * halfPeriodMicros;
  }

  /**
   * Takes a half period on trial where the moments agree better on it: the mean resultant of their
   * phases.
   */
  private double agree(int from, double half, double best) {
    double re = 0;
    double im = 0;
    for (int i = from; i < Math.min(count, from + 12); i++) {
      double angle = 2 * Math.PI * at(i) / half;
      re += Math.cos(angle);
      im += Math.sin(angle);
    }
    double agreement = re * re + im * im;
    if (agreement > best) {
      halfPeriodMicros = half;
      phaseMicros = Math.atan2(im, re) / (2 * Math.PI) * half;
    }
    return Math.max(best, agreement);
  }

  /** One round of least squares over those in step, walking outward so that counts stay right. */
  private boolean refine(int from) {
    double n = 0;
    double sumK = 0;
    double sumT = 0;
    double sumKk = 0;
    double sumKt = 0;
    double half = halfPeriodMicros;
    double expected = phaseMicros;
    double cycle = 0;
    for (int i = from; i < count; i++) {
      double ahead = Math.rint((at(i) - expected) / half);
      double off = at(i) - expected - ahead * half;
      if (Math.abs(off) > halfWidth[slot(i)] + half / 6) {
        continue;
      }
      cycle += ahead;
      expected += ahead * half + off / Math.min(8, n + 1);
      n++;
      sumK += cycle;
      sumT += at(i);
      sumKk += cycle * cycle;
      sumKt += cycle * at(i);
    }
    double spread = n * sumKk - sumK * sumK;
    if (n < FEWEST - 1 || spread <= 0) {
      return false;
    }
    halfPeriodMicros = (n * sumKt - sumK * sumT) / spread;
    phaseMicros = (sumT - halfPeriodMicros * sumK) / n;
    return halfPeriodMicros > SHORTEST_MICROS / 2 && halfPeriodMicros < LONGEST_MICROS * 2;
  }

  private double at(int i) {
    return middle[slot(i)] / 4.0;
  }

  private int slot(int i) {
    return (next - count + i + KEPT) % KEPT;
  }
}
