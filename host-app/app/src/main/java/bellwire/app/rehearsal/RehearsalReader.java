package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.analysis.rules.BadExpression;
import bellwire.analysis.rules.Expression;
import bellwire.analysis.rules.Rule;
import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Turns a rehearsal file's sections into records; what does not fit is told with its line. */
final class RehearsalReader {
  private static final int MAX_TERMINALS = 16;
  private static final int MAX_ITEMS = 200;
  private static final String NAME = "[A-Za-z][A-Za-z0-9/_-]*";
  private static final double MAX_SECONDS = 86_400;

  /** How long a step waits beyond what it asks for. */
  private static final long BEYOND_CALL_MICROS = 60_000_000;

  /** The same where nothing is asked for: a fan may run on for minutes, and late is not never. */
  private static final long BEYOND_DROP_OUT_MICROS = 600_000_000;

  private final String name;
  private final Section root;
  private final Map<String, String> given;
  private final Map<String, TimeBound> times = new LinkedHashMap<>();
  private final List<Terminal> terminals = new ArrayList<>();
  private final List<String> facts = new ArrayList<>();
  private Deed.Mode mode = Deed.Mode.OFF;

  RehearsalReader(String name, Section root, Map<String, String> given) {
    this.name = name;
    this.root = root;
    this.given = given;
  }

  Rehearsal read() throws FileException {
    String title = root.text("title");
    Rehearsal.Feed feed = root.choice("feed", Rehearsal.Feed.class);
    List<String> assumes = root.texts("assumes", MAX_ITEMS);
    readTimes();
    readTerminals();
    List<Section> stepSections = root.sections("steps", MAX_ITEMS);
    nameFacts(stepSections);
    List<Step> steps = new ArrayList<>();
    for (Section s : stepSections) {
      steps.add(step(s));
    }
    if (steps.isEmpty()) {
      throw root.problemAt("steps", "no steps: nothing to rehearse", "add one step at least");
    }
    RuleReader reader = new RuleReader(this);
    List<Rule> rules = new ArrayList<>();
    for (Section s : root.sections("rules", MAX_ITEMS)) {
      reader.read(s, rules);
    }
    Rehearsal bare =
        new Rehearsal(
            name, title, feed, assumes, terminals, times, List.of(), steps, rules, List.of(),
            List.of());
    Set<String> known = new LinkedHashSet<>();
    ExpectationRules.of(bare).forEach(rule -> known.add(rule.name()));
    rules.forEach(rule -> known.add(rule.name()));
    Rehearsal whole =
        new Rehearsal(
            name,
            title,
            feed,
            assumes,
            List.copyOf(terminals),
            Map.copyOf(times),
            options(known),
            List.copyOf(steps),
            List.copyOf(rules),
            findings(known),
            functions(steps));
    root.done();
    reader.refuseContradictions(root, ExpectationRules.all(whole), terminals);
    return whole;
  }

  private void readTimes() throws FileException {
    Section section = root.required("times");
    for (String key : section.keys()) {
      word(section, key, key);
      Section time = section.required(key);
      String value = given.getOrDefault(key, time.text("is"));
      double seconds =
          time.quantity(key, value, time.lineAt("is"), Dimension.TIME, 1e-3, MAX_SECONDS);
      String basis = given.containsKey(key) ? "set by the user" : time.text("basis");
      time.has("basis");
      time.has("is");
      time.done();
      times.put(key, new TimeBound(key, Math.round(seconds * 1e6), basis));
    }
    for (String key : given.keySet()) {
      if (!times.containsKey(key)) {
        throw section.problemHere(
            "no such time: " + key, "use one of " + String.join(", ", times.keySet()));
      }
    }
  }

  private void readTerminals() throws FileException {
    Section section = root.required("terminals");
    for (String key : section.keys()) {
      word(section, key, key);
      Section t = section.required(key);
      Role role = t.choice("role", Role.class);
      Level active = t.has("active") && t.text("active").equals("open") ? Level.OFF : Level.ON;
      if (t.has("active") && !List.of("open", "closed").contains(t.text("active"))) {
        throw t.problemAt(
            "active", "no such state: active=" + t.text("active"), "use closed or open");
      }
      String dropOut = t.text("drop-out", "drop-out");
      if (!times.containsKey(dropOut)) {
        throw t.problemAt("drop-out", "no such time: drop-out=" + dropOut, "name it under times");
      }
      Set<Deed.Mode> mayStay = EnumSet.noneOf(Deed.Mode.class);
      Level rest = rest(t, active, mayStay);
      terminals.add(new Terminal(key, role, active, rest, mayStay, dropOut));
      t.done();
    }
    if (terminals.isEmpty() || terminals.size() > MAX_TERMINALS) {
      throw root.problemAt(
          "terminals", "terminals=" + terminals.size(), "name 1 to " + MAX_TERMINALS);
    }
  }

