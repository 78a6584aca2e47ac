package bellwire.analysis.landing;

import java.util.List;
import java.util.Set;

/**
 * A step that can be asked for. What it would find in a case is a code; the answers and their
 * probabilities follow from the code.
 */
abstract sealed class Step permits Asking, Looking, Describing, Metering {
  private final String words;
  private final String caution;
  private final double cost;

  Step(String words, String caution, double cost) {
    this.words = words;
    this.caution = caution;
    this.cost = cost;
  }

  final double cost() {
    return cost;
  }

  final Measurement measurement(Answers answers) {
    return new Measurement(words, answers.words(), caution, cost);
  }

  /** The states it is made in, live, as in {@link Trials}; 0 for a dead look. */
  long live() {
    return 0;
  }

  /** What the case holds, 0 or more. */
  abstract int code(Case c);

  /**
   * Answers to offer.
   *
   * @param codes of what is still considered
   */
  abstract Answers answers(Set<Integer> codes);

  /** Answers as offered, and P(answer | code), theory (83). */
  interface Answers {
    List<String> words();

    double probability(int answer, int code);
  }
}
