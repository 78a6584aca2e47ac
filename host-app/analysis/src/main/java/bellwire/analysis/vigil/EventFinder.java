package bellwire.analysis.vigil;

import java.util.function.Consumer;

/**
 * Finds events in the words that are read each tick: bit i set, port i is open (touching). A latch
 * tells of an opening since the reading before that was over when it was read. Works as the words
 * come, in memory that does not grow. Where readings are missing nothing is known: events are cut
 * there, and none goes on across. Theory (93).
 */
public final class EventFinder {
  private static final int MOST_PORTS = 32;

  private final EventLimits limits;
  private final Consumer<VigilEvent> sink;
  private final int ports;
  private final long[] before;
  private final long[] first;
  private final long[] last;
  private final long[] after;
  private final int[] times;
  private int held;
  private int seen;
  private int cutBefore;
  private int openBefore;
  private boolean started;
  private long known;
  private long watchedMicros;
  private long dropped;

  /**
   * @param ports how many, 1 to 32; further bits are an error
   * @param sink told events as they end, so not in the order in which they begin
   */
  public EventFinder(int ports, EventLimits limits, Consumer<VigilEvent> sink) {
    if (ports < 1 || ports > MOST_PORTS) {
      throw new IllegalArgumentException("ports=" + ports);
    }
    this.ports = ports;
    this.limits = limits;
    this.sink = sink;
    before = new long[ports];
    first = new long[ports];
    last = new long[ports];
    after = new long[ports];
    times = new int[ports];
  }

  /**
   * Readings in a row that all gave the same word.
   *
   * @param firstMicros of the first of them
   * @param lastMicros of the last; the same for a single one
   * @param open the word
   * @param latched latches that the first of them found set
   */
  public void accept(long firstMicros, long lastMicros, int open, int latched) {
    check(firstMicros, lastMicros, open | latched);
    boolean joins = started && firstMicros - known <= limits.gapMicros();
    if (!joins) {
      cut();
    }
    watchedMicros += lastMicros - firstMicros + (joins ? firstMicros - known : 0);
    for (int left = held | open | latched; left != 0; left &= left - 1) {
      port(Integer.numberOfTrailingZeros(left), firstMicros, lastMicros, open, latched, joins);
    }
    openBefore = open;
    known = lastMicros;
    started = true;
  }

  /** Nothing follows: what is still open is cut. */
  public void finish() {
    cut();
    started = false;
  }

  /** Time between readings that belong together: what a rate is to be divided by. */
  public long watchedMicros() {
    return watchedMicros;
  }

  /** Events that can't have lasted {@link EventLimits#leastMicros}. */
  public long dropped() {
    return dropped;
  }

  private void port(int port, long from, long to, int open, int latched, boolean joins) {
    int bit = 1 << port;
    boolean openNow = (open & bit) != 0;
    boolean wasOpen = (openBefore & bit) != 0;
    if ((held & bit) != 0 && !wasOpen && from - last[port] > limits.rejoinMicros()) {
      release(port, false);
    }
    boolean opens = !wasOpen && (openNow || (latched & bit) != 0);
    if (opens && (held & bit) != 0) {
      times[port]++;
    } else if (opens) {
      held |= bit;
      before[port] = joins ? known : from;
      first[port] = from;
      times[port] = 1;
      cutBefore = joins ? cutBefore & ~bit : cutBefore | bit;
      seen &= ~bit;
    }
    if (openNow) {
      seen |= bit;
      last[port] = to;
      after[port] = to;
    } else if (opens || wasOpen) {
      last[port] = opens ? from : last[port];
      after[port] = from;
    }
    if ((held & bit) != 0 && !openNow && to - last[port] > limits.rejoinMicros()) {
      release(port, false);
    }
  }

  private void cut() {
    for (int left = held; left != 0; left &= left - 1) {
      int port = Integer.numberOfTrailingZeros(left);
      release(port, (openBefore & 1 << port) != 0);
    }
    openBefore = 0;
  }

  private void release(int port, boolean cutAfter) {
    int bit = 1 << port;
    held &= ~bit;
    boolean latchedOnly = (seen & bit) == 0;
    boolean begunBefore = (cutBefore & bit) != 0;
    VigilEvent event =
        new VigilEvent(
            port,
            before[port],
            first[port],
            last[port],
            after[port],
            times[port],
            latchedOnly,
            begunBefore,
            cutAfter);
    if (!event.cut() && event.mostMicros() <= limits.leastMicros()) {
      dropped++;
    } else {
      sink.accept(event);
    }
  }

  private void check(long firstMicros, long lastMicros, int word) {
    if (lastMicros < firstMicros || started && firstMicros <= known) {
      throw new IllegalArgumentException(
          "not in order of time: knownMicros="
              + known
              + " firstMicros="
              + firstMicros
              + " lastMicros="
              + lastMicros);
    }
    if (ports < MOST_PORTS && word >>> ports != 0) {
      throw new IllegalArgumentException("ports=" + ports + " word=" + word);
    }
  }
}
