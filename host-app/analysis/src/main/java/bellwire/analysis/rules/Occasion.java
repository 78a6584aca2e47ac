package bellwire.analysis.rules;

import bellwire.analysis.logic.Verdict;
import org.jspecify.annotations.Nullable;

/**
 * One time at which a rule was put to the test.
 *
 * @param earliestMicros device time at which it began at the earliest
 * @param latestMicros device time at which it was settled at the latest
 * @param measuredMicros what a timed pattern measured, the error of the device's clock included;
 *     null for patterns without a time
 * @param marginMicros room to the bound, negative when broken; null for patterns without a time
 */
public record Occasion(
    long earliestMicros,
    long latestMicros,
    Verdict verdict,
    @Nullable Span measuredMicros,
    @Nullable Span marginMicros) {
  public Occasion {
    if (earliestMicros > latestMicros) {
      throw new IllegalArgumentException(
          "earliestMicros=" + earliestMicros + " latestMicros=" + latestMicros);
    }
  }
}
