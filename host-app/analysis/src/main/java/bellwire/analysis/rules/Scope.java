package bellwire.analysis.rules;

import java.util.List;

/** When a rule is in force (Dwyer, Avrunin and Corbett, 1999). */
public sealed interface Scope {

  /** Over the whole trace. */
  record Globally() implements Scope {}

  /** In each stretch of {@code during} by itself. */
  record While(Expression during) implements Scope {}

  /** From when {@code event} is first the case, for good. */
  record After(Expression event) implements Scope {}

  /** Until {@code event} is first the case, or to the end if it never is. */
  record Before(Expression event) implements Scope {}

  default List<Expression> expressions() {
    if (this instanceof While s) {
      return List.of(s.during());
    } else if (this instanceof After s) {
      return List.of(s.event());
    } else if (this instanceof Before s) {
      return List.of(s.event());
    }
    return List.of();
  }
}
