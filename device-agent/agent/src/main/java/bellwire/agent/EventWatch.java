package bellwire.agent;

import bellwire.agent.board.EventInputs;
import bellwire.agent.board.SensingBoard;
import bellwire.agent.chip.ChipTrouble;
import bellwire.board.BoardDescription;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Reply;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/**
 * A vigil over the event path: relays closed, every conductor wetted, and each tick one reading of
 * comparators and latches. It goes on without a host.
 *
 * <p>A reading counts only where it can be sworn to:
 *
 * <ul>
 *   <li>Its capture came within half a tick of the step's begin, and in a touch vigil the next
 *       pattern too. Otherwise it is thrown away, and the next one, whose latches began at a time
 *       not known. So is the first of all.
 *   <li>The step after it has read the interlock as clear: a foreign voltage lifts or holds down a
 *       conductor before the latch is set.
 *   <li>The chips were proved to listen after it: one that lost power gives zeros.
 *   <li>Where there was a one in it, it was read alike twice in a row; the registers hold their
 *       contents until the next capture.
 *   <li>The relays were closed. Where the heartbeat came too late, nothing is read until they have
 *       closed again and the cable has settled.
 * </ul>
 *
 * <p>What is thrown away shows in the times of the runs, which are then more than a tick and a half
 * apart. A late step alone costs nothing: its latches tell of the longer time.
 */
final class EventWatch implements Activity {
  static final String BUSY = "a vigil is being kept";

  private static final long SETTLE_MICROS = 20_000;
  private static final long VERIFY_MICROS = 100_000;
  private static final int ATTEMPTS = 4;

  private enum Stage {
    BEGINNING,
    JOINED,
    WETTED,
    WATCHING,
    LETTING_GO
  }

  private final SensingBoard board;
  private final EventInputs events;
  private final HostLink link;
  private final LongSupplier clock;
  private final long request;
  private final long vigil;
  private final GroupPatterns patterns;
  private final EventBatch batch;
  private final long halfTickMicros;
  private final long closeMicros;
  private final long letGoMicros;

  private Stage stage = Stage.BEGINNING;
  private @Nullable End end;
  private long waitUntilMicros;
  private long verifiedMicros;
  private int code;

  /** No reading before: the latches have not had their time. */
  private long nextMicros;

  /** Whether the last capture began the time that the latches now tell of. */
  private boolean begun;

  private boolean held;
  private long heldMicros;
  private int heldBits;
  private int heldCode;

  /**
   * @param clock the agent's, in microseconds, read within a step
   */
  EventWatch(
      SensingBoard board,
      BoardDescription description,
      HostLink link,
      LongSupplier clock,
      long tickMicros,
      long request,
      long vigil,
      GroupPatterns patterns) {
    this.board = board;
    this.link = link;
    this.clock = clock;
    this.request = request;
    this.vigil = vigil;
    this.patterns = patterns;
    events = board.events();
    batch = new EventBatch(vigil, tickMicros, patterns.count(), link);
    halfTickMicros = tickMicros / 2;
    closeMicros = (long) description.limit("relay-close-micros");
    letGoMicros = ScanRun.dischargeMicros(description);
  }

  @Override
  public String busy() {
    return BUSY;
  }

  @Override
  public boolean drives() {
    return true;
  }

  @Override
  public void begin(long nowMicros) {
    link.reply(new Reply(request, true, ""));
  }

  @Override
  public void sample(long nowMicros, long dueMicros, boolean clear) throws ChipTrouble {
    if (!clear) {
      held = false;
      begun = false;
      return;
    }
    if (held) {
      batch.add(heldMicros, heldBits & 0xFFFF, heldBits >>> 16, heldCode);
      held = false;
    }
    if (stage == Stage.WATCHING && nowMicros >= nextMicros) {
      read(nowMicros);
    }
  }

