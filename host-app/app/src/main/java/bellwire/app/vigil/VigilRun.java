package bellwire.app.vigil;

import bellwire.analysis.survey.BoardModel;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.job.VigilStore;
import bellwire.app.job.Watched;
import bellwire.app.survey.BoardSaid;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.LetGo;
import bellwire.link.Message;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.function.LongSupplier;

/**
 * A vigil kept with a board and put in a job file: begun, or gone on with after this program, the
 * link or the agent was away.
 */
public final class VigilRun implements AutoCloseable {
  /**
   * So many messages wait for a commit at most, for the agent sends no more than a window ahead.
   */
  private static final long MOST_UNCOMMITTED = 24;

  /** Nothing more of what was recorded comes once nothing has come for so long. */
  private static final long QUIET_MICROS = 3_000_000;

  /** What a board still has of another vigil begins to come within this. */
  private static final long LEFTOVER_MICROS = 500_000;

  /** In a row, each within {@link #CALM_MICROS} of the one before. */
  private static final int MOST_RESTARTS = 20;

  /** Let go of charged, a cable is inside the window again within a fraction of this. */
  private static final long REST_MICROS = 300_000;

  private static final long CALM_MICROS = 20_000_000;

  private static final String COULD_NOT_BEGIN = "could not begin: ";

  /** Where the file has all and the board may not know it. */
  static final String NOT_CONFIRMED =
      "the board has not confirmed that its readings are in the file; where it refuses another"
          + " job's vigil for them, '--resume' with this file tells it again";

  private static final String WITHOUT_BOARD = "ended by hand, without the board's answer";

  /** Where a board was asked to stop and did not say that it has. */
  public static final String NOT_LET_GO = LetGo.OF_CABLE.untold();

  private final VigilOrder order;
  private final BoardModel model;
  private final VigilStore store;
  private final VigilRecorder recorder;
  private final VigilBoard board;
  private final Consumer<String> notes;
  private int restarts;
  private long restartedMicros;

  /**
   * What a vigil needs beside its order.
   *
   * @param model of the board
   * @param revision the board's name in the file
   * @param connect to the board, given what takes its messages
   * @param unixMicros wall time
   * @param nanoTime monotonic, for the commits
   * @param notes told in words of what happens
   */
  public record Means(
      BoardModel model,
      String revision,
      Function<VigilFeed, VigilBoard> connect,
      LongSupplier unixMicros,
      LongSupplier nanoTime,
      Consumer<String> notes) {}

  /**
   * @param sinceMicros since the vigil's start, by the wall clock
   */
  private VigilRun(VigilOrder order, VigilStore store, Means means, long sinceMicros)
      throws JobFileException {
    this.order = order;
    this.store = store;
    this.notes = means.notes();
    model = means.model();
    Elapsed elapsed = new Elapsed(this::nowMicros);
    recorder = new VigilRecorder(store, order, model, elapsed);
    board = means.connect().apply(recorder);
    elapsed.from(sinceMicros);
    for (Stream each : store.streams()) {
      elapsed.atLeast(store.storedBefore(each));
    }
  }

  private long nowMicros() {
    return board.nowMicros();
  }

  /** Begins a vigil. */
  public static VigilRun begin(JobFile job, VigilOrder order, Means means)
      throws JobFileException, InstrumentTrouble {
    long now = means.unixMicros().getAsLong();
    VigilStore store = job.startVigil(order.watched(means.revision()), now, 0, means.nanoTime());
    VigilRun run = new VigilRun(order, store, means, 0);
    try {
      Message.Welcome up = run.board.open(job.sources());
      run.board.linger(LEFTOVER_MICROS);
      run.refuseOthers();
      run.keep(order.lengthMicros());
      BoardSaid said = BoardSaid.greeted(up.revision(), up.agentVersion(), up.selfCheck());
      store.board((order.deEnergised() ? said.armed() : said).text());
      return run;
    } catch (InstrumentTrouble | RuntimeException e) {
      store.ended(0, COULD_NOT_BEGIN + e.getMessage());
      run.close();
      throw e;
    }
  }

