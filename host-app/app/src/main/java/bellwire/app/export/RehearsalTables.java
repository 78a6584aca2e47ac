package bellwire.app.export;

import bellwire.app.export.JobTables.Rows;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;

/** What rehearsals went through, and how each rule was kept. */
final class RehearsalTables {
  private RehearsalTables() {}

  static List<Rows> of(ObjectNode root) {
    Walk rehearsals = Walk.of(root).each("rehearsal", "rehearsals");
    return List.of(
        rehearsals
            .each("function", "rehearsal/outcome/functions")
            .rows(
                "rehearsal-functions",
                """
                rehearsal        rehearsal/rehearsal
                name             rehearsal/outcome/rehearsal
                function         function/function
                coverage         function/coverage
                rules_broken     function/rules-broken
                rules_undecided  function/rules-undecided
                """),
        rehearsals
            .each("step", "rehearsal/outcome/steps")
            .rows(
                "rehearsal-steps",
                """
                rehearsal       rehearsal/rehearsal
                step            step/step
                fate            step/fate
                begun_earliest  step/begun/0
                begun_latest    step/begun/1
                end             step/end
                reached         step/reached
                note            step/note
                observed        step/observed
                """),
        rehearsals
            .each("rule", "rehearsal/outcome/rules")
            .rows(
                "rehearsal-rules",
                """
                rehearsal  rehearsal/rehearsal
                name       rehearsal/outcome/rehearsal
                rule       rule/rule
                says       rule/says
                formula    rule/formula
                verdict    rule/verdict
                occasions  rule/occasions
                """));
  }
}
