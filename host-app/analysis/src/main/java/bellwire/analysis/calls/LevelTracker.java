package bellwire.analysis.calls;

import java.util.OptionalDouble;
import java.util.function.Consumer;

/**
 * Turns raw words of the call-sense connector into level changes; docs/theory.md, section on calls.
 * An edge is told as an interval of device time that holds the moment at the contact, for all that
 * the samples' times, the inputs' delay and, with AC, the gaps at the zero crossings leave open.
 * Not safe for several threads.
 *
 * <p>With AC a change is told some 100 ms after it, once it is clear whether it was a call, a weak
 * voltage or neither; at most half a second after. A contact's bounce of less than half a period
 * lies inside its edge. A contact shorter than half a period, and by itself, cannot be told from a
 * weak voltage: {@link Level#UNKNOWN}.
 */
public final class LevelTracker {
  /** Samples further apart leave the levels unknown in between. */
  public static final int LONGEST_PAUSE_MICROS = 20_000;

  /** A read that took so long has no known time; such a word is passed over. */
  public static final int LONGEST_READ_MICROS = 65_535;

  /** What feeds the leads. */
  public enum Feed {
    /** The control's own 24 V AC. */
    AC,
    /** The board's wetting supply, through dry contacts. */
    DRY
  }

  private static final int LEADS = 16;

  private final Feed feed;
  private final int leads;
  private final int delayMicros;
  private final ChangeOrder order;
  private final SampleTimes times = new SampleTimes();
  private final AcLead[] ac = new AcLead[LEADS];
  private final Level[] dry = new Level[LEADS];

  private boolean started;
  private boolean finished;
  private boolean lost;
  private long gaps;
  private int last;
  private long lastBegin;
  private long lastEnd;
  private long startMicros = Long.MIN_VALUE;
  private long attendMicros = AcContact.NEVER;
  private long settledMicros = Long.MIN_VALUE;

  /**
   * With the inputs of the board's revision A.
   *
   * @param leads those watched, bit 0 for X1 to bit 15 for X16
   * @param sink takes the changes, in order of their {@code earliestMicros}
   */
  public LevelTracker(Feed feed, int leads, Consumer<LevelChange> sink) {
    this(feed, leads, CallInputs.REVISION_A, sink);
  }

  public LevelTracker(Feed feed, int leads, CallInputs inputs, Consumer<LevelChange> sink) {
    if (leads < 0 || leads >= 1 << LEADS) {
      throw new IllegalArgumentException("leads=" + leads);
    }
    this.feed = feed;
    this.leads = leads;
    delayMicros = inputs.delayMicros();
    order = new ChangeOrder(sink);
    for (int lead = 0; lead < LEADS; lead++) {
      ac[lead] = new AcLead(lead, inputs, times, order);
      dry[lead] = Level.UNKNOWN;
    }
  }

  /**
   * A word read between {@code micros} and {@code micros + tookMicros}.
   *
   * @param micros device time, rising from call to call
   * @param word a one for a lead with voltage
   */
  public void sample(long micros, int tookMicros, int word) {
    if (finished || tookMicros < 0 || (started && micros <= lastBegin)) {
      throw new IllegalArgumentException(
          "micros=" + micros + " tookMicros=" + tookMicros + " after=" + lastBegin);
    }
    if (tookMicros >= LONGEST_READ_MICROS) {
      return;
    }
    long end = micros + tookMicros;
    if (started && end - lastBegin > LONGEST_PAUSE_MICROS) {
      gap(lastBegin - delayMicros, micros);
    }
    int seen = word & leads;
    if (feed == Feed.DRY) {
      if (!started || seen != last) {
        dry(micros, end, seen);
      }
    } else {
      times.add(micros, end);
      if (!started
          || seen != last
          || micros > attendMicros
          || end - lastBegin > AcContact.DENSE_MICROS) {
        ac(micros, end, seen);
      }
    }
    started = true;
    last = seen;
    lastBegin = micros;
    lastEnd = end;
  }

  private void dry(long micros, long end, int seen) {
    long earliest = Math.max(startMicros, (started ? lastBegin : micros) - delayMicros);
    int changed = started ? seen ^ last : leads;
    for (int rest = changed; rest != 0; rest &= rest - 1) {
      int lead = Integer.numberOfTrailingZeros(rest);
      dry[lead] = (seen >>> lead & 1) != 0 ? Level.ON : Level.OFF;
      order.add(new LevelChange(lead, dry[lead], earliest, end));
    }
    order.tellBefore(AcContact.NEVER);
  }

