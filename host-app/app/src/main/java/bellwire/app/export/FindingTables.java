package bellwire.app.export;

import bellwire.app.export.JobTables.Rows;
import com.fasterxml.jackson.databind.node.ObjectNode;

/** Every finding of the job, whatever found it. */
final class FindingTables {
  private FindingTables() {}

  static Rows of(ObjectNode root) {
    return survey(root).and(landing(root)).and(rehearsal(root)).and(vigil(root));
  }

  private static Rows survey(ObjectNode root) {
    return Walk.of(root)
        .each("survey", "surveys")
        .each("finding", "survey/result/findings")
        .rows(
            "findings",
            """
            of        "survey"
            number    survey/survey
            stage     survey/stage
            in_place  survey/in-place
            kind      finding/kind
            notice    ""
            where     finding/ports
            when      ""
            title     finding/title
            words     finding/words
            path      ""
            remedy    finding/remedy
            """);
  }

  private static Rows landing(ObjectNode root) {
    return Walk.of(root)
        .each("landing", "landings")
        .each("plan", "landing/plans")
        .each("finding", "plan/findings")
        .rows(
            "findings",
            """
            of        "landing"
            number    landing/landing
            stage     plan/plan
            in_place  ""
            kind      finding/kind
            notice    finding/notice
            where     finding/where;
            when      finding/states;
            title     finding/title
            words     finding/words
            path      finding/path;
            remedy    finding/remedy
            """);
  }

  private static Rows rehearsal(ObjectNode root) {
    return Walk.of(root)
        .each("rehearsal", "rehearsals")
        .each("finding", "rehearsal/outcome/findings")
        .rows(
            "findings",
            """
            of        "rehearsal"
            number    rehearsal/rehearsal
            stage     ""
            in_place  ""
            kind      finding/finding
            notice    ""
            where     finding/rules
            when      ""
            title     ""
            words     finding/says
            path      ""
            remedy    finding/remedy
            """);
  }

  private static Rows vigil(ObjectNode root) {
    return Walk.of(root)
        .each("vigil", "vigils")
        .each("finding", "vigil/findings")
        .rows(
            "findings",
            """
            of        "vigil"
            number    vigil/vigil
            stage     ""
            in_place  ""
            kind      finding/kind
            notice    ""
            where     finding/conductors
            when      ""
            title     ""
            words     finding/words
            path      ""
            remedy    ""
            """);
  }
}
