package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Reads the terminals of a rehearsal file. */
final class TerminalReader {
  static final int MAX_TERMINALS = 16;

  private TerminalReader() {}

  static void read(Section root, FileNames names) throws FileException {
    Section section = root.required("terminals");
    for (String key : section.keys()) {
      FileNames.word(section, key, key);
      Section t = section.required(key);
      Role role = t.choice("role", Role.class);
      Level active = t.has("active") && t.text("active").equals("open") ? Level.OFF : Level.ON;
      if (t.has("active") && !List.of("open", "closed").contains(t.text("active"))) {
        throw t.problemAt(
            "active", "no such state: active=" + t.text("active"), "use closed or open");
      }
      String dropOut = t.text("drop-out", "drop-out");
      if (!names.times().containsKey(dropOut)) {
        throw t.problemAt("drop-out", "no such time: drop-out=" + dropOut, "name it under times");
      }
      Set<Deed.Mode> mayStay = EnumSet.noneOf(Deed.Mode.class);
      Level rest = rest(t, active, mayStay);
      if (rest == active) {
        throw t.problemAt(
            "rest",
            "its rest is its call: rest=" + (rest == Level.ON ? "closed" : "open"),
            "let it rest the other way, or 'any' in the modes in which it may stay on");
      }
      names.terminals().add(new Terminal(key, role, active, rest, mayStay, dropOut));
      t.done();
    }
    if (names.terminals().isEmpty() || names.terminals().size() > MAX_TERMINALS) {
      throw root.problemAt(
          "terminals", "terminals=" + names.terminals().size(), "name 1 to " + MAX_TERMINALS);
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
}
