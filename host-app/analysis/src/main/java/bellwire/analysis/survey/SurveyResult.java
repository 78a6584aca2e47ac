package bellwire.analysis.survey;

import bellwire.analysis.fault.Explanation;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The survey's outcome.
 *
 * @param conductors by port
 * @param pairs every two of the ports with copper on them, M included where it is clipped
 * @param findings what is wrong or open, worst first
 * @param metalChecked whether M was clipped, so that leakage to metal was measured
 * @param length of the run where the gauge is known
 * @param gauge of the conductors where the length is known and one fits; otherwise null
 * @param phases in words, those done
 * @param explanations what would explain all of it, most probable first; ports by index
 * @param ties the rounds of ties, where the far end was identified by them
 */
public record SurveyResult(
    List<ConductorResult> conductors,
    List<PairResult> pairs,
    List<Finding> findings,
    boolean metalChecked,
    @Nullable Quantity length,
    @Nullable String gauge,
    List<String> phases,
    List<Explanation> explanations,
    @Nullable TieRun ties) {

  /**
   * One conductor.
   *
   * @param port where its near end is
   * @param position on the far-end plug, or the number at the far end with ties; 0 if not known
   * @param odds likelihood ratio of that position to the next best, 1 if not known
   * @param ohms its resistance without its two contacts; null if not measured
   * @param standing verdict
   * @param reason for it
   * @param openAt where it is broken; null where it is not, or nothing can be said
   */
  public record ConductorResult(
      int port,
      int position,
      double odds,
      @Nullable Quantity ohms,
      Standing standing,
      String reason,
      @Nullable AlongRun openAt) {

    public ConductorResult(
        int port,
        int position,
        double odds,
        @Nullable Quantity ohms,
        Standing standing,
        String reason) {
      this(port, position, odds, ohms, standing, reason, null);
    }
  }

  /**
   * Two ports.
   *
   * @param a lower port
   * @param b higher port
   * @param ohms resistance between them as seen at the terminals; null when none was detected
   * @param aboveOhms with none detected, the resistance that is certainly exceeded
   */
  public record PairResult(
      int a, int b, @Nullable Quantity ohms, double aboveOhms, Standing standing, String reason) {}

  /** Whether there is something and all of it is sound. */
  public boolean allSound() {
    return !conductors.isEmpty()
        && conductors.stream().allMatch(c -> c.standing() == Standing.SOUND)
        && pairs.stream().allMatch(p -> p.standing() == Standing.SOUND);
  }
}
