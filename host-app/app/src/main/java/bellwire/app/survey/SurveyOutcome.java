package bellwire.app.survey;

import bellwire.analysis.attached.Attachment;
import bellwire.analysis.attached.Landing;
import bellwire.analysis.survey.Foreign;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.StarResult;
import bellwire.analysis.survey.SurveyResult;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How a survey ended: with a result, or at the interlock.
 *
 * @param identity of the board
 * @param result null when foreign voltage kept the board disconnected
 * @param open raw outcome of the open phase; null with the result
 * @param coded of the coded plug; null where there was none
 * @param ties of the tie plug, one for each seating
 * @param attached what joins ports, copper included, pair by pair
 * @param inPlace whether the conductors were landed at the equipment
 * @param foreign voltage that was found; null when there was none, or it was gone when it was
 *     looked for
 * @param trippedFlags ports that tripped the interlock, 0 for none
 * @param times where the time went
 */
public record SurveyOutcome(
    Instrument.Identity identity,
    @Nullable SurveyResult result,
    @Nullable OpenResult open,
    @Nullable StarResult coded,
    List<StarResult> ties,
    List<Attachment> attached,
    boolean inPlace,
    @Nullable Foreign foreign,
    int trippedFlags,
    List<PhaseTime> times) {

  /**
   * @param phase name
   * @param deviceMicros from its first request to its last reading
   * @param conversionMicros what the converter's own conversions and settling add up to
   * @param readings taken
   */
  public record PhaseTime(String phase, long deviceMicros, long conversionMicros, int readings) {}

  /** What a survey in place saw of the landing; null of another one. */
  public @Nullable Landing landing() {
    OpenResult cable = open;
    if (!inPlace || cable == null) {
      return null;
    }
    return Landing.of(cable, attached, ties.isEmpty() ? null : ties.get(ties.size() - 1));
  }

  /** Whether foreign voltage, or an interlock trip, ended it. */
  public boolean stoppedByVoltage() {
    return result == null;
  }
}
