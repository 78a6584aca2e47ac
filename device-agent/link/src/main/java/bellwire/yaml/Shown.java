package bellwire.yaml;

import java.util.Locale;

/**
 * A stranger's text as it may stand in a line for people. Characters that steer a terminal
 * (ECMA-48: C0, C1), break the line or turn its direction (Unicode UAX #9, explicit formatting) are
 * shown by their numbers.
 */
public final class Shown {
  private static final String CUT = "…";

  private Shown() {}

  /** Whether a character is shown by its number. */
  public static boolean steers(int character) {
    return Character.isISOControl(character)
        || character == '\u061C'
        || character == '\u200E'
        || character == '\u200F'
        || (character >= '\u2028' && character <= '\u202E')
        || (character >= '\u2066' && character <= '\u2069')
        || character == '\uFEFF'
        || (character >= Character.MIN_SURROGATE && character <= Character.MAX_SURROGATE);
  }

  /** The whole text. */
  public static String line(String text) {
    return text.codePoints().anyMatch(Shown::steers) ? escaped(text) : text;
  }

  /**
   * Cut where it is longer.
   *
   * @param most characters as shown
   */
  public static String line(String text, int most) {
    String shown = line(text.substring(0, Math.min(text.length(), most + 1)));
    if (shown.length() <= most) {
      return shown;
    }
    int end = Character.isHighSurrogate(shown.charAt(most - 1)) ? most - 1 : most;
    return shown.substring(0, end) + CUT;
  }

  private static String escaped(String text) {
    StringBuilder shown = new StringBuilder(text.length() + 16);
    text.codePoints().forEach(c -> append(shown, c));
    return shown.toString();
  }

  /** Adds one, by its number where it steers. */
  public static void append(StringBuilder shown, int character) {
    if (steers(character)) {
      shown.append(String.format(Locale.ROOT, "\\u%04x", character));
    } else {
      shown.appendCodePoint(character);
    }
  }
}
