package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import java.util.List;
import java.util.Set;

/** A symptom asked for. Codes: it shows, it does not, it may. */
final class Asking extends Step {
  /** Index of the answer. */
  static final int YES = 0;

  private static final double[] CHANCE_OF_YES = {0.95, 0.02, 0.5};

  private final long bit;
  private final long live;

  /**
   * @param live states in which it is tried
   */
  Asking(Symptom symptom, String caution, double cost, long live) {
    super(question(symptom), Trials.harmful(symptom) ? "" : caution, cost);
    bit = 1L << symptom.ordinal();
    this.live = live;
  }

  private static String question(Symptom symptom) {
    String tried =
        Trials.harmful(symptom)
            ? "Was it ever met? Do not try it on purpose."
            : Trials.atRest(symptom) ? "Look at it at rest." : "Try it where it is not known.";
    return "Is it so: " + symptom.words() + "? " + tried;
  }

  @Override
  long live() {
    return live;
  }

  /** As in {@link Symptoms}. */
  long bit() {
    return bit;
  }

  @Override
  int code(Case c) {
    if (((c.symptoms().shown() | c.symptoms().implied()) & bit) != 0) {
      return 0;
    }
    return (c.symptoms().doubtful() & bit) != 0 ? 2 : 1;
  }

  @Override
  Answers answers(Set<Integer> codes) {
    return new Answers() {
      @Override
      public List<String> words() {
        return List.of("yes", "no");
      }

      @Override
      public double probability(int answer, int code) {
        return answer == YES ? CHANCE_OF_YES[code] : 1 - CHANCE_OF_YES[code];
      }
    };
  }
}
