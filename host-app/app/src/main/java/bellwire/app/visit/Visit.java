package bellwire.app.visit;

import bellwire.analysis.calls.LevelChange;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobRecords;
import bellwire.app.job.RehearsalRow;
import bellwire.app.job.SurveyRow;
import bellwire.app.job.VigilRow;
import bellwire.app.rehearsal.Operator;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.SurveyListener;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilView;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.RejectedExecutionException;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * An open job: its file, on a thread of its own; where its board is; what goes on with the board.
 * For use by any thread. What it tells comes on other threads than the caller's.
 */
public final class Visit implements AutoCloseable {
  private static final long CLOSING_SECONDS = 10;
  private static final long AGAIN_MILLIS = 2000;

  private final Path file;
  private final JobFile job;
  private final JobRecords records;
  private final ScheduledThreadPoolExecutor clerk =
      new ScheduledThreadPoolExecutor(
          1,
          work -> {
            Thread thread = new Thread(work, "bellwire-job");
            thread.setDaemon(true);
            return thread;
          });
  private final Keeping keeping;
  private final List<Consumer<Unkept>> toldUnkept = new CopyOnWriteArrayList<>();
  private volatile Unkept unkept = Unkept.NONE;
  private final List<Consumer<Change>> told = new CopyOnWriteArrayList<>();
  private volatile Boards boards;
  private @Nullable Work<?> running;
  private boolean closing;

  private Visit(Path file, JobFile job, Boards boards) {
    this.file = file;
    this.job = job;
    this.boards = boards;
    records = job.records();
    keeping = new Keeping(records, this::tell, this::tellUnkept);
    clerk.setExecuteExistingDelayedTasksAfterShutdownPolicy(false);
  }

  /** Opens a job file for writing, and creates it where there is none. */
  public static Visit open(Path file, Boards boards) throws JobFileException {
    return new Visit(file, JobFile.open(file), boards);
  }

  public Path file() {
    return file;
  }

  public Boards boards() {
    return boards;
  }

  /** For what is begun from now on. */
  public void boards(Boards others) {
    boards = others;
  }

  /** Reads or writes on the job's thread, in the order of the calls. */
  public <T> CompletableFuture<T> ask(JobTask<T> task) {
    CompletableFuture<T> answer = new CompletableFuture<>();
    try {
      clerk.execute(() -> answer(task, answer));
    } catch (RejectedExecutionException e) {
      answer.completeExceptionally(new IllegalStateException("the job is closed", e));
    }
    return answer;
  }

  private <T> void answer(JobTask<T> task, CompletableFuture<T> answer) {
    T result;
    try {
      result = task.run(records);
    } catch (Exception | Error e) {
      answer.completeExceptionally(e);
      return;
    }
    answer.complete(result);
  }

  /**
   * The same for something that changes the job; who listens is told once it is in the file. Where
   * the disk is full or the file can't be reached it waits and is tried again, in its turn, until
   * it is kept or the job is closed.
   */
  public <T> CompletableFuture<T> change(Change what, JobTask<T> task) {
    CompletableFuture<T> answer = new CompletableFuture<>();
    try {
      clerk.execute(() -> put(what, task, answer));
    } catch (RejectedExecutionException e) {
      answer.completeExceptionally(new IllegalStateException("the job is closed", e));
    }
    return answer;
  }

  private <T> void put(Change what, JobTask<T> task, CompletableFuture<T> answer) {
    boolean waited = keeping.waits();
    keeping.put(what, task, answer);
    if (!waited && keeping.waits()) {
      later();
    }
  }

  private void later() {
    if (!clerk.isShutdown()) {
      var unused =
          clerk.schedule(
              () -> {
                keeping.again();
                if (keeping.waits()) {
                  later();
                }
              },
              AGAIN_MILLIS,
              TimeUnit.MILLISECONDS);
    }
  }

  /** What waits to be put into the file. */
  public Unkept unkept() {
    return unkept;
  }

  /** Tells of what waits, on the job's thread, whenever that is another number of changes. */
  public void listenUnkept(Consumer<Unkept> listener) {
    toldUnkept.add(listener);
  }

  private void tellUnkept(Unkept now) {
    unkept = now;
    toldUnkept.forEach(listener -> listener.accept(now));
  }

  /** Tells of every change, on the job's thread. */
  public void listen(Consumer<Change> listener) {
    told.add(listener);
  }

  public void listenNoMore(Consumer<Change> listener) {
    told.remove(listener);
  }

  private void tell(Change what) {
    told.forEach(listener -> listener.accept(what));
  }

  /** What goes on with the board; one at a time, for there is one board. */
  public synchronized Optional<Running<?>> running() {
    return Optional.ofNullable(running);
  }

  /** Surveys the cable; the result, or the voltage that stopped it, goes into the job. */
  public Running<SurveyRow> survey(SurveyOrder order, SurveyListener listener) {
    return begin(new SurveyWork(this, order, listener));
  }

  /**
   * @param operator asked on the rehearsal's thread; may block
   * @param notes told in words of what happens to link or record
   * @param seen every change of a terminal's level, as it is seen
   */
  public Running<RehearsalRow> rehearse(
      RehearsalOrder order, Operator operator, Consumer<String> notes, Consumer<LevelChange> seen) {
    return begin(new RehearsalWork(this, order, operator, notes, seen));
  }

  /**
   * @param view told several times a second how it stands
   * @param notes told in words of what happens
   */
  public VigilRunning vigil(VigilOrder order, Consumer<VigilView> view, Consumer<String> notes) {
    return begin(new VigilWork(this, order, null, view, notes));
  }

  /** Goes on with a vigil that was left, and takes what the board recorded alone. */
  public VigilRunning resume(
      VigilRow left, VigilOrder order, Consumer<VigilView> view, Consumer<String> notes) {
    return begin(new VigilWork(this, order, left, view, notes));
  }

  private synchronized <W extends Work<?>> W begin(W work) {
    if (closing) {
      work.refuse(new InstrumentTrouble("the job is being closed; open it again first"));
      return work;
    }
    Work<?> other = running;
    if (other != null) {
      work.refuse(
          new InstrumentTrouble("the board is at work: " + other.what() + "; end it first"));
      return work;
    }
    running = work;
    work.start(() -> over(work));
    return work;
  }

  private synchronized void over(Work<?> work) {
    if (running == work) {
      running = null;
    }
  }

  /** Another connection, for another thread than the job's. */
  JobFile beside() throws JobFileException {
    return job.beside();
  }

  /** A change made through {@link #beside}. */
  void changed(Change what) {
    ask(
        all -> {
          tell(what);
          return what;
        });
  }

  /**
   * Ends what runs, a vigil excepted, which the board goes on with alone where it can; then lets go
   * of the file. Waits for both, some seconds at most.
   */
  @Override
  public void close() throws JobFileException {
    Work<?> work;
    synchronized (this) {
      closing = true;
      work = running;
    }
    lastTry();
    if (work != null) {
      work.leave();
      try {
        work.done().get(CLOSING_SECONDS, TimeUnit.SECONDS);
      } catch (ExecutionException | CompletionException | TimeoutException e) {
        // It has told its own trouble.
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }
    clerk.shutdown();
    try {
      if (!clerk.awaitTermination(CLOSING_SECONDS, TimeUnit.SECONDS)) {
        clerk.shutdownNow();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    job.close();
  }

  /** Who waits for something to be kept need not wait any longer. */
  private void lastTry() {
    try {
      clerk.execute(keeping::close);
    } catch (RejectedExecutionException e) {
      // Closed already.
    }
  }
}
