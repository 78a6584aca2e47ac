package bellwire.analysis.calls;

import java.util.OptionalDouble;

/**
 * The level of one lead with the control's own AC: docs/theory.md, equations (56) to (58).
 * Stretches of a closed contact wait until it is clear what they are: a call, a weak voltage, a
 * contact that chatters, or nothing from the mains.
 */
final class AcLead implements AcContact.Events, Episode.Teller {
  /** Conducting share below which a voltage is weak, and from which a weak one is on again. */
  static final double WEAK_BELOW = 0.66;

  static final double ON_FROM = 0.69;

  private static final int DECIDE_MICROS = 100_000;
  private static final int AGAIN_MICROS = 50_000;
  private static final int CHECK_MICROS = 100_000;
  private static final int DOUBT_MICROS = 500_000;
  static final int RECENT = 12;

  /** The long fit costs more than all else, and once a second is enough for it. */
  private static final int FIT_MICROS = 1_000_000;

  private static final double OTHER_MAINS = 0.03;

  /** So many bursts within so long that were no call are no contact's work. */
  private static final int ODD = 3;

  private static final int ODD_MICROS = 1_000_000;

  private enum State {
    /** Told off, or nothing seen since the start. */
    QUIET,
    /** Something has happened that is not told. */
    PENDING,
    /** Told on or weak, and the stretch goes on. */
    STEADY,
    /** Told weak: pulses, each a stretch of its own. */
    TRAIN,
    /** Told unknown. */
    DOUBTFUL
  }

  private final int lead;
  private final SampleTimes times;
  private final int delayMicros;
  private final ChangeOrder order;
  private final AcContact contact;
  private final MainsFit gaps = new MainsFit();
  private final MainsFit pulses = new MainsFit();
  private final Episode episode = new Episode(this);

  private State state = State.QUIET;
  private Level told = Level.UNKNOWN;
  private Doubt doubt = Doubt.UNDECIDED;
  private int odd;
  private long oddMicros = Long.MIN_VALUE / 2;
  private boolean off;
  private boolean anyTold;
  private long toldMicros = Long.MIN_VALUE;
  private boolean halfWave;
  private double share = Double.NaN;
  private double halfPeriodMicros;
  private double quietMicros;
  private long floorMicros;
  private Stretch current = new Stretch(0, 0, 0);
  private boolean closed;
  private long goodMicros;
  private long fittedMicros;
  private long lookMicros;
  private long attendMicros = AcContact.NEVER;

  AcLead(int lead, CallInputs inputs, SampleTimes times, ChangeOrder order) {
    this.lead = lead;
    this.times = times;
    this.order = order;
    delayMicros = inputs.delayMicros();
    contact = new AcContact(times, delayMicros, this);
    halfPeriod(0);
  }

  Level level() {
    return told;
  }

  Doubt doubt() {
    return doubt;
  }

  boolean halfWave() {
    return told == Level.WEAK && halfWave;
  }

  OptionalDouble share() {
    return state == State.STEADY ? OptionalDouble.of(share) : OptionalDouble.empty();
  }

  OptionalDouble halfPeriodMicros() {
    boolean seen = state == State.STEADY || state == State.TRAIN;
    return seen && halfPeriodMicros > 0
        ? OptionalDouble.of(halfPeriodMicros)
        : OptionalDouble.empty();
  }

  /** Look at the lead at the first sample that begins after this, though its bit stays. */
  long attendMicros() {
    return attendMicros;
  }

  /** The first sample to come is the first after this moment. */
  void restart(long micros) {
    contact.restart(micros);
    gaps.clear();
    pulses.clear();
    episode.clear();
    state = State.QUIET;
    told = Level.UNKNOWN;
    anyTold = false;
    off = false;
    closed = false;
    floorMicros = micros;
    attendMicros = AcContact.NEVER;
  }

  /**
   * What is not decided will not be: unknown from there. Of a lead that is on or off it is the last
   * half periods, in which the contact may have changed without having shown it.
   */
  void giveUp(long micros, Doubt why) {
    long from = Math.min(micros, floor());
    tell(Level.UNKNOWN, from, from);
    doubt = why;
  }

  /** Nothing follows: what is not decided is unknown. */
  void finish() {
    if (state == State.PENDING || (state == State.QUIET && !off)) {
      giveUp(floor(), Doubt.UNDECIDED);
    }
  }

  /** No change that is still to be told has its earliest moment before this. */
  long floor() {
    floorMicros = Math.max(floorMicros, lowest());
    return floorMicros;
  }

