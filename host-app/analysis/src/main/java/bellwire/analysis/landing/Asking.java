package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import java.util.List;
import java.util.Set;

/** A symptom asked for. Codes: it shows, it does not, it may. */
final class Asking extends Step {
  private static final double[] YES = {0.95, 0.02, 0.5};

  private final long bit;

  Asking(Symptom symptom, String caution, double cost) {
    super(question(symptom), harms(symptom) ? "" : caution, cost);
    bit = 1L << symptom.ordinal();
  }

  private static String question(Symptom symptom) {
    return "Is it so: "
        + symptom.words()
        + "? "
        + (harms(symptom) ? "Do not try it on purpose." : "Try it where it is not known.");
  }

  private static boolean harms(Symptom symptom) {
    return switch (symptom) {
      case FUSE_OPENS_AT_ONCE,
          FUSE_OPENS_ON_HEAT,
          FUSE_OPENS_ON_COOLING,
          FUSE_OPENS_ON_FAN,
          TRANSFORMER_HOT,
          TRANSFORMER_HOT_ON_CALL,
          HEATS_AND_COOLS,
          CHATTERS ->
          true;
      default -> false;
    };
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
        return answer == 0 ? YES[code] : 1 - YES[code];
      }
    };
  }
}
