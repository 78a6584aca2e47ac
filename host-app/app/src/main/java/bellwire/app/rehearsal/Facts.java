package bellwire.app.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.rules.Expression;
import bellwire.analysis.rules.Rule;
import bellwire.analysis.rules.RuleMonitor;
import bellwire.analysis.rules.Truth;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/**
 * The facts that rules speak of, and their changes: each follows either from one terminal's level
 * or from the steps alone, so that one edge of a fact is one edge of what it came from.
 */
final class Facts {
  /** True from the first step to the end, but for attempts that are set aside. */
  static final String REHEARSING = "rehearsing";

  static final String POWER_OFF = "power off";

  /** Not the opposite: while the power is being switched it is neither on nor off. */
  static final String POWER_ON = "power on";

  /** Facts of every rehearsal. */
  static final List<String> COMMON;

  static {
    List<String> common = new ArrayList<>(List.of(REHEARSING, POWER_OFF, POWER_ON));
    for (Deed.Mode mode : Deed.Mode.values()) {
      common.add(modeFact(mode));
    }
    COMMON = List.copyOf(common);
  }

  private final Rehearsal rehearsal;
  private final List<String> names = new ArrayList<>();
  private final Map<String, Integer> index = new HashMap<>();
  private final Map<Integer, Truth> now = new HashMap<>();

  Facts(Rehearsal rehearsal) {
    this.rehearsal = rehearsal;
    names.addAll(COMMON);
    for (Terminal t : rehearsal.terminals()) {
      names.addAll(List.of(t.name(), released(t), weak(t), unwanted(t)));
    }
    for (Step step : rehearsal.steps()) {
      names.add(stepFact(step.name()));
      step.phases().stream()
          .map(Facts::phaseFact)
          .filter(f -> !names.contains(f))
          .forEach(names::add);
    }
    for (int i = 0; i < names.size(); i++) {
      index.put(names.get(i), i);
    }
  }

  static String released(Terminal t) {
    return "released " + t.name();
  }

  static String weak(Terminal t) {
    return "weak " + t.name();
  }

  static String unwanted(Terminal t) {
    return "unwanted " + t.name();
  }

  static String stepFact(String step) {
    return "step " + step;
  }

  static String phaseFact(String phase) {
    return "phase " + phase;
  }

  static String modeFact(Deed.Mode mode) {
    return "mode " + mode.name().toLowerCase(Locale.ROOT);
  }

  List<String> names() {
    return names;
  }

  RuleMonitor monitor(List<Rule> rules, double clockPpm) {
    return new RuleMonitor(rules, names, clockPpm);
  }

  /** What a terminal's change of level changes; leads are the terminals in order. */
  Map<Integer, Truth> level(LevelChange change) {
    Terminal t = rehearsal.terminals().get(change.lead());
    Level level = change.level();
    boolean known = level != Level.UNKNOWN;
    Map<String, Truth> values = new HashMap<>();
    values.put(t.name(), known ? Truth.of(t.called(level)) : Truth.UNKNOWN);
    values.put(released(t), known ? Truth.of(t.released(level)) : Truth.UNKNOWN);
    values.put(weak(t), known ? Truth.of(level == Level.WEAK) : Truth.UNKNOWN);
    return changed(values);
  }

  /**
   * What is the case from when a step has surely begun.
   *
   * @param power whether the control has its supply
   */
  Map<Integer, Truth> step(Step step, boolean power) {
    return changed(values(step, power));
  }

  /**
   * A step that may be in force.
   *
   * @param power whether the control has its supply then
   */
  record InForce(Step step, boolean power) {}

  /**
   * What is the case while the operator may or may not have acted: only what all steps that may be
   * in force have in common. A response to the next step's act is then no breach of the last step.
   */
  Map<Integer, Truth> between(List<InForce> possible) {
    Map<String, Truth> common = values(possible.get(0).step(), possible.get(0).power());
    for (InForce other : possible) {
      values(other.step(), other.power())
          .forEach(
              (fact, truth) -> {
                if (truth == Truth.FALSE) {
                  common.put(fact, Truth.FALSE);
                }
              });
    }
    return changed(common);
  }

  /** What the end of the rehearsal changes, or an attempt that is set aside, or its begin. */
  Map<Integer, Truth> noStep() {
    return changed(nothing());
  }

  private Map<String, Truth> values(Step step, boolean power) {
    Map<String, Truth> values = nothing();
    values.put(stepFact(step.name()), Truth.TRUE);
    values.put(modeFact(step.mode()), Truth.TRUE);
    values.put(POWER_OFF, Truth.of(!power));
    values.put(POWER_ON, Truth.of(power));
    values.put(REHEARSING, Truth.TRUE);
    step.phases().forEach(phase -> values.put(phaseFact(phase), Truth.TRUE));
    for (Terminal t : rehearsal.terminals()) {
      values.put(unwanted(t), Truth.of(step.unwanted(t)));
    }
    return values;
  }

  private Map<String, Truth> nothing() {
    Map<String, Truth> values = new HashMap<>();
    names.forEach(name -> values.put(name, Truth.FALSE));
    for (Terminal t : rehearsal.terminals()) {
      List.of(t.name(), released(t), weak(t)).forEach(values::remove);
    }
    return values;
  }

  private Map<Integer, Truth> changed(Map<String, Truth> values) {
    Map<Integer, Truth> changed = new TreeMap<>();
    for (Map.Entry<String, Truth> value : values.entrySet()) {
      int fact = index.getOrDefault(value.getKey(), -1);
      if (!value.getValue().equals(now.put(fact, value.getValue()))) {
        changed.put(fact, value.getValue());
      }
    }
    return changed;
  }

  /** Whether an expression holds with these levels; anything unknown does not. */
  static boolean holds(Expression expression, Rehearsal rehearsal, List<Level> levels) {
    if (expression instanceof Expression.Fact fact) {
      for (int i = 0; i < levels.size(); i++) {
        Terminal t = rehearsal.terminals().get(i);
        if (fact.name().equals(t.name())) {
          return t.called(levels.get(i));
        } else if (fact.name().equals(released(t))) {
          return t.released(levels.get(i));
        } else if (fact.name().equals(weak(t))) {
          return levels.get(i) == Level.WEAK;
        }
      }
      return fact.name().equals(REHEARSING);
    } else if (expression instanceof Expression.Not not) {
      return !levels.contains(Level.UNKNOWN) && !holds(not.operand(), rehearsal, levels);
    } else if (expression instanceof Expression.All all) {
      return all.operands().stream().allMatch(part -> holds(part, rehearsal, levels));
    } else if (expression instanceof Expression.Any any) {
      return any.operands().stream().anyMatch(part -> holds(part, rehearsal, levels));
    }
    throw new IllegalArgumentException("expression=" + expression);
  }
}
