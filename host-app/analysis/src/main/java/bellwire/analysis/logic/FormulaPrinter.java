package bellwire.analysis.logic;

import bellwire.analysis.logic.Formula.Atom;
import bellwire.analysis.logic.Formula.Connective;
import bellwire.analysis.logic.Formula.Constant;
import bellwire.analysis.logic.Formula.Edge;
import bellwire.analysis.logic.Formula.Joined;
import bellwire.analysis.logic.Formula.Not;
import bellwire.analysis.logic.Formula.Since;
import bellwire.analysis.logic.Formula.Threshold;
import bellwire.analysis.logic.Formula.Until;
import bellwire.analysis.logic.Formula.WeakUntil;
import bellwire.analysis.logic.Formula.Windowed;
import java.math.BigDecimal;
import java.util.Set;
import java.util.regex.Pattern;

/** Prints a formula with no more parentheses than reading it back needs. */
final class FormulaPrinter {

  /** Words of the notation: a signal of such a name is printed in quotation marks. */
  static final Set<String> RESERVED =
      Set.of(
          "G",
          "F",
          "H",
          "O",
          "U",
          "W",
          "S",
          "always",
          "eventually",
          "historically",
          "once",
          "until",
          "unless",
          "since",
          "rise",
          "fall",
          "not",
          "and",
          "or",
          "xor",
          "implies",
          "iff",
          "true",
          "false",
          "inf");

  static final Pattern PLAIN_NAME = Pattern.compile("[A-Za-z][A-Za-z0-9_]*");

  // How tightly each binds, loosest first.
  private static final int IFF = 0;
  private static final int IMPLIES = 1;
  private static final int OR = 2;
  private static final int AND = 3;
  private static final int UNTIL = 4;
  private static final int THRESHOLD = 5;
  private static final int UNARY = 6;

  private static final long[] UNIT_MICROS = {3_600_000_000L, 60_000_000L, 1_000_000L, 1000L, 1L};
  private static final String[] UNIT_NAMES = {"h", "min", "s", "ms", "us"};

  private FormulaPrinter() {}

  static String print(Formula formula) {
    StringBuilder out = new StringBuilder();
    append(out, formula, IFF);
    return out.toString();
  }

  private static void append(StringBuilder out, Formula formula, int atLeast) {
    boolean parentheses = binding(formula) < atLeast;
    if (parentheses) {
      out.append('(');
    }
    if (formula instanceof Constant constant) {
      out.append(constant.holds());
    } else if (formula instanceof Atom atom) {
      out.append(name(atom.signal()));
    } else if (formula instanceof Threshold t) {
      out.append(name(t.signal())).append(' ').append(t.relation().sign()).append(' ');
      out.append(number(t.limit()));
    } else if (formula instanceof Not not) {
      out.append('!');
      append(out, not.operand(), UNARY);
    } else if (formula instanceof Joined joined) {
      appendJoined(out, joined);
    } else if (formula instanceof Windowed windowed) {
      appendPrefix(
          out, windowed.quantifier().letter() + bounds(windowed.bounds()), windowed.operand());
    } else if (formula instanceof Until u) {
      appendInfix(out, u.left(), "U" + bounds(u.bounds()), u.right());
    } else if (formula instanceof WeakUntil u) {
      appendInfix(out, u.left(), "W" + bounds(u.bounds()), u.right());
    } else if (formula instanceof Since s) {
      appendInfix(out, s.left(), "S" + bounds(s.bounds()), s.right());
    } else if (formula instanceof Edge edge) {
      out.append(edge.rise() ? "rise(" : "fall(");
      append(out, edge.operand(), IFF);
      out.append(')');
    }
    if (parentheses) {
      out.append(')');
    }
  }

  private static void appendJoined(StringBuilder out, Joined joined) {
    int own = binding(joined);
    // The implication leans to the right, the others to the left.
    boolean right = joined.connective() == Connective.IMPLIES;
    append(out, joined.left(), right ? own + 1 : own);
    out.append(' ').append(joined.connective().sign()).append(' ');
    append(out, joined.right(), right ? own : own + 1);
  }

  private static void appendPrefix(StringBuilder out, String operator, Formula operand) {
    out.append(operator);
    if (binding(operand) >= UNARY) {
      out.append(' ');
    }
    append(out, operand, UNARY);
  }

  private static void appendInfix(StringBuilder out, Formula left, String operator, Formula right) {
    append(out, left, UNARY);
    out.append(' ').append(operator).append(' ');
    append(out, right, UNARY);
  }

  private static int binding(Formula formula) {
    if (formula instanceof Joined joined) {
      return switch (joined.connective()) {
        case IFF -> IFF;
        case IMPLIES -> IMPLIES;
        case OR, XOR -> OR;
        case AND -> AND;
      };
    }
    if (formula instanceof Threshold) {
      return THRESHOLD;
    }
    boolean infix =
        formula instanceof Until || formula instanceof WeakUntil || formula instanceof Since;
    return infix ? UNTIL : UNARY;
  }

  private static String name(String signal) {
    boolean plain = PLAIN_NAME.matcher(signal).matches() && !RESERVED.contains(signal);
    return plain ? signal : '"' + signal + '"';
  }

  private static String number(double limit) {
    boolean whole = limit == Math.rint(limit) && Math.abs(limit) < 1e15;
    return whole ? Long.toString((long) limit) : Double.toString(limit);
  }

  private static String bounds(Bounds bounds) {
    if (bounds.equals(Bounds.ALL)) {
      return "";
    }
    String to = bounds.bounded() ? duration(bounds.toMicros()) + "]" : "inf)";
    return "[" + duration(bounds.fromMicros()) + "," + to;
  }

  /** In the largest unit that divides it; in seconds with decimals where these are short. */
  private static String duration(long micros) {
    if (micros == 0) {
      return "0";
    }
    if (micros >= 1_000_000 && micros % 1000 == 0 && micros < 600_000_000) {
      return BigDecimal.valueOf(micros, 6).stripTrailingZeros().toPlainString() + " s";
    }
    for (int i = 0; i < UNIT_MICROS.length; i++) {
      if (micros % UNIT_MICROS[i] == 0) {
        return micros / UNIT_MICROS[i] + " " + UNIT_NAMES[i];
      }
    }
    throw new IllegalStateException("micros=" + micros);
  }
}
