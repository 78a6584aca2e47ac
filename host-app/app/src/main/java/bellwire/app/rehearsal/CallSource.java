package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.app.survey.BoardSaid;
import bellwire.app.survey.InstrumentTrouble;
import java.util.OptionalDouble;
import java.util.function.Consumer;

/** Where the levels of a control's terminals come from. Times are the device's microseconds. */
public interface CallSource extends AutoCloseable {

  /**
   * Begins to watch.
   *
   * @param leads how many, from X1 on
   * @param sink told every change, a lead's first level too, in order of the earliest moment
   */
  void start(Rehearsal.Feed feed, int leads, Consumer<LevelChange> sink) throws InstrumentTrouble;

  /** Lets time pass, at most so long. */
  void await(long micros) throws InstrumentTrouble;

  /** The latest moment of the device that is known to have come. */
  long nowMicros();

  /** A moment of the device that has certainly not come yet, or is now. */
  long notBeyondMicros();

  /** Every change before this has been told. */
  long settledMicros();

  /**
   * When the last step was over.
   *
   * @param judgedMicros as far as this run can tell; a recording knows better
   */
  default long lastMoment(long judgedMicros) {
    return judgedMicros;
  }

  /** A lead's present level. */
  Level level(int lead);

  /** Whether there is no more to come: the end of a recording. */
  default boolean over() {
    return false;
  }

  /** Frequency of the supply found on the leads. */
  OptionalDouble mainsHertz();

  /** What the board said of itself, once it was started. */
  default BoardSaid board() {
    return BoardSaid.NOTHING;
  }

  /** How the sampling went, for the record. */
  Sampling sampling();

  /**
   * @param samples taken
   * @param lostFrames frames of samples that never arrived
   * @param gaps stretches of time without samples
   * @param worstLateMicros how late the latest tick was
   */
  record Sampling(long samples, long lostFrames, long gaps, int worstLateMicros) {}

  @Override
  void close();
}
