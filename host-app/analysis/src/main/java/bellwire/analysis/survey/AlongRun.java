package bellwire.analysis.survey;

import bellwire.analysis.uncertainty.Propagation;
import bellwire.analysis.uncertainty.Quantity;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * A place along the run.
 *
 * @param fraction of the run from the near end, 0 to 1
 * @param metres from the near end; null where the run's length is not known
 */
public record AlongRun(Quantity fraction, @Nullable Quantity metres) {
  /** A place less certain than this leads nobody to it. Common practice, no source. */
  private static final double UNDECIDED = 0.1;

  /** What is nearer to an end than this is looked for at its clamp first. */
  private static final double AT_END = 0.05;

  private static final double AT_END_METRES = 0.5;

  static AlongRun of(Quantity fraction, @Nullable Quantity run) {
    Quantity metres =
        run == null
            ? null
            : Propagation.of(fraction, run).through(x -> x[0] * x[1]).quantity(0, "m");
    return new AlongRun(fraction, metres);
  }

  /** Whether it is known well enough to go there. */
  public boolean decided() {
    return fraction.u() <= UNDECIDED;
  }

  boolean atNearEnd() {
    return decided()
        && (fraction.value() - fraction.u() <= AT_END
            || (metres != null && metres.value() - metres.u() <= AT_END_METRES));
  }

  boolean atFarEnd() {
    return decided() && !atNearEnd() && fraction.value() + fraction.u() >= 1 - AT_END;
  }

  /** Such as 'at 62.0 ± 0.4 % of the run'. */
  public String words() {
    if (!decided()) {
      return String.format(
          Locale.ROOT,
          "somewhere between %.0f and %.0f %% of the run",
          100 * Math.max(0, fraction.value() - 2 * fraction.u()),
          100 * Math.min(1, fraction.value() + 2 * fraction.u()));
    }
    return "at " + new Quantity(100 * fraction.value(), 100 * fraction.u(), "%") + " of the run";
  }

  /** Where to look first; empty where it is neither end. */
  public String hint() {
    return atNearEnd()
        ? "at or near the near end: look at the clamp there first"
        : atFarEnd() ? "at or near the far end: look at the wall's clamp first" : "";
  }
}
