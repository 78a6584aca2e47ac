package bellwire.app.visit;

import bellwire.app.job.JobFile;
import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilRow;
import bellwire.app.link.AgentVigil;
import bellwire.app.link.Transport;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.Cancelled;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.vigil.SeenBefore;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilRun;
import bellwire.app.vigil.VigilView;
import bellwire.board.BoardDescription;
import bellwire.link.HostEndpoint;
import java.util.Queue;
import java.util.SplittableRandom;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.function.Consumer;
import java.util.function.LongSupplier;
import org.jspecify.annotations.Nullable;

/** A vigil with a board, into the job's file by a connection of its own. */
final class VigilWork extends Work<VigilRunning.End> implements VigilRunning {
  private static final long LOOK_MICROS = 200_000;

  /** Simulated time is not waited for: more of it between two looks. */
  private static final long SIMULATED_LOOK_MICROS = 20_000_000;

  /** Between two looks; more than a person can make. */
  private static final int MOST_MARKS = 64;

  private final Visit visit;
  private final VigilOrder order;
  private final @Nullable VigilRow gone;
  private final Consumer<VigilView> view;
  private final Consumer<String> notes;
  private final Queue<String> marks = new LinkedBlockingQueue<>(MOST_MARKS);
  private volatile boolean ending;
  private volatile boolean leaving;
  private volatile boolean answered;
  private volatile boolean letGo = true;

  /**
   * @param left the vigil to go on with, null for a new one
   */
  VigilWork(
      Visit visit,
      VigilOrder order,
      @Nullable VigilRow left,
      Consumer<VigilView> view,
      Consumer<String> notes) {
    super("a vigil");
    this.visit = visit;
    this.order = order;
    this.gone = left;
    this.view = view;
    this.notes = notes;
  }

  @Override
  End work() throws Exception {
    try {
      return kept();
    } catch (Cancelled | InstrumentTrouble e) {
      VigilRow left = gone;
      if (left == null || !ending || answered) {
        throw e;
      }
      // Ended before the board answered: it would seem to be left for ever.
      try (JobFile file = visit.beside()) {
        String words = VigilRun.endWithoutBoard(file, left, System::nanoTime);
        visit.changed(Change.VIGILS);
        return new End(left.id(), words, false, false, false);
      }
    }
  }

  private End kept() throws Exception {
    Boards boards = visit.boards();
    try (Transport transport = boards.open(Boards.Use.VIGIL);
        JobFile file = visit.beside();
        VigilRun vigil = begun(file, transport, boards)) {
      answered = true;
      letGo = false;
      visit.changed(Change.VIGILS);
      try {
        return watch(vigil, boards.simulated() ? SIMULATED_LOOK_MICROS : LOOK_MICROS);
      } catch (Cancelled e) {
        vigil.stop();
        letGo = vigil.letGo();
        throw e;
      } finally {
        visit.changed(Change.VIGILS);
      }
    }
  }

  private VigilRun begun(JobFile file, Transport transport, Boards boards)
      throws JobFileException, InstrumentTrouble {
    BoardDescription board = BoardDescription.revisionA();
    long beganMicros = System.currentTimeMillis() * 1000;
    LongSupplier unixMicros =
        boards.simulated()
            ? () -> beganMicros + transport.nowMicros()
            : () -> System.currentTimeMillis() * 1000;
    VigilRun.Means means =
        new VigilRun.Means(
            BoardModels.of(board),
            board.revision(),
            feed ->
                new AgentVigil(
                    transport,
                    HostEndpoint.Timing.forBaud(boards.baud()),
                    feed,
                    this::cancelled,
                    new SplittableRandom().nextLong(1L << 40),
                    notes),
            unixMicros,
            System::nanoTime,
            notes);
    VigilRow left = gone;
    if (left == null) {
      return VigilRun.begin(file, order, means);
    }
    SeenBefore seen = SeenBefore.in(visit.file(), left);
    VigilRun vigil = VigilRun.resume(file, left, order, means);
    vigil.before(seen);
    return vigil;
  }

  private End watch(VigilRun vigil, long lookMicros) throws Exception {
    boolean goesOn = true;
    while (goesOn) {
      goesOn = vigil.step(lookMicros);
      for (String mark = marks.poll(); mark != null; mark = marks.poll()) {
        vigil.mark(mark);
      }
      view.accept(vigil.view());
      if (leaving) {
        return new End(vigil.vigil(), "left: the board goes on alone", false, true, false);
      }
      if (ending) {
        vigil.stop();
        goesOn = false;
      }
    }
    letGo = vigil.letGo();
    String words = vigil.ending().isEmpty() ? "stopped" : vigil.ending();
    return new End(vigil.vigil(), words, vigil.endedByInterlock(), false, letGo);
  }

  @Override
  public void mark(String text) {
    if (!marks.offer(text)) {
      notes.accept("Too many marks at once: not kept, '" + text + "'. Make it again.");
    }
  }

  @Override
  public void end() {
    ending = true;
    if (!answered) {
      cancel(); // nobody waits for an answer any more
    }
  }

  @Override
  public void leave() {
    leaving = true;
  }

  @Override
  boolean letGo() {
    return letGo;
  }
}
