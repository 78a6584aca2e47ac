package bellwire.app.sheet;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.report.ResultJson;
import bellwire.app.sheet.SurveySheet.Attached;
import bellwire.app.sheet.SurveySheet.Conductor;
import bellwire.app.sheet.SurveySheet.Explanation;
import bellwire.app.sheet.SurveySheet.Fault;
import bellwire.app.sheet.SurveySheet.Finding;
import bellwire.app.sheet.SurveySheet.Loop;
import bellwire.app.sheet.SurveySheet.Pair;
import bellwire.app.sheet.SurveySheet.Place;
import bellwire.app.sheet.SurveySheet.Standing;
import bellwire.app.sheet.SurveySheet.Ties;
import bellwire.app.sheet.SurveySheet.Voltage;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/** From a survey's JSON to records; what it does not know it passes over. */
final class SheetReader {
  private static final int MAX_CHARS = 1 << 22;
  private static final int MOST_ITEMS = 1000;
  private static final int MOST_CONDUCTORS = 16;
  private static final ObjectMapper MAPPER = new ObjectMapper();

  private SheetReader() {}

  static SurveySheet read(String json) throws IOException {
    if (json.length() > MAX_CHARS) {
      throw new IOException("The survey's result is too long to be one; survey again.");
    }
    JsonNode root;
    try {
      root = MAPPER.readTree(json);
    } catch (JsonProcessingException e) {
      throw new IOException("The survey's result is not JSON; survey again.", e);
    }
    if (root == null || !root.path("bellwire-survey").isInt()) {
      throw new IOException("This is no survey's result; take what 'survey --json' wrote.");
    }
    int version = root.path("bellwire-survey").asInt();
    if (version < 1 || version > ResultJson.VERSION) {
      throw new IOException(
          "The survey's result is of version "
              + version
              + ", and this program reads "
              + ResultJson.VERSION
              + "; open it with the program that wrote it.");
    }
    try {
      return sheet(root);
    } catch (IllegalArgumentException e) {
      throw new IOException(
          "The survey's result is damaged (" + e.getMessage() + "); survey again.", e);
    }
  }

  private static SurveySheet sheet(JsonNode root) {
    JsonNode interlock = root.path("interlock");
    List<Conductor> conductors = list(root, "conductors", SheetReader::conductor);
    Set<String> ports = new HashSet<>();
    for (Conductor c : conductors) {
      if (c.port().equals(SurveySheet.METAL) || !ports.add(c.port())) {
        throw new IllegalArgumentException("conductor=" + c.port());
      }
    }
    if (conductors.size() > MOST_CONDUCTORS) {
      throw new IllegalArgumentException("conductors=" + conductors.size());
    }
    return new SurveySheet(
        list(root, "cautions", JsonNode::asText),
        root.path("board").path("revision").asText(""),
        root.path("board").path("agent").asText(""),
        interlock.path("stopped-the-survey").asBoolean(false),
        interlock.path("voltage").isObject() ? voltage(interlock.path("voltage")) : null,
        ports(interlock, "tripped"),
        list(root, "phases", JsonNode::asText),
        root.path("metal-checked").asBoolean(false),
        quantity(root.path("length")),
        text(root.path("gauge")),
        root.has("landing"),
        conductors,
        list(root, "pairs", SheetReader::pair),
        list(root, "findings", SheetReader::finding),
        list(root, "explanations", SheetReader::explanation),
        list(root, "attached", SheetReader::attached),
        root.path("ties").isObject() ? ties(root.path("ties")) : null);
  }

  private static Ties ties(JsonNode node) {
    List<Loop> loops = new ArrayList<>();
    List<JsonNode> rounds = list(node, "rounds", each -> each);
    for (int round = 0; round < rounds.size(); round++) {
      for (JsonNode loop : list(rounds.get(round), "loops", each -> each)) {
        List<String> between = two(loop);
        Quantity ohms = quantity(loop.path("resistance"));
        if (ohms != null) {
          loops.add(new Loop(round + 1, between.get(0), between.get(1), ohms));
        }
      }
    }
    return new Ties(
        node.path("explanation").asText(""), list(node, "broken", JsonNode::asInt), loops);
  }

  private static Voltage voltage(JsonNode node) {
    return new Voltage(
        ports(node, "between"),
        number(node, "volts-rms"),
        number(node, "volts-rms-under-test-load"),
        node.path("alternating").asBoolean(),
        node.path("driven").asBoolean());
  }