  private void refuseOthers() throws InstrumentTrouble {
    OptionalLong other = board.underWay();
    if (other.isPresent()) {
      throw new InstrumentTrouble(
          "the board keeps a vigil already, number "
              + other.getAsLong()
              + ": go on with it in its own job file with --resume, or end it with 'bellwire vigil"
              + " end'");
    }
  }

  private void keep(long micros) throws InstrumentTrouble {
    try {
      if (order.deEnergised()) {
        board.arm();
      }
      board.keep(order.asked(model, micros));
    } catch (InstrumentTrouble | RuntimeException e) {
      board.stop(); // it may have taken the request, and not been heard to say so
      if (board.letGo()) {
        throw e;
      }
      throw new InstrumentTrouble(e.getMessage() + "; " + NOT_LET_GO);
    }
  }

  /** The vigil of a job file that can be gone on with: the last one begun, if it has not ended. */
  public static Optional<VigilRow> unfinished(Path file) throws JobFileException {
    return lastBegun(VigilReader.vigils(file)).filter(row -> row.ending().isEmpty());
  }

  /** The last vigil of a file that a board has begun. */
  public static Optional<VigilRow> lastBegun(List<VigilRow> all) {
    return all.stream()
        .filter(row -> row.ending().filter(e -> e.outcome().startsWith(COULD_NOT_BEGIN)).isEmpty())
        .reduce((earlier, later) -> later);
  }

  /**
   * What was asked for of a vigil in a file.
   *
   * @throws BadVigil where an earlier version began it, which kept no word of that
   */
  public static VigilOrder order(Path file, VigilRow row) throws JobFileException, BadVigil {
    try (VigilReader reader = VigilReader.open(file, row.id())) {
      Watched watched =
          reader
              .watched()
              .orElseThrow(
                  () ->
                      new BadVigil(
                          file
                              + ": vigil "
                              + row.id()
                              + " was begun by an earlier Bellwire, and does not say what it"
                              + " watches; leave --resume out to begin another"));
      return VigilOrder.of(watched);
    }
  }

  /**
   * Goes on with a vigil: takes what the agent has recorded, and has it begin again where it has
   * restarted meanwhile and there is time left.
   */
  public static VigilRun resume(JobFile job, VigilRow row, VigilOrder order, Means means)
      throws JobFileException, InstrumentTrouble {
    VigilStore store = job.resumeVigil(row.id(), means.nanoTime());
    long since = means.unixMicros().getAsLong() - row.startedUnixMicros();
    VigilRun run = new VigilRun(order, store, means, Math.max(0, since)); // set back meanwhile?
    try {
      run.board.open(job.sources());
      OptionalLong underWay = run.board.underWay();
      if (underWay.isPresent() && underWay.getAsLong() != order.number()) {
        run.refuseOthers();
      }
      run.board.follow(order.number());
      if (underWay.isEmpty()) {
        run.notes.accept("the board keeps no vigil at this moment: taking what it recorded");
        run.again();
      }
      return run;
    } catch (InstrumentTrouble | RuntimeException e) {
      run.close();
      throw e;
    }
  }

  /**
   * Ends a vigil that was left, where the board does not answer: what the board recorded alone
   * stays with it.
   *
   * @return how it ended, in words
   */
  public static String endWithoutBoard(JobFile job, VigilRow row, LongSupplier nanoTime)
      throws JobFileException {
    long last = row.startedMicros();
    try (VigilStore store = job.resumeVigil(row.id(), nanoTime)) {
      for (Stream stream : store.streams()) {
        last = Math.max(last, store.storedBefore(stream));
      }
      store.ended(last, WITHOUT_BOARD);
    }
    return WITHOUT_BOARD;
  }

  /** Counts in the view what the file held before it was gone on with. */
  public void before(SeenBefore seen) {
    recorder.before(seen);
  }

  /** After a restart of the agent: what it had recorded first, then the rest of the time. */
  private void again() throws InstrumentTrouble, JobFileException {
    long frames;
    do {
      do {
        board.follow(order.number());
        frames = recorder.frames();
        board.await(QUIET_MICROS);
        acknowledge();
        refuseEndless();
      } while ((recorder.frames() != frames || board.restarted() || !board.up())
          && recorder.ending().isEmpty());
    } while (recorder.ending().isEmpty() && !restKept());
  }