  /** The rest state: one for all modes, or by mode, where 'any' lets the terminal stay. */
  private static Level rest(Section t, Level active, Set<Deed.Mode> mayStay) throws FileException {
    Level absent = active == Level.ON ? Level.OFF : Level.ON;
    if (!t.isSection("rest")) {
      return t.has("rest") ? restLevel(t, "rest", absent) : absent;
    }
    Section modes = t.required("rest");
    @Nullable Level rest = null;
    for (Deed.Mode mode : Deed.Mode.values()) {
      String key = mode.name().toLowerCase(Locale.ROOT);
      if (modes.has(key) && modes.text(key).equals("any")) {
        mayStay.add(mode);
      } else if (modes.has(key)) {
        Level level = restLevel(modes, key, absent);
        if (rest != null && rest != level) {
          throw modes.problemAt(
              key, "two different rest states", "use one of open and closed, and any");
        }
        rest = level;
      }
    }
    modes.done();
    return rest == null ? absent : rest;
  }

  private static Level restLevel(Section s, String key, Level absent) throws FileException {
    return switch (s.text(key)) {
      case "open" -> Level.OFF;
      case "closed" -> Level.ON;
      default ->
          throw s.problemAt(
              key,
              "no such rest state: " + key + "=" + s.text(key),
              "use open or closed, or by mode 'rest: {heat: open, cool: any}'");
    };
  }

  private void nameFacts(List<Section> steps) throws FileException {
    for (Terminal t : terminals) {
      facts.addAll(List.of(t.name(), Facts.released(t), Facts.weak(t), Facts.unwanted(t)));
    }
    for (Section s : steps) {
      String step = s.text("step");
      word(s, "step", step);
      if (facts.contains(Facts.stepFact(step))) {
        throw s.problemAt("step", "the same step twice: step=" + step, "give each its own name");
      }
      facts.add(Facts.stepFact(step));
      for (String phase : s.texts("phases", MAX_ITEMS)) {
        word(s, "phases", phase);
        if (!facts.contains(Facts.phaseFact(phase))) {
          facts.add(Facts.phaseFact(phase));
        }
      }
    }
    facts.addAll(Facts.COMMON);
  }

  private Step step(Section s) throws FileException {
    Deed deed = s.has("do") ? deed(s.required("do")) : new Deed(null, null, null, null);
    Map<String, String> asks = new LinkedHashMap<>();
    if (s.has("asks")) {
      Section asked = s.required("asks");
      for (String key : asked.keys()) {
        terminalAt(asked, key, key);
        timeAt(asked, key, asked.text(key));
        asks.put(key, asked.text(key));
      }
    }
    Set<String> free = new LinkedHashSet<>(s.texts("free", MAX_TERMINALS));
    for (String key : free) {
      terminalAt(s, "free", key);
      if (asks.containsKey(key)) {
        throw s.problemAt("free", "asked for and free at once: " + key, "remove one of the two");
      }
    }
    mode = deed.mode() == null ? mode : deed.mode();
    Expression until =
        expression(s, "until", s.has("until") ? s.text("until") : settled(asks, free));
    long stay = s.has("stay") ? micros(s, "stay") : times.containsKey("stay") ? times("stay") : 0;
    long longest = asks.values().stream().mapToLong(this::times).max().orElse(0);
    for (Terminal t : terminals) {
      longest = Math.max(longest, asks.containsKey(t.name()) ? 0 : times(t.dropOut()));
    }
    long beyond = asks.isEmpty() ? BEYOND_DROP_OUT_MICROS : BEYOND_CALL_MICROS;
    long atMost = s.has("at-most") ? micros(s, "at-most") : longest + beyond;
    if (atMost < longest) {
      throw s.problemAt(
          "at-most",
          "the step would end before its slowest terminal may come: at-most=" + s.text("at-most"),
          "use " + longest / 1_000_000 + " s or more");
    }
    Step step =
        new Step(
            s.text("step"),
            s.text("say"),
            deed,
            mode,
            asks,
            free,
            new LinkedHashSet<>(s.texts("phases", MAX_ITEMS)),
            until,
            stay,
            atMost,
            s.text("listen", ""),
            s.flag("runs-compressor", false),
            s.lineAt("step"));
    s.done();
    return step;
  }

  /** Everything asked for is called, and everything else that is not free is at rest. */
  private String settled(Map<String, String> asks, Set<String> free) {
    List<String> parts = new ArrayList<>();
    for (Terminal t : terminals) {
      if (asks.containsKey(t.name())) {
        parts.add(t.name());
      } else if (!free.contains(t.name()) && !t.mayStay().contains(mode)) {
        parts.add("released " + t.name());
      }
    }
    return parts.isEmpty() ? Facts.REHEARSING : String.join(" and ", parts);
  }

