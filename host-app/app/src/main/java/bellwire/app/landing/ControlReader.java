package bellwire.app.landing;

import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Point;
import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import bellwire.yaml.Spelling;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.yaml.snakeyaml.nodes.Node;
import org.yaml.snakeyaml.nodes.ScalarNode;
import org.yaml.snakeyaml.nodes.SequenceNode;

/** Reads a description of a room control. */
final class ControlReader {
  private static final int MAX_TERMINALS = 16;
  private static final int MAX_STATES = 64;
  private static final double RATED_VOLTS = 24;

  /** Common practice, no source: a relay's contact; a semiconductor switch, closed and open. */
  private static final double RELAY_OHMS = 0.05;

  private static final double SEMICONDUCTOR_OHMS = 0.8;
  private static final double SEMICONDUCTOR_LEAK_OHMS = 47e3;

  private static final Pattern CLOSING = Pattern.compile("(\\S+)(?:\\s+if\\s+(.+))?");
  private static final Pattern CONDITION = Pattern.compile("(\\S+?)\\s*=\\s*(\\S+)");

  private final Section root;
  private final List<String> terminals;
  private final List<Control.ControlContact> contacts = new ArrayList<>();
  private final Map<String, Control.Setting> settings = new LinkedHashMap<>();

  ControlReader(Section root) throws FileException {
    this.root = root;
    terminals = terminals(root, MAX_TERMINALS);
  }

  Control read() throws FileException {
    String title = root.text("title");
    readContacts();
    readSettings();
    Control control =
        new Control(
            title,
            terminals,
            supply(root.required("supply")),
            contacts,
            List.copyOf(jumpers(root, "jumpers", Point.Side.FAR, terminals)),
            List.copyOf(settings.values()),
            states());
    root.done();
    return control;
  }

  /** Names of terminals; those that mean something else in these files are refused. */
  static List<String> terminals(Section root, int most) throws FileException {
    List<String> names = words(root, "terminals", most);
    for (String taken : List.of("metal", "free")) {
      if (names.contains(taken)) {
        throw root.problemAt(
            "terminals", "no name for a terminal: " + taken, "use the letters that are on it");
      }
    }
    return names;
  }

  /** Different words of a list, one at least. */
  static List<String> words(Section s, String key, int most) throws FileException {
    List<String> words = s.texts(key, most);
    if (words.isEmpty()) {
      throw s.problemAt(key, "none named: key=" + key, "write them like '[R, C, W, Y, G]'");
    }
    Set<String> seen = new HashSet<>();
    for (String word : words) {
      if (!seen.add(word)) {
        throw s.problemAt(key, "named twice: " + word, "name it once");
      }
    }
    return words;
  }

  private String terminal(Section s, String key, String name) throws FileException {
    if (!terminals.contains(name)) {
      throw s.problemAt(key, "no such terminal: " + name, Spelling.remedy(name, terminals));
    }
    return name;
  }

  private Control.Supply supply(Section s) throws FileException {
    Control.Supply.Kind kind = s.choice("kind", Control.Supply.Kind.class);
    Control.Supply supply;
    if (kind == Control.Supply.Kind.BATTERY) {
      supply = new Control.Supply(kind, null, null, List.of(), Double.POSITIVE_INFINITY, 0);
    } else {
      double power = s.quantity("power", Dimension.APPARENT_POWER, 0.01, 60);
      double least = s.quantity("least", Dimension.VOLTAGE, 1, 30);
      String hot = terminal(s, "hot", s.text("hot"));
      boolean stolen = kind == Control.Supply.Kind.STOLEN;
      String common = stolen ? null : terminal(s, "common", s.text("common"));
      List<String> through = stolen ? words(s, "through", MAX_TERMINALS) : List.of();
      for (String name : through) {
        terminal(s, "through", name);
      }
      supply =
          new Control.Supply(kind, hot, common, through, RATED_VOLTS * RATED_VOLTS / power, least);
    }
    s.done();
    return supply;
  }

