package bellwire.app.rehearsal;

import bellwire.analysis.rules.BadExpression;
import bellwire.analysis.rules.Expression;
import bellwire.yaml.Dimension;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** The names that a rehearsal file gives: its times, its terminals, the facts of its rules. */
final class FileNames {
  static final int MAX_ITEMS = 200;
  private static final String NAME = "[A-Za-z][A-Za-z0-9/_-]*";
  private static final double MAX_SECONDS = 86_400;

  private final Map<String, TimeBound> times = new LinkedHashMap<>();
  private final List<Terminal> terminals = new ArrayList<>();
  private final List<String> facts = new ArrayList<>();

  Map<String, TimeBound> times() {
    return times;
  }

  List<Terminal> terminals() {
    return terminals;
  }

  /**
   * @param given values in place of the file's
   */
  void readTimes(Section root, Map<String, String> given) throws FileException {
    Section section = root.required("times");
    for (String key : section.keys()) {
      word(section, key, key);
      Section time = section.required(key);
      String value = given.getOrDefault(key, time.text("is"));
      double seconds =
          time.quantity(key, value, time.lineAt("is"), Dimension.TIME, 1e-3, MAX_SECONDS);
      String basis = given.containsKey(key) ? TimeBound.SET_BY_USER : time.text("basis");
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

  void nameFacts(List<Section> steps) throws FileException {
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

  long times(String time) {
    TimeBound bound = times.get(time);
    return bound == null ? 0 : bound.micros();
  }

  void terminalAt(Section s, String key, String wanted) throws FileException {
    if (terminals.stream().noneMatch(t -> t.name().equals(wanted))) {
      throw s.problemAt(
          key,
          "unknown terminal: " + wanted,
          "use one of " + String.join(", ", terminals.stream().map(Terminal::name).toList()));
    }
  }

  void timeAt(Section s, String key, String wanted) throws FileException {
    if (!times.containsKey(wanted)) {
      throw s.problemAt(
          key, "unknown time: " + wanted, "use one of " + String.join(", ", times.keySet()));
    }
  }

  static void word(Section s, String key, String word) throws FileException {
    if (!word.matches(NAME)) {
      throw s.problemAt(
          key, "no plain name: " + word, "begin with a letter, then letters, digits, / - _");
    }
  }
}
