package bellwire.hardware;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A part's value: a number, or a name under {@code values:} of {@code sensing-board-a.yaml}, or one
 * of either, an operator, and another.
 */
public record ValueExpression(String text) {
  private static final Pattern SHAPE = Pattern.compile("(\\S+)(?: ([-+*/]) (\\S+))?");
  private static final Pattern NUMBER = Pattern.compile("[-+]?[0-9.]+(?:[eE][-+]?[0-9]+)?");

  public ValueExpression {
    if (!SHAPE.matcher(text).matches()) {
      throw new IllegalArgumentException("value=" + text);
    }
  }

  /**
   * @param named gives a named value
   */
  public double of(ToDoubleFunction<String> named) {
    Matcher shape = match();
    double left = term(shape.group(1), named);
    if (shape.group(2) == null) {
      return left;
    }
    double right = term(shape.group(3), named);
    return switch (shape.group(2)) {
      case "+" -> left + right;
      case "-" -> left - right;
      case "*" -> left * right;
      default -> left / right;
    };
  }

  /** The names of {@code sensing-board-a.yaml} in it. */
  public List<String> names() {
    Matcher shape = match();
    List<String> names = new ArrayList<>();
    for (String term : new String[] {shape.group(1), shape.group(3)}) {
      if (term != null && !NUMBER.matcher(term).matches()) {
        names.add(term);
      }
    }
    return names;
  }

  private Matcher match() {
    Matcher shape = SHAPE.matcher(text);
    if (!shape.matches()) {
      throw new IllegalStateException("value=" + text);
    }
    return shape;
  }

  private static double term(String term, ToDoubleFunction<String> named) {
    return NUMBER.matcher(term).matches() ? Double.parseDouble(term) : named.applyAsDouble(term);
  }
}