  private void readContacts() throws FileException {
    boolean relay = !root.text("switches-with", "relay").equals("semiconductor");
    if (relay && !root.text("switches-with", "relay").equals("relay")) {
      throw root.problemAt(
          "switches-with",
          "no such choice: switches-with=" + root.text("switches-with"),
          "use relay or semiconductor");
    }
    Section s = root.required("contacts");
    for (String name : s.keys()) {
      contacts.add(
          new Control.ControlContact(
              terminal(s, name, s.text(name)),
              terminal(s, name, name),
              relay ? RELAY_OHMS : SEMICONDUCTOR_OHMS,
              relay ? Double.POSITIVE_INFINITY : SEMICONDUCTOR_LEAK_OHMS));
    }
    if (contacts.isEmpty()) {
      throw s.problemHere("no contact", "write them like 'W1: R'");
    }
  }

  private void readSettings() throws FileException {
    if (root.has("settings")) {
      Section s = root.required("settings");
      for (String name : s.keys()) {
        settings.put(name, new Control.Setting(name, words(s, name, 8)));
      }
    }
  }

  /** Pairs of terminals, '[[RC, RH]]'. */
  static Set<Control.Jumper> jumpers(
      Section s, String key, Point.Side side, @Nullable List<String> terminals)
      throws FileException {
    Set<Control.Jumper> jumpers = new java.util.LinkedHashSet<>();
    for (Node node : s.items(key, 8)) {
      List<String> pair = new ArrayList<>();
      if (node instanceof SequenceNode two) {
        for (Node item : two.getValue()) {
          pair.add(item instanceof ScalarNode scalar ? scalar.getValue().trim() : "");
        }
      }
      if (pair.size() != 2 || pair.get(0).equals(pair.get(1))) {
        throw s.problem(Section.lineOf(node), "not two terminals", "write it like '[[RC, RH]]'");
      }
      for (String name : pair) {
        if (terminals != null && !terminals.contains(name)) {
          throw s.problem(
              Section.lineOf(node), "no such terminal: " + name, Spelling.remedy(name, terminals));
        }
      }
      jumpers.add(new Control.Jumper(side, pair.get(0), pair.get(1)));
    }
    return jumpers;
  }

  private List<Control.State> states() throws FileException {
    List<Control.State> states = new ArrayList<>();
    Set<String> names = new HashSet<>();
    for (Section s : root.sections("states", MAX_STATES)) {
      String name = s.text("state");
      if (!names.add(name)) {
        throw s.problemAt("state", "named twice: " + name, "give each state its own name");
      }
      List<Control.Closing> closes = new ArrayList<>();
      for (String text : s.texts("closes", MAX_TERMINALS)) {
        closes.add(closing(s, text));
      }
      states.add(
          new Control.State(
              name,
              s.choice("mode", Control.Mode.class),
              s.has("call") ? s.choice("call", Call.class) : Call.NONE,
              closes));
      s.done();
    }
    if (states.isEmpty()) {
      throw root.problemAt("states", "no states", "describe what it closes on each call");
    }
    return states;
  }

  private Control.Closing closing(Section s, String text) throws FileException {
    Matcher matcher = CLOSING.matcher(text);
    if (!matcher.matches()) {
      throw s.problemAt("closes", "not understood: " + text, "write 'Y1' or 'O if valve=O'");
    }
    String terminal = terminal(s, "closes", matcher.group(1));
    if (contacts.stream().noneMatch(c -> c.terminal().equals(terminal))) {
      throw s.problemAt(
          "closes", "no contact closes it: " + terminal, "name its supply under 'contacts'");
    }
    Map<String, String> when = new LinkedHashMap<>();
    if (matcher.group(2) != null) {
      for (String part : matcher.group(2).split("\\s+and\\s+")) {
        Matcher condition = CONDITION.matcher(part.trim());
        Control.Setting setting = condition.matches() ? settings.get(condition.group(1)) : null;
        if (setting == null || !setting.choices().contains(condition.group(2))) {
          throw s.problemAt(
              "closes",
              "no such setting or choice: " + part,
              "name one from 'settings', like 'O if valve=O'");
        }
        when.put(condition.group(1), condition.group(2));
      }
    }
    return new Control.Closing(terminal, when);
  }
}
