package bellwire.analysis.logic;

import java.util.List;
import java.util.Set;
import java.util.TreeSet;

/**
 * A formula of signal temporal logic (Maler and Nickovic, 2004), with past operators.
 * docs/temporal-logic.md defines what each one means. {@code toString} prints the usual notation,
 * {@link FormulaParser} reads it back.
 */
public sealed interface Formula {

  /** True or false at every moment. */
  record Constant(boolean holds) implements Formula {
    @Override
    public String toString() {
      return FormulaPrinter.print(this);
    }
  }

  /** A Boolean signal by its name, which may be any text without control characters. */
  record Atom(String signal) implements Formula {
    public Atom {
      requireName(signal);
    }

    @Override
    public String toString() {
      return FormulaPrinter.print(this);
    }
  }

  /** How a real signal is held against a limit. The margin is the distance to the limit. */
  enum Relation {
    AT_LEAST(">="),
    ABOVE(">"),
    AT_MOST("<="),
    BELOW("<");

    private final String sign;

    Relation(String sign) {
      this.sign = sign;
    }

    public String sign() {
      return sign;
    }

    /** Whether greater values lie on the side that holds. */
    public boolean upward() {
      return this == AT_LEAST || this == ABOVE;
    }
  }

  /** A real signal against a finite limit. */
  record Threshold(String signal, Relation relation, double limit) implements Formula {
    public Threshold {
      requireName(signal);
      if (!Double.isFinite(limit)) {
        throw new IllegalArgumentException("limit=" + limit);
      }
    }

    @Override
    public String toString() {
      return FormulaPrinter.print(this);
    }
  }

  record Not(Formula operand) implements Formula {
    @Override
    public String toString() {
      return FormulaPrinter.print(this);
    }
  }

  /** The connectives of two formulas. */
  enum Connective {
    AND("&"),
    OR("|"),
    IMPLIES("->"),
    IFF("<->"),
    XOR("xor");

    private final String sign;

    Connective(String sign) {
      this.sign = sign;
    }

    public String sign() {
      return sign;
    }
  }

  record Joined(Connective connective, Formula left, Formula right) implements Formula {
    @Override
    public String toString() {
      return FormulaPrinter.print(this);
    }
  }

  /** The operators that look through a window of time. */
  enum Quantifier {
    ALWAYS("G", true, true),
    EVENTUALLY("F", false, true),
    HISTORICALLY("H", true, false),
    ONCE("O", false, false);

    private final String letter;
    private final boolean every;
    private final boolean future;

    Quantifier(String letter, boolean every, boolean future) {
      this.letter = letter;
      this.every = every;
      this.future = future;
    }

    public String letter() {
      return letter;
    }

    /** Whether every moment of the window must hold, not just one. */
    public boolean every() {
      return every;
    }

    public boolean future() {
      return future;
    }
  }

  record Windowed(Quantifier quantifier, Bounds bounds, Formula operand) implements Formula {
    @Override
    public String toString() {
      return FormulaPrinter.print(this);
    }
  }

  /** {@code right} comes within the bounds, and {@code left} holds until then. */
  record Until(Formula left, Bounds bounds, Formula right) implements Formula {
    @Override
    public String toString() {
      return FormulaPrinter.print(this);
    }
  }

  /** Until, or {@code left} holds as far as the bounds reach and {@code right} need not come. */
  record WeakUntil(Formula left, Bounds bounds, Formula right) implements Formula {
    @Override
    public String toString() {
      return FormulaPrinter.print(this);
    }
  }

  /** {@code right} was the case within the bounds, and {@code left} has held after it. */
  record Since(Formula left, Bounds bounds, Formula right) implements Formula {
    @Override
    public String toString() {
      return FormulaPrinter.print(this);
    }
  }

  /** The moment at which {@code operand} becomes true, or with {@code rise} false, false. */
  record Edge(boolean rise, Formula operand) implements Formula {
    @Override
    public String toString() {
      return FormulaPrinter.print(this);
    }
  }

  static Formula constant(boolean holds) {
    return new Constant(holds);
  }

  static Formula atom(String signal) {
    return new Atom(signal);
  }

  static Formula threshold(String signal, Relation relation, double limit) {
    return new Threshold(signal, relation, limit);
  }

  static Formula not(Formula operand) {
    return new Not(operand);
  }

