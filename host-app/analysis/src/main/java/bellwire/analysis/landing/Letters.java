package bellwire.analysis.landing;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Terminal letters of the trade and what they stand for: common practice, no source. */
final class Letters {
  private Letters() {}

  /** The letter that another is a spelling of: RC and RH are R, W1 is W, Y1 is Y. */
  static String plain(String terminal) {
    String letter = terminal.strip().toUpperCase(Locale.ROOT);
    return switch (letter) {
      case "RC", "RH" -> "R";
      case "W1" -> "W";
      case "Y1" -> "Y";
      case "O/B" -> "O";
      case "AUX" -> "W2";
      default -> letter;
    };
  }

  /**
   * Whether a conductor that was under a terminal of the old control keeps its role under one of
   * the new: the same letter, or, where the new control has no such letter, one that stands for the
   * same.
   */
  static boolean keeps(@Nullable String old, @Nullable String now, List<String> terminals) {
    if (old == null || now == null) {
      return old == null && now == null;
    }
    if (old.equals(now)) {
      return true;
    }
    boolean valve = now.equals("O/B") && (old.equals("O") || old.equals("B"));
    return !terminals.contains(old) && (valve || plain(old).equals(plain(now)));
  }
}
