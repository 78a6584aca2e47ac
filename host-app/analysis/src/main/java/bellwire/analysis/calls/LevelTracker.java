package bellwire.analysis.calls;

import java.util.OptionalDouble;
import java.util.function.Consumer;

/** Turns raw words of the call-sense connector into level changes. Not safe for several threads. */
public final class LevelTracker {

  /** What feeds the leads. */
  public enum Feed {
    /** The control's own 24 V AC. */
    AC,
    /** The board's wetting supply, through dry contacts. */
    DRY
  }

  private final Feed feed;
  private final int leads;
  private final Consumer<LevelChange> sink;

  /**
   * @param leads those watched, bit 0 for X1 to bit 15 for X16
   * @param sink takes the changes, in order of their {@code earliestMicros}
   */
  public LevelTracker(Feed feed, int leads, Consumer<LevelChange> sink) {
    this.feed = feed;
    this.leads = leads;
    this.sink = sink;
  }

  /**
   * A word read between {@code micros} and {@code micros + tookMicros}.
   *
   * @param micros device time, rising from call to call
   */
  public void sample(long micros, int tookMicros, int word) {
    throw new UnsupportedOperationException("feed=" + feed + " leads=" + leads + sink);
  }

  /** Samples in between are lost: every lead is {@link Level#UNKNOWN} there. */
  public void gap(long fromMicros, long toMicros) {
    throw new UnsupportedOperationException();
  }

  /** Every change before this device time has been told. */
  public long settledMicros() {
    throw new UnsupportedOperationException();
  }

  /** Found from the pattern, in the device's time; empty while unknown. */
  public OptionalDouble mainsHertz() {
    throw new UnsupportedOperationException();
  }

  public Level level(int lead) {
    throw new UnsupportedOperationException("lead=" + lead);
  }

  /** Tells what is left; nothing may follow. */
  public void finish(long micros) {
    throw new UnsupportedOperationException();
  }
}
