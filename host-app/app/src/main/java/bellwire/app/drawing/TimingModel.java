package bellwire.app.drawing;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.Terminal;
import bellwire.app.sheet.SurveySheet.Standing;
import java.util.List;

/**
 * What a timing diagram shows. All times in device time, µs.
 *
 * @param lanes from top to bottom, one a terminal
 * @param steps by rising time
 * @param brackets what rules demand and what was measured, worst first
 */
public record TimingModel(
    long fromMicros,
    long toMicros,
    long zeroMicros,
    List<Lane> lanes,
    List<StepMark> steps,
    List<Bracket> brackets) {
  /**
   * A terminal's levels.
   *
   * @param words what it is for, such as 'compressor'
   * @param stretches by rising time, each up to the next one's begin; unknown before the first
   */
  public record Lane(String name, String words, List<Stretch> stretches) {
    public Lane {
      stretches = List.copyOf(stretches);
    }
  }

  /** A level from a moment on. */
  public record Stretch(Level level, long fromMicros) {}

  /** A step's begin. */
  public record StepMark(String name, long fromMicros, long toMicros, boolean counts) {}

  /**
   * A rule's bound on a stretch of time.
   *
   * @param key unique, such as {@code rule:compressor-rest}
   * @param lane index of the lane that it speaks of, -1 for none
   * @param fromMicros begin of what was measured
   * @param toMicros its end
   * @param boundMicros where it should not have ended before, or not after; -1 where there is none
   * @param need what is asked for, such as 'at least 5 min'
   * @param measured what was measured, such as '287.42 s'
   * @param standing sound: kept, faulty: broken
   * @param words the rule's own sentence
   */
  public record Bracket(
      String key,
      int lane,
      long fromMicros,
      long toMicros,
      long boundMicros,
      String need,
      String measured,
      Standing standing,
      String words) {
    /** 'kept', 'broken' or 'undecided'. */
    public String verdict() {
      return switch (standing) {
        case SOUND -> "kept";
        case FAULTY -> "broken";
        case UNDECIDED -> "undecided";
      };
    }
  }

  public TimingModel {
    lanes = List.copyOf(lanes);
    steps = List.copyOf(steps);
    brackets = List.copyOf(brackets);
    if (toMicros <= fromMicros) {
      throw new IllegalArgumentException("fromMicros=" + fromMicros + " toMicros=" + toMicros);
    }
  }

  /** A whole rehearsal. */
  public static TimingModel of(RehearsalOutcome outcome) {
    return TimingReader.of(outcome);
  }

  /** A part of the same, for a closer look. */
  public TimingModel part(long partFromMicros, long partToMicros) {
    return new TimingModel(partFromMicros, partToMicros, zeroMicros, lanes, steps, brackets);
  }

  static Lane lane(Terminal terminal, int lead, List<LevelChange> changes) {
    return new Lane(
        terminal.name(),
        terminal.role().words(),
        changes.stream()
            .filter(c -> c.lead() == lead)
            .map(c -> new Stretch(c.level(), c.latestMicros()))
            .toList());
  }
}
