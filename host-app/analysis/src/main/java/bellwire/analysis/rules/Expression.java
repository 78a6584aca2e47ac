package bellwire.analysis.rules;

import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;

/** A statement about facts at one moment. {@code toString} prints what {@link #parse} reads. */
public sealed interface Expression {

  /** A fact by its name: words separated by single spaces. */
  record Fact(String name) implements Expression {
    public Fact {
      if (name.isBlank() || name.contains("\"")) {
        throw new IllegalArgumentException("name=" + name);
      }
    }

    @Override
    public String toString() {
      return ExpressionParser.isPlain(name) ? name : '"' + name + '"';
    }
  }

  record Not(Expression operand) implements Expression {
    @Override
    public String toString() {
      return "not " + inner(operand);
    }
  }

  /** True when all are; with none, true. */
  record All(List<Expression> operands) implements Expression {
    public All {
      operands = List.copyOf(operands);
    }

    @Override
    public String toString() {
      return join(operands, " and ", "always");
    }
  }

  /** True when at least one is; with none, false. */
  record Any(List<Expression> operands) implements Expression {
    public Any {
      operands = List.copyOf(operands);
    }

    @Override
    public String toString() {
      return join(operands, " or ", "never");
    }
  }

  /**
   * Reads {@code or}, {@code and}, {@code not} (binding tighter in this order), parentheses, facts,
   * and facts of odd names in double quotation marks.
   *
   * @param known the facts there are
   */
  static Expression parse(String text, Collection<String> known) throws BadExpression {
    return new ExpressionParser(text, known).parse();
  }

  /** The facts it reads, in the order in which they come. */
  default Set<String> facts() {
    Set<String> facts = new LinkedHashSet<>();
    if (this instanceof Fact fact) {
      facts.add(fact.name());
    }
    operandList().forEach(e -> facts.addAll(e.facts()));
    return facts;
  }

  /**
   * In three values after Kleene: UNKNOWN also where the facts' dependence would decide it, as in
   * {@code W1 or not W1}.
   */
  default Truth evaluate(Function<String, Truth> facts) {
    if (this instanceof Fact fact) {
      return facts.apply(fact.name());
    } else if (this instanceof Not not) {
      return not.operand().evaluate(facts).not();
    }
    Truth decisive = Truth.of(this instanceof Any);
    Truth result = decisive.not();
    for (Expression operand : operandList()) {
      Truth value = operand.evaluate(facts);
      if (value == decisive) {
        return decisive;
      }
      result = value == Truth.UNKNOWN ? value : result;
    }
    return result;
  }

  /** The same with each fact replaced, such as one that stands for several by what it means. */
  default Expression replace(Function<Fact, Expression> by) {
    if (this instanceof Fact fact) {
      return by.apply(fact);
    } else if (this instanceof Not not) {
      return new Not(not.operand().replace(by));
    }
    List<Expression> replaced = operandList().stream().map(e -> e.replace(by)).toList();
    return this instanceof All ? new All(replaced) : new Any(replaced);
  }

  private List<Expression> operandList() {
    if (this instanceof Not not) {
      return List.of(not.operand());
    } else if (this instanceof All all) {
      return all.operands();
    }
    return this instanceof Any any ? any.operands() : List.of();
  }

  private static String join(List<Expression> operands, String word, String none) {
    if (operands.isEmpty()) {
      return none;
    }
    return operands.stream().map(Expression::inner).collect(Collectors.joining(word));
  }

  private static String inner(Expression e) {
    boolean compound =
        e instanceof All all && all.operands().size() > 1
            || e instanceof Any any && any.operands().size() > 1;
    return compound ? "(" + e + ")" : e.toString();
  }
}
