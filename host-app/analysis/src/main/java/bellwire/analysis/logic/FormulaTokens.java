package bellwire.analysis.logic;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The words and signs of a formula's text. */
final class FormulaTokens {

  private static final int LONGEST = 20_000;
  private static final int MOST = 1000;

  private static final Pattern TOKEN =
      Pattern.compile(
          "(?<word>[A-Za-z][A-Za-z0-9_]*)"
              + "|(?<number>-?[0-9]{1,40}(\\.[0-9]{1,40})?([eE][+-]?[0-9]{1,3})?)"
              + "|\"(?<quoted>[^\"\\p{Cntrl}]*)\""
              + "|(?<sign><->|->|>=|<=|[!&|()\\[\\],<>])");

  enum Kind {
    WORD,
    NUMBER,
    QUOTED,
    SIGN,
    END
  }

  /**
   * @param position of its first character, from 1
   */
  record Token(Kind kind, String text, int position) {

    /** The text of a word, empty for all else. */
    String word() {
      return kind == Kind.WORD ? text : "";
    }

    boolean isSign(String sign) {
      return kind == Kind.SIGN && text.equals(sign);
    }

    String shown() {
      return kind == Kind.END ? "the end" : "'" + text + "'";
    }

    BadFormula bad(String problem, String remedy) {
      return new BadFormula(position, problem, remedy);
    }
  }

  private final List<Token> tokens = new ArrayList<>();
  private int next;

  FormulaTokens(String text) throws BadFormula {
    if (text.length() > LONGEST) {
      throw new BadFormula(1, "more than " + LONGEST + " characters", "split the formula");
    }
    Matcher matcher = TOKEN.matcher(text);
    int at = 0;
    for (; ; ) {
      while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
        at++;
      }
      if (at == text.length()) {
        break;
      }
      if (!matcher.find(at) || matcher.start() != at) {
        throw new BadFormula(
            at + 1,
            text.charAt(at) == '"'
                ? "the quotation mark is not closed"
                : "'" + Character.toString(text.codePointAt(at)) + "' has no meaning here",
            text.charAt(at) == '"'
                ? "add the second one"
                : "put names with other characters than letters and digits in quotation marks");
      }
      if (tokens.size() == MOST) {
        throw new BadFormula(at + 1, "more than " + MOST + " words and signs", "split the formula");
      }
      tokens.add(token(matcher, at + 1));
      at = matcher.end();
    }
    tokens.add(new Token(Kind.END, "", text.length() + 1));
  }

  private static Token token(Matcher matcher, int position) {
    for (Kind kind : new Kind[] {Kind.WORD, Kind.NUMBER, Kind.QUOTED, Kind.SIGN}) {
      String text = matcher.group(kind.name().toLowerCase(Locale.ROOT));
      if (text != null) {
        return new Token(kind, text, position);
      }
    }
    throw new IllegalStateException("position=" + position);
  }

  Token peek() {
    return tokens.get(next);
  }

  /** The end again and again, once there. */
  Token next() {
    Token token = tokens.get(next);
    if (next < tokens.size() - 1) {
      next++;
    }
    return token;
  }

  /** Takes the next token where it is one of these signs or words, none of them in quotes. */
  boolean take(String... either) {
    Token token = peek();
    if (token.kind() == Kind.SIGN || token.kind() == Kind.WORD) {
      for (String text : either) {
        if (token.text().equals(text)) {
          next();
          return true;
        }
      }
    }
    return false;
  }
}
