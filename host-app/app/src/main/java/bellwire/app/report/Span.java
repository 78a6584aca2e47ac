package bellwire.app.report;

import java.util.Locale;
import java.util.OptionalLong;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Lengths of time as people type them: '8 h', '90min', '2 d'. */
public final class Span {
  private static final Pattern TYPED = Pattern.compile("([0-9]+(?:\\.[0-9]+)?) ?(s|min|h|d)");

  private Span() {}

  /** Microseconds, 1 s or more; empty for what is none, or longer than the longest. */
  public static OptionalLong parse(String words, long mostMicros) {
    Matcher typed = TYPED.matcher(words.strip().toLowerCase(Locale.ROOT));
    if (!typed.matches()) {
      return OptionalLong.empty();
    }
    double seconds =
        switch (typed.group(2)) {
          case "s" -> 1;
          case "min" -> 60;
          case "h" -> 3600;
          default -> 86_400;
        };
    double micros = Double.parseDouble(typed.group(1)) * seconds * 1e6;
    return micros >= 1e6 && micros <= mostMicros
        ? OptionalLong.of(Math.round(micros))
        : OptionalLong.empty();
  }
}
