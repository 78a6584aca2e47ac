package bellwire.app.rehearsal;

import bellwire.analysis.rules.Rule;
import bellwire.yaml.FileException;
import bellwire.yaml.Section;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** Turns a rehearsal file's sections into records; what does not fit is told with its line. */
final class RehearsalReader {
  private final String name;
  private final Section root;
  private final Map<String, String> given;
  private final FileNames names = new FileNames();

  RehearsalReader(String name, Section root, Map<String, String> given) {
    this.name = name;
    this.root = root;
    this.given = given;
  }

  Rehearsal read() throws FileException {
    String title = root.text("title");
    Rehearsal.Feed feed = root.choice("feed", Rehearsal.Feed.class);
    List<String> assumes = root.texts("assumes", FileNames.MAX_ITEMS);
    names.readTimes(root, given);
    TerminalReader.read(root, names);
    List<Section> stepSections = root.sections("steps", FileNames.MAX_ITEMS);
    names.nameFacts(stepSections);
    StepReader stepReader = new StepReader(names);
    List<Step> steps = new ArrayList<>();
    for (Section s : stepSections) {
      steps.add(stepReader.read(s));
    }
    if (steps.isEmpty()) {
      throw root.problemAt("steps", "no steps: nothing to rehearse", "add one step at least");
    }
    RuleReader reader = new RuleReader(names);
    List<Rule> rules = new ArrayList<>();
    for (Section s : root.sections("rules", FileNames.MAX_ITEMS)) {
      reader.read(s, rules);
    }
    Rehearsal bare =
        new Rehearsal(
            name,
            title,
            feed,
            assumes,
            names.terminals(),
            names.times(),
            List.of(),
            steps,
            rules,
            List.of(),
            List.of());
    Set<String> known = new LinkedHashSet<>();
    ExpectationRules.of(bare).forEach(rule -> known.add(rule.name()));
    reader.refuseTaken(known);
    rules.forEach(rule -> known.add(rule.name()));
    OutcomeReader rest = new OutcomeReader(root);
    Rehearsal whole =
        new Rehearsal(
            name,
            title,
            feed,
            assumes,
            List.copyOf(names.terminals()),
            Map.copyOf(names.times()),
            rest.options(known),
            List.copyOf(steps),
            List.copyOf(rules),
            rest.findings(known),
            rest.functions(steps));
    root.done();
    List<Rule> all = ExpectationRules.all(whole);
    all.addAll(ExpectationRules.goals(whole));
    reader.refuseContradictions(root, all, names.terminals());
    return whole;
  }
}
