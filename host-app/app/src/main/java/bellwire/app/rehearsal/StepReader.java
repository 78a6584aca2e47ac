package bellwire.app.rehearsal;

import bellwire.analysis.rules.Expression;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Reads the steps of a rehearsal file, in order: the control's mode goes on from one to the next.
 */
final class StepReader {
  /** How long a step waits beyond what it asks for. */
  private static final long BEYOND_CALL_MICROS = 60_000_000;

  /** The same where nothing is asked for: a fan may run on for minutes, and late is not never. */
  private static final long BEYOND_DROP_OUT_MICROS = 600_000_000;

  private final FileNames names;
  private Deed.Mode mode = Deed.Mode.OFF;

  StepReader(FileNames names) {
    this.names = names;
  }

  Step read(Section s) throws FileException {
    Deed deed = s.has("do") ? deed(s.required("do")) : new Deed(null, null, null, null);
    Map<String, String> asks = new LinkedHashMap<>();
    if (s.has("asks")) {
      Section asked = s.required("asks");
      for (String key : asked.keys()) {
        names.terminalAt(asked, key, key);
        names.timeAt(asked, key, asked.text(key));
        asks.put(key, asked.text(key));
      }
    }
    Set<String> free = new LinkedHashSet<>(s.texts("free", TerminalReader.MAX_TERMINALS));
    for (String key : free) {
      names.terminalAt(s, "free", key);
      if (asks.containsKey(key)) {
        throw s.problemAt("free", "asked for and free at once: " + key, "remove one of the two");
      }
    }
    mode = deed.mode() == null ? mode : deed.mode();
    Expression until =
        names.expression(s, "until", s.has("until") ? s.text("until") : settled(asks, free));
    long stay =
        s.has("stay")
            ? names.micros(s, "stay")
            : names.times().containsKey("stay") ? names.times("stay") : 0;
    long longest = asks.values().stream().mapToLong(names::times).max().orElse(0);
    for (Terminal t : names.terminals()) {
      longest = Math.max(longest, asks.containsKey(t.name()) ? 0 : names.times(t.dropOut()));
    }
    long beyond = asks.isEmpty() ? BEYOND_DROP_OUT_MICROS : BEYOND_CALL_MICROS;
    long atMost = s.has("at-most") ? names.micros(s, "at-most") : longest + beyond;
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
            new LinkedHashSet<>(s.texts("phases", FileNames.MAX_ITEMS)),
            until,
            stay,
            atMost,
            s.text("listen", ""),
            s.flag("runs-compressor", compressor(asks.keySet()) || compressor(free)),
            s.lineAt("step"));
    s.done();
    return step;
  }

  private boolean compressor(Set<String> called) {
    return names.terminals().stream()
        .filter(t -> called.contains(t.name()))
        .anyMatch(t -> t.role() == Role.COMPRESSOR || t.role() == Role.SECOND_COMPRESSOR);
  }

  /** Everything asked for is called, and everything else that is not free is at rest. */
  private String settled(Map<String, String> asks, Set<String> free) {
    List<String> parts = new ArrayList<>();
    for (Terminal t : names.terminals()) {
      if (asks.containsKey(t.name())) {
        parts.add(t.name());
      } else if (!free.contains(t.name()) && !t.mayStay().contains(mode)) {
        parts.add(Facts.released(t));
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
}
