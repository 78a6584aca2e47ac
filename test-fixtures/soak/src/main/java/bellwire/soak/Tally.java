package bellwire.soak;

import bellwire.soak.Mishap.Kind;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;

/** What was simulated, counted over seeds. */
final class Tally {
  private final Map<Kind, Long> mishaps = new EnumMap<>(Kind.class);
  private final Map<String, Long> counts = new TreeMap<>();
  private long virtualMicros;

  void mishap(Kind kind) {
    mishaps.merge(kind, 1L, Long::sum);
  }

  void count(String what, long more) {
    counts.merge(what, more, Long::sum);
  }

  void passed(long micros) {
    virtualMicros += micros;
  }

  void add(Tally other) {
    other.mishaps.forEach((kind, n) -> mishaps.merge(kind, n, Long::sum));
    other.counts.forEach((what, n) -> counts.merge(what, n, Long::sum));
    virtualMicros += other.virtualMicros;
  }

  double hours() {
    return virtualMicros / 3600e6;
  }

  @Override
  public String toString() {
    StringBuilder text = new StringBuilder();
    text.append(String.format(Locale.ROOT, "virtual time: %.1f h%nmishaps:%n", hours()));
    mishaps.forEach((kind, n) -> line(text, kind.toString(), n));
    text.append(String.format("what came of it:%n"));
    counts.forEach((what, n) -> line(text, what, n));
    return text.toString();
  }

  private static void line(StringBuilder text, String what, long n) {
    text.append(String.format(Locale.ROOT, "  %-40s %12d%n", what, n));
  }
}