  private long lowest() {
    if (times.latest() < 0) {
      return floorMicros;
    }
    long now = times.begin(times.latest()) - delayMicros;
    return switch (state) {
      case QUIET -> off ? Math.min(now - (long) quietMicros, openSince()) : floorMicros;
      case PENDING -> episodeFloor();
      case STEADY -> Math.min(now, goodMicros);
      case TRAIN ->
          closed
              ? Math.min(now, current.riseEarliest)
              : Math.min(now, contact.lastOneBegin() - delayMicros);
      case DOUBTFUL -> now;
    };
  }

  private long openSince() {
    return contact.open() ? contact.openSince(times.latest()) : floorMicros;
  }

  /** The latest sample's bit differs from the one before, or is the first. */
  void changed(boolean bit) {
    contact.changed(bit);
    attend();
  }

  /** The latest sample may prove or decide something. */
  void attend() {
    contact.prove();
    long k = times.latest();
    if (contact.open() && state != State.QUIET && times.begin(k) > quietFrom()) {
      quiet(k);
    }
    if (closed && times.begin(k) > lookMicros) {
      look(k);
    }
    attendMicros = contact.attendMicros();
    if (contact.open() && state != State.QUIET) {
      attendMicros = quietFrom();
    }
    if (closed) {
      attendMicros = Math.min(attendMicros, lookMicros);
    }
  }

  void sparse() {
    contact.sparse();
    attendMicros = Math.min(attendMicros, contact.attendMicros());
  }

  private long quietFrom() {
    return contact.lastOneEnd() + (state == State.DOUBTFUL ? DOUBT_MICROS : (long) quietMicros);
  }

  @Override
  public void closed(long earliestMicros, long latestMicros) {
    long earliest = earliestMicros;
    if (state == State.QUIET) {
      if (off) { // from here on the floor stays
        earliest = Math.max(earliest, floorMicros);
        long weakest = times.begin(times.latest()) - delayMicros - (long) quietMicros;
        floorMicros = Math.max(floorMicros, Math.min(weakest, earliest));
      }
      pulses.clear();
      state = State.PENDING;
    }
    current = new Stretch(earliest, latestMicros, contact.runFirst());
    closed = true;
    gaps.clear();
    lookMicros = contact.runFirst() + DECIDE_MICROS;
  }

  @Override
  public void gap(long beforeMicros, long firstMicros, long lastMicros, long afterMicros) {
    current.gap(beforeMicros, afterMicros);
    gaps.add(beforeMicros, firstMicros, lastMicros, afterMicros);
  }

  @Override
  public void run(long beforeMicros, long firstMicros, long lastMicros, long afterMicros) {
    current.run(firstMicros, lastMicros);
    if (state != State.STEADY) {
      pulses.add(beforeMicros, firstMicros, lastMicros, afterMicros);
    }
  }

  @Override
  public void opened(long earliestMicros, long latestMicros) {
    closed = false;
    switch (state) {
      case QUIET, STEADY -> {
        if (told == Level.WEAK && state == State.STEADY) {
          state = State.TRAIN;
        } else {
          episode.fell(earliestMicros, latestMicros, contact.lastOneBegin());
          goodMicros = state == State.QUIET ? floorMicros : goodMicros;
          state = State.PENDING;
        }
        pulses.clear();
      }
      case PENDING -> {
        current.fallEarliest = earliestMicros;
        current.fallLatest = latestMicros;
        episode.add(current);
        openedAgain(latestMicros);
      }
      case TRAIN -> {
        if (pulses.count() > RECENT && !pulses.regular(RECENT)) {
          doubtful(contact.lastOneBegin() - delayMicros, Doubt.NOT_MAINS);
        } else {
          halfWave &= pulses.count() < MainsFit.FEWEST || pulses.everySecond(RECENT);
        }
      }
      case DOUBTFUL -> {}
    }
  }

  /** Pulses that keep to the mains are a weak voltage; what goes on without is a doubt. */
  private void openedAgain(long latestMicros) {
    if (weakPulses()) {
      tellTrain();
      state = State.TRAIN;
    } else if (latestMicros - episodeMicros() > DOUBT_MICROS) {
      doubtful(episodeMicros(), Doubt.NOT_MAINS);
    }
  }

  /** Pulses in step with the mains, each too short for a call or every second one missing. */
  private boolean weakPulses() {
    return pulses.count() > MainsFit.FEWEST
        && pulses.regular(RECENT)
        && (pulses.medianLength(RECENT) < WEAK_BELOW || pulses.everySecond(RECENT));
  }

  private void tellTrain() {
    halfWave = pulses.everySecond(RECENT);
    halfPeriod(pulses.halfPeriodMicros());
    tellWeak();
  }

  /** Where a weak voltage may have begun: its own ones may have lengthened a call before it. */
  private long episodeFloor() {
    return episode.fallen() ? Math.min(episode.fallEarliest(), goodMicros) : floorMicros;
  }

