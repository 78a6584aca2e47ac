package bellwire.app.cli;

import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Times since a vigil's start as people type them: '2:05' hours and minutes, '2:05:10'. */
final class VigilSince {
  private static final Pattern TYPED =
      Pattern.compile("([0-9]{1,4}):([0-5][0-9])(?::([0-5][0-9]))?");

  private VigilSince() {}

  /** Microseconds; empty for what is none. */
  static OptionalLong parse(String words) {
    Matcher typed = TYPED.matcher(words.strip());
    if (!typed.matches()) {
      return OptionalLong.empty();
    }
    long seconds = typed.group(3) == null ? 0 : Long.parseLong(typed.group(3));
    long minutes = 60 * Long.parseLong(typed.group(1)) + Long.parseLong(typed.group(2));
    return OptionalLong.of(1_000_000 * (60 * minutes + seconds));
  }
}
