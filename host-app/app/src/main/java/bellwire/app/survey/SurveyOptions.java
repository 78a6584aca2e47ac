package bellwire.app.survey;

import bellwire.analysis.survey.CableFacts;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.Plug;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * How a survey is to go.
 *
 * @param declaredPorts mask of ports that the technician says have conductors; 0 lets the survey
 *     find them
 * @param plugs the kinds of plug to wait for; empty measures the open cable only
 * @param dwellMicros how long a plug must be still before it counts as settled
 * @param waitMicros how long to wait for each plug
 * @param fixedMicros where not 0: measure whatever plug is on when so much time has passed since
 *     the phase before
 * @param reseatMicros how long to wait for a suspect contact to be seated afresh; 0 does not ask
 * @param plug the coded plug in use
 * @param facts what is known of the cable
 * @param criteria limits of the verdict
 * @param ties where not null, far ends are identified by ties, and no plug is waited for
 */
public record SurveyOptions(
    int declaredPorts,
    Set<FarEndKind> plugs,
    long dwellMicros,
    long waitMicros,
    long fixedMicros,
    long reseatMicros,
    Plug plug,
    CableFacts facts,
    Criteria criteria,
    @Nullable TieChoice ties) {

  /** Without ties. */
  public SurveyOptions(
      int declaredPorts,
      Set<FarEndKind> plugs,
      long dwellMicros,
      long waitMicros,
      long fixedMicros,
      long reseatMicros,
      Plug plug,
      CableFacts facts,
      Criteria criteria) {
    this(
        declaredPorts,
        plugs,
        dwellMicros,
        waitMicros,
        fixedMicros,
        reseatMicros,
        plug,
        facts,
        criteria,
        null);
  }

  /** The same survey with ties in place of plugs. */
  public SurveyOptions withTies(TieChoice choice) {
    return new SurveyOptions(
        declaredPorts,
        Set.of(),
        dwellMicros,
        waitMicros,
        fixedMicros,
        reseatMicros,
        plug,
        facts,
        criteria,
        choice);
  }
}
