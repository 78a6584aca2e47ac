package bellwire.hardware;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The parts list, {@code hardware-notes/parts-a.yaml}. */
public final class PartsList {
  private static final PartsList REVISION_A = new PartsList(NotesFile.yaml("parts-a.yaml"));

  private final Map<String, PartLine> lines = new LinkedHashMap<>();

  private PartsList(JsonNode root) {
    for (Map.Entry<String, JsonNode> entry : root.path("parts").properties()) {
      lines.put(entry.getKey(), line(entry.getKey(), entry.getValue(), root.path("kinds")));
    }
  }

  public static PartsList revisionA() {
    return REVISION_A;
  }

  /** Macromodels that the lines' models call, a file of {@code hardware-notes/spice/}. */
  public static String library(String file) {
    return NotesFile.text("spice/" + file);
  }

  public List<PartLine> lines() {
    return List.copyOf(lines.values());
  }

  public PartLine line(String name) {
    PartLine line = lines.get(name);
    if (line == null) {
      throw new IllegalArgumentException("parts-a.yaml: part=" + name);
    }
    return line;
  }

  private static PartLine line(String name, JsonNode node, JsonNode kinds) {
    String kind = node.path("kind").asText();
    JsonNode shape = kinds.path(kind);
    if (shape.isMissingNode()) {
      throw new IllegalArgumentException("parts-a.yaml: part=" + name + " kind=" + kind);
    }
    return new PartLine(
        name,
        kind,
        texts(node.has("pins") ? node.path("pins") : shape.path("pins")),
        texts(node.has("model") ? node.path("model") : shape.path("model")),
        faults(shape.path("faults")),
        node.path("spice").asText(),
        node.path("requirement").asText(),
        node.path("reason").asText(),
        numbers(node.path("spread")),
        numbers(node.path("ratings")),
        node.path("example").asText(),
        node.path("alternative").asText(),
        node.path("check").asText(),
        numbers(node.path("draws")),
        node.path("barrier-farads").asDouble());
  }

  private static Map<String, Map<String, Double>> faults(JsonNode node) {
    Map<String, Map<String, Double>> faults = new LinkedHashMap<>();
    for (Map.Entry<String, JsonNode> fault : node.properties()) {
      faults.put(fault.getKey(), numbers(fault.getValue()));
    }
    return faults;
  }

  private static Map<String, Double> numbers(JsonNode node) {
    Map<String, Double> numbers = new LinkedHashMap<>();
    node.properties().forEach(e -> numbers.put(e.getKey(), e.getValue().asDouble()));
    return numbers;
  }

  private static List<String> texts(JsonNode array) {
    List<String> texts = new ArrayList<>();
    array.forEach(item -> texts.add(item.asText()));
    return texts;
  }
}
