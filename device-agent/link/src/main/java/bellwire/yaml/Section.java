package bellwire.yaml;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.nodes.MappingNode;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.NodeTuple;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

/**
 * A mapping of a file. Every getter names file and line when it fails; {@link #done} refuses keys
 * that nobody asked for.
 */
public final class Section {
  private static final String NUMBER = "[-+]?(?:\\d+\\.?\\d*|\\.\\d+)(?:[eE][-+]?\\d+)?";
  private static final Pattern QUANTITY = Pattern.compile("(" + NUMBER + ")\\s*(\\S*)");
  private static final Pattern PORT = Pattern.compile("[Pp](\\d{1,9})");
  private static final int METAL_PORT = 16;

  private final String file;
  private final String name;
  private final int line;
  private final Map<String, Node> entries = new LinkedHashMap<>();
  private final Map<String, Integer> keyLines = new LinkedHashMap<>();
  private final Set<String> asked = new LinkedHashSet<>();

  public Section(String file, String name, Node node) throws FileException {
    this.file = file;
    this.name = name;
    this.line = lineOf(node);
    if (!(node instanceof MappingNode mapping)) {
      throw problem(line, name + " is not a set of keys", "write it as 'key: value'");
    }
    for (NodeTuple tuple : mapping.getValue()) {
      if (!(tuple.getKeyNode() instanceof ScalarNode key)) {
        throw problem(lineOf(tuple.getKeyNode()), "a key that is no word", "use a plain word");
      }
      if (entries.put(key.getValue(), tuple.getValueNode()) != null) {
        throw problem(
            lineOf(key), "key twice in " + name + ": key=" + key.getValue(), "remove one of them");
      }
      keyLines.put(key.getValue(), lineOf(key));
    }
  }

  /** The file's name, to blame. */
  public String file() {
    return file;
  }

  public static int lineOf(Node node) {
    return node.getStartMark().getLine() + 1;
  }

  public FileException problem(int atLine, String problem, String remedy) {
    return new FileException(file, atLine, problem, remedy);
  }

  /** A problem with a key's value, at its line. */
  public FileException problemAt(String key, String problem, String remedy) {
    return problem(lineAt(key), problem, remedy);
  }

  /** A problem with the section as a whole. */
  public FileException problemHere(String problem, String remedy) {
    return problem(line, problem, remedy);
  }

  public int lineAt(String key) {
    return keyLines.getOrDefault(key, line);
  }

  public boolean has(String key) {
    asked.add(key);
    return entries.containsKey(key);
  }

  private @Nullable Node find(String key) {
    asked.add(key);
    return entries.get(key);
  }

  private Node require(String key) throws FileException {
    Node node = find(key);
    if (node == null) {
      refuseMisspelt(key);
      throw problem(line, "key missing in " + name + ": key=" + key, "add '" + key + ": ...'");
    }
    return node;
  }

  /** Where a key is missing and one like it is there, the typing error is what to tell of. */
  private void refuseMisspelt(String key) throws FileException {
    for (String given : entries.keySet()) {
      if (!asked.contains(given) && Spelling.close(given, key)) {
        throw problemAt(
            given,
            "unknown key in " + name + ": key=" + given,
            Spelling.remedy(given, List.of(key)));
      }
    }
  }

  /** All keys, in the file's order: for a section whose keys are names of its own. */
  public List<String> keys() {
    asked.addAll(entries.keySet());
    return List.copyOf(entries.keySet());
  }

  /** The single values of a list; absent is empty. */
  public List<String> texts(String key, int most) throws FileException {
    List<String> texts = new ArrayList<>();
    for (Node node : items(key, most)) {
      texts.add(scalar(key, node));
    }
    return texts;
  }

  public String text(String key, String absent) throws FileException {
    return has(key) ? text(key) : absent;
  }

  public String text(String key) throws FileException {
    return scalar(key, require(key));
  }

  /** A single value as it stands, blanks and line breaks too. */
  public String verbatim(String key) throws FileException {
    text(key);
    return ((ScalarNode) require(key)).getValue();
  }

  private String scalar(String key, Node node) throws FileException {
    if (node instanceof ScalarNode scalar && !scalar.getValue().isBlank()) {
      return scalar.getValue().trim();
    }
    throw problem(lineOf(node), "no single value in " + name + ": key=" + key, "write one value");
  }

