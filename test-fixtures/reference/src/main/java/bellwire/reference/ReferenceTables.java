package bellwire.reference;

import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.databind.DeserializationFeature;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.cfg.JsonNodeFeature;
import com.fasterxml.jackson.dataformat.yaml.YAMLMapper;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Reads the tables beside this class, one file a topic. README.md explains the files. */
public final class ReferenceTables {

  private static final List<String> TOPICS =
      List.of(
          "assignment",
          "change-points",
          "circuits",
          "copper",
          "disturbance",
          "event-rates",
          "fault-location",
          "fuses",
          "gum",
          "network-reduction",
          "preferred-numbers",
          "resistance-distance",
          "strd",
          "temporal-logic",
          "wire-identification");

  private static final YAMLMapper MAPPER =
      YAMLMapper.builder()
          .enable(JsonParser.Feature.STRICT_DUPLICATE_DETECTION)
          .enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS)
          .disable(JsonNodeFeature.STRIP_TRAILING_BIGDECIMAL_ZEROES)
          .build();

  private ReferenceTables() {}

  /** Every topic, alphabetically. */
  public static List<String> topics() {
    return TOPICS;
  }

  /**
   * One table.
   *
   * @param name topic and table, as in {@code copper/solid-20-celsius}
   */
  public static Table load(String name) {
    int slash = name.indexOf('/');
    Table table = slash < 0 ? null : loadTopic(name.substring(0, slash)).get(name);
    if (table == null) {
      throw new IllegalArgumentException("table=" + name);
    }
    return table;
  }

  /** All tables of a topic by name, in the order of the file. */
  public static Map<String, Table> loadTopic(String topic) {
    if (!TOPICS.contains(topic)) {
      throw new IllegalArgumentException("topic=" + topic);
    }
    JsonNode root = read(topic + ".yaml");
    if (root.path("bellwire-reference").asInt() != 1
        || !root.path("topic").asText().equals(topic)) {
      throw new IllegalStateException("not a reference file of version 1: topic=" + topic);
    }
    Map<String, Table> tables = new LinkedHashMap<>();
    root.path("tables")
        .properties()
        .forEach(
            entry -> {
              String name = topic + "/" + entry.getKey();
              tables.put(name, table(name, entry.getValue()));
            });
    return tables;
  }

  private static Table table(String name, JsonNode node) {
    Status status = Status.ofMark(node.path("status").asText());
    List<Row> rows = new ArrayList<>();
    for (Iterator<JsonNode> each = node.path("rows").elements(); each.hasNext(); ) {
      JsonNode row = each.next();
      Map<String, Object> cells = new LinkedHashMap<>();
      row.properties().forEach(cell -> cells.put(cell.getKey(), value(name, cell.getValue())));
      Object own = cells.remove("status");
      rows.add(new Row(name, own == null ? status : Status.ofMark(String.valueOf(own)), cells));
    }
    return new Table(name, node.path("source").asText(), status, node.path("note").asText(), rows);
  }

  private static Object value(String table, JsonNode node) {
    if (node.isArray()) {
      List<Object> values = new ArrayList<>();
      node.elements().forEachRemaining(element -> values.add(value(table, element)));
      return List.copyOf(values);
    }
    if (node.isTextual()) {
      return switch (node.textValue()) {
        case "infinity" -> Double.POSITIVE_INFINITY;
        case "-infinity" -> Double.NEGATIVE_INFINITY;
        default -> node.textValue();
      };
    }
    if (node.isBoolean()) {
      return node.booleanValue();
    }
    if (node.isNumber()) {
      return node.numberValue();
    }
    throw new IllegalStateException("table=" + table + " value=" + node);
  }

  private static JsonNode read(String resource) {
    try (InputStream in = ReferenceTables.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("missing resource name=" + resource);
      }
      return MAPPER.readTree(in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
