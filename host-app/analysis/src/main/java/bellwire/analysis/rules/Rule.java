package bellwire.analysis.rules;

import java.util.LinkedHashSet;
import java.util.Set;

/**
 * What a control must do.
 *
 * @param name short, such as {@code compressor-rest}
 * @param says the same in a sentence, for people
 */
public record Rule(String name, String says, Pattern pattern, Scope scope) {

  /** The facts that it reads. */
  public Set<String> facts() {
    Set<String> facts = new LinkedHashSet<>();
    pattern.expressions().forEach(e -> facts.addAll(e.facts()));
    scope.expressions().forEach(e -> facts.addAll(e.facts()));
    return facts;
  }
}
