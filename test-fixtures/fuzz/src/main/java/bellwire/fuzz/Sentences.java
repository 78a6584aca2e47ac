package bellwire.fuzz;

import bellwire.yaml.Shown;
import org.jspecify.annotations.Nullable;

/**
 * What must hold of any refusal's words: short, in one piece, and nothing that steers a terminal.
 */
final class Sentences {
  private static final int MOST_CHARACTERS = 2500;

  private Sentences() {}

  static void check(@Nullable String words) {
    Finding.unless(words != null && !words.isBlank(), "refused without words");
    if (words == null) {
      return;
    }
    Finding.unless(words.length() <= MOST_CHARACTERS, "too many words: %s", words.length());
    for (int i = 0; i < words.length(); i++) {
      char c = words.charAt(i);
      Finding.unless(
          !Shown.steers(c) || Character.isSurrogate(c),
          "a control character in words: at=%s character=%04x",
          i,
          (int) c);
    }
  }
}