  static Formula and(Formula left, Formula right) {
    return new Joined(Connective.AND, left, right);
  }

  /** All of them; true where there are none. */
  static Formula all(List<? extends Formula> formulas) {
    return fold(Connective.AND, formulas, true);
  }

  static Formula or(Formula left, Formula right) {
    return new Joined(Connective.OR, left, right);
  }

  /** At least one of them; false where there are none. */
  static Formula any(List<? extends Formula> formulas) {
    return fold(Connective.OR, formulas, false);
  }

  static Formula implies(Formula left, Formula right) {
    return new Joined(Connective.IMPLIES, left, right);
  }

  static Formula iff(Formula left, Formula right) {
    return new Joined(Connective.IFF, left, right);
  }

  static Formula xor(Formula left, Formula right) {
    return new Joined(Connective.XOR, left, right);
  }

  static Formula always(Formula operand) {
    return always(Bounds.ALL, operand);
  }

  static Formula always(Bounds bounds, Formula operand) {
    return new Windowed(Quantifier.ALWAYS, bounds, operand);
  }

  static Formula eventually(Formula operand) {
    return eventually(Bounds.ALL, operand);
  }

  static Formula eventually(Bounds bounds, Formula operand) {
    return new Windowed(Quantifier.EVENTUALLY, bounds, operand);
  }

  static Formula historically(Formula operand) {
    return historically(Bounds.ALL, operand);
  }

  static Formula historically(Bounds bounds, Formula operand) {
    return new Windowed(Quantifier.HISTORICALLY, bounds, operand);
  }

  static Formula once(Formula operand) {
    return once(Bounds.ALL, operand);
  }

  static Formula once(Bounds bounds, Formula operand) {
    return new Windowed(Quantifier.ONCE, bounds, operand);
  }

  static Formula until(Formula left, Formula right) {
    return until(left, Bounds.ALL, right);
  }

  static Formula until(Formula left, Bounds bounds, Formula right) {
    return new Until(left, bounds, right);
  }

  static Formula weakUntil(Formula left, Formula right) {
    return weakUntil(left, Bounds.ALL, right);
  }

  static Formula weakUntil(Formula left, Bounds bounds, Formula right) {
    return new WeakUntil(left, bounds, right);
  }

  static Formula since(Formula left, Formula right) {
    return since(left, Bounds.ALL, right);
  }

  static Formula since(Formula left, Bounds bounds, Formula right) {
    return new Since(left, bounds, right);
  }

  static Formula rise(Formula operand) {
    return new Edge(true, operand);
  }

  static Formula fall(Formula operand) {
    return new Edge(false, operand);
  }

  /** The formulas directly inside this one, left to right. */
  default List<Formula> operands() {
    if (this instanceof Not not) {
      return List.of(not.operand());
    } else if (this instanceof Joined joined) {
      return List.of(joined.left(), joined.right());
    } else if (this instanceof Windowed windowed) {
      return List.of(windowed.operand());
    } else if (this instanceof Until until) {
      return List.of(until.left(), until.right());
    } else if (this instanceof WeakUntil until) {
      return List.of(until.left(), until.right());
    } else if (this instanceof Since since) {
      return List.of(since.left(), since.right());
    } else if (this instanceof Edge edge) {
      return List.of(edge.operand());
    }
    return List.of();
  }

  /** The names of the signals it reads, sorted. */
  default Set<String> signals() {
    Set<String> names = new TreeSet<>();
    if (this instanceof Atom atom) {
      names.add(atom.signal());
    } else if (this instanceof Threshold threshold) {
      names.add(threshold.signal());
    }
    for (Formula operand : operands()) {
      names.addAll(operand.signals());
    }
    return names;
  }

  private static Formula fold(
      Connective connective, List<? extends Formula> formulas, boolean none) {
    if (formulas.isEmpty()) {
      return constant(none);
    }
    Formula result = formulas.get(0);
    for (Formula next : formulas.subList(1, formulas.size())) {
      result = new Joined(connective, result, next);
    }
    return result;
  }

  private static void requireName(String signal) {
    if (signal.isBlank() || signal.chars().anyMatch(c -> Character.isISOControl(c) || c == '"')) {
      throw new IllegalArgumentException("signal=" + signal);
    }
  }
}
