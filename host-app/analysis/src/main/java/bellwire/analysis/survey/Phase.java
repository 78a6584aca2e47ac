package bellwire.analysis.survey;

import java.util.List;

/**
 * A part of the survey that decides by what it has read what to read next. It neither waits nor
 * touches the board: whoever runs it measures what {@link #next} asks and hands the readings to
 * {@link #accept}, until nothing is asked.
 */
public interface Phase {

  /** What to measure now, in order; empty when the phase is over. */
  List<Probe> next();

  /**
   * @param readings one for each probe of the last {@link #next}, in its order
   */
  void accept(List<Reading> readings);
}
