package bellwire.app.desk.survey;

import bellwire.app.report.Celsius;
import java.util.OptionalDouble;

/** Temperatures of copper as people type them. */
final class Warmth {
  private static final double LEAST = -40;
  private static final double MOST = 90;

  private Warmth() {}

  /** Of '22', '22 C' or '72 F'; empty for what is none. */
  static OptionalDouble celsius(String words) {
    String text = words.replace("\u00b0", "").strip();
    boolean bare = text.matches(".*[0-9.]");
    return Celsius.parse(bare ? text + " C" : text, LEAST, MOST);
  }
}