  private void ac(long micros, long end, int seen) {
    if (!started) {
      begin(lost ? startMicros : micros - delayMicros);
    }
    boolean sparse = started && end - lastBegin > AcContact.DENSE_MICROS;
    int changed = started ? seen ^ last : leads;
    attendMicros = AcContact.NEVER;
    for (int rest = leads; rest != 0; rest &= rest - 1) {
      int lead = Integer.numberOfTrailingZeros(rest);
      AcLead each = ac[lead];
      if ((changed >>> lead & 1) != 0) {
        each.changed((seen >>> lead & 1) != 0);
      } else {
        if (sparse) {
          each.sparse();
        }
        if (micros > each.attendMicros()) {
          each.attend();
        }
      }
      attendMicros = Math.min(attendMicros, each.attendMicros());
    }
    tellSettled();
  }

  private void begin(long micros) {
    for (AcLead each : ac) {
      each.restart(micros);
    }
  }

  /**
   * Samples in between are lost: every lead is {@link Level#UNKNOWN} there, and with AC from where
   * it was not yet decided.
   */
  public void gap(long fromMicros, long toMicros) {
    if (toMicros < fromMicros) {
      throw new IllegalArgumentException("fromMicros=" + fromMicros + " toMicros=" + toMicros);
    }
    if (started) {
      abandon(fromMicros, Doubt.SAMPLES_LOST);
      gaps++;
    }
    started = false;
    lost = true;
    startMicros = toMicros;
    lastBegin = Long.MIN_VALUE;
  }

  private void abandon(long micros, Doubt why) {
    for (int rest = leads; rest != 0; rest &= rest - 1) {
      int lead = Integer.numberOfTrailingZeros(rest);
      if (feed == Feed.AC) {
        ac[lead].giveUp(micros, why);
      } else {
        dry[lead] = Level.UNKNOWN;
        long from = Math.max(startMicros, micros); // not before what was told of a sample alone
        order.add(new LevelChange(lead, Level.UNKNOWN, from, from));
      }
    }
    order.tellBefore(AcContact.NEVER);
    times.clear();
    attendMicros = AcContact.NEVER;
  }

  private void tellSettled() {
    if (!order.isEmpty()) {
      order.tellBefore(floor());
    }
  }

  private long floor() {
    long floor = times.begin(times.latest()) - delayMicros;
    for (int rest = leads; rest != 0; rest &= rest - 1) {
      floor = Math.min(floor, ac[Integer.numberOfTrailingZeros(rest)].floor());
    }
    return floor;
  }

  /** Every change whose earliest moment is before this has been told; never falls. */
  public long settledMicros() {
    if (finished || !started) {
      settledMicros = Math.max(settledMicros, lost || finished ? startMicros : settledMicros);
    } else if (feed == Feed.DRY) {
      settledMicros = Math.max(settledMicros, lastBegin - delayMicros);
    } else {
      long floor = floor();
      order.tellBefore(floor);
      settledMicros = Math.max(settledMicros, floor);
    }
    return settledMicros;
  }

  /** Found from the pattern, in the device's time; empty while unknown and without AC. */
  public OptionalDouble mainsHertz() {
    for (int rest = leads; rest != 0; rest &= rest - 1) {
      OptionalDouble half = ac[Integer.numberOfTrailingZeros(rest)].halfPeriodMicros();
      if (half.isPresent()) {
        return OptionalDouble.of(5e5 / half.getAsDouble());
      }
    }
    return OptionalDouble.empty();
  }

  /** Stretches without samples in which the levels are unknown. */
  public long gaps() {
    return gaps;
  }

  /** The level last decided of a lead, 0 for X1. */
  public Level level(int lead) {
    return feed == Feed.AC ? ac[lead].level() : dry[lead];
  }

  /** Why a lead's level is {@link Level#UNKNOWN}; of use only while it is. */
  public Doubt doubt(int lead) {
    return feed == Feed.AC ? ac[lead].doubt() : started ? Doubt.UNDECIDED : Doubt.SAMPLES_LOST;
  }

  /** Whether a lead's {@link Level#WEAK} voltage comes in every second half period only. */
  public boolean halfWave(int lead) {
    return ac[lead].halfWave();
  }

  /** The share of the time in which a lead conducts, while it is on or weak without a pause. */
  public OptionalDouble conductingShare(int lead) {
    return ac[lead].share();
  }

  /** Tells what is left; nothing may follow. What is not decided is unknown. */
  public void finish(long micros) {
    if (started && feed == Feed.AC) {
      for (int rest = leads; rest != 0; rest &= rest - 1) {
        ac[Integer.numberOfTrailingZeros(rest)].finish();
      }
      order.tellBefore(AcContact.NEVER);
    }
    finished = true;
    startMicros = micros;
  }
}
