package bellwire.app.link;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.calls.LevelTracker;
import bellwire.app.rehearsal.CallRecord;
import bellwire.app.rehearsal.CallSource;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.survey.BoardSaid;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.link.DataFrame;
import bellwire.link.HostEndpoint;
import bellwire.link.Message;
import java.util.ArrayDeque;
import java.util.Arrays;
import java.util.Deque;
import java.util.OptionalDouble;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** A board's call-sense connector reached through the link. */
public final class AgentCalls implements CallSource {
  /** Between a read at the device and its arrival here, by the quickest frame. */
  private static final long TRANSIT_MICROS = 500_000;

  private static final long FIRST_SAMPLES_MICROS = 5_000_000;

  /** Without samples; longer than a lost link is waited for. */
  private static final long SILENT_MICROS = 30_000_000;

  /** The board carries no more dummy loads at a time: those of the first leads. */
  private static final int MOST_LOADS = 8;

  private final Transport transport;
  private final Conversation conversation;
  private final CallRecord record;
  private final long watch;
  private final boolean loads;
  private final Deque<Message.CallSamples> arrived = new ArrayDeque<>();
  private BoardSaid board = BoardSaid.NOTHING;
  private @Nullable LevelTracker tracker;
  private boolean watching;
  private boolean ended;
  private long lastDeviceMicros = -1;
  private long lastArrivalMicros;
  private long aheadMicros = Long.MIN_VALUE;
  private long samples;
  private long lostFrames;
  private int worstLateMicros;

  /**
   * @param loads whether the dummy loads are switched onto the leads of an AC control
   * @param record takes the raw samples as they come
   * @param cancelled asked often; true ends whatever waits
   * @param firstRequest see {@link HostEndpoint}
   * @param notes told in words of a link that is lost, and back
   */
  public AgentCalls(
      Transport transport,
      HostEndpoint.Timing timing,
      boolean loads,
      CallRecord record,
      BooleanSupplier cancelled,
      long firstRequest,
      Consumer<String> notes) {
    this.transport = transport;
    this.loads = loads;
    this.record = record;
    watch = firstRequest % 1_000_000 + 1;
    conversation =
        new Conversation(
            transport, timing, new Words(), cancelled, firstRequest, notes, "rehearse again");
  }

  @Override
  public void start(Rehearsal.Feed feed, int leads, Consumer<LevelChange> sink)
      throws InstrumentTrouble {
    Message.Welcome up = conversation.open();
    board = BoardSaid.greeted(up.revision(), up.agentVersion(), up.selfCheck());
    record.board(board);
    boolean dry = feed == Rehearsal.Feed.DRY;
    int mask = (1 << leads) - 1;
    int loadMask = (1 << MOST_LOADS) - 1;
    tracker = new LevelTracker(dry ? LevelTracker.Feed.DRY : LevelTracker.Feed.AC, mask, sink);
    watching = true;
    Message.Reply answer =
        conversation.askChecked(
            endpoint ->
                endpoint.senseCalls(
                    watch, dry, loads && !dry ? mask & loadMask : 0, transport.nowMicros()));
    if (!answer.accepted()) {
      watching = false;
      throw new InstrumentTrouble("the agent refused to watch: " + answer.reason());
    }
    conversation.pump(() -> !arrived.isEmpty(), FIRST_SAMPLES_MICROS, "the agent sends no samples");
    take(arrived.remove());
  }

  /**
   * Until the next frame of samples. One at a time, though a line that was lost brings many at
   * once: what is decided between two of them must not depend on the line, nor differ in a replay.
   */
  @Override
  public void await(long micros) throws InstrumentTrouble {
    if (transport.nowMicros() - lastArrivalMicros > SILENT_MICROS) {
      throw new InstrumentTrouble(
          "the agent sends no samples any more: look at its power and its cable, then rehearse"
              + " again");
    }
    long until = transport.nowMicros() + micros;
    conversation.pump(
        () -> !arrived.isEmpty() || ended || transport.nowMicros() >= until,
        micros + FIRST_SAMPLES_MICROS,
        "time stands still");
    if (!arrived.isEmpty()) {
      take(arrived.remove());
    } else if (ended) {
      throw new InstrumentTrouble("the agent has stopped watching");
    }
  }

  private void take(Message.CallSamples calls) {
    LevelTracker levels = tracker;
    if (levels == null) {
      throw new IllegalStateException("samples before the start");
    }
    record.samples(calls);
    long at = calls.firstMicros();
    for (int i = 0; i < calls.word().length; i++) {
      at += calls.deltaMicros()[i];
      levels.sample(at, calls.tookMicros()[i], calls.word()[i]);
      worstLateMicros = Math.max(worstLateMicros, calls.lateMicros()[i]);
    }
    samples += calls.word().length;
    lastDeviceMicros = at;
  }

  @Override
  public long nowMicros() {
    return Math.max(0, lastDeviceMicros);
  }

  /**
   * From the frame that was quickest here: one that the line held up says nothing of the time. A
   * device whose clock is slow makes this later by 0.1 ms a second at most.
   */
  @Override
  public long notBeyondMicros() {
    return aheadMicros == Long.MIN_VALUE ? 0 : transport.nowMicros() + aheadMicros + TRANSIT_MICROS;
  }

  @Override
  public long settledMicros() {
    return tracker == null ? 0 : tracker.settledMicros();
  }

  @Override
  public Level level(int lead) {
    return tracker == null ? Level.UNKNOWN : tracker.level(lead);
  }

  @Override
  public OptionalDouble mainsHertz() {
    return tracker == null ? OptionalDouble.empty() : tracker.mainsHertz();
  }

  @Override
  public BoardSaid board() {
    return board;
  }

  @Override
  public Sampling sampling() {
    return new Sampling(samples, lostFrames, tracker == null ? 0 : tracker.gaps(), worstLateMicros);
  }

  @Override
  public void close() {
    try {
      if (watching && !ended) {
        conversation.stop(() -> ended);
      }
    } finally {
      transport.close();
    }
  }

  /** Whether the board has let go of the control, for all that is known. */
  public boolean letGo() {
    return !watching || ended;
  }

  private final class Words implements Conversation.Client {
    @Override
    public void data(DataFrame frame) throws InstrumentTrouble {
      if (frame.message() instanceof Message.CallSamples calls && calls.watch() == watch) {
        arrive(calls);
      } else if (frame.message() instanceof Message.Ended end && end.program() == watch) {
        ended = true;
        if (end.outcome() != Message.Ended.Outcome.STOPPED) {
          throw new InstrumentTrouble("the agent stopped watching: " + end.reason());
        }
      }
    }

    private void arrive(Message.CallSamples calls) {
      if (calls.word().length > 0) {
        arrived.add(calls);
        lastArrivalMicros = transport.nowMicros();
        long at = calls.firstMicros() + Arrays.stream(calls.deltaMicros()).sum();
        aheadMicros = Math.max(aheadMicros, at - transport.nowMicros());
      }
    }

    @Override
    public boolean busy() {
      return watching;
    }

    @Override
    public void lost(long frames) {
      lostFrames += frames;
    }
  }
}
