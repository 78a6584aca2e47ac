package bellwire.analysis.calls;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What has happened on a lead with AC since its level was told last: a fall, and stretches behind
 * it. Told once it is clear that they were neither a weak voltage nor no mains at all;
 * docs/theory.md (58).
 */
final class Episode {

  /** Takes what is told, in order. */
  interface Teller {
    void tell(Level level, long earliestMicros, long latestMicros);

    /** A burst that was no call. */
    void odd(long micros);
  }

  private final Teller teller;
  private final List<Stretch> stretches = new ArrayList<>();
  private boolean fallen;
  private long fallEarliest;
  private long fallLatest;
  private long fallOne;
  private double halfPeriodMicros = MainsFit.LONGEST_MICROS;
  private boolean certain;

  Episode(Teller teller) {
    this.teller = teller;
  }

  void halfPeriod(double micros, boolean known) {
    halfPeriodMicros = micros;
    certain = known;
  }

  /**
   * @param oneMicros the last one before it
   */
  void fell(long earliestMicros, long latestMicros, long oneMicros) {
    fallen = true;
    fallEarliest = earliestMicros;
    fallLatest = latestMicros;
    fallOne = oneMicros;
  }

  void add(Stretch stretch) {
    stretches.add(stretch);
  }

  /** Whether it began with a fall. */
  boolean fallen() {
    return fallen;
  }

  long fallEarliest() {
    return fallEarliest;
  }

  /** By when it had begun, where the stretch that goes on is the given one. */
  long beganLatest(Stretch current) {
    return fallen
        ? fallLatest
        : stretches.isEmpty() ? current.riseLatest : stretches.get(0).riseLatest;
  }

  void clear() {
    fallen = false;
    stretches.clear();
  }

  /**
   * Tells all. Touches within half a period of a longer stretch's end or beginning are the
   * contact's bounce, and lie inside that edge.
   *
   * @param current the stretch that goes on, not told here
   * @return the earliest moment of the current one's beginning, its touches included
   */
  long tell(@Nullable Stretch current) {
    int at = fallen ? tellFall(fallEarliest, fallLatest, fallOne, 0) : 0;
    long rise = AcContact.NEVER;
    while (at < stretches.size()) {
      Stretch stretch = stretches.get(at++);
      rise = Math.min(rise, stretch.riseEarliest);
      if (leadsOn(stretch, at < stretches.size() ? stretches.get(at) : current)) {
        continue;
      }
      boolean call = stretch.likeCall(halfPeriodMicros, certain);
      teller.tell(call ? Level.ON : Level.UNKNOWN, rise, call ? stretch.riseLatest : rise);
      if (!call) {
        teller.odd(stretch.firstOne);
      }
      at = tellFall(stretch.fallEarliest, stretch.fallLatest, stretch.lastOne, at);
      rise = AcContact.NEVER;
    }
    clear();
    return current == null ? rise : Math.min(rise, current.riseEarliest);
  }

  /**
   * @return the index of the first stretch that does not belong to the fall
   */
  private int tellFall(long earliest, long latest, long lastOne, int from) {
    int at = from;
    long until = latest;
    long one = lastOne;
    while (at < stretches.size() && touches(stretches.get(at), one)) {
      one = stretches.get(at).lastOne;
      until = stretches.get(at).fallLatest;
      at++;
    }
    teller.tell(Level.OFF, earliest, until);
    return at;
  }

  private boolean touches(Stretch stretch, long oneMicros) {
    return stretch.likeTouch(halfPeriodMicros) && near(oneMicros, stretch);
  }

  private boolean leadsOn(Stretch touch, @Nullable Stretch next) {
    return next != null && touch.likeTouch(halfPeriodMicros) && near(touch.lastOne, next);
  }

  private boolean near(long oneMicros, Stretch next) {
    return next.firstOne - oneMicros <= (1 + AcContact.WIDEST_GAP) * halfPeriodMicros;
  }
}
