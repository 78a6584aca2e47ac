package bellwire.fuzz;

import java.util.Locale;

/** Something that must hold does not. */
final class Finding extends AssertionError {
  private static final long serialVersionUID = 1;

  private Finding(String words) {
    super(words);
  }

  /** The words are put together only where they are needed. */
  static void unless(boolean holds, String words, Object... arguments) {
    if (!holds) {
      throw new Finding(String.format(Locale.ROOT, words, arguments));
    }
  }
}
