package bellwire.analysis.rules;

import java.math.BigDecimal;

/** A length of time in words. */
final class Duration {
  private static final long SECOND = 1_000_000;

  private Duration() {}

  /** Such as {@code 300 s}, {@code 2.5 s}, {@code 250 ms}. */
  static String words(long micros) {
    return micros < SECOND ? decimal(micros, 3) + " ms" : decimal(micros, 6) + " s";
  }

  private static String decimal(long micros, int places) {
    return BigDecimal.valueOf(micros, places).stripTrailingZeros().toPlainString();
  }
}
