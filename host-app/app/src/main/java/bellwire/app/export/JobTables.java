package bellwire.app.export;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;

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
    Rows(String name, String... columns) {
      this(name, List.of(columns), new ArrayList<>());
    }

    void add(String... values) {
      if (values.length != columns.size()) {
        throw new IllegalArgumentException(name + ": values=" + values.length);
      }
      rows.add(List.of(values));
    }
  }

  private final ObjectNode root;

  private JobTables(ObjectNode root) {
    this.root = root;
  }

  static List<Rows> of(ObjectNode root) {
    JobTables tables = new JobTables(root);
    return List.of(
        tables.facts(),
        tables.acts(),
        tables.conductors(),
        tables.pairs(),
        tables.findings(),
        tables.rules(),
        tables.vigils(),
        tables.trends(),
        tables.checklist(),
        tables.photographs());
  }

  private Rows facts() {
    Rows rows = new Rows("facts", "fact", "text");
    root.path("facts").fields().forEachRemaining(f -> rows.add(f.getKey(), f.getValue().asText()));
    return rows;
  }

  private Rows acts() {
    return plain("acts", "acts", "kind", "what", "reading", "by", "at", "withdrawn");
  }

  private Rows checklist() {
    return plain("checklist", "checklist", "item", "words", "state", "basis", "by", "at", "note");
  }

  private Rows photographs() {
    return plain(
        "photographs",
        "photographs",
        "photograph",
        "stage",
        "caption",
        "at",
        "mime",
        "bytes",
        "file");
  }

  /** Columns that are fields of the same name. */
  private Rows plain(String name, String array, String... fields) {
    Rows rows = new Rows(name, fields);
    for (JsonNode one : root.path(array)) {
      rows.rows.add(
          StreamSupport.stream(List.of(fields).spliterator(), false)
              .map(field -> text(one, field))
              .toList());
    }
    return rows;
  }

  /** A conductor of each survey; then those that no survey has. */
  private Rows conductors() {
    Rows rows =
        new Rows(
            "conductors",
            "survey",
            "cable",
            "cable_name",
            "stage",
            "port",
            "near_colour",
            "far_colour",
            "far_position",
            "resistance_ohm",
            "resistance_u_ohm",
            "open_at_of_the_run",
            "open_at_u_of_the_run",
            "standing",
            "reason",
            "note");
    for (JsonNode cable : root.path("cables")) {
      for (JsonNode told : cable.path("conductors")) {
        boolean surveyed = false;
        for (JsonNode survey : surveysOf(cable)) {
          for (JsonNode seen : survey.path("result").path("conductors")) {
            if (text(seen, "port").equals(text(told, "port"))) {
              conductor(rows, cable, survey, told, seen);
              surveyed = true;
            }
          }
        }
        if (!surveyed) {
          JsonNode none = JobJson.MAPPER.createObjectNode();
          conductor(rows, cable, none, told, none);
        }
      }
      untold(rows, cable);
    }
    return rows;
  }

  /** Conductors that a survey found and nobody entered. */
  private void untold(Rows rows, JsonNode cable) {
    List<String> told = new ArrayList<>();
    cable.path("conductors").forEach(c -> told.add(text(c, "port")));
    for (JsonNode survey : surveysOf(cable)) {
      for (JsonNode seen : survey.path("result").path("conductors")) {
        if (!told.contains(text(seen, "port"))) {
          conductor(rows, cable, survey, seen, seen);
        }
      }
    }
  }

  private static void conductor(
      Rows rows, JsonNode cable, JsonNode survey, JsonNode told, JsonNode seen) {
    rows.add(
        text(survey, "survey"),
        text(cable, "cable"),
        text(cable, "name"),
        text(survey, "stage"),
        text(told, "port"),
        text(told, "near-colour"),
        text(told, "far-colour"),
        text(seen, "far-position"),
        text(seen.path("resistance"), "value"),
        text(seen.path("resistance"), "standard-uncertainty"),
        text(seen.path("open-at"), "value"),
        text(seen.path("open-at"), "standard-uncertainty"),
        text(seen, "standing"),
        text(seen, "reason"),
        text(told, "note"));
  }

  private List<JsonNode> surveysOf(JsonNode cable) {
    List<JsonNode> surveys = new ArrayList<>();
    for (JsonNode survey : root.path("surveys")) {
      if (text(survey, "cable").equals(text(cable, "cable"))) {
        surveys.add(survey);
      }
    }
    return surveys;
  }

  private Rows pairs() {
    Rows rows =
        new Rows(
            "pairs",
            "survey",
            "cable",
            "stage",
            "a",
            "b",
            "resistance_ohm",
            "resistance_u_ohm",
            "above_ohm",
            "standing",
            "reason");
    for (JsonNode survey : root.path("surveys")) {
      for (JsonNode pair : survey.path("result").path("pairs")) {
        rows.add(
            text(survey, "survey"),
            text(survey, "cable"),
            text(survey, "stage"),
            text(pair.path("between").path(0)),
            text(pair.path("between").path(1)),
            text(pair.path("resistance"), "value"),
            text(pair.path("resistance"), "standard-uncertainty"),
            text(pair, "above-ohm"),
            text(pair, "standing"),
            text(pair, "reason"));
      }
    }
    return rows;
  }

  private Rows findings() {
    Rows rows =
        new Rows("findings", "of", "number", "stage", "kind", "where", "title", "words", "remedy");
    for (JsonNode survey : root.path("surveys")) {
      for (JsonNode finding : survey.path("result").path("findings")) {
        rows.add(
            "survey",
            text(survey, "survey"),
            text(survey, "stage"),
            text(finding, "kind"),
            listed(finding.path("ports")),
            text(finding, "title"),
            text(finding, "words"),
            text(finding, "remedy"));
      }
    }
    for (JsonNode rehearsal : root.path("rehearsals")) {
      for (JsonNode finding : rehearsal.path("outcome").path("findings")) {
        rows.add(
            "rehearsal",
            text(rehearsal, "rehearsal"),
            "",
            text(finding, "finding"),
            listed(finding.path("rules")),
            "",
            text(finding, "says"),
            text(finding, "remedy"));
      }
    }
    return rows;
  }

  private Rows rules() {
    Rows rows =
        new Rows(
            "rehearsal-rules",
            "rehearsal",
            "name",
            "rule",
            "says",
            "formula",
            "verdict",
            "occasions");
    for (JsonNode rehearsal : root.path("rehearsals")) {
      for (JsonNode rule : rehearsal.path("outcome").path("rules")) {
        rows.add(
            text(rehearsal, "rehearsal"),
            text(rehearsal.path("outcome"), "rehearsal"),
            text(rule, "rule"),
            text(rule, "says"),
            text(rule, "formula"),
            text(rule, "verdict"),
            text(rule, "occasions"));
      }
    }
    return rows;
  }

  private Rows vigils() {
    Rows rows =
        new Rows(
            "vigil-figures",
            "vigil",
            "program",
            "happening",
            "conductors",
            "one_of",
            "events",
            "seconds",
            "per_hour",
            "per_hour_95_low",
            "per_hour_95_high",
            "longest_least_micros",
            "longest_most_micros",
            "rhythm");
    for (JsonNode vigil : root.path("vigils")) {
      for (JsonNode line : vigil.path("conductors")) {
        JsonNode rate = line.path("rate");
        rows.add(
            text(vigil, "vigil"),
            text(vigil, "program"),
            text(line, "happening"),
            listed(line.path("conductors")),
            listed(line.path("one-of")),
            text(rate, "events"),
            text(rate, "seconds"),
            text(rate, "per-hour"),
            text(rate.path("per-hour-95").path(0)),
            text(rate.path("per-hour-95").path(1)),
            text(line, "longest-least-micros"),
            text(line, "longest-most-micros"),
            text(line.path("rhythm"), "manner"));
      }
    }
    return rows;
  }

  private Rows trends() {
    Rows rows =
        new Rows(
            "vigil-trends",
            "vigil",
            "conductor",
            "resistance_ohm",
            "resistance_u_ohm",
            "least_ohm",
            "greatest_ohm",
            "course",
            "chance",
            "change",
            "change_u",
            "change_unit");
    for (JsonNode vigil : root.path("vigils")) {
      for (JsonNode line : vigil.path("trends")) {
        rows.add(
            text(vigil, "vigil"),
            text(line, "conductor"),
            text(line.path("resistance"), "value"),
            text(line.path("resistance"), "standard-uncertainty"),
            text(line, "least-ohm"),
            text(line, "greatest-ohm"),
            text(line, "course"),
            text(line, "chance"),
            text(line.path("change"), "value"),
            text(line.path("change"), "standard-uncertainty"),
            text(line.path("change"), "unit"));
      }
    }
    return rows;
  }

  private static String listed(JsonNode array) {
    return StreamSupport.stream(array.spliterator(), false)
        .map(JobTables::text)
        .collect(Collectors.joining(" "));
  }

  private static String text(JsonNode one, String field) {
    return text(one.path(field));
  }

  /** Empty for null and for what is not there. */
  private static String text(JsonNode value) {
    return value.isNull() || value.isMissingNode() ? "" : value.asText();
  }
}