  private void read(long nowMicros) throws ChipTrouble {
    events.capture();
    long doneMicros = clock.getAsLong();
    int codeInForce = code;
    int bits = 0;
    if (begun) {
      bits = bits(patterns.watched(code));
      if (patterns.count() > 1) {
        code = code + 1 == patterns.count() ? 0 : code + 1;
        board.guard(patterns.guard(code));
        doneMicros = clock.getAsLong();
      }
    }
    boolean inTime = doneMicros - nowMicros <= halfTickMicros;
    held = begun && inTime;
    begun = inTime;
    long placeMicros = nowMicros;
    long setMicros = patterns.count() > 1 ? doneMicros : nowMicros;
    if (held) {
      heldMicros = nowMicros;
      heldBits = bits;
      heldCode = codeInForce;
      placeMicros = batch.place(nowMicros, bits & 0xFFFF, bits >>> 16, codeInForce);
    }
    nextMicros = Math.max(setMicros, placeMicros) + halfTickMicros;
  }

  /** What is wrong in the low half, what was wrong since the capture before in the high half. */
  private int bits(int watched) throws ChipTrouble {
    int seen = bitsOnce(watched);
    if (seen == 0) {
      return 0;
    }
    for (int i = 1; i < ATTEMPTS; i++) {
      int again = bitsOnce(watched);
      if (again == seen) {
        return seen;
      }
      seen = again;
    }
    throw new ChipTrouble("expanders", "the events' registers read differently each time");
  }

  private int bitsOnce(int watched) throws ChipTrouble {
    int above = events.word();
    int wrong = (patterns.touch() ? ~above : above) & watched;
    return wrong | (events.latches() & watched | wrong) << 16;
  }

  @Override
  public void relaysDropped(long nowMicros) {
    held = false;
    if (stage == Stage.WATCHING) {
      stage = Stage.WETTED;
    }
    if (stage != Stage.BEGINNING) {
      waitUntilMicros = Math.max(waitUntilMicros, nowMicros + closeMicros + SETTLE_MICROS);
    }
  }

  @Override
  public @Nullable End advance(long nowMicros, InterlockWatch interlock) throws ChipTrouble {
    if (batch.due(nowMicros)
        || (stage == Stage.WATCHING && nowMicros - verifiedMicros >= VERIFY_MICROS)) {
      prove(nowMicros);
    }
    End asked = end;
    if (asked != null && stage == Stage.BEGINNING) {
      return asked;
    } else if (asked != null && stage != Stage.LETTING_GO) {
      board.discharge();
      enter(Stage.LETTING_GO, nowMicros + letGoMicros);
    }
    switch (stage) {
      case BEGINNING -> {
        board.connect();
        board.discharge();
        enter(Stage.JOINED, nowMicros + closeMicros + SETTLE_MICROS);
      }
      case JOINED -> {
        if (nowMicros >= waitUntilMicros) {
          board.guard(patterns.guard(code));
          events.feed(true, patterns.touch());
          enter(Stage.WETTED, nowMicros + SETTLE_MICROS);
        }
      }
      case WETTED -> {
        if (nowMicros >= waitUntilMicros) {
          begun = false;
          enter(Stage.WATCHING, nowMicros);
        }
      }
      case WATCHING -> {}
      case LETTING_GO -> {
        return nowMicros >= waitUntilMicros ? asked : null;
      }
    }
    return null;
  }

  private void enter(Stage next, long untilMicros) {
    stage = next;
    waitUntilMicros = untilMicros;
  }

  private void prove(long nowMicros) throws ChipTrouble {
    verifiedMicros = nowMicros;
    verify();
    if (batch.due(nowMicros)) {
      batch.flush(nowMicros);
    }
  }

  /** The chips listen, and the relays are fed as told: else all would look open. */
  private void verify() throws ChipTrouble {
    events.verify();
    board.verifyControl();
    batch.proved();
  }

  @Override
  public void finish(End end) {
    this.end = end;
  }

  @Override
  public void close(End end, long nowMicros) {
    try {
      verify();
    } catch (ChipTrouble e) {
      batch.dropUnproved();
    }
    batch.flush(nowMicros);
    link.send(new Ended(vigil, end.outcome(), end.reason()), nowMicros);
  }
}