  private long episodeMicros() {
    return episode.fallen() ? episode.fallEarliest() : floorMicros;
  }

  private void doubtful(long fromMicros, Doubt why) {
    tell(Level.UNKNOWN, fromMicros, fromMicros);
    doubt = why;
    state = State.DOUBTFUL;
    episode.clear();
    pulses.clear();
  }

  /** No voltage for longer than the weakest leaves out. */
  private void quiet(long k) {
    if (state == State.PENDING && weakPulses()) {
      tellTrain();
      state = State.TRAIN;
    }
    if (state == State.PENDING) {
      episode.tell(null);
    } else {
      long earliest = state == State.TRAIN ? contact.lastOneBegin() : times.begin(k);
      tell(Level.OFF, earliest - delayMicros, times.end(k));
    }
    state = State.QUIET;
    off = true;
    if (odd >= ODD && times.begin(k) - oddMicros < ODD_MICROS) {
      doubtful(times.begin(k) - delayMicros, Doubt.NOT_MAINS);
    }
  }

  @Override
  public void odd(long micros) {
    if (micros - oddMicros > ODD_MICROS) {
      oddMicros = micros;
      odd = 0;
    }
    odd++;
  }

  /** A stretch has lasted long enough to be judged, or judged again. */
  private void look(long k) {
    long now = times.begin(k);
    boolean regular = gaps.regular(RECENT) && now - gaps.newestMicros() < AGAIN_MICROS;
    switch (state) {
      case PENDING -> {
        if (regular) {
          tellRise(judged());
          steady();
        } else if (now - episodeMicros() > DOUBT_MICROS) {
          doubtful(episodeMicros(), gaps.count() == 0 ? Doubt.STEADY_VOLTAGE : Doubt.NOT_MAINS);
        }
      }
      case STEADY -> {
        if (regular) {
          Level level = judged();
          if (level != told) {
            tell(level, goodMicros, times.end(k));
          }
          steady();
        } else if (now - goodMicros > DOUBT_MICROS) {
          boolean none = now - gaps.newestMicros() > CHECK_MICROS;
          doubtful(goodMicros, none ? Doubt.STEADY_VOLTAGE : Doubt.NOT_MAINS);
        }
      }
      case TRAIN -> {
        if (regular) {
          Level level = judged();
          if (level != told) {
            tell(level, current.riseEarliest, times.end(k)); // it may have begun with weak ones
          }
          steady();
        }
      }
      case DOUBTFUL -> {
        if (regular) {
          tell(judged(), now - delayMicros, times.end(k));
          steady();
        }
      }
      case QUIET -> throw new IllegalStateException("state=" + state);
    }
    lookMicros = now + (state == State.STEADY ? CHECK_MICROS : AGAIN_MICROS);
  }

  private void tellRise(Level level) {
    if (level == Level.WEAK) {
      tellWeak(); // and whatever is pending was its beginning
    } else {
      long earliest = episode.tell(current);
      tell(level, earliest, current.riseLatest);
    }
  }

  private void tellWeak() {
    tell(Level.WEAK, episodeFloor(), episode.beganLatest(current));
    episode.clear();
  }

  private void steady() {
    double recent = gaps.halfPeriodMicros();
    long newest = gaps.newestMicros();
    if (gaps.count() < MainsFit.KEPT || newest - fittedMicros > FIT_MICROS) {
      fittedMicros = newest;
      halfPeriod(gaps.regular(MainsFit.KEPT) ? gaps.halfPeriodMicros() : recent);
    } else if (Math.abs(recent / halfPeriodMicros - 1) > OTHER_MAINS) {
      halfPeriod(recent);
    }
    goodMicros = Math.max(floorMicros, gaps.oldestMicros(RECENT));
    halfWave = false;
    state = State.STEADY;
    doubt = Doubt.UNDECIDED;
  }

  private Level judged() {
    share = 1 - gaps.share(RECENT);
    return share >= (told == Level.WEAK ? ON_FROM : WEAK_BELOW) ? Level.ON : Level.WEAK;
  }

  private void halfPeriod(double micros) {
    halfPeriodMicros = micros;
    double half = micros > 0 ? micros : MainsFit.LONGEST_MICROS;
    quietMicros = 2.3 * half;
    episode.halfPeriod(half, micros > 0);
    contact.halfPeriod(half);
  }

  @Override
  public void tell(Level level, long earliestMicros, long latestMicros) {
    if (level != told || !anyTold) {
      toldMicros = Math.max(toldMicros, earliestMicros);
      order.add(new LevelChange(lead, level, toldMicros, Math.max(toldMicros, latestMicros)));
    }
    anyTold = true;
    told = level;
  }
}
