package bellwire.app.vigil;

import bellwire.analysis.survey.BoardModel;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Mark;
import bellwire.app.job.Source;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilStore;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.link.Message;
import bellwire.link.Message.KeepVigil.Kind;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * Takes a vigil's messages into the job file. The vigil's time counts from its start; each boot's
 * clock is set against it once, by its first message, so that it rises over restarts of the agent.
 */
final class VigilRecorder implements VigilFeed {
  private static final String AWAY = "the agent was away";
  private static final String TIME_OVER = "its time was over";
  private static final String RESTARTED = "the agent restarted; how long it was away is not known";
  private static final String HELD_UP = "the agent was held up, and let go of the cable";
  private static final long RESTART_MICROS = 1_000_000;

  /** Of one vigil; eight days of a start each ten minutes are 1152. */
  private static final int MOST_BOOTS = 10_000;

  private final VigilStore store;
  private final VigilOrder order;
  private final Elapsed elapsed;
  private final Intake intake;
  private final Tally tally = new Tally();
  private final Map<Long, Long> offsets = new HashMap<>();
  private final Map<Long, Long> next = new HashMap<>();

  /** By boot, the least that the vigil's time was ahead of a message's as it arrived. */
  private final Map<Long, Long> least = new HashMap<>();

  private long frames;
  private long uncommitted;
  private long lost;
  private long watchedBeforeMicros;
  private String ending = "";
  private boolean interlock;
  private boolean heldUp;

  /** Why nothing is taken any more; empty while all is. */
  private String refused = "";

  /** Why nothing was seen before the next sample; empty where it follows the one before. */
  private String missing = "";

  VigilRecorder(VigilStore store, VigilOrder order, BoardModel board, Elapsed elapsed)
      throws JobFileException {
    this.store = store;
    this.order = order;
    this.elapsed = elapsed;
    for (Source source : store.sources()) {
      if (source.offsetMicros() != Source.NOT_KNOWN) {
        offsets.put(source.boot(), source.offsetMicros());
      }
      next.put(source.boot(), source.nextSequence());
    }
    intake = intake(board);
  }

  private Intake intake(BoardModel board) throws JobFileException {
    return switch (order.kind()) {
      case CONTINUITY, TOUCH -> new EventIntake(store, words(EventIntake.STREAM), order, tally);
      case CALLS -> new CallIntake(store, words(CallIntake.STREAM), order, tally);
      case TREND -> new TrendIntake(store, order, board);
    };
  }

  private Stream words(String name) throws JobFileException {
    for (Stream each : store.streams()) {
      if (each.name().equals(name)) {
        return each;
      }
    }
    int codes = order.kind() == Kind.TOUCH ? codes(order.ports()) : 1;
    return store.addWords(name, EventIntake.TICK_MICROS, codes);
  }

  /** Group patterns that tell so many conductors, and M, apart. */
  static int codes(int ports) {
    return Integer.SIZE - Integer.numberOfLeadingZeros(Integer.bitCount(ports));
  }

  /** Counts what an earlier run of this program has put into the file. */
  void before(SeenBefore seen) {
    watchedBeforeMicros = seen.watchedMicros();
    for (VigilEvent each : seen.events()) {
      boolean decided = Integer.bitCount(each.others()) == 1;
      int ports = 1 << each.port() | (decided ? each.others() : 0);
      long micros = each.latched() ? 0 : each.lastMicros() - each.firstMicros();
      tally.addAll(ports, each.firstMicros(), micros, each.latched());
    }
  }

  @Override
  public void welcomed(long boot, long deviceMicros) {
    heard(boot, deviceMicros);
  }

  private void heard(long boot, long deviceMicros) {
    least.merge(boot, elapsed.micros() - deviceMicros, Math::min);
  }

  @Override
  public void data(boolean live, long boot, long sequence, long deviceMicros, Message.Data message)
      throws InstrumentTrouble {
    if (sequence < next.getOrDefault(boot, 0L)) {
      return;
    }
    refuse();
    frames++;
    if (live) {
      heard(boot, deviceMicros);
    }
    try {
      long of = number(message);
      if (of >= VigilOrder.LEAST_NUMBER && of != order.number()) {
        refused =
            "the board keeps another vigil, or still has what it recorded of it, number "
                + of
                + ": fetch it with --resume into the job file that it was begun in, or have it"
                + " ended and forgotten with 'bellwire vigil end --forget'";
        refuse();
      }
      if (of == order.number()) {
        long offset = offset(live, boot, deviceMicros, message);
        elapsed.atLeast(offset + deviceMicros);
        tellMissing(message, offset);
        take(message, offset);
        if (message instanceof Message.Ended end) {
          arrived(boot, sequence + 1); // in the commit of the ending, which may be the last
          ended(end, offset + deviceMicros);
        }
      }
      if (!live) {
        arrived(boot, sequence + 1);
      }
    } catch (JobFileException e) {
      throw new InstrumentTrouble(String.valueOf(e.getMessage()));
    }
  }

  /** What comes behind another vigil's must not be told to be stored: that would let go of it. */
  private void refuse() throws InstrumentTrouble {
    if (!refused.isEmpty()) {
      throw new InstrumentTrouble(refused);
    }
  }

  /** What cannot be, such as readings closer than the board's tick, is lost and told as a gap. */
  private void take(Message.Data message, long offset) throws JobFileException {
    try {
      intake.take(message, offset);
    } catch (IllegalArgumentException e) {
      lost++;
      missing = "the board told what cannot be: " + e.getMessage();
    }
  }

  private void tellMissing(Message.Data message, long offset) throws JobFileException {
    long first = firstMicros(message, -1);
    if (!missing.isEmpty() && first >= 0) {
      // Before the first reading nothing is known from the vigil's beginning on.
      long from = Math.max(0, lastMicros() + EventIntake.TICK_MICROS);
      store.interrupted(from, first + offset, missing);
      missing = "";
    }
  }

