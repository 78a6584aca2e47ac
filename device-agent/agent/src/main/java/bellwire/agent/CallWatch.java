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
 * A watch of the call-sense connector: one word each step, as it is, until the host stops it. The
 * cable's ports have no part in it.
 *
 * <p>The wetting is switched on only after every lead was below its threshold for a while, and goes
 * off with the watch, with trouble, and when a port leaves the interlock's window: then a voltage
 * is about that nobody spoke of. A watch that feeds nothing, or dummy loads only, goes on through
 * that: it is how a voltage is watched.
 */
final class CallWatch {
  /** A watch without its host ends after this; what it has read by then is in the link's ring. */
  static final long AWAY_MICROS = 60_000_000;

  /** A longer tick would miss the gaps of a call's AC, and take it for DC. */
  private static final long MOST_TICK_MICROS = 1000;

  private static final long VERIFY_MICROS = 100_000;

  private enum Stage {
    IDLE,
    /** Looking for voltage before the wetting. */
    LISTENING,
    WATCHING
  }

  private final SensingBoard board;
  private final HostLink link;
  private final LongSupplier clock;
  private final long tickMicros;
  private final long silenceMicros;
  private final long leastWords;
  private final int mostLoads;

  private Stage stage = Stage.IDLE;
  private SenseCalls asked = new SenseCalls(0, 0, false, 0);
  private @Nullable CallBatch batch;
  private long beganMicros;
  private long verifiedMicros;
  private long presentMicros;
  private int words;
  private int voltage;

  /**
   * @param clock the agent's, in microseconds, read within a step
   */
  CallWatch(
      SensingBoard board,
      BoardDescription description,
      HostLink link,
      LongSupplier clock,
      long tickMicros) {
    this.board = board;
    this.link = link;
    this.clock = clock;
    this.tickMicros = tickMicros;
    silenceMicros = (long) description.limit("call-silence-micros");
    leastWords = Math.max(1, silenceMicros / tickMicros / 2); // a held-up agent has not listened
    mostLoads = (int) description.limit("call-loads-most");
  }

  boolean busy() {
    return stage != Stage.IDLE;
  }

  /** Why a watch cannot be had as asked, or null where it can. */
  @Nullable String objection(SenseCalls sense, InterlockWatch interlock) {
    if (tickMicros > MOST_TICK_MICROS) {
      return "the agent's tick is too long for the call-sense connector: set tick-micros to "
          + MOST_TICK_MICROS
          + " or less, tick-micros="
          + tickMicros;
    } else if (sense.wetting() && sense.loads() != 0) {
      return "the dummy loads are for a control's own supply, the wetting for dry contacts:"
          + " ask for one of them";
    } else if (Integer.bitCount(sense.loads()) > mostLoads) {
      return "more dummy loads than the board may have on at once: loads="
          + Integer.bitCount(sense.loads())
          + " most="
          + mostLoads;
    } else if (sense.wetting() && interlock.outside()) {
      return "a port is outside the interlock's window: no wetting while a voltage is about";
    }
    return null;
  }

  /** Begins; one with wetting is answered later. */
  void begin(SenseCalls sense, long nowMicros) throws ChipTrouble {
    asked = sense;
    beganMicros = nowMicros;
    verifiedMicros = nowMicros;
    presentMicros = nowMicros;
    words = 0;
    voltage = 0;
    stage = Stage.LISTENING; // should a chip fail from here on, the request is refused
    board.verifyCallWord();
    if (!sense.wetting()) {
      if (sense.loads() != 0) {
        board.feedCalls(false, sense.loads());
      }
      watch();
    }
  }

  private void watch() {
    stage = Stage.WATCHING;
    batch = new CallBatch(asked.watch(), link);
    link.reply(new Reply(asked.request(), true, ""));
  }

  /** The first thing in a step, so that nothing else delays it. */
  void sample(long nowMicros, long dueMicros) throws ChipTrouble {
    if (stage == Stage.IDLE) {
      return;
    }
    int word = board.callWord();
    long took = clock.getAsLong() - nowMicros;
    if (stage == Stage.LISTENING) {
      voltage |= word;
      words++;
    } else if (batch != null) {
      batch.take(nowMicros, nowMicros - dueMicros, took, word);
    }
  }

  /** What a step has to do besides. */
  void advance(long nowMicros, InterlockWatch interlock) throws ChipTrouble {
    if (stage == Stage.IDLE) {
      return;
    }
    if (nowMicros - verifiedMicros >= VERIFY_MICROS) {
      verifiedMicros = nowMicros;
      board.verifyCallWord();
    }
    if (link.hostPresent()) {
      presentMicros = nowMicros;
    }
    if (asked.wetting() && interlock.outside()) {
      end(
          Outcome.INTERLOCK,
          "a port is outside the interlock's window: the wetting is off",
          nowMicros);
    } else if (nowMicros - presentMicros > AWAY_MICROS) {
      end(Outcome.STOPPED, "no host for 60 s", nowMicros);
    } else if (stage == Stage.LISTENING) {
      listen(nowMicros);
    }
  }

  private void listen(long nowMicros) throws ChipTrouble {
    if (voltage != 0) {
      stage = Stage.IDLE;
      refuse("there is voltage on " + names(voltage) + ": the wetting is for dry contacts only");
    } else if (nowMicros - beganMicros >= silenceMicros && words >= leastWords) {
      board.feedCalls(true, 0);
      board.verifyCallWord(); // it was that chip's zeros that were believed
      watch();
    }
  }

  /** Ends it in good order: what it fed goes off first. */
  void end(Outcome outcome, String reason, long nowMicros) throws ChipTrouble {
    if (stage == Stage.WATCHING && (asked.wetting() || asked.loads() != 0)) {
      board.feedCalls(false, 0);
    }
    close(outcome, reason, nowMicros);
  }

  /** The board has been made safe as far as it would. */
  void fail(String reason, long nowMicros) {
    close(Outcome.TROUBLE, reason, nowMicros);
  }

  private void close(Outcome outcome, String reason, long nowMicros) {
    Stage was = stage;
    CallBatch words = batch;
    stage = Stage.IDLE;
    batch = null;
    if (was == Stage.LISTENING) {
      refuse(reason);
    } else if (was == Stage.WATCHING && words != null) {
      words.flush(nowMicros);
      link.send(new Ended(words.watch(), outcome, reason), nowMicros);
    }
  }

  private void refuse(String reason) {
    link.reply(new Reply(asked.request(), false, reason));
  }

  private static String names(int leads) {
    StringBuilder names = new StringBuilder();
    for (int rest = leads; rest != 0; rest &= rest - 1) {
      names.append(names.isEmpty() ? "X" : ", X").append(Integer.numberOfTrailingZeros(rest) + 1);
    }
    return names.toString();
  }
}
