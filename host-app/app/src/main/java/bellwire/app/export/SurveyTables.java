package bellwire.app.export;

import bellwire.app.export.JobTables.Rows;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;

/** What surveys measured, but for the conductors. */
final class SurveyTables {
  private SurveyTables() {}

  static List<Rows> of(ObjectNode root) {
    Walk surveys = Walk.of(root).each("survey", "surveys");
    return List.of(
        surveys.rows(
            "surveys",
            """
            survey               survey/survey
            cable                survey/cable
            stage                survey/stage
            in_place             survey/in-place
            at                   survey/at
            board                survey/result/board/revision
            agent                survey/result/board/agent
            self_check           survey/self-check
            metal_checked        survey/result/metal-checked
            stopped_by_voltage   survey/result/interlock/stopped-the-survey
            trouble              survey/trouble
            """),
        surveys
            .each("pair", "survey/result/pairs")
            .rows(
                "pairs",
                """
                survey            survey/survey
                cable             survey/cable
                stage             survey/stage
                in_place          survey/in-place
                a                 pair/between/0
                b                 pair/between/1
                resistance_ohm    pair/resistance/value
                resistance_u_ohm  pair/resistance/standard-uncertainty
                above_ohm         pair/above-ohm
                standing          pair/standing
                reason            pair/reason
                """),
        surveys
            .each("explanation", "survey/result/explanations")
            .each("fault", "explanation/faults")
            .rows(
                "explanations",
                """
                survey            survey/survey
                cable             survey/cable
                stage             survey/stage
                in_place          survey/in-place
                probability       explanation/probability
                explains_all      explanation/explains-all
                kind              fault/kind
                ports             fault/ports
                to                fault/to
                at_of_the_run     fault/at/value
                at_u_of_the_run   fault/at/standard-uncertainty
                resistance_ohm    fault/resistance/value
                resistance_u_ohm  fault/resistance/standard-uncertainty
                """));
  }
}
