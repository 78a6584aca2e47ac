package bellwire.analysis.fault;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.function.UnaryOperator;

/**
 * A synthetic cable without any scatter: every conductor, contact and resistor is what is expected
 * of it and readings have no noise, so that a fit which is right finds the truth itself.
 */
final class NominalCable {
  static final double RUN_OHMS = 0.8;

  private NominalCable() {}

  /** The middle of everything that is drawn. */
  private static final class Middle extends Random {
    private static final long serialVersionUID = 1;

    Middle() {
      super(7); // only where on the plug the conductors are
    }

    @Override
    public double nextDouble() {
      return 0.5;
    }

    @Override
    public double nextGaussian() {
      return 0;
    }
  }

  /**
   * @param positions of the coded plug
   */
  static SyntheticCable of(int conductors, int positions) {
    double[] arms = Arrays.copyOf(SyntheticCable.ARMS, positions);
    for (int p = SyntheticCable.ARMS.length; p < positions; p++) {
      arms[p] = arms[p - 1] + 50;
    }
    return new SyntheticCable(new Middle(), conductors, arms, RUN_OHMS);
  }

  /** The same evidence with other readings. */
  static Evidence with(Evidence evidence, UnaryOperator<List<Ratio>> readings) {
    return with(evidence, readings.apply(evidence.ratios()), evidence.positions());
  }

  /** As if read worse: each of these many ohms uncertain. */
  static Evidence blurred(Evidence evidence, double u) {
    return with(
        evidence,
        ratios ->
            ratios.stream()
                .map(r -> new Ratio(r.stage(), r.a(), r.b(), r.p(), r.q(), r.held(), r.ohms(), u))
                .toList());
  }

  /** As if it were known beforehand where on the plug every conductor is. */
  static Evidence located(SyntheticCable cable) {
    Map<Integer, Integer> positions = new HashMap<>();
    for (int port = 0; port < cable.conductors; port++) {
      positions.put(port, cable.position(port));
    }
    Evidence evidence = cable.evidence();
    return with(evidence, evidence.ratios(), positions);
  }

  private static Evidence with(
      Evidence evidence, List<Ratio> ratios, Map<Integer, Integer> positions) {
    return new Evidence(
        evidence.setting(),
        evidence.stages(),
        ratios,
        evidence.background(),
        evidence.groups(),
        evidence.leaks(),
        evidence.resistances(),
        evidence.standingOut(),
        evidence.broken(),
        evidence.breaks(),
        evidence.poor(),
        positions,
        evidence.doubtful());
  }
}
