package bellwire.analysis.rules;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;

/** Recursive descent over words, quoted words and parentheses. */
final class ExpressionParser {
  private static final Set<String> OPERATORS = Set.of("and", "or", "not");
  private static final int DEEPEST = 50;
  private static final int LONGEST = 2000;

  private record Token(String text, boolean quoted, int position) {
    boolean is(String word) {
      return !quoted && text.equals(word);
    }

    boolean isName() {
      return quoted || !(OPERATORS.contains(text) || text.equals("(") || text.equals(")"));
    }
  }

  private final String text;
  private final Set<String> known;
  private final List<Token> tokens = new ArrayList<>();
  private int next;
  private int depth;

  ExpressionParser(String text, Collection<String> known) {
    this.text = text;
    this.known = new TreeSet<>(known);
  }

  /** Whether a fact's name reads back without quotation marks. */
  static boolean isPlain(String name) {
    for (String word : name.split(" ", -1)) {
      if (word.isEmpty()
          || OPERATORS.contains(word.toLowerCase(Locale.ROOT))
          || word.chars().anyMatch(c -> c == '(' || c == ')' || Character.isWhitespace(c))) {
        return false;
      }
    }
    return true;
  }

  Expression parse() throws BadExpression {
    if (text.length() > LONGEST) {
      throw new BadExpression(LONGEST, "too long", "at most " + LONGEST + " characters");
    }
    tokenize();
    if (tokens.isEmpty()) {
      throw new BadExpression(0, "nothing stands here", "write a fact, such as " + example());
    }
    Expression result = any();
    if (next < tokens.size()) {
      Token token = tokens.get(next);
      String remedy = token.is(")") ? "take it out, or open it" : "join the two by 'and' or 'or'";
      throw new BadExpression(token.position, "'" + token.text + "' is one too many", remedy);
    }
    return result;
  }

  private void tokenize() throws BadExpression {
    int at = 0;
    while (at < text.length()) {
      char c = text.charAt(at);
      int end = at + 1;
      if (c == '"') {
        end = text.indexOf('"', at + 1);
        if (end < 0) {
          throw new BadExpression(at, "a quotation mark is not closed", "put another after it");
        }
        tokens.add(new Token(text.substring(at + 1, end), true, at));
        end++;
      } else if (c == '(' || c == ')') {
        tokens.add(new Token(String.valueOf(c), false, at));
      } else if (!Character.isWhitespace(c)) {
        while (end < text.length() && !endsWord(text.charAt(end))) {
          end++;
        }
        String word = text.substring(at, end);
        String lower = word.toLowerCase(Locale.ROOT);
        tokens.add(new Token(OPERATORS.contains(lower) ? lower : word, false, at));
      }
      at = end;
    }
  }

  private static boolean endsWord(char c) {
    return Character.isWhitespace(c) || c == '(' || c == ')' || c == '"';
  }

  private Expression any() throws BadExpression {
    List<Expression> operands = new ArrayList<>();
    do {
      operands.add(all());
    } while (accept("or"));
    return operands.size() == 1 ? operands.get(0) : new Expression.Any(operands);
  }

  private Expression all() throws BadExpression {
    List<Expression> operands = new ArrayList<>();
    do {
      operands.add(unary());
    } while (accept("and"));
    return operands.size() == 1 ? operands.get(0) : new Expression.All(operands);
  }

  private Expression unary() throws BadExpression {
    if (++depth > DEEPEST) {
      throw new BadExpression(
          position(), "too many parentheses and 'not'", "at most " + DEEPEST + " within another");
    }
    Expression result;
    if (accept("not")) {
      result = new Expression.Not(unary());
    } else if (accept("(")) {
      int opened = tokens.get(next - 1).position;
      result = any();
      if (next == tokens.size()) {
        throw new BadExpression(opened, "a parenthesis is not closed", "put ')' after it");
      }
      if (!accept(")")) {
        throw new BadExpression(
            position(),
            "'" + tokens.get(next).text + "' follows a fact",
            "join the two by 'and' or 'or'");
      }
    } else {
      result = fact();
    }
    depth--;
    return result;
  }

  private Expression fact() throws BadExpression {
    int from = next;
    while (next < tokens.size() && tokens.get(next).isName()) {
      next++;
    }
    if (next == from) {
      String before = from == 0 ? "at the beginning" : "after '" + tokens.get(from - 1).text + "'";
      throw new BadExpression(
          position(), "a fact is missing " + before, "write one, such as " + example());
    }
    String name = name(from, next);
    if (!known.contains(name)) {
      throw unknown(from, next);
    }
    return new Expression.Fact(name);
  }

  private String name(int from, int to) {
    return String.join(" ", tokens.subList(from, to).stream().map(Token::text).toList());
  }

  private BadExpression unknown(int from, int to) {
    int position = tokens.get(from).position;
    for (int split = from + 1; split < to; split++) {
      if (known.contains(name(from, split)) && known.contains(name(split, to))) {
        return new BadExpression(
            tokens.get(split).position,
            "two facts stand side by side",
            "did you mean '" + name(from, split) + " and " + name(split, to) + "'?");
      }
    }
    String name = name(from, to);
    String nearest = Spelling.nearest(name, known);
    return new BadExpression(
        position,
        "there is no fact '" + name + "'",
        nearest != null ? "did you mean '" + nearest + "'?" : "there are: " + listed());
  }

  private String listed() {
    List<String> names = new ArrayList<>(known);
    return names.size() <= 12
        ? String.join(", ", names)
        : String.join(", ", names.subList(0, 12)) + " and " + (names.size() - 12) + " more";
  }

  private String example() {
    return known.isEmpty() ? "W1" : known.iterator().next();
  }

  private boolean accept(String word) {
    if (next < tokens.size() && tokens.get(next).is(word)) {
      next++;
      return true;
    }
    return false;
  }

  private int position() {
    return next < tokens.size() ? tokens.get(next).position : text.length();
  }
}
