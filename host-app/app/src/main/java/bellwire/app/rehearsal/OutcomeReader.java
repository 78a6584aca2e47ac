package bellwire.app.rehearsal;

import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Reads what speaks of a rehearsal file's rules and steps: options, findings, functions. */
final class OutcomeReader {
  private final Section root;

  OutcomeReader(Section root) {
    this.root = root;
  }

  List<Rehearsal.Choice> options(Set<String> rules) throws FileException {
    List<Rehearsal.Choice> options = new ArrayList<>();
    for (Section s : root.sections("options", FileNames.MAX_ITEMS)) {
      List<String> drops = s.texts("drops", FileNames.MAX_ITEMS);
      matched(s, "drops", drops, rules);
      options.add(
          new Rehearsal.Choice(s.text("option"), s.text("says"), new LinkedHashSet<>(drops)));
      s.done();
    }
    return options;
  }

  List<Rehearsal.Pattern> findings(Set<String> rules) throws FileException {
    List<Rehearsal.Pattern> findings = new ArrayList<>();
    for (Section s : root.sections("findings", FileNames.MAX_ITEMS)) {
      Map<String, List<String>> lists = new LinkedHashMap<>();
      for (String key : List.of("all", "any", "none", "covers")) {
        List<String> names = s.texts(key, FileNames.MAX_ITEMS);
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
                + " 'bellwire rehearse FILE --rules' lists them");
      }
    }
  }

  List<Rehearsal.Function> functions(List<Step> steps) throws FileException {
    List<Rehearsal.Function> functions = new ArrayList<>();
    for (Section s : root.sections("functions", FileNames.MAX_ITEMS)) {
      List<String> names = s.texts("steps", FileNames.MAX_ITEMS);
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
}
