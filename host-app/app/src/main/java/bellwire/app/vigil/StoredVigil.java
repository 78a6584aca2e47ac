package bellwire.app.vigil;

import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.vigil.TrendSeries;
import bellwire.analysis.vigil.TrendSummary;
import bellwire.analysis.vigil.Unwatched;
import bellwire.analysis.vigil.VigilSummary;
import bellwire.analysis.vigil.Watch;
import bellwire.app.job.Mark;
import bellwire.app.job.VigilRow;
import bellwire.app.job.Watched;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;

/**
 * A vigil as a job file has it, analysed again from its samples.
 *
 * @param row of the file
 * @param watched what was asked for
 * @param watch what was watched of it, as far as it was looked at
 * @param events all but a trend's: what happened
 * @param trend a trend's resistances
 * @param series of a trend, for its drawing; else none
 * @param occurrences what happened one by one, for the drawing
 * @param levels of calls, for the drawing; else none
 * @param marks in the time looked at
 * @param tooMany there were more events than are kept: all figures are of the time before
 */
public record StoredVigil(
    VigilRow row,
    Watched watched,
    Watch watch,
    Optional<VigilSummary> events,
    Optional<TrendSummary> trend,
    List<TrendSeries> series,
    List<Occurrence> occurrences,
    List<LevelChange> levels,
    List<Mark> marks,
    boolean tooMany) {

  /**
   * Something that happened.
   *
   * @param ports to whom, bit 16 for M; all that it may have been
   */
  public record Occurrence(int ports, long firstMicros, long lastMicros, boolean brief) {}

  /** Part of a vigil, in its own time. */
  public record Part(long fromMicros, long toMicros) {
    public static final Part ALL = new Part(Long.MIN_VALUE, Long.MAX_VALUE);
  }

  /** A conductor's or lead's name, such as 'P3 red', 'X2 W', 'M'. */
  public String called(int number) {
    return VigilText.namesOf(this).of(number);
  }

  /** The clock's time at a time of the vigil: '14:02:10', on a later day '14:02:10 (day 2)'. */
  public String clock(long micros, ZoneId zone) {
    return new VigilClock(row, zone).at(micros);
  }

  /** Time that was not watched, in all. */
  public long unwatchedMicros() {
    return watch.toMicros() - watch.fromMicros() - watch.exposure().micros();
  }

  /** Whether anything was found. */
  public boolean found() {
    boolean happened = events.map(e -> e.incidents().events() > 0).orElse(false);
    return happened
        || trend.map(t -> t.conductors().stream().anyMatch(TrendWords::suspect)).orElse(false)
        || gaps().stream().anyMatch(Unwatched::measured);
  }

  /** Times in which nothing was known, by their start. */
  public List<Unwatched> gaps() {
    return watch.unwatched();
  }
}
