package bellwire.hardware.sheet;

import bellwire.hardware.NotesFile;
import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** {@code hardware-notes/sheets-a.yaml}: where the parts stand, and the shapes of the chips. */
final class SheetsFile {
  private static final int REACH = 60;

  private final JsonNode root = NotesFile.yaml("sheets-a.yaml");

  List<SheetPlan> sheets() {
    List<SheetPlan> sheets = new ArrayList<>();
    root.path("sheets").properties().forEach(e -> sheets.add(sheet(e.getKey(), e.getValue())));
    return sheets;
  }

  /** Supplies that are drawn with a symbol above a pin. */
  List<String> upper() {
    return texts(root.path("supplies").path("above"));
  }

  /** Supplies and commons that are drawn with a symbol below a pin. */
  List<String> lower() {
    return texts(root.path("supplies").path("below"));
  }

  /** The boxes of a line of the parts list, or else of its kind, by unit; one unit has no name. */
  Map<String, ChipShape> chip(String line, String kind) {
    JsonNode node = root.path("chips").path(line);
    if (node.isMissingNode()) {
      node = root.path("chips").path(kind);
    }
    Map<String, ChipShape> units = new LinkedHashMap<>();
    if (node.has("units")) {
      node.path("units").properties().forEach(e -> units.put(e.getKey(), shape(e.getValue())));
    } else if (!node.isMissingNode()) {
      units.put("", shape(node));
    }
    return units;
  }

  JsonNode diagram() {
    return root.path("diagram");
  }

  private static ChipShape shape(JsonNode node) {
    return new ChipShape(
        texts(node.path("left")),
        texts(node.path("right")),
        texts(node.path("top")),
        texts(node.path("bottom")),
        node.path("mark").asText(),
        texts(node.path("inverted")),
        node.path("width").asInt());
  }

  private static SheetPlan sheet(String name, JsonNode node) {
    Map<String, SheetPlan.Place> parts = new LinkedHashMap<>();
    node.path("parts")
        .properties()
        .forEach(e -> parts.put(e.getKey(), SheetPlan.Place.of(e.getValue().asText())));
    Map<String, SheetPlan.Label> labels = new LinkedHashMap<>();
    node.path("labels")
        .properties()
        .forEach(e -> labels.put(e.getKey(), SheetPlan.Label.of(e.getValue().asText())));
    Map<String, Integer> reaches = new LinkedHashMap<>();
    node.path("reaches").properties().forEach(e -> reaches.put(e.getKey(), e.getValue().asInt()));
    return new SheetPlan(
        name,
        node.has("title") ? node.path("title").asText() : null,
        node.path("reach").asInt(REACH),
        reaches,
        labels,
        texts(node.path("captions")).stream().map(SheetPlan.Caption::of).toList(),
        texts(node.path("notes")),
        parts);
  }

  static List<String> texts(JsonNode array) {
    List<String> texts = new ArrayList<>();
    array.forEach(item -> texts.add(item.asText()));
    return texts;
  }
}
