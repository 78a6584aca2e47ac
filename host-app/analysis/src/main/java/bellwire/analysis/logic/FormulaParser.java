package bellwire.analysis.logic;

import bellwire.analysis.logic.Formula.Connective;
import bellwire.analysis.logic.Formula.Joined;
import bellwire.analysis.logic.Formula.Quantifier;
import bellwire.analysis.logic.Formula.Relation;
import bellwire.analysis.logic.Formula.Windowed;
import bellwire.analysis.logic.FormulaTokens.Kind;
import bellwire.analysis.logic.FormulaTokens.Token;
import java.math.BigDecimal;
import java.util.Map;

/**
 * Reads a formula in plain words or in the usual letters; docs/temporal-logic.md has the notation.
 */
public final class FormulaParser {

  private static final int DEEPEST = 100;

  private static final Map<String, Quantifier> QUANTIFIERS =
      Map.of(
          "G", Quantifier.ALWAYS,
          "always", Quantifier.ALWAYS,
          "F", Quantifier.EVENTUALLY,
          "eventually", Quantifier.EVENTUALLY,
          "H", Quantifier.HISTORICALLY,
          "historically", Quantifier.HISTORICALLY,
          "O", Quantifier.ONCE,
          "once", Quantifier.ONCE);

  private static final Map<String, String> INFIX =
      Map.of("U", "U", "until", "U", "W", "W", "unless", "W", "S", "S", "since", "S");

  private static final Map<String, Long> UNIT_MICROS =
      Map.of("us", 1L, "ms", 1000L, "s", 1_000_000L, "min", 60_000_000L, "h", 3_600_000_000L);

  private final FormulaTokens tokens;
  private int depth;

  private FormulaParser(String text) throws BadFormula {
    tokens = new FormulaTokens(text);
  }

  /**
   * @throws BadFormula where the text is none
   */
  public static Formula parse(String text) throws BadFormula {
    FormulaParser parser = new FormulaParser(text);
    Formula formula = parser.iff();
    Token rest = parser.tokens.next();
    if (rest.kind() != Kind.END) {
      throw rest.bad(
          "the formula is complete before " + rest.shown(),
          "join the parts by and, or, ->, or put parentheses");
    }
    return formula;
  }

  private Formula iff() throws BadFormula {
    deeper();
    Formula left = implies();
    while (tokens.take("<->", "iff")) {
      left = Formula.iff(left, implies());
    }
    depth--;
    return left;
  }

  private void deeper() throws BadFormula {
    if (++depth > DEEPEST) {
      throw tokens.peek().bad("nested more than " + DEEPEST + " deep", "split the formula");
    }
  }

  private Formula implies() throws BadFormula {
    Formula left = or();
    if (!tokens.take("->", "implies")) {
      return left;
    }
    deeper();
    Formula right = implies();
    depth--;
    return Formula.implies(left, right);
  }

  private Formula or() throws BadFormula {
    Formula left = and();
    for (; ; ) {
      if (tokens.take("|", "or")) {
        left = Formula.or(left, and());
      } else if (tokens.take("xor")) {
        left = new Joined(Connective.XOR, left, and());
      } else {
        return left;
      }
    }
  }

  private Formula and() throws BadFormula {
    Formula left = until();
    while (tokens.take("&", "and")) {
      left = Formula.and(left, until());
    }
    return left;
  }

  private Formula until() throws BadFormula {
    Formula left = unary();
    String operator = INFIX.get(tokens.peek().word());
    if (operator == null) {
      return left;
    }
    tokens.next();
    Bounds bounds = bounds();
    Formula right = unary();
    Token after = tokens.peek();
    if (INFIX.containsKey(after.word())) {
      throw after.bad(
          "two of until, unless, since in a row", "put parentheses around the part meant first");
    }
    return switch (operator) {
      case "U" -> Formula.until(left, bounds, right);
      case "W" -> Formula.weakUntil(left, bounds, right);
      default -> Formula.since(left, bounds, right);
    };
  }

  private Formula unary() throws BadFormula {
    Token first = tokens.peek();
    deeper();
    Formula result;
    if (tokens.take("!", "not")) {
      result = Formula.not(unary());
    } else if (QUANTIFIERS.containsKey(first.word())) {
      tokens.next();
      result = quantified(first);
    } else {
      result = primary(tokens.next());
    }
    depth--;
    return result;
  }

  private Formula quantified(Token operator) throws BadFormula {
    Bounds bounds = bounds();
    Token after = tokens.peek();
    if (after.kind() == Kind.END || after.isSign(")")) {
      throw operator.bad(
          "nothing follows " + operator.shown(),
          "write what it is said of, or \"" + operator.text() + "\" where a signal is meant");
    }
    return new Windowed(quantifier(operator), bounds, unary());
  }