  public double quantity(String key, Dimension dimension, double low, double high)
      throws FileException {
    return quantity(key, text(key), lineAt(key), dimension, low, high);
  }

  public double quantity(String key, Dimension dimension, double low, double high, double absent)
      throws FileException {
    return has(key) ? quantity(key, dimension, low, high) : absent;
  }

  public OptionalDouble optional(String key, Dimension dimension, double low, double high)
      throws FileException {
    return has(key)
        ? OptionalDouble.of(quantity(key, dimension, low, high))
        : OptionalDouble.empty();
  }

  public double quantity(
      String key, String text, int atLine, Dimension dimension, double low, double high)
      throws FileException {
    Matcher matcher = QUANTITY.matcher(text);
    if (!matcher.matches()) {
      throw problem(
          atLine,
          "no number in " + name + ": " + key + "=" + text,
          "write it like '" + dimension.example() + "'");
    }
    String unit = matcher.group(2);
    double factor = unit.isEmpty() && dimension.acceptsBare() ? 1 : dimension.factor(unit);
    if (Double.isNaN(factor)) {
      String wrong = unit.isEmpty() ? "unit missing" : "unit not known here";
      throw problem(
          atLine,
          wrong + " in " + name + ": " + key + "=" + text,
          "use one of " + dimension.units() + ", like '" + dimension.example() + "'");
    }
    double value = Double.parseDouble(matcher.group(1)) * factor;
    return bounded(key, text, atLine, value, low, high, factor, unit.isEmpty() ? "" : " " + unit);
  }

  private double bounded(
      String key,
      String text,
      int atLine,
      double value,
      double low,
      double high,
      double factor,
      String unit)
      throws FileException {
    // Also refuses NaN.
    if (!(value >= low && value <= high)) {
      throw problem(
          atLine,
          "out of bounds in " + name + ": " + key + "=" + text,
          "use " + plain(low / factor) + " to " + plain(high / factor) + unit);
    }
    return value;
  }

  private static String plain(double value) {
    String text = String.format(java.util.Locale.ROOT, "%.6g", value);
    return text.contains("e") || !text.contains(".")
        ? text
        : text.replaceAll("0+$", "").replaceAll("\\.$", "");
  }

  public double number(String key, double low, double high) throws FileException {
    String text = text(key);
    if (!text.matches(NUMBER)) {
      throw problemAt(
          key,
          "no plain number in " + name + ": " + key + "=" + text,
          "write digits, without a unit");
    }
    return bounded(key, text, lineAt(key), Double.parseDouble(text), low, high, 1, "");
  }

  public double number(String key, double low, double high, double absent) throws FileException {
    return has(key) ? number(key, low, high) : absent;
  }

  public int integer(String key, int low, int high) throws FileException {
    double value = number(key, low, high);
    if (value != Math.rint(value)) {
      throw problemAt(
          key, "no whole number in " + name + ": " + key + "=" + text(key), "write a whole number");
    }
    return (int) value;
  }

  public int integer(String key, int low, int high, int absent) throws FileException {
    return has(key) ? integer(key, low, high) : absent;
  }

  public long seed(String key) throws FileException {
    String text = text(key);
    try {
      return Long.parseLong(text);
    } catch (NumberFormatException e) {
      throw problemAt(
          key, "no whole number: " + key + "=" + text, "write a whole number of up to 18 digits");
    }
  }

  public boolean flag(String key, boolean absent) throws FileException {
    if (!has(key)) {
      return absent;
    }
    return switch (text(key)) {
      case "true", "yes" -> true;
      case "false", "no" -> false;
      default ->
          throw problemAt(
              key,
              "neither true nor false in " + name + ": " + key + "=" + text(key),
              "write true or false");
    };
  }

  /** A constant by its name in lower case, words joined by hyphens. */
  public <E extends Enum<E>> E choice(String key, Class<E> type) throws FileException {
    String text = text(key);
    List<String> words = new ArrayList<>();
    for (E constant : type.getEnumConstants()) {
      String word = constant.name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
      if (word.equals(text)) {
        return constant;
      }
      words.add(word);
    }
    throw problemAt(
        key,
        "no such choice in " + name + ": " + key + "=" + text,
        "use one of " + String.join(", ", words));
  }

  public long nanos(String key) throws FileException {
    return Math.round(quantity(key, Dimension.TIME, 0, 1e6) * 1e9);
  }

  public long nanos(String key, long absent) throws FileException {
    return has(key) ? nanos(key) : absent;
  }

