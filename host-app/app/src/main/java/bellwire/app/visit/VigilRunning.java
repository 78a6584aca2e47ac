package bellwire.app.visit;

/** A vigil under way. */
public interface VigilRunning extends Running<VigilRunning.End> {
  /** A person's note at this moment. */
  void mark(String text);

  /** Ends it: the board lets go, and what was seen is in the file. */
  void end();

  /** Lets the board go on alone; it is gone on with later. */
  void leave();

  /**
   * How it ended, or was left.
   *
   * @param vigil its key in the job file
   * @param words why, for people
   * @param byVoltage a voltage on the cable ended it
   * @param left the board goes on alone
   * @param letGo whether the board has let go, for all that is known; of one that is left false
   */
  record End(long vigil, String words, boolean byVoltage, boolean left, boolean letGo) {}
}
