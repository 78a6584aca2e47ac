package bellwire.analysis.rules;

import java.util.List;

/**
 * Rules that go together badly.
 *
 * @param rules the names of those concerned
 * @param reason in words, for people
 * @param warning true if the rules can be kept, but one of them says nothing
 */
public record Contradiction(List<String> rules, String reason, boolean warning) {
  public Contradiction {
    rules = List.copyOf(rules);
  }
}
