package bellwire.app.export;

import bellwire.app.export.JobTables.Rows;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;

/**
 * A walk through a tree of JSON, from lists into the lists of their members, that ends in a table's
 * rows: {@code Walk.of(root).each("survey", "surveys").each("pair", "survey/result/pairs")}. A path
 * begins with the name of a list gone into, or with a field of the root.
 */
final class Walk {
  private static final String ROOT = "";

  /** What a path leads to, by the names of the lists; one for each row. */
  private final List<Map<String, JsonNode>> places;

  private Walk(List<Map<String, JsonNode>> places) {
    this.places = places;
  }

  static Walk of(ObjectNode root) {
    return new Walk(List.of(Map.of(ROOT, root)));
  }

  /** Into every member of a list; without members there is no row. */
  Walk each(String name, String path) {
    List<Map<String, JsonNode>> all = new ArrayList<>();
    for (Map<String, JsonNode> place : places) {
      for (JsonNode member : at(place, path)) {
        Map<String, JsonNode> in = new LinkedHashMap<>(place);
        in.put(name, member);
        all.add(in);
      }
    }
    return new Walk(all);
  }

  /** Those whose value there is this. */
  Walk where(String path, String value) {
    return new Walk(places.stream().filter(p -> text(at(p, path)).equals(value)).toList());
  }

  /** Without those of which this is true, told what a path leads to. */
  Walk without(Predicate<Function<String, JsonNode>> unwanted) {
    return new Walk(places.stream().filter(p -> !unwanted.test(path -> at(p, path))).toList());
  }

  /** Those whose values at two paths are the same. */
  Walk joined(String path, String other) {
    return new Walk(
        places.stream().filter(p -> text(at(p, path)).equals(text(at(p, other)))).toList());
  }

  /**
   * A row of each place.
   *
   * @param shape a column a line: its name, then the path to its value, or a word in quotes. Of a
   *     list the members are parted by spaces; by semicolons where the path ends in one
   */
  Rows rows(String table, String shape) {
    List<String[]> columns = shape.lines().map(line -> line.strip().split("\\s+", 2)).toList();
    List<List<String>> rows =
        places.stream()
            .map(place -> columns.stream().map(c -> value(place, c[1])).toList())
            .toList();
    return new Rows(table, columns.stream().map(c -> c[0]).toList(), rows);
  }

  private static String value(Map<String, JsonNode> place, String path) {
    if (path.startsWith("\"")) {
      return path.substring(1, path.length() - 1);
    }
    boolean semicolons = path.endsWith(";");
    JsonNode value = at(place, semicolons ? path.substring(0, path.length() - 1) : path);
    return value.isArray() ? listed(value, semicolons ? "; " : " ") : text(value);
  }

  private static JsonNode at(Map<String, JsonNode> place, String path) {
    int slash = path.indexOf('/');
    String first = slash < 0 ? path : path.substring(0, slash);
    JsonNode from = place.get(first);
    if (from == null) {
      return place.getOrDefault(ROOT, JobJson.MAPPER.nullNode()).at("/" + path);
    }
    return slash < 0 ? from : from.at(path.substring(slash));
  }

  private static String listed(JsonNode array, String between) {
    return StreamSupport.stream(array.spliterator(), false)
        .map(Walk::text)
        .collect(Collectors.joining(between));
  }

  /** Empty for null and for what is not there. */
  private static String text(JsonNode value) {
    return value.isNull() || value.isMissingNode() ? "" : value.asText();
  }
}