  private static Conductor conductor(JsonNode node) {
    return new Conductor(
        port(node.path("port")),
        text(node.path("near-colour")),
        node.path("far-position").asInt(0),
        list(node, "far-possible", JsonNode::asInt),
        node.path("odds").asDouble(1),
        quantity(node.path("resistance")),
        place(node.path("open-at"), node.path("open-at-distance")),
        standing(node),
        sentence(node.path("reason")));
  }

  private static Pair pair(JsonNode node) {
    List<String> between = two(node);
    Quantity ohms = quantity(node.path("resistance"));
    return new Pair(
        between.get(0),
        between.get(1),
        ohms,
        ohms == null ? number(node, "above-ohm") : Double.NaN,
        standing(node),
        sentence(node.path("reason")));
  }

  private static Finding finding(JsonNode node) {
    return new Finding(
        node.path("kind").asText(""),
        ports(node, "ports"),
        node.path("title").asText(""),
        sentence(node.path("words")),
        node.path("remedy").asText(""),
        place(node.path("at"), node.path("distance")));
  }

  private static Explanation explanation(JsonNode node) {
    return new Explanation(
        number(node, "probability"),
        node.path("explains-all").asBoolean(),
        list(node, "faults", SheetReader::fault));
  }

  private static Fault fault(JsonNode node) {
    return new Fault(
        node.path("kind").asText(""),
        ports(node, "ports"),
        ports(node, "to"),
        quantity(node.path("at")),
        quantity(node.path("resistance")));
  }

  private static Attached attached(JsonNode node) {
    List<String> between = two(node);
    Map<String, Double> figures = new TreeMap<>();
    for (String figure : List.of("ohm", "henry", "farad", "volt")) {
      if (node.path(figure).isNumber()) {
        figures.put(figure, node.path(figure).asDouble());
      }
    }
    return new Attached(
        between.get(0),
        between.get(1),
        node.path("kind").asText(""),
        number(node, "probability"),
        figures);
  }

  private static <T> List<T> list(JsonNode node, String field, Function<JsonNode, T> each) {
    JsonNode array = node.path(field);
    if (array.size() > MOST_ITEMS) {
      throw new IllegalArgumentException(field + "=" + array.size() + " items");
    }
    List<T> items = new ArrayList<>();
    array.forEach(item -> items.add(each.apply(item)));
    return items;
  }

  private static List<String> ports(JsonNode node, String field) {
    return list(node, field, SheetReader::port);
  }

  private static List<String> two(JsonNode node) {
    List<String> between = ports(node, "between");
    if (between.size() != 2 || between.get(0).equals(between.get(1))) {
      throw new IllegalArgumentException("between=" + between);
    }
    return between;
  }

  private static String port(JsonNode node) {
    String name = node.asText("");
    if (!name.matches("M|P([1-9]|1[0-6])")) {
      throw new IllegalArgumentException("port=" + name);
    }
    return name;
  }

  private static Standing standing(JsonNode node) {
    String word = node.path("standing").asText("");
    for (Standing standing : Standing.values()) {
      if (standing.name().equals(word.toUpperCase(Locale.ROOT))) {
        return standing;
      }
    }
    throw new IllegalArgumentException("standing=" + word);
  }

  private static @Nullable Place place(JsonNode fraction, JsonNode metres) {
    Quantity at = quantity(fraction);
    return at == null ? null : new Place(at, quantity(metres));
  }

  private static @Nullable Quantity quantity(JsonNode node) {
    if (!node.isObject()) {
      return null;
    }
    return new Quantity(
        number(node, "value"), number(node, "standard-uncertainty"), node.path("unit").asText(""));
  }

  private static double number(JsonNode node, String field) {
    JsonNode value = node.path(field);
    if (!value.isNumber() || !Double.isFinite(value.asDouble())) {
      throw new IllegalArgumentException(field + "=" + (value.isMissingNode() ? "none" : value));
    }
    return value.asDouble();
  }

  /**
   * What the survey wrote; its figures have their standard uncertainty, which is not said there.
   */
  private static String sentence(JsonNode node) {
    String words = node.asText("");
    return words.indexOf('\u00b1') < 0 ? words : words + " (k\u00a0=\u00a01)";
  }

  private static @Nullable String text(JsonNode node) {
    return node.isTextual() && !node.asText().isBlank() ? node.asText().strip() : null;
  }
}