  private static Deed deed(Section s) throws FileException {
    Deed deed =
        new Deed(
            s.has("mode") ? s.choice("mode", Deed.Mode.class) : null,
            s.has("fan") ? s.choice("fan", Deed.Fan.class) : null,
            s.has("set") ? (Double) s.number("set", -20, 20) : null,
            s.has("power") ? (Boolean) power(s) : null);
    s.done();
    return deed;
  }

  private static boolean power(Section s) throws FileException {
    return switch (s.text("power")) {
      case "on" -> true;
      case "off" -> false;
      default ->
          throw s.problemAt("power", "no such power: power=" + s.text("power"), "use on or off");
    };
  }

  private List<Rehearsal.Choice> options(Set<String> rules) throws FileException {
    List<Rehearsal.Choice> options = new ArrayList<>();
    for (Section s : root.sections("options", MAX_ITEMS)) {
      List<String> drops = s.texts("drops", MAX_ITEMS);
      matched(s, "drops", drops, rules);
      options.add(
          new Rehearsal.Choice(s.text("option"), s.text("says"), new LinkedHashSet<>(drops)));
      s.done();
    }
    return options;
  }

  private List<Rehearsal.Pattern> findings(Set<String> rules) throws FileException {
    List<Rehearsal.Pattern> findings = new ArrayList<>();
    for (Section s : root.sections("findings", MAX_ITEMS)) {
      Map<String, List<String>> lists = new LinkedHashMap<>();
      for (String key : List.of("all", "any", "none", "covers")) {
        List<String> names = s.texts(key, MAX_ITEMS);
        matched(s, key, names, rules);
        lists.put(key, names);
      }
      findings.add(
          new Rehearsal.Pattern(
              s.text("finding"),
              s.text("says"),
              s.text("remedy"),
              lists.getOrDefault("all", List.of()),
              lists.getOrDefault("any", List.of()),
              lists.getOrDefault("none", List.of()),
              lists.getOrDefault("covers", List.of())));
      s.done();
    }
    return findings;
  }

  private static void matched(Section s, String key, List<String> names, Set<String> rules)
      throws FileException {
    for (String wanted : names) {
      if (rules.stream().noneMatch(rule -> Findings.matches(wanted, rule))) {
        throw s.problemAt(
            key,
            "no such rule: " + wanted,
            "use the name of a rule of this file or of one that follows from its steps;"
                + " 'bellwire rehearse --show' lists them");
      }
    }
  }

  private List<Rehearsal.Function> functions(List<Step> steps) throws FileException {
    List<Rehearsal.Function> functions = new ArrayList<>();
    for (Section s : root.sections("functions", MAX_ITEMS)) {
      List<String> names = s.texts("steps", MAX_ITEMS);
      for (String wanted : names) {
        if (steps.stream().noneMatch(step -> step.name().equals(wanted))) {
          throw s.problemAt("steps", "no such step: " + wanted, "name a step of this file");
        }
      }
      functions.add(new Rehearsal.Function(s.text("function"), names));
      s.done();
    }
    return functions;
  }

  Expression expression(Section s, String key, String text) throws FileException {
    try {
      return Expression.parse(text, facts);
    } catch (BadExpression e) {
      throw s.problemAt(
          key, "cannot be read: " + key + "='" + text + "', " + e.problem(), e.remedy());
    }
  }

  /** A time by its name, or written out. */
  long micros(Section s, String key) throws FileException {
    String text = s.text(key);
    TimeBound named = times.get(text);
    return named != null
        ? named.micros()
        : Math.round(s.quantity(key, Dimension.TIME, 1e-3, MAX_SECONDS) * 1e6);
  }

  private long times(String time) {
    TimeBound bound = times.get(time);
    return bound == null ? 0 : bound.micros();
  }

  private void terminalAt(Section s, String key, @Nullable String wanted) throws FileException {
    if (terminals.stream().noneMatch(t -> t.name().equals(wanted))) {
      throw s.problemAt(
          key,
          "unknown terminal: " + wanted,
          "use one of " + String.join(", ", terminals.stream().map(Terminal::name).toList()));
    }
  }

  private void timeAt(Section s, String key, String wanted) throws FileException {
    if (!times.containsKey(wanted)) {
      throw s.problemAt(
          key, "unknown time: " + wanted, "use one of " + String.join(", ", times.keySet()));
    }
  }

  private static void word(Section s, String key, String word) throws FileException {
    if (!word.matches(NAME)) {
      throw s.problemAt(
          key, "no plain name: " + word, "begin with a letter, then letters, digits, / - _");
    }
  }
}
