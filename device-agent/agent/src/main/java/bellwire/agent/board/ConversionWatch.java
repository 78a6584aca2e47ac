package bellwire.agent.board;

import bellwire.agent.chip.ConversionTimes;
import bellwire.link.Rate;

/**
 * When each conversion should end, and so which were missed. The latch edge's time is known to the
 * agent's clock, the rest is counted in the converter's own periods; the poll that finds a result
 * bounds both, so that an oscillator a percent off cannot carry the estimate away.
 */
final class ConversionWatch {
  /** The converter's oscillator may be 1.5 % off (data sheet, from memory); doubled. */
  private static final double OSCILLATOR_SLACK = 0.03;

  private static final long LATE_NANOS = 20_000_000;

  private long periodNanos;
  private boolean continuous;
  private long expectedNanos;
  private long deadlineNanos;
  private long polledNanos;
  private int missed;

  /** A latch edge started conversions. */
  void start(long nowMicros, int delayCode, Rate rate, boolean continuous) {
    long now = nowMicros * 1000;
    this.continuous = continuous;
    periodNanos = ConversionTimes.periodNanos(rate);
    polledNanos = now;
    expect(now, ConversionTimes.delayNanos(delayCode) + ConversionTimes.firstNanos(rate));
  }

  /** A poll found no result yet. */
  void notReady(long nowMicros) {
    polledNanos = nowMicros * 1000;
  }

  boolean overdue(long nowMicros) {
    return nowMicros * 1000 > deadlineNanos;
  }

  /**
   * A poll found a result.
   *
   * @return when its conversion ended, in nanoseconds of the agent's clock
   */
  long ready(long nowMicros) {
    long now = nowMicros * 1000;
    missed = 0;
    long end = expectedNanos;
    if (continuous && now - end >= periodNanos) {
      missed = (int) Math.min(Integer.MAX_VALUE, (now - end) / periodNanos);
      end += missed * periodNanos;
    }
    end = Math.max(Math.min(end, now), Math.min(polledNanos, now));
    polledNanos = now;
    expect(end, periodNanos);
    return end;
  }

  /** The result was fetched; whatever ended until then went with it. */
  void fetched(long nowMicros) {
    deadlineNanos = Math.max(deadlineNanos, deadline(nowMicros * 1000, periodNanos));
  }

  /** Conversions that ended unread before the one last found. */
  int missed() {
    return missed;
  }

  private void expect(long fromNanos, long lengthNanos) {
    expectedNanos = fromNanos + lengthNanos;
    deadlineNanos = deadline(fromNanos, lengthNanos);
  }

  private static long deadline(long fromNanos, long lengthNanos) {
    return fromNanos + lengthNanos + LATE_NANOS + (long) (lengthNanos * OSCILLATOR_SLACK);
  }
}
