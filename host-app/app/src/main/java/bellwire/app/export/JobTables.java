package bellwire.app.export;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/**
 * A job's tables, made of its JSON and of nothing else, so that the two can't disagree:
 * docs/job-json.md.
 */
final class JobTables {
  /**
   * A table.
   *
   * @param name the file's, without its ending
   * @param rows each with a value for each column; empty for one that is not there
   */
  record Rows(String name, List<String> columns, List<List<String>> rows) {
    Rows {
      for (List<String> row : rows) {
        if (row.size() != columns.size()) {
          throw new IllegalArgumentException(name + ": values=" + row.size());
        }
      }
    }

    /** These, then others of the same columns. */
    Rows and(Rows others) {
      List<List<String>> all = new ArrayList<>(rows);
      all.addAll(others.rows);
      if (!others.columns.equals(columns)) {
        throw new IllegalArgumentException(name + ": columns=" + others.columns);
      }
      return new Rows(name, columns, all);
    }
  }

  private static final String CONDUCTOR =
      """
      survey                survey/survey
      cable                 cable/cable
      cable_name            cable/name
      stage                 survey/stage
      in_place              survey/in-place
      port                  told/port
      near_colour           told/near-colour
      far_colour            told/far-colour
      far_position          seen/far-position
      resistance_ohm        seen/resistance/value
      resistance_u_ohm      seen/resistance/standard-uncertainty
      open_at_of_the_run    seen/open-at/value
      open_at_u_of_the_run  seen/open-at/standard-uncertainty
      standing              seen/standing
      reason                seen/reason
      note                  told/note
      """;

  private JobTables() {}

  static List<Rows> of(ObjectNode root) {
    List<Rows> all = new ArrayList<>(told(root));
    all.add(conductors(root));
    all.addAll(SurveyTables.of(root));
    all.add(FindingTables.of(root));
    all.addAll(LandingTables.of(root));
    all.addAll(RehearsalTables.of(root));
    all.addAll(VigilTables.of(root));
    all.addAll(left(root));
    return all;
  }

  private static List<Rows> told(ObjectNode root) {
    List<List<String>> facts = new ArrayList<>();
    root.path("facts")
        .fields()
        .forEachRemaining(f -> facts.add(List.of(f.getKey(), f.getValue().asText())));
    return List.of(
        new Rows("facts", List.of("fact", "text"), facts),
        Walk.of(root)
            .each("act", "acts")
            .rows(
                "acts",
                """
                kind       act/kind
                what       act/what
                reading    act/reading
                by         act/by
                at         act/at
                withdrawn  act/withdrawn
                """),
        Walk.of(root)
            .each("cable", "cables")
            .rows(
                "cables",
                """
                cable       cable/cable
                name        cable/name
                gauge       cable/gauge
                metres      cable/metres
                celsius     cable/celsius
                near_place  cable/near-place
                far_place   cable/far-place
                note        cable/note
                """));
  }

  private static List<Rows> left(ObjectNode root) {
    return List.of(
        Walk.of(root)
            .each("tick", "checklist")
            .rows(
                "checklist",
                """
                item   tick/item
                words  tick/words
                state  tick/state
                basis  tick/basis
                by     tick/by
                at     tick/at
                note   tick/note
                """),
        Walk.of(root)
            .each("photo", "photographs")
            .rows(
                "photographs",
                """
                photograph  photo/photograph
                stage       photo/stage
                caption     photo/caption
                at          photo/at
                mime        photo/mime
                bytes       photo/bytes
                file        photo/file
                """));
  }

  /** Of each survey; then those that nobody entered, and those that no survey has. */
  private static Rows conductors(ObjectNode root) {
    Set<String> told = new HashSet<>();
    Set<String> seen = new HashSet<>();
    for (JsonNode cable : root.path("cables")) {
      cable.path("conductors").forEach(c -> told.add(key(cable, c)));
    }
    for (JsonNode survey : root.path("surveys")) {
      survey.path("result").path("conductors").forEach(c -> seen.add(key(survey, c)));
    }
    Walk surveyed =
        Walk.of(root)
            .each("cable", "cables")
            .each("survey", "surveys")
            .joined("survey/cable", "cable/cable")
            .each("seen", "survey/result/conductors");
    Rows entered =
        surveyed
            .each("told", "cable/conductors")
            .joined("told/port", "seen/port")
            .rows("conductors", CONDUCTOR);
    Rows found =
        surveyed
            .without(at -> told.contains(key(at.apply("cable"), at.apply("seen"))))
            .rows("conductors", CONDUCTOR.replace(" told/", " seen/"));
    Rows only =
        Walk.of(root)
            .each("cable", "cables")
            .each("told", "cable/conductors")
            .without(at -> seen.contains(key(at.apply("cable"), at.apply("told"))))
            .rows("conductors", CONDUCTOR);
    return entered.and(found).and(only);
  }

  private static String key(JsonNode cable, JsonNode conductor) {
    return cable.path("cable").asText() + " " + conductor.path("port").asText();
  }
}
