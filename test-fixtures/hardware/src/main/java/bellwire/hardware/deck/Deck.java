package bellwire.hardware.deck;

import bellwire.hardware.Netlist;
import bellwire.hardware.Part;
import bellwire.hardware.PartsList;
import bellwire.hardware.ValueExpression;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;

/**
 * The board's netlist as an ngspice deck: for each part the lines of its model, with the nets of
 * its pins. Board common is node 0. Of repeated blocks only the named instances are written; a line
 * that would touch another's net, or a pin left open, is left out, and so are parts without a
 * model.
 */
public final class Deck {
  private static final Pattern SLOT = Pattern.compile("<([^>]+)>");

  private final Netlist netlist;
  private final Set<String> instances;
  private final ToDoubleFunction<String> values;
  private final List<String> lines = new ArrayList<>();
  private final Map<String, Double> elements = new LinkedHashMap<>();
  private final List<Part> parts = new ArrayList<>();

  private Deck(Netlist netlist, Set<String> instances, ToDoubleFunction<String> values) {
    this.netlist = netlist;
    this.instances = instances;
    this.values = values;
  }

  /**
   * @param wanted the parts to take
   * @param instances of repeated blocks
   * @param values what a named value is in this deck
   */
  public static Deck of(
      Netlist netlist,
      Predicate<Part> wanted,
      Set<String> instances,
      ToDoubleFunction<String> values) {
    Deck deck = new Deck(netlist, instances, values);
    for (Part part : netlist.parts()) {
      if (wanted.test(part) && deck.present(part.instance())) {
        deck.add(part);
      }
    }
    return deck;
  }

  /** The parts that have a line in it. */
  public List<Part> parts() {
    return parts;
  }

  /** Element by element what a fault may alter: its value in a sound board. */
  public Map<String, Double> elements() {
    return elements;
  }

  public void line(String format, Object... arguments) {
    String line = String.format(Locale.ROOT, format, arguments);
    lines.add(line);
    String[] words = line.split(" ");
    if (words.length == 4 && line.matches("[RCV]_.*")) {
      elements.put(words[0], Double.parseDouble(words[3]));
    } else if (line.startsWith("D_")) {
      elements.put(words[0], 1.0); // its area
    }
  }

  /** Gives a resistor of the deck another value. */
  public void replace(String element, double ohms) {
    lines.replaceAll(
        line ->
            line.startsWith(element + " ")
                ? line.substring(0, line.lastIndexOf(' ') + 1) + ohms
                : line);
  }

  /** The value of an element in a sound board. */
  double value(String element) {
    Double value = elements.get(element);
    if (value == null) {
      throw new IllegalArgumentException("element=" + element);
    }
    return value;
  }

  /** The value of a resistor of the deck as it is now; null where there is none. */
  @Nullable String now(String element) {
    return lines.stream()
        .filter(line -> line.startsWith(element + " "))
        .map(line -> line.substring(line.lastIndexOf(' ') + 1))
        .findFirst()
        .orElse(null);
  }

  /** Whether any element of the deck is on a node. */
  boolean hasNode(String node) {
    return node.equals("0") || lines.stream().anyMatch(line -> line.contains(" " + node + " "));
  }

  /** A stiff source from common to a net. */
  public void source(String net, double volts) {
    line("V_%s %s 0 %.9g", net, node(net), volts);
  }

  /** The net's name in the deck. */
  public static String node(String net) {
    return net.equals(Netlist.COMMON) ? "0" : net.toLowerCase(Locale.ROOT);
  }

  /**
   * @param atRest whether only the state at rest is asked, which has simpler models
   * @param control lines of the control section
   */
  public String text(String title, boolean atRest, List<String> control) {
    StringBuilder out = new StringBuilder();
    out.append("* ").append(title).append('\n');
    out.append(PartsList.library("parts.lib"));
    out.append(PartsList.library(atRest ? "rest.lib" : "moving.lib"));
    lines.forEach(line -> out.append(line).append('\n'));
    out.append(".options rshunt=1e13 reltol=1e-4\n.control\nset numdgt=7\n");
    control.forEach(line -> out.append(line).append('\n'));
    return out.append("quit\n.endc\n.end\n").toString();
  }

  private void add(Part part) {
    boolean written = false;
    for (String template : part.line().model()) {
      String line = fill(template, part);
      if (line != null) {
        line("%s", line);
        written = true;
      }
    }
    if (written) {
      parts.add(part);
    }
  }

  private @Nullable String fill(String template, Part part) {
    Matcher slot = SLOT.matcher(template);
    StringBuilder line = new StringBuilder();
    while (slot.find()) {
      String text = text(slot.group(1), part);
      if (text == null) {
        return null;
      }
      slot.appendReplacement(line, Matcher.quoteReplacement(text));
    }
    slot.appendTail(line);
    return line.toString();
  }

  private @Nullable String text(String slot, Part part) {
    if (slot.equals("ref")) {
      return part.ref();
    }
    if (slot.equals("spice")) {
      return part.line().spice();
    }
    if (slot.equals("value")) {
      ValueExpression value = part.value();
      return value == null ? null : String.format(Locale.ROOT, "%.9g", value.of(values));
    }
    String net = part.net(slot);
    return net.equals(Part.OPEN) || !present(instanceOf(net)) ? null : node(net);
  }

  private @Nullable String instanceOf(String net) {
    String end = net.substring(net.lastIndexOf('_') + 1);
    boolean name = netlist.lists().values().stream().anyMatch(list -> list.contains(end));
    return name ? end : null;
  }

  private boolean present(@Nullable String instance) {
    return instance == null || instances.contains(instance);
  }
}