  private static Quantifier quantifier(Token operator) {
    Quantifier quantifier = QUANTIFIERS.get(operator.word());
    if (quantifier == null) {
      throw new IllegalArgumentException("operator=" + operator.text());
    }
    return quantifier;
  }

  private Formula primary(Token token) throws BadFormula {
    if (token.isSign("(")) {
      return closed(token);
    }
    switch (token.word()) {
      case "true", "false" -> {
        return Formula.constant(token.word().equals("true"));
      }
      case "rise", "fall" -> {
        Token open = tokens.next();
        if (!open.isSign("(")) {
          throw open.bad("no ( after " + token.text(), "write " + token.text() + "(...)");
        }
        Formula operand = closed(open);
        return token.word().equals("rise") ? Formula.rise(operand) : Formula.fall(operand);
      }
      default -> {
        return signal(token);
      }
    }
  }

  private Formula closed(Token open) throws BadFormula {
    Formula inside = iff();
    if (!tokens.next().isSign(")")) {
      throw open.bad("this ( is not closed", "add the ) that belongs to it");
    }
    return inside;
  }

  private Formula signal(Token token) throws BadFormula {
    boolean quoted = token.kind() == Kind.QUOTED;
    if (!quoted && (token.word().isEmpty() || FormulaPrinter.RESERVED.contains(token.word()))) {
      throw token.bad(
          "a signal or ( is expected, not " + token.shown(),
          "write a signal's name, in quotation marks where it is a word of the notation");
    }
    if (quoted && token.text().isBlank()) {
      throw token.bad("the name is empty", "write a signal's name");
    }
    for (Relation relation : Relation.values()) {
      if (tokens.take(relation.sign())) {
        Token limit = tokens.next();
        if (limit.kind() != Kind.NUMBER || !Double.isFinite(Double.parseDouble(limit.text()))) {
          throw limit.bad("no number after " + relation.sign(), "write the limit, as in x >= 3.5");
        }
        return Formula.threshold(token.text(), relation, Double.parseDouble(limit.text()));
      }
    }
    return Formula.atom(token.text());
  }

  private Bounds bounds() throws BadFormula {
    Token open = tokens.peek();
    if (!tokens.take("[")) {
      return Bounds.ALL;
    }
    Token from = tokens.next();
    String fromUnit = unit();
    if (!tokens.take(",")) {
      throw tokens.peek().bad("the bounds lack their comma", "write them as in [0,2 s]");
    }
    Token to = tokens.next();
    if (to.word().equals("inf")) {
      close(open, true);
      return checked(open, micros(from, fromUnit), Bounds.UNBOUNDED);
    }
    String toUnit = unit();
    close(open, false);
    return checked(open, micros(from, fromUnit.isEmpty() ? toUnit : fromUnit), micros(to, toUnit));
  }

  private void close(Token open, boolean unbounded) throws BadFormula {
    if (!tokens.take("]") && !(unbounded && tokens.take(")"))) {
      throw open.bad("the bounds are not closed", "write them as in [0,2 s] or [5 s,inf)");
    }
  }

  private String unit() throws BadFormula {
    Token token = tokens.peek();
    if (UNIT_MICROS.containsKey(token.word())) {
      return tokens.next().word();
    }
    return "";
  }

  private static long micros(Token number, String unit) throws BadFormula {
    if (number.kind() != Kind.NUMBER) {
      throw number.bad("a time is expected, not " + number.shown(), "write bounds as in [0,2 s]");
    }
    BigDecimal value = new BigDecimal(number.text());
    if (value.signum() < 0) {
      throw number.bad("a bound is negative", "use a past operator: once, historically, since");
    }
    Long unitMicros = UNIT_MICROS.get(unit);
    if (unitMicros == null) {
      if (value.signum() == 0) {
        return 0;
      }
      throw number.bad("the bound has no unit", "add one: us, ms, s, min or h");
    }
    BigDecimal micros = value.multiply(BigDecimal.valueOf(unitMicros)).stripTrailingZeros();
    if (micros.compareTo(BigDecimal.valueOf(Bounds.LONGEST_MICROS)) > 0) {
      throw number.bad("the bound is longer than 31 years", "leave it out or write inf");
    }
    if (micros.scale() > 0) {
      throw number.bad("the bound is no whole number of microseconds", "round it to one");
    }
    return micros.longValueExact();
  }

  private static Bounds checked(Token open, long from, long to) throws BadFormula {
    if (to < from) {
      throw open.bad("the bounds are the wrong way round", "write the nearer one first");
    }
    return new Bounds(from, to);
  }
}
