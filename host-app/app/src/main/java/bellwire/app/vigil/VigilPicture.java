package bellwire.app.vigil;

import bellwire.analysis.vigil.Unwatched;
import bellwire.analysis.vigil.VigilProgram;
import bellwire.app.job.Mark;
import bellwire.app.job.VigilRow;
import java.util.List;

/**
 * A part of a vigil as wide as a chart: no more of it than the chart has columns. Times are the
 * vigil's.
 *
 * @param fromMicros begin of the part
 * @param toMicros its end
 * @param firstMicros first reading of all; greater than {@code lastMicros} where there is none
 * @param lastMicros last reading of all
 * @param lanes one a conductor or lead, and of a touch vigil M
 * @param gaps in which nothing was known, those closer than a column as one
 * @param marks a person's, in the part
 */
public record VigilPicture(
    VigilRow row,
    VigilProgram program,
    long fromMicros,
    long toMicros,
    long firstMicros,
    long lastMicros,
    List<Lane> lanes,
    List<Unwatched> gaps,
    List<Mark> marks) {
  public VigilPicture {
    lanes = List.copyOf(lanes);
    gaps = List.copyOf(gaps);
    marks = List.copyOf(marks);
  }

  /** What was so in a stretch of a lane. */
  public enum State {
    /** Open, touching, or a call: all the time. */
    THROUGHOUT,
    /** In part of it. */
    PARTLY,
    /** A call that is too weak for one. */
    WEAK,
    /** Called at rest: a stretch worth drawing only where the lane shows levels. */
    REST
  }

  /**
   * One conductor's or lead's time.
   *
   * @param number of port or lead, from 0; 16 for M
   * @param name such as 'P3 red'
   * @param stretches in which there was something to show, in order of time
   * @param events found in the raw readings, in order of time; those in one column as one
   * @param course of a trend's resistance; else without points
   */
  public record Lane(
      int number, String name, List<Stretch> stretches, List<Event> events, Course course) {
    public Lane {
      stretches = List.copyOf(stretches);
      events = List.copyOf(events);
    }
  }

  /** In which a lane's state was the same. */
  public record Stretch(long fromMicros, long toMicros, State state) {}

  /**
   * Something that happened; or several of them, too close to be told apart here.
   *
   * @param brief shorter than a tick, all of them
   */
  public record Event(long firstMicros, long lastMicros, long count, boolean brief) {}

  /**
   * Resistances, a point a column that has any.
   *
   * @param micros of each point's first reading
   * @param first ohms of a point's first reading
   * @param low the least
   * @param high the greatest
   * @param last of its last reading
   * @param joined whether it follows the point before without a gap
   * @param readingOhms standard uncertainty of a single reading
   */
  public record Course(
      long[] micros,
      double[] first,
      double[] low,
      double[] high,
      double[] last,
      boolean[] joined,
      double readingOhms) {
    static final Course NONE =
        new Course(
            new long[0],
            new double[0],
            new double[0],
            new double[0],
            new double[0],
            new boolean[0],
            0);

    public int points() {
      return micros.length;
    }
  }
}
