package bellwire.app.visit;

import java.util.concurrent.CompletableFuture;

/** Something that goes on with the board, on a thread of its own. */
public interface Running<T> {
  /** For people: 'a survey', 'a vigil'. */
  String what();

  /**
   * Its result once it is in the job file. Completes with {@link Stopped} where it was cancelled,
   * else with the trouble that ended it.
   */
  CompletableFuture<T> done();

  /** Ends it soon: the board lets go. */
  void cancel();
}
