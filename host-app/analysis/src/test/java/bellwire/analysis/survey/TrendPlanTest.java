package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.survey.TrendPlan.Shown;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What the four readings of a resistance of 1 ohm show: forward, its reference, and both back. */
class TrendPlanTest {
  private static final double AMPS = 4e-3;

  private final TrendPlan plan = new TrendPlan(IdealBoard.MODEL, 0b111, 1);

  @Test
  void aResistanceFollowsItsCurrent() {
    assertThat(plan.shown(four("....", AMPS))).isEqualTo(Shown.RESISTANCE);
    assertThat(plan.ohms(four("....", AMPS)).orElseThrow().value()).isCloseTo(1, within(1e-9));
  }

  @Test
  void withoutCurrentOrOutOfRangeBothWaysItIsOpenOrFarOff() {
    assertThat(plan.shown(four("....", 0))).isEqualTo(Shown.NONE);
    assertThat(plan.shown(four("+..-", AMPS))).isEqualTo(Shown.NONE);
    assertThat(plan.shown(four("++--", AMPS))).isEqualTo(Shown.NONE);
  }

  @Test
  void outOfRangeOneWayOnlyItHasChangedMeanwhile() {
    for (String each : List.of("+...", "...-", ".+..", "..-.", "++.-", "+.--")) {
      assertThat(plan.shown(four(each, AMPS))).as(each).isEqualTo(Shown.UNSTEADY);
    }
  }

  /** By Ohm's law the voltage across what is passive has its current's sign. */
  @Test
  void outOfRangeAgainstItsCurrentItIsNoResistance() {
    for (String each : List.of("+..+", "-..-", "-...", "...+", ".-..", "..+.", "++++", "-..+")) {
      assertThat(plan.shown(four(each, AMPS))).as(each).isEqualTo(Shown.DISTURBED);
    }
  }

  /**
   * @param over for each reading how it left its range: up, down, or not
   */
  private List<Reading> four(String over, double amps) {
    double reference = amps * IdealBoard.MODEL.lowReferenceOhms();
    double[] volts = {amps, reference, -reference, -amps};
    List<Reading> four = new ArrayList<>();
    for (int i = 0; i < volts.length; i++) {
      Probe probe = plan.probes().get(i);
      four.add(
          switch (over.charAt(i)) {
            case '+' -> new Reading(probe, 2, Double.NaN, true);
            case '-' -> new Reading(probe, -2, Double.NaN, true);
            default -> new Reading(probe, volts[i], Double.NaN, false);
          });
    }
    return four;
  }
}
