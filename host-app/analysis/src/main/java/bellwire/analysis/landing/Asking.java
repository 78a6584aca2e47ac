package bellwire.analysis.landing;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.loop.Call;
import java.util.List;
import java.util.Set;

/** A symptom asked for. Codes: it shows, it does not, it may. */
final class Asking extends Step {
  private static final double[] YES = {0.95, 0.02, 0.5};

  private static final String NOT_TRIED = " Do not try it on purpose.";

  private final long bit;

  private final String asked;
  private final double cost;
  private final String name;

  Asking(Symptom symptom, String caution, double cost) {
    super(
        question(symptom) + (harms(symptom) ? NOT_TRIED : " Try it where it is not known."),
        harms(symptom) ? "" : caution,
        cost);
    asked = question(symptom) + NOT_TRIED;
    this.cost = cost;
    name = symptom.name();
    bit = 1L << symptom.ordinal();
  }

  private static String question(Symptom symptom) {
    return "Is it so: " + symptom.words() + "?";
  }

  /** Whether to see it again does harm. */
  static boolean harms(Symptom symptom) {
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

  /** Where a call may open a fuse none is made to see what happens: it would open again. */
  @Override
  Measurement measurement(Answers answers, boolean risky) {
    return risky
        ? new Measurement(asked, answers.words(), "", cost)
        : super.measurement(answers, false);
  }

  /** By the symptom's name: every call where it names none. */
  @Override
  boolean tries(Call call) {
    boolean heat = name.contains("HEAT") || name.contains("EMERGENCY");
    boolean cool = name.contains("COOL");
    boolean fan = name.contains("FAN");
    return heat && call.heats()
        || cool && call.cools()
        || fan && call == Call.FAN
        || !heat && !cool && !fan;
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
