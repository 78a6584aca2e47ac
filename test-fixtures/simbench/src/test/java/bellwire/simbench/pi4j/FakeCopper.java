package bellwire.simbench.pi4j;

import bellwire.board.BoardDescription;
import bellwire.link.Tap;
import bellwire.simbench.AnalogSide;
import bellwire.simbench.FilterKernel;
import java.util.ArrayList;
import java.util.List;

/**
 * The least copper that tests of chips and agent need: the check resistors, an interlock with a
 * latch and a watchdog, and voltages set by hand. Everything asked of it against the interlock's
 * rules is written down as a violation.
 */
final class FakeCopper implements AnalogSide {
  private final BoardDescription board = BoardDescription.revisionA();
  private final long portBits = (1L << 51) - 1;
  private final List<String> violations = new ArrayList<>();
  private final List<Long> beats = new ArrayList<>();
  private final List<long[]> outside = new ArrayList<>();

  double checkLowOhms = board.nominal("check-low-ohms");
  double limiterOhms = board.nominal("limiter-ohms");
  double checkHighOhms = board.nominal("check-high-ohms");
  double leakageVolts;
  double senseVolts;
  double peakFactor = 1;
  boolean stageOverloaded;
  boolean lastTestLoad;
  boolean connectAsked;
  boolean wettingAsked;

  /** From a voltage outside the window to the latch; long, it shows the agent the line alone. */
  long detectNanos;

  int conversions;

  /** Of each conversion, whether the relays were closed as it began. */
  final List<Boolean> joined = new ArrayList<>();

  int rearms;
  FilterKernel lastFilter = new FilterKernel(new long[0]);
  long lastStartNanos;
  Tap lastPlus = Tap.COMMON;
  Tap lastMinus = Tap.COMMON;

  private boolean latched = true;
  private long checkedNanos = -1;
  private long word;
  private long lastBeatNanos = Long.MIN_VALUE / 2;
  private long relayChangeNanos = Long.MIN_VALUE / 2;
  private long seenOutsideNanos = Long.MIN_VALUE / 2;
  private int flags;

  /** A port is outside the window from one time up to another. */
  void foreignVoltage(long fromNanos, long toNanos) {
    outside.add(new long[] {fromNanos, toNanos});
  }

  List<String> violations() {
    return violations;
  }

  List<Long> beats() {
    return beats;
  }

  long word() {
    return word;
  }

  @Override
  public void latchChain(long word, long nanos) {
    boolean excite = (word & 1L << 56) != 0;
    if ((excite || (word & portBits) != 0) && !clear(nanos)) {
      violations.add("drives while not clear: word=" + Long.toHexString(word) + " at=" + nanos);
    }
    this.word = word;
  }

  @Override
  public void control(boolean connect, boolean testLoad, long nanos) {
    if (connect && !connectAsked && !clear(nanos)) {
      violations.add("connects while not clear: at=" + nanos);
    }
    if (connect != connectAsked) {
      relayChangeNanos = nanos;
    }
    connectAsked = connect;
    lastTestLoad = testLoad;
  }

  @Override
  public void wetting(boolean on, long nanos) {
    if (on && !wettingAsked && !clear(nanos)) {
      violations.add("wets while not clear: at=" + nanos);
    }
    wettingAsked = on;
  }

  @Override
  public void heartbeat(long nanos) {
    if (!clear(nanos)) {
      violations.add("heartbeat while not clear: at=" + nanos);
    }
    if (!connectAsked) {
      violations.add("heartbeat without need: at=" + nanos);
    }
    beats.add(nanos);
    lastBeatNanos = nanos;
  }

  @Override
  public void rearm(long nanos) {
    rearms++;
    if (outside(nanos)) {
      violations.add("re-arms while outside: at=" + nanos);
    }
    // A shorter voltage can come and go between two looks at the live line; the latch has it.
    for (long[] span : outside) {
      boolean lately = span[1] > nanos - 99_000_000 && span[0] <= nanos;
      if (lately && (span[1] - span[0] > 25_000_000 || seenOutsideNanos > nanos - 99_000_000)) {
        violations.add("re-arms too soon: at=" + nanos);
      }
    }
    if (!outside(nanos)) {
      latched = false;
      flags = 0;
    }
  }

  @Override
  public boolean tripped(long nanos) {
    for (int i = 0; i < outside.size(); i++) { // no iterators: what a step costs is measured
      long[] span = outside.get(i);
      long detected = span[0] + detectNanos;
      if (detected <= nanos && detected < span[1] && span[1] > checkedNanos) {
        latched = true;
        flags |= 1 << 4;
      }
    }
    checkedNanos = Math.max(checkedNanos, nanos);
    return latched;
  }

  @Override
  public boolean outside(long nanos) {
    for (int i = 0; i < outside.size(); i++) {
      long[] span = outside.get(i);
      if (span[0] <= nanos && nanos < span[1]) {
        seenOutsideNanos = nanos;
        return true;
      }
    }
    return false;
  }

  @Override
  public int tripFlags(long nanos) {
    return flags;
  }

  @Override
  public boolean connected(long nanos) {
    return connectAsked
        && !tripped(nanos)
        && nanos - lastBeatNanos <= 50_000_000
        && nanos - relayChangeNanos >= 1_000_000;
  }

  private boolean clear(long nanos) {
    return !tripped(nanos) && !outside(nanos);
  }

  @Override
  public Seen convert(Tap plus, Tap minus, FilterKernel filter, long startNanos) {
    conversions++;
    joined.add(connected(startNanos));
    lastFilter = filter;
    lastStartNanos = startNanos;
    lastPlus = plus;
    lastMinus = minus;
    double volts = volts(plus) - volts(minus);
    return new Seen(volts, Math.abs(volts) * peakFactor, stageOverloaded);
  }

  private double volts(Tap tap) {
    boolean excite = (word & 1L << 56) != 0;
    double source = excite ? board.nominal("excitation-volts") : 0;
    double limiter = limiterOhms;
    double switchOhms = board.nominal("switch-ohms");
    double reference = board.nominal("low-reference-ohms");
    boolean low = (word & 1L << 54) != 0;
    boolean high = (word & 1L << 55) != 0;
    double lowAmps = source / (limiter + checkLowOhms + 2 * switchOhms + reference);
    double highAmps = source / (limiter + checkHighOhms);
    return switch (tap.kind()) {
      case DRIVE_BUS -> low ? source - lowAmps * limiter : source;
      case RETURN_BUS -> low ? lowAmps * (reference + switchOhms) : 0;
      case REFERENCE_HIGH -> low ? lowAmps * reference : 0;
      case TRANSIMPEDANCE ->
          leakageVolts - (high ? highAmps * board.nominal("high-reference-ohms") : 0);
      case SENSE -> senseVolts;
      case MONITOR -> 0.01 * tap.port();
      default -> 0;
    };
  }
}
