package bellwire.agent;

import bellwire.link.Message.EventSamples;
import java.util.Arrays;

/**
 * Readings of the event path on their way to the host, as runs of readings alike. A reading belongs
 * to a run while it is within half a tick of its place in it.
 *
 * <p>Only what was read before the chips were last proved to listen is handed over ({@link
 * #proved}); that is at 64 runs, a quarter of a second after one with something wrong, or each
 * second.
 */
final class EventBatch {
  static final int MOST = 64;
  static final long LONGEST_MICROS = 1_000_000;
  static final long URGENT_MICROS = 250_000;
  private static final int MOST_TICKS = 65_535;
  private static final long NEVER = Long.MAX_VALUE;

  private final long vigil;
  private final long tickMicros;
  private final int codes;
  private final HostLink link;
  private final long[] firstMicros = new long[MOST];
  private final int[] ticks = new int[MOST];
  private final int[] word = new int[MOST];
  private final int[] latched = new int[MOST];
  private final int[] code = new int[MOST];
  private int count;
  private long dueMicros = NEVER;
  private long nextMicros;
  private int nextCode;
  private int provedCount;
  private int provedTicks;

  /**
   * @param codes patterns in a round
   */
  EventBatch(long vigil, long tickMicros, int codes, HostLink link) {
    this.vigil = vigil;
    this.tickMicros = tickMicros;
    this.codes = codes;
    this.link = link;
  }

  /**
   * The time that a reading would have in its run, were it added now: at most half a tick from its
   * own.
   */
  long place(long micros, int wrong, int wasWrong, int codeInForce) {
    return continues(micros, wrong, wasWrong, codeInForce) ? nextMicros : micros;
  }

  /** A reading, while not {@link #full}. */
  void add(long micros, int wrong, int wasWrong, int codeInForce) {
    if (!continues(micros, wrong, wasWrong, codeInForce)) {
      begin(micros, wrong, wasWrong, codeInForce);
    }
    ticks[count - 1]++;
    nextMicros += tickMicros;
    nextCode = codeInForce + 1 == codes ? 0 : codeInForce + 1;
  }

  private boolean continues(long micros, int wrong, int wasWrong, int codeInForce) {
    int last = count - 1;
    return last >= 0
        && word[last] == wrong
        && latched[last] == wasWrong
        && nextCode == codeInForce
        && 2 * Math.abs(micros - nextMicros) <= tickMicros
        && ticks[last] < MOST_TICKS;
  }

  private void begin(long micros, int wrong, int wasWrong, int codeInForce) {
    firstMicros[count] = micros;
    ticks[count] = 0;
    word[count] = wrong;
    latched[count] = wasWrong;
    code[count] = codeInForce;
    count++;
    nextMicros = micros;
    if (dueMicros == NEVER) {
      dueMicros = micros + LONGEST_MICROS;
    }
    if (wasWrong != 0) {
      dueMicros = Math.min(dueMicros, micros + URGENT_MICROS);
    }
  }

  boolean full() {
    return count == MOST;
  }

  /** Whether it should be handed over. */
  boolean due(long nowMicros) {
    return nowMicros >= dueMicros || full();
  }

  /** The chips listen: all that was added may be believed. */
  void proved() {
    provedCount = count;
    provedTicks = count == 0 ? 0 : ticks[count - 1];
  }

  /** Forgets what was added since. */
  void dropUnproved() {
    count = provedCount;
    if (count > 0) {
      ticks[count - 1] = provedTicks;
    }
  }

  void flush(long nowMicros) {
    if (count > 0) {
      long[] delta = new long[count];
      for (int i = 1; i < count; i++) {
        delta[i] = firstMicros[i] - firstMicros[i - 1];
      }
      link.send(
          new EventSamples(
              vigil,
              firstMicros[0],
              delta,
              Arrays.copyOf(ticks, count),
              Arrays.copyOf(word, count),
              Arrays.copyOf(latched, count),
              Arrays.copyOf(code, count)),
          nowMicros);
    }
    count = 0;
    dueMicros = NEVER;
    proved();
  }
}
