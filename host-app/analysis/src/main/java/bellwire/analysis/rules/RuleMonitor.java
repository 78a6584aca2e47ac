package bellwire.analysis.rules;

import java.util.List;
import java.util.Map;

/**
 * Follows facts as they change and tells which rules are kept. The trace begins at the earliest
 * moment of the first change that is told; a fact is UNKNOWN until it is told. Not thread safe.
 */
public final class RuleMonitor {
  private final List<Rule> rules;

  /**
   * @param facts the names of all facts that the rules read, in the order of their indices
   * @param clockPpm how far the device's clock may be off, in parts per million
   */
  public RuleMonitor(List<Rule> rules, List<String> facts, double clockPpm) {
    this.rules = List.copyOf(rules);
    for (Rule rule : rules) {
      if (!facts.containsAll(rule.facts())) {
        throw new IllegalArgumentException("rule=" + rule.name() + " facts=" + facts);
      }
    }
    if (!(clockPpm >= 0 && clockPpm < 100_000)) {
      throw new IllegalArgumentException("clockPpm=" + clockPpm);
    }
  }

  /**
   * A fact changes once, at a moment between two device times. From UNKNOWN on anything may happen
   * to it until its next change.
   */
  public void change(int fact, Truth truth, long earliestMicros, long latestMicros) {
    change(Map.of(fact, truth), earliestMicros, latestMicros);
  }

  /**
   * Several facts change at one and the same moment, such as {@code W1} and {@code released W1}.
   */
  public void change(Map<Integer, Truth> facts, long earliestMicros, long latestMicros) {
    if (earliestMicros > latestMicros) {
      throw new IllegalArgumentException(
          "facts=" + facts + " earliestMicros=" + earliestMicros + " latestMicros=" + latestMicros);
    }
  }

  /** No change with an earlier earliest moment comes any more. */
  public void advance(long micros) {}

  /** The verdicts if the trace ended now; in the order of the rules. */
  public List<Ruling> rulings() {
    return rules.stream().map(r -> new Ruling(r, Verdict.UNDECIDED, 0, null, List.of())).toList();
  }

  /** The verdicts at the trace's end; an edge that may lie after it still counts. */
  public List<Ruling> finish(long micros) {
    return rulings();
  }
}