  /** A port, 0 to 15, or 16 for M. */
  public int port(String key) throws FileException {
    return port(key, text(key), lineAt(key));
  }

  private int port(String key, String text, int atLine) throws FileException {
    if (text.equals("M")) {
      return METAL_PORT;
    }
    Matcher matcher = PORT.matcher(text);
    if (matcher.matches()) {
      int number = Integer.parseInt(matcher.group(1));
      if (number >= 1 && number <= 16) {
        return number - 1;
      }
    }
    throw problem(
        atLine,
        "no such port in " + name + ": " + key + "=" + text,
        "use P1 to P16, or M for metal");
  }

  /** Different ports, one at least. */
  public List<Integer> ports(String key, int most) throws FileException {
    List<Integer> ports = new ArrayList<>();
    for (Node node : items(key, most)) {
      String text = scalar(key, node);
      int port = port(key, text, lineOf(node));
      if (ports.contains(port)) {
        throw problem(
            lineOf(node),
            "the same port twice in " + name + ": " + key + "=" + text,
            "name it once");
      }
      ports.add(port);
    }
    if (ports.isEmpty()) {
      throw problemAt(key, "no ports in " + name + ": key=" + key, "write it like '[P1, P4]'");
    }
    return ports;
  }

  /** Two different ports. */
  public int[] portPair(String key) throws FileException {
    List<Node> nodes = items(key, 2);
    if (nodes.size() != 2) {
      throw problemAt(
          key,
          "not two ports in " + name + ": " + key + "=" + nodes.size() + " of them",
          "write it like '[P1, P4]'");
    }
    int a = port(key, scalar(key, nodes.get(0)), lineOf(nodes.get(0)));
    int b = port(key, scalar(key, nodes.get(1)), lineOf(nodes.get(1)));
    if (a == b) {
      throw problemAt(
          key,
          "the same port twice in " + name + ": " + key + "=" + scalar(key, nodes.get(0)),
          "name two different ports");
    }
    return new int[] {a, b};
  }

  /** The items of a list; absent is empty. */
  public List<Node> items(String key, int most) throws FileException {
    Node node = find(key);
    if (node == null) {
      return List.of();
    }
    if (!(node instanceof SequenceNode sequence)) {
      throw problemAt(
          key,
          "no list in " + name + ": key=" + key,
          "write it as a list, '[...]' or lines with '- '");
    }
    if (sequence.getValue().size() > most) {
      throw problemAt(
          key,
          "too long a list in " + name + ": " + key + "=" + sequence.getValue().size() + " items",
          "keep to " + most);
    }
    return sequence.getValue();
  }

  public List<Section> sections(String key, int most) throws FileException {
    List<Section> sections = new ArrayList<>();
    for (Node node : items(key, most)) {
      sections.add(new Section(file, key, node));
    }
    return sections;
  }

  public Section required(String key) throws FileException {
    return new Section(file, key, require(key));
  }

  public Optional<Section> section(String key) throws FileException {
    Node node = find(key);
    return node == null ? Optional.empty() : Optional.of(new Section(file, key, node));
  }

  /** Different far positions, 1 to 16. */
  public List<Integer> positions(String key) throws FileException {
    return positions(key, items(key, 16));
  }

  public List<Integer> positions(String key, List<Node> nodes) throws FileException {
    List<Integer> positions = new ArrayList<>();
    for (Node node : nodes) {
      String text = scalar(key, node);
      int position = text.matches("\\d{1,2}") ? Integer.parseInt(text) : 0;
      if (position < 1 || position > 16) {
        throw problem(
            lineOf(node),
            "no such far position in " + name + ": " + key + "=" + text,
            "use 1 to 16");
      }
      if (positions.contains(position)) {
        throw problem(
            lineOf(node),
            "far position twice in " + name + ": " + key + "=" + text,
            "name it once");
      }
      positions.add(position);
    }
    return positions;
  }

  public boolean isSection(String key) {
    return find(key) instanceof MappingNode;
  }

  public boolean isList(String key) {
    return find(key) instanceof SequenceNode;
  }

  /** Refuses what was not asked for, and names the nearest key that would have been. */
  public void done() throws FileException {
    for (String key : entries.keySet()) {
      if (!asked.contains(key)) {
        throw problemAt(
            key, "unknown key in " + name + ": key=" + key, Spelling.remedy(key, asked));
      }
    }
  }
}
