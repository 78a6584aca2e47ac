package bellwire.analysis.rules;

import bellwire.analysis.logic.Verdict;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A rule's verdict on a trace.
 *
 * @param occasions how often it was put to the test; 0: not exercised
 * @param marginMicros the least room to the bound over the whole trace: how far the bound could be
 *     tightened with the verdict still kept; null for patterns without a time, or if nothing was
 *     measured
 * @param telling a few of the occasions, worst first: broken, undecided, nearest to the bound
 */
public record Ruling(
    Rule rule,
    Verdict verdict,
    long occasions,
    @Nullable Span marginMicros,
    List<Occasion> telling) {
  public Ruling {
    telling = List.copyOf(telling);
  }
}
