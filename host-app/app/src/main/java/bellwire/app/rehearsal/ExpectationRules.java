package bellwire.app.rehearsal;

import bellwire.analysis.rules.Expression;
import bellwire.analysis.rules.Expression.Fact;
import bellwire.analysis.rules.Expression.Not;
import bellwire.analysis.rules.Pattern;
import bellwire.analysis.rules.Rule;
import bellwire.analysis.rules.Scope;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;

/**
 * The rules that follow from a rehearsal's steps and terminals, so that its file need not repeat
 * them: what is asked for comes in time; what is not asked for is released in time, ever at all,
 * and does not come; calls and pauses are not shorter than a second; no voltage stays weak.
 */
public final class ExpectationRules {
  /** A call or a pause shorter than this is chatter. Common practice, no source. */
  static final long CHATTER_MICROS = 1_000_000;

  /** Longest time a voltage may be weak, in passing. Common practice, no source. */
  static final long WEAK_MICROS = 1_000_000;

  /** Within a step; longer than any. */
  public static final long FOR_THE_REST_MICROS = 86_400_000_000L;

  private ExpectationRules() {}

  /** Rules of both kinds, those that follow from the steps first. */
  public static List<Rule> all(Rehearsal rehearsal) {
    List<Rule> rules = of(rehearsal);
    rules.addAll(rehearsal.rules());
    return rules;
  }

  static List<Rule> of(Rehearsal rehearsal) {
    List<Rule> rules = new ArrayList<>();
    for (Terminal t : rehearsal.terminals()) {
      comes(rehearsal, t, rules);
      goes(rehearsal, t, rules);
      clean(t, rules);
    }
    return rules;
  }

  private static void comes(Rehearsal rehearsal, Terminal t, List<Rule> rules) {
    for (Step step : rehearsal.steps()) {
      String time = step.asks().get(t.name());
      if (time != null) {
        rules.add(
            new Rule(
                "comes-" + t.name() + "-in-" + step.name(),
                t.words() + " is called within " + Times.words(rehearsal.micros(time)) + ".",
                new Pattern.Recurs(new Fact(t.name()), rehearsal.micros(time)),
                new Scope.While(during(step))));
      }
    }
  }

  private static void goes(Rehearsal rehearsal, Terminal t, List<Rule> rules) {
    Expression called = new Fact(t.name());
    Expression released = new Fact("released " + t.name());
    long dropOut = rehearsal.micros(t.dropOut());
    Fact unwanted = new Fact(Facts.unwanted(t));
    rules.add(
        new Rule(
            "releases-" + t.name(),
            t.words()
                + " is released within "
                + Times.words(dropOut)
                + " when nothing asks for it.",
            new Pattern.Recurs(released, dropOut),
            new Scope.While(unwanted)));
    rules.add(
        new Rule(
            "opens-" + t.name(),
            t.words() + " is released at all when nothing asks for it and the power is on.",
            new Pattern.Sometime(released),
            new Scope.While(new Expression.All(List.of(unwanted, new Fact(Facts.POWER_ON))))));
    for (Step step : rehearsal.steps()) {
      if (step.unwanted(t)) {
        rules.add(
            new Rule(
                "unasked-" + t.name() + "-in-" + step.name(),
                t.words() + " does not come when nothing asks for it.",
                new Pattern.Holds(released, new Not(called), FOR_THE_REST_MICROS),
                new Scope.While(during(step))));
      }
    }
  }

  private static void clean(Terminal t, List<Rule> rules) {
    Expression called = new Fact(t.name());
    Scope rehearsing = new Scope.While(new Fact(Facts.REHEARSING));
    rules.add(
        new Rule(
            "calls-last-" + t.name(),
            "A call of " + t.words() + " lasts a second at least.",
            new Pattern.AtLeast(called, CHATTER_MICROS),
            rehearsing));
    rules.add(
        new Rule(
            "pauses-last-" + t.name(),
            "A pause of " + t.words() + " lasts a second at least.",
            new Pattern.AtLeast(new Not(called), CHATTER_MICROS),
            rehearsing));
    rules.add(
        new Rule(
            "firm-" + t.name(),
            "The voltage of " + t.words() + " is never weak for longer than a second.",
            new Pattern.AtMost(new Fact("weak " + t.name()), WEAK_MICROS),
            rehearsing));
  }

  /** What each step waits for, as something that must be possible beside all rules. */
  static List<Rule> goals(Rehearsal rehearsal) {
    List<Rule> goals = new ArrayList<>();
    for (Step step : rehearsal.steps()) {
      List<Expression> all = new ArrayList<>();
      all.add(new Fact(Facts.REHEARSING));
      all.add(during(step));
      all.add(new Fact(Facts.modeFact(step.mode())));
      step.phases().forEach(phase -> all.add(new Fact(Facts.phaseFact(phase))));
      step.asks().keySet().forEach(terminal -> all.add(new Fact(terminal)));
      goals.add(
          new Rule(
              "what step " + step.name() + " asks",
              step.say(),
              new Pattern.Sometime(new Expression.All(all)),
              new Scope.Globally()));
    }
    return goals;
  }

  private static Expression during(Step step) {
    return new Fact("step " + step.name());
  }

  /** The names of rules that a choice of options leaves. */
  static List<Rule> without(List<Rule> rules, Set<String> dropped) {
    return rules.stream()
        .filter(rule -> dropped.stream().noneMatch(d -> Findings.matches(d, rule.name())))
        .toList();
  }
}
