package bellwire.app.rehearsal;

import bellwire.analysis.rules.Contradiction;
import bellwire.analysis.rules.Contradictions;
import bellwire.analysis.rules.Expression;
import bellwire.analysis.rules.Pattern;
import bellwire.analysis.rules.Rule;
import bellwire.analysis.rules.Scope;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Reads a rehearsal file's own rules; docs/rules.md states the language. */
final class RuleReader {
  private static final List<String> KINDS =
      List.of("never", "always", "sometime", "only", "when", "lasts", "recurs");

  private final FileNames file;
  private final Map<String, Section> places = new HashMap<>();

  RuleReader(FileNames file) {
    this.file = file;
  }

  void read(Section s, List<Rule> into) throws FileException {
    String name = s.text("name");
    if (places.put(name, s) != null) {
      throw s.problemAt("name", "the same rule twice: name=" + name, "give each its own name");
    }
    String says = s.text("says");
    Scope scope = scope(s);
    List<String> kinds = KINDS.stream().filter(s::has).toList();
    if (kinds.size() != 1) {
      throw s.problemHere(
          kinds.isEmpty() ? "a rule that demands nothing" : "two demands in one rule: " + kinds,
          "use one of " + String.join(", ", KINDS));
    }
    for (Pattern pattern : patterns(s, kinds.get(0))) {
      into.add(new Rule(name, says, pattern, scope));
    }
    s.done();
  }

  private List<Pattern> patterns(Section s, String kind) throws FileException {
    Expression p = expression(s, kind);
    return switch (kind) {
      case "never" -> List.of(new Pattern.Never(p));
      case "always" -> List.of(new Pattern.Always(p));
      case "sometime" -> List.of(new Pattern.Sometime(p));
      case "only" -> List.of(new Pattern.OnlyAfter(p, expression(s, "after-first")));
      case "recurs" -> List.of(new Pattern.Recurs(p, file.micros(s, "within")));
      case "when" -> List.of(consequence(s, p));
      default -> durations(s, p);
    };
  }

  private Pattern consequence(Section s, Expression p) throws FileException {
    Expression then = expression(s, "then");
    if (s.has("for")) {
      if (s.has("within")) {
        throw s.problemAt("within", "within and for in one rule", "make two rules of it");
      }
      return new Pattern.Holds(p, then, file.micros(s, "for"));
    }
    return s.has("within")
        ? new Pattern.Response(p, then, file.micros(s, "within"))
        : new Pattern.Response(p, then, null);
  }

  private List<Pattern> durations(Section s, Expression p) throws FileException {
    List<Pattern> patterns = new ArrayList<>();
    long least = s.has("at-least") ? file.micros(s, "at-least") : 0;
    long most = s.has("at-most") ? file.micros(s, "at-most") : Long.MAX_VALUE;
    if (least > most) {
      throw s.problemAt(
          "at-least",
          "the bounds are the wrong way round: at-least="
              + s.text("at-least")
              + " at-most="
              + s.text("at-most"),
          "exchange them");
    }
    if (s.has("at-least")) {
      patterns.add(new Pattern.AtLeast(p, least));
    }
    if (s.has("at-most")) {
      patterns.add(new Pattern.AtMost(p, most));
    }
    if (patterns.isEmpty()) {
      throw s.problemAt("lasts", "no bound", "add 'at-least: ...' or 'at-most: ...'");
    }
    return patterns;
  }

  private Scope scope(Section s) throws FileException {
    List<String> given = List.of("while", "after", "before").stream().filter(s::has).toList();
    if (given.size() > 1) {
      throw s.problemHere("more than one scope: " + given, "keep one of while, after, before");
    }
    if (given.isEmpty()) {
      return new Scope.While(new Expression.Fact(Facts.REHEARSING));
    }
    Expression e = expression(s, given.get(0));
    return switch (given.get(0)) {
      case "while" -> new Scope.While(e);
      case "after" -> new Scope.After(e);
      default -> new Scope.Before(e);
    };
  }

  private Expression expression(Section s, String key) throws FileException {
    return file.expression(s, key, s.text(key));
  }

  /** The names of the rules that follow from the steps are taken. */
  void refuseTaken(Set<String> taken) throws FileException {
    for (Map.Entry<String, Section> own : places.entrySet()) {
      if (taken.contains(own.getKey())) {
        throw own.getValue()
            .problemAt(
                "name",
                "a rule that follows from the steps has this name: name=" + own.getKey(),
                "give yours another");
      }
    }
  }

  /** Rules that no control could keep are refused before one is touched. */
  void refuseContradictions(Section root, List<Rule> rules, List<Terminal> terminals)
      throws FileException {
    List<Set<String>> exclusive = new ArrayList<>();
    for (Terminal t : terminals) {
      if (t.active() != t.rest()) {
        exclusive.add(Set.of(t.name(), Facts.released(t), Facts.weak(t)));
      }
    }
    for (Contradiction c : Contradictions.find(rules, exclusive)) {
      if (c.warning()) {
        continue;
      }
      for (String name : c.rules()) {
        Section place = places.get(name);
        if (place != null) {
          throw place.problemAt(
              "name",
              "no control can keep this: " + c.reason(),
              "change one of " + String.join(", ", c.rules()));
        }
      }
      throw root.problemAt(
          "steps", "no control can keep what the steps ask: " + c.reason(), "change the steps");
    }
  }
}