  /** Whether the board has begun again; not where it has restarted just as it was asked to. */
  private boolean restKept() throws InstrumentTrouble, JobFileException {
    try {
      keepRest();
      return true;
    } catch (InstrumentTrouble e) {
      if (!board.restarted()) {
        throw e;
      }
      refuseEndless();
      return false;
    }
  }

  private void keepRest() throws InstrumentTrouble, JobFileException {
    recorder.askedAgain();
    long left = recorder.view(true, 0).leftMicros();
    if (left > 0) {
      keep(left);
    } else {
      recorder.timeOver(order.lengthMicros());
    }
  }

  private void refuseEndless() throws InstrumentTrouble {
    if (board.restarted()) {
      countRestart("the agent restarts again and again: look at its power supply");
    }
  }

  private void countRestart(String objection) throws InstrumentTrouble {
    long now = board.nowMicros();
    restarts = now - restartedMicros > CALM_MICROS ? 1 : restarts + 1;
    restartedMicros = now;
    if (restarts > MOST_RESTARTS) {
      throw new InstrumentTrouble(objection + ", then go on with --resume");
    }
  }

  /**
   * Lets time pass.
   *
   * @return whether the vigil goes on
   */
  public boolean step(long micros) throws InstrumentTrouble, JobFileException {
    board.await(micros);
    acknowledge();
    if (board.restarted()) {
      refuseEndless();
      notes.accept("the agent has restarted: taking what it recorded, then going on");
      again();
    } else if (recorder.heldUp()) {
      countRestart("the agent is held up again and again: look at what else the Pi is doing");
      notes.accept(
          "the agent was held up and the board let go of the cable: arming it and going on");
      board.linger(REST_MICROS);
      if (!restKept()) {
        again();
      }
    }
    boolean over = !recorder.ending().isEmpty() || board.ended();
    if (over) {
      part();
    }
    return !over;
  }

  /** Nothing that the file has stays with the board: it would pass for another vigil's there. */
  private void part() throws JobFileException {
    store.commit();
    acknowledge();
    if (!board.part()) {
      notes.accept(NOT_CONFIRMED);
    }
  }

  /**
   * Tells a board that a file has its vigils that have ended: the board may have missed that it
   * has, and then refuses another file's.
   *
   * @return whether the board has let go of all that it had recorded
   */
  public static boolean handOver(JobFile job, Means means)
      throws JobFileException, InstrumentTrouble {
    Unstored feed = new Unstored();
    try (VigilBoard board = means.connect().apply(feed)) {
      board.open(job.sources());
      board.linger(LEFTOVER_MICROS);
      if (board.underWay().isEmpty() && feed.ofVigils() == 0) {
        board.stored(board.boot(), feed.next());
      }
      return board.part();
    }
  }

  private void acknowledge() throws JobFileException {
    recorder.commit(MOST_UNCOMMITTED);
    long boot = board.boot();
    board.stored(boot, recorder.storedBelow(boot));
  }

  /** A person's note at this moment. */
  public void mark(String text) throws JobFileException {
    recorder.mark(text);
  }

  /** As it stands. */
  public VigilView view() {
    return recorder.view(board.up(), board.diskBytes());
  }

  public VigilOrder order() {
    return order;
  }

  /** Its key in the job file. */
  public long vigil() {
    return store.vigil();
  }

  /** How it ended; empty while it goes on. */
  public String ending() {
    return recorder.ending();
  }

  /** Whether a voltage on the cable ended it. */
  public boolean endedByInterlock() {
    return recorder.endedByInterlock();
  }

  /** Ends it: the board lets go. */
  public void stop() throws JobFileException {
    board.stop();
    if (recorder.ending().isEmpty()) {
      recorder.finish();
    }
    part();
  }

  /** Whether the board has let go of cable or control, for all that is known. */
  public boolean letGo() {
    return board.letGo();
  }

  /** Lets go of file and link only: without {@link #stop} the agent goes on alone. */
  @Override
  public void close() throws JobFileException {
    try {
      store.close();
    } finally {
      board.close();
    }
  }
}
