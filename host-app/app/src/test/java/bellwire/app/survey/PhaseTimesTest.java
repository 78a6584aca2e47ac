package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.Ports;
import bellwire.app.survey.SurveyOutcome.PhaseTime;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/**
 * Device time of the phases with sixteen conductors, in virtual time: a sound cable, a soaked one,
 * a bundle of shorts.
 */
class PhaseTimesTest {
  private static final double OPEN_SECONDS = 25;
  private static final double PLUG_SECONDS = 10;
  private static final double OVERHEAD = 1.5;

  @Test
  void soundCable() throws Exception {
    times("sound", new RandomCable(11, RandomCable.Fault.NONE, 16));
  }

  /** Every pair leaks: nothing is spared by the one-against-rest readings. */
  @Test
  void soakedCable() throws Exception {
    RandomCable cable = new RandomCable(12, RandomCable.Fault.NONE, 16);
    for (int a = 0; a < 16; a++) {
      cable.bridges.add(
          String.format(
              Locale.ROOT,
              "{between: [P%d, %s], at: 0.5, ohm: 3 Mohm}",
              cable.ports.get(a) + 1,
              a % 4 == 0 ? "M" : "P" + (cable.ports.get((a + 5) % 16) + 1)));
    }
    times("soaked", cable);
  }

  /** Five shorts in one cable, two of them sharing a conductor. */
  @Test
  void manyShorts() throws Exception {
    RandomCable cable = new RandomCable(13, RandomCable.Fault.NONE, 16);
    for (int[] pair : new int[][] {{0, 1}, {2, 3}, {4, 5}, {5, 6}}) {
      cable.bridges.add(
          String.format(
              Locale.ROOT,
              "{between: [P%d, P%d], at: 0.1, ohm: 0.3}",
              cable.ports.get(pair[0]) + 1,
              cable.ports.get(pair[1]) + 1));
    }
    times("four shorts", cable);
  }

  private static void times(String name, RandomCable cable) throws Exception {
    SurveyOutcome outcome =
        SimulatedSurvey.run(
                cable.yaml(30, 50),
                SimulatedSurvey.options(EnumSet.of(FarEndKind.CODED, FarEndKind.TIE), 60))
            .outcome;
    assertThat(outcome.result()).as("trip at %s", Ports.list(outcome.trippedFlags())).isNotNull();
    List<PhaseTime> phases =
        outcome.times().stream().filter(t -> !t.phase().startsWith("interlock")).toList();
    assertThat(phases).hasSize(3);
    long device = 0;
    long conversions = 0;
    for (PhaseTime time : phases) {
      device += time.deviceMicros();
      conversions += time.conversionMicros();
      System.out.printf(
          Locale.ROOT,
          "%-12s %-36s %5.2f s of device time, conversions and settling %5.2f s, readings %d%n",
          name,
          time.phase(),
          time.deviceMicros() * 1e-6,
          time.conversionMicros() * 1e-6,
          time.readings());
      double limit = time.phase().startsWith("far end open") ? OPEN_SECONDS : PLUG_SECONDS;
      assertThat(time.deviceMicros() * 1e-6).as(time.phase()).isLessThanOrEqualTo(limit);
    }
    System.out.printf(
        Locale.ROOT,
        "%-12s %-36s %5.2f s, ratio to conversions and settling %.3f%n",
        name,
        "all phases",
        device * 1e-6,
        (double) device / conversions);
    assertThat((double) device / conversions).isLessThanOrEqualTo(OVERHEAD);
  }
}
