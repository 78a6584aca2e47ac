package bellwire.hardware;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Reads a netlist and writes its repeated blocks out. */
final class NetlistReader {
  private static final String INSTANCE = "{p}";

  private final String file;
  private final PartsList partsList;
  private final Map<String, Part> parts = new LinkedHashMap<>();
  private final Map<String, List<String>> lists = new LinkedHashMap<>();

  private NetlistReader(String file, PartsList partsList) {
    this.file = file;
    this.partsList = partsList;
  }

  static Netlist read(String file, PartsList partsList) {
    return new NetlistReader(file, partsList).all(NotesFile.yaml(file));
  }

  private Netlist all(JsonNode root) {
    for (Map.Entry<String, JsonNode> entry : root.path("lists").properties()) {
      List<String> names = new ArrayList<>();
      entry.getValue().forEach(name -> names.add(name.asText()));
      lists.put(entry.getKey(), names);
    }
    Map<Integer, String> sheets = new LinkedHashMap<>();
    for (Map.Entry<String, JsonNode> entry : root.path("sheets").properties()) {
      sheets.put(Integer.valueOf(entry.getKey()), entry.getValue().asText());
    }
    for (Map.Entry<String, JsonNode> entry : root.path("blocks").properties()) {
      block(entry.getKey(), entry.getValue());
    }
    return new Netlist(List.copyOf(parts.values()), sheets, lists);
  }

  private void block(String name, JsonNode block) {
    String repeat = block.path("repeat").asText();
    List<String> instances = lists.get(repeat);
    if (!repeat.isEmpty() && instances == null) {
      throw wrong(name, "repeat=" + repeat);
    }
    for (Map.Entry<String, JsonNode> entry : block.path("parts").properties()) {
      if (instances == null) {
        add(part(entry.getKey(), entry.getValue(), name, block, null));
      } else {
        for (String instance : instances) {
          add(part(entry.getKey(), entry.getValue(), name, block, instance));
        }
      }
    }
  }

  private Part part(
      String ref, JsonNode node, String block, JsonNode in, @Nullable String instance) {
    Map<String, String> pins = new LinkedHashMap<>();
    for (Map.Entry<String, JsonNode> pin : node.path("pins").properties()) {
      pins.put(pin.getKey(), named(pin.getValue().asText(), instance));
    }
    JsonNode value = node.path("value");
    int sheet = node.has("sheet") ? node.path("sheet").asInt() : in.path("sheet").asInt();
    return new Part(
        named(ref, instance),
        partsList.line(node.path("part").asText()),
        value.isMissingNode() ? null : new ValueExpression(value.asText()),
        pins,
        block,
        sheet,
        instance);
  }

  private static String named(String text, @Nullable String instance) {
    return instance == null ? text : text.replace(INSTANCE, instance);
  }

  private void add(Part part) {
    if (parts.put(part.ref(), part) != null) {
      throw wrong(part.block(), "part twice=" + part.ref());
    }
  }

  private IllegalArgumentException wrong(String block, String what) {
    return new IllegalArgumentException(file + ": block=" + block + " " + what);
  }
}