  /**
   * @param otherwise for a message without readings
   */
  private static long firstMicros(Message.Data message, long otherwise) {
    if (message instanceof Message.EventSamples m) {
      return m.firstMicros();
    } else if (message instanceof Message.CallSamples m) {
      return m.firstMicros();
    }
    return message instanceof Message.Samples m && m.deviceMicros().length > 0
        ? m.deviceMicros()[0]
        : otherwise;
  }

  /** Of the vigil, program or watch that a message is of; 0 for one of the board itself. */
  static long number(Message.Data message) {
    if (message instanceof Message.EventSamples m) {
      return m.vigil();
    } else if (message instanceof Message.CallSamples m) {
      return m.watch();
    } else if (message instanceof Message.Samples m) {
      return m.program();
    }
    return message instanceof Message.Ended m ? m.program() : 0;
  }

  /**
   * What a boot's clock lacks to the vigil's, by what came with the least delay up to the vigil's
   * first message: that may be hours old, and a bad line takes its time. The board's greeting is
   * made as this end is there. Of a boot that is over, and that this end never heard, only the
   * order is known.
   */
  private long offset(boolean live, long boot, long deviceMicros, Message.Data message)
      throws JobFileException {
    Long known = offsets.get(boot);
    if (known != null) {
      return known;
    }
    long first = firstMicros(message, deviceMicros);
    long offset = least.getOrDefault(boot, elapsed.micros() - deviceMicros);
    long last = lastMicros();
    if (last == Intake.NEVER) {
      offset = Math.max(offset, -first);
    } else {
      long after = last + EventIntake.TICK_MICROS - first;
      offset = live ? Math.max(after, offset) : after + RESTART_MICROS;
      missing = live ? AWAY : RESTARTED;
    }
    offsets.put(boot, offset);
    return offset;
  }

  /** The last reading there is, also from before a restart of this end. */
  private long lastMicros() {
    long last = intake.lastMicros();
    for (Stream each : store.streams()) {
      long before = store.storedBefore(each);
      last = Math.max(last, before == Intake.NEVER ? before : before - 1);
    }
    return last;
  }

  @Override
  public void arrived(long boot, long nextSequence) throws InstrumentTrouble {
    refuse();
    if (!next.containsKey(boot) && next.size() >= MOST_BOOTS) {
      throw new InstrumentTrouble(
          "the board says that it has started more than "
              + MOST_BOOTS
              + " times; something else is on the line, or the board is broken");
    }
    next.put(boot, nextSequence);
    try {
      long offset = offsets.getOrDefault(boot, Source.NOT_KNOWN);
      store.arrived(new Source(boot, nextSequence, offset));
      uncommitted++;
    } catch (JobFileException e) {
      throw new InstrumentTrouble(String.valueOf(e.getMessage()));
    }
  }

  @Override
  public void lost(long messages) {
    lost += messages;
  }

  private void ended(Message.Ended end, long micros) throws JobFileException {
    if (end.outcome() == Message.Ended.Outcome.HELD_UP) {
      missing = HELD_UP;
      heldUp = true;
      return; // nobody ended it
    }
    interlock = end.outcome() == Message.Ended.Outcome.INTERLOCK;
    ending =
        switch (end.outcome()) {
          case DONE -> TIME_OVER;
          case STOPPED -> "stopped";
          case INTERLOCK -> "ended by the interlock: " + end.reason();
          case TROUBLE, HELD_UP -> "ended by trouble with the board: " + end.reason();
        };
    intake.finish();
    store.ended(Math.max(micros, intake.lastMicros()), ending);
  }

  /** A person's note, at this moment. */
  void mark(String text) throws JobFileException {
    store.mark(new Mark(Math.max(0, elapsed.micros()), text));
    store.commit();
  }

  /** What is found up to now, where no more comes. */
  void finish() throws JobFileException {
    intake.finish();
  }

  /** Commits what is due, or what the agent's window waits for. */
  void commit(long mostFrames) throws JobFileException {
    if (uncommitted >= mostFrames) {
      store.commit();
      uncommitted = 0;
    } else {
      store.commitIfDue();
    }
  }

  /** The first message of a boot that is not on the disk. */
  long storedBelow(long boot) {
    return store.sources().stream()
        .filter(source -> source.boot() == boot)
        .mapToLong(Source::nextSequence)
        .findFirst()
        .orElse(0);
  }

  long frames() {
    return frames;
  }

  /** How the agent says it ended; empty while it has not. */
  String ending() {
    return ending;
  }

  boolean endedByInterlock() {
    return interlock;
  }

  /** Whether the agent was held up and let go of the cable, and has not been asked again. */
  boolean heldUp() {
    return heldUp;
  }

  /** The agent is asked again for the rest of the time. */
  void askedAgain() {
    heldUp = false;
  }

  /** What is found up to now, where no time is left to ask for. */
  void timeOver(long micros) throws JobFileException {
    ending = TIME_OVER;
    intake.finish();
    store.ended(micros, ending);
  }

  VigilView view(boolean up, long boardDiskBytes) {
    long since = Math.max(0, elapsed.micros());
    List<VigilView.Row> rows = new ArrayList<>();
    for (int left = order.ports(); left != 0; left &= left - 1) {
      int at = Integer.numberOfTrailingZeros(left);
      rows.add(tally.row(at, order.called(at), since, intake.now(at)));
    }
    return new VigilView(
        since,
        watchedBeforeMicros + intake.watchedMicros(),
        Math.max(0, order.lengthMicros() - since),
        rows,
        up,
        boardDiskBytes,
        lost);
  }
}
