package bellwire.app.visit;

import bellwire.app.job.JobFileException;
import bellwire.app.job.JobFileException.Trouble;
import bellwire.app.job.JobRecords;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.CompletableFuture;
import java.util.function.Consumer;

/**
 * Changes of a job in their order. One that the file has no room for, or cannot be reached for,
 * waits to be tried again, and those after it wait behind it; what is refused for another reason
 * fails. Used on the job's thread.
 */
final class Keeping {
  /** More than a person can type while the disk is full. */
  static final int MOST = 1000;

  /** A change, and who waits for it. */
  private record Write<T>(Change what, JobTask<T> task, CompletableFuture<T> answer) {}

  private final JobRecords records;
  private final Consumer<Change> tell;
  private final Consumer<Unkept> unkept;
  private final Deque<Write<?>> waiting = new ArrayDeque<>();
  private String why = "";
  private boolean closed;

  /**
   * @param tell told of each change once it is in the file
   * @param unkept told of what waits, whenever that is another number
   */
  Keeping(JobRecords records, Consumer<Change> tell, Consumer<Unkept> unkept) {
    this.records = records;
    this.tell = tell;
    this.unkept = unkept;
  }

  <T> void put(Change what, JobTask<T> task, CompletableFuture<T> answer) {
    Write<T> write = new Write<>(what, task, answer);
    if (waiting.isEmpty() && tried(write)) {
      return;
    }
    if (closed || waiting.size() >= MOST) {
      answer.completeExceptionally(
          new IllegalStateException(
              "not kept: " + waiting.size() + " changes wait for the file already. " + why));
      return;
    }
    waiting.add(write);
    unkept.accept(new Unkept(waiting.size(), why));
  }

  /** Tries those that wait. */
  void again() {
    int before = waiting.size();
    while (!waiting.isEmpty() && tried(waiting.element())) {
      waiting.remove();
    }
    if (waiting.size() != before) {
      unkept.accept(waiting.isEmpty() ? Unkept.NONE : new Unkept(waiting.size(), why));
    }
  }

  /** Tries them a last time; what still finds no room fails, and nothing waits any more. */
  void close() {
    again();
    closed = true;
    for (Write<?> write : waiting) {
      write.answer().completeExceptionally(new IllegalStateException("not kept: " + why));
    }
    waiting.clear();
  }

  boolean waits() {
    return !waiting.isEmpty();
  }

  /** False where it is to be tried again. */
  private <T> boolean tried(Write<T> write) {
    T result;
    try {
      result = write.task().run(records);
    } catch (JobFileException e) {
      if (!closed && passes(e.trouble())) {
        why = String.valueOf(e.getMessage());
        return false;
      }
      write.answer().completeExceptionally(e);
      return true;
    } catch (Exception | Error e) {
      write.answer().completeExceptionally(e);
      return true;
    }
    tell.accept(write.what());
    write.answer().complete(result);
    return true;
  }

  /** What a person can put right beside the program. */
  private static boolean passes(Trouble trouble) {
    return trouble == Trouble.FULL || trouble == Trouble.IN_USE || trouble == Trouble.UNREACHABLE;
  }
}
