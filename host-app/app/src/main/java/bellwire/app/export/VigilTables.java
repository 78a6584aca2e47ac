package bellwire.app.export;

import bellwire.app.export.JobTables.Rows;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.List;

/** What vigils counted and read; their samples are in {@link VigilExport}'s. */
final class VigilTables {
  private VigilTables() {}

  static List<Rows> of(ObjectNode root) {
    Walk vigils = Walk.of(root).each("vigil", "vigils");
    return List.of(
        vigils.rows(
            "vigils",
            """
            vigil                vigil/vigil
            program              vigil/program
            started_unix_micros  vigil/started-unix-micros
            from_seconds         vigil/from-seconds
            to_seconds           vigil/to-seconds
            watched_seconds      vigil/watched-seconds
            unwatched_seconds    vigil/unwatched-seconds
            ending               vigil/ending
            board                vigil/board/revision
            agent                vigil/board/agent
            self_check           vigil/board/self-check
            note                 vigil/note
            trouble              vigil/trouble
            """),
        vigils
            .each("line", "vigil/conductors")
            .rows(
                "vigil-figures",
                """
                vigil                vigil/vigil
                program              vigil/program
                happening            line/happening
                conductors           line/conductors
                one_of               line/one-of
                events               line/rate/events
                seconds              line/rate/seconds
                per_hour             line/rate/per-hour
                per_hour_95_low      line/rate/per-hour-95/0
                per_hour_95_high     line/rate/per-hour-95/1
                longest_least_micros line/longest-least-micros
                longest_most_micros  line/longest-most-micros
                total_least_micros   line/total-least-micros
                total_most_micros    line/total-most-micros
                shorter_than_a_tick  line/shorter-than-a-tick
                cut                  line/cut
                rhythm               line/rhythm/manner
                """),
        vigils
            .each("set", "vigil/together")
            .rows(
                "vigil-together",
                """
                vigil               vigil/vigil
                conductors          set/conductors
                kind                set/kind
                suspect             set/suspect
                count               set/count
                expected_by_chance  set/expected-by-chance
                """),
        vigils
            .each("line", "vigil/trends")
            .rows(
                "vigil-trends",
                """
                vigil             vigil/vigil
                conductor         line/conductor
                resistance_ohm    line/resistance/value
                resistance_u_ohm  line/resistance/standard-uncertainty
                readings          line/readings
                without_value     line/without-value
                least_ohm         line/least-ohm
                greatest_ohm      line/greatest-ohm
                course            line/course
                chance            line/chance
                change            line/change/value
                change_u          line/change/standard-uncertainty
                change_unit       line/change/unit
                per_hour          line/per-hour/value
                per_hour_u        line/per-hour/standard-uncertainty
                per_hour_unit     line/per-hour/unit
                """),
        vigils
            .each("mark", "vigil/marks")
            .rows(
                "vigil-marks",
                """
                vigil       vigil/vigil
                at_seconds  mark/at-seconds
                text        mark/text
                """),
        vigils
            .each("gap", "vigil/not-watched")
            .rows(
                "vigil-gaps",
                """
                vigil         vigil/vigil
                from_seconds  gap/from-seconds
                to_seconds    gap/to-seconds
                reason        gap/reason
                """));
  }
}
