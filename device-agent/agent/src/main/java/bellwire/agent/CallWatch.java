package bellwire.agent;

import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.board.BoardDescription;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Ended.Outcome;
import bellwire.link.Message.Reply;
import bellwire.link.Message.SenseCalls;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/**
 * A watch of the call-sense connector, or a calls vigil: one word each step, as it is, until the
 * host stops it. The cable's ports have no part in it.
 *
 * <p>The wetting is switched on only after every lead was below its threshold for a while, and goes
 * off with the watch, with trouble, and when a port leaves the interlock's window: then a voltage
 * is about that nobody spoke of. A watch that feeds nothing, or dummy loads only, goes on through
 * that: it is how a voltage is watched.
 */
final class CallWatch implements Activity {
  /** A watch without its host ends after this; what it has read by then is in the link's ring. */
  static final long AWAY_MICROS = 60_000_000;

  /** A longer tick would miss the gaps of a call's AC, and take it for DC. */
  private static final long MOST_TICK_MICROS = 1000;

  private static final long VERIFY_MICROS = 100_000;

  private enum Stage {
    /** Looking for voltage before the wetting. */
    LISTENING,
    WATCHING
  }

  private final SensingBoard board;
  private final HostLink link;
  private final LongSupplier clock;
  private final SenseCalls asked;
  private final boolean alone;
  private final CallBatch batch;
  private final long silenceMicros;
  private final long leastWords;

  private Stage stage = Stage.LISTENING; // should a chip fail here, the request is refused
  private @Nullable End end;
  private long beganMicros;
  private long verifiedMicros;
  private long presentMicros;
  private int words;
  private int voltage;

  /**
   * @param clock the agent's, in microseconds, read within a step
   * @param alone whether it goes on without a host
   */
  CallWatch(
      SensingBoard board,
      BoardDescription description,
      HostLink link,
      LongSupplier clock,
      long tickMicros,
      SenseCalls asked,
      boolean alone) {
    this.board = board;
    this.link = link;
    this.clock = clock;
    this.asked = asked;
    this.alone = alone;
    batch = new CallBatch(asked.watch(), link);
    silenceMicros = (long) description.limit("call-silence-micros");
    leastWords = Math.max(1, silenceMicros / tickMicros / 2); // a held-up agent has not listened
  }

  /** Why a watch cannot be had as asked, or null where it can. */
  static @Nullable String objection(
      boolean wetting, int loads, BoardDescription description, long tickMicros, boolean outside) {
    int mostLoads = (int) description.limit("call-loads-most");
    if (tickMicros > MOST_TICK_MICROS) {
      return "the agent's tick is too long for the call-sense connector: set tick-micros to "
          + MOST_TICK_MICROS
          + " or less, tick-micros="
          + tickMicros;
    } else if (wetting && loads != 0) {
      return "the dummy loads are for a control's own supply, the wetting for dry contacts:"
          + " ask for one of them";
    } else if (Integer.bitCount(loads) > mostLoads) {
      return "more dummy loads than the board may have on at once: loads="
          + Integer.bitCount(loads)
          + " most="
          + mostLoads;
    } else if (wetting && outside) {
      return "a port is outside the interlock's window: no wetting while a voltage is about";
    }
    return null;
  }

  @Override
  public String busy() {
    return alone ? EventWatch.BUSY : "the call-sense connector is being watched";
  }

  @Override
  public boolean drives() {
    return false;
  }

  /** One with wetting is answered later. */
  @Override
  public void begin(long nowMicros) throws ChipTrouble {
    beganMicros = nowMicros;
    verifiedMicros = nowMicros;
    presentMicros = nowMicros;
    board.verifyCallWord();
    if (!asked.wetting()) {
      if (asked.loads() != 0) {
        board.feedCalls(false, asked.loads());
      }
      watch();
    }
  }

  private void watch() {
    stage = Stage.WATCHING;
    link.reply(new Reply(asked.request(), true, ""));
  }

  @Override
  public void sample(long nowMicros, long dueMicros, boolean clear) throws ChipTrouble {
    int word = board.callWord();
    long took = clock.getAsLong() - nowMicros;
    if (stage == Stage.LISTENING) {
      voltage |= word;
      words++;
    } else {
      batch.take(nowMicros, nowMicros - dueMicros, took, word);
    }
  }

  @Override
  public @Nullable End advance(long nowMicros, InterlockWatch interlock) throws ChipTrouble {
    if (end != null) {
      return end;
    }
    if (nowMicros - verifiedMicros >= VERIFY_MICROS) {
      verifiedMicros = nowMicros;
      board.verifyCallWord();
    }
    if (alone || link.hostPresent()) {
      presentMicros = nowMicros;
    }
    if (asked.wetting() && interlock.outside()) {
      return new End(
          Outcome.INTERLOCK, "a port is outside the interlock's window: the wetting is off");
    } else if (nowMicros - presentMicros > AWAY_MICROS) {
      return new End(Outcome.STOPPED, "no host for 60 s");
    }
    return stage == Stage.LISTENING ? listen(nowMicros) : null;
  }

  private @Nullable End listen(long nowMicros) throws ChipTrouble {
    if (voltage != 0) {
      return new End(
          Outcome.INTERLOCK,
          "there is voltage on " + names(voltage) + ": the wetting is for dry contacts only");
    } else if (nowMicros - beganMicros >= silenceMicros && words >= leastWords) {
      board.feedCalls(true, 0);
      board.verifyCallWord(); // it was that chip's zeros that were believed
      watch();
    }
    return null;
  }

  @Override
  public void finish(End end) {
    this.end = end;
  }

  /** One that was still listening is refused. */
  @Override
  public void close(End end, long nowMicros) {
    if (stage == Stage.LISTENING) {
      link.reply(new Reply(asked.request(), false, end.reason()));
    } else {
      batch.flush(nowMicros);
      link.send(new Ended(batch.watch(), end.outcome(), end.reason()), nowMicros);
    }
  }

  private static String names(int leads) {
    StringBuilder names = new StringBuilder();
    for (int rest = leads; rest != 0; rest &= rest - 1) {
      names.append(names.isEmpty() ? "X" : ", X").append(Integer.numberOfTrailingZeros(rest) + 1);
    }
    return names.toString();
  }
}
