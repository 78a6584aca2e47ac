package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.PairResult;
import bellwire.analysis.uncertainty.Quantity;
import bellwire.simbench.cable.Truth;
import java.util.EnumSet;
import java.util.Locale;
import java.util.Random;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** Shorts, bridges and leakages of known size, and the limit of detection where there is none. */
class LeakageTest {
  private static final int PAIRS = Integer.getInteger("bellwire.pairs", 5000);
  private static final SurveyOptions OPEN_ONLY =
      SimulatedSurvey.options(EnumSet.noneOf(FarEndKind.class), 1);

  /** One conductor pair, or a conductor and metal, joined at a place. */
  private record Bridged(String yaml, int a, int b, double at, double ohms) {}

  private static Bridged bridged(int seed, double ohms) {
    Random random = new Random(seed * 6007L + 5);
    RandomCable cable = new RandomCable(seed, RandomCable.Fault.NONE, 2 + random.nextInt(9));
    int a = cable.ports.get(0);
    int b = random.nextInt(5) == 0 ? 16 : cable.ports.get(1);
    double at = random.nextDouble();
    cable.bridges.add(
        String.format(
            Locale.ROOT,
            "{between: [P%d, %s], at: %.4f, ohm: %.4f}",
            a + 1,
            b == 16 ? "M" : "P" + (b + 1),
            at,
            ohms));
    return new Bridged(cable.yaml(3000, 6000), Math.min(a, b), Math.max(a, b), at, ohms);
  }

  /** As seen at the terminals: clamps, copper as far as the place, the bridge. */
  private static double seen(Bridged bridge, Truth truth) {
    double ohms =
        bridge.ohms() + truth.nearContactOhms(bridge.a(), 0) + truth.nearContactOhms(bridge.b(), 0);
    ohms += bridge.at() * truth.wire(bridge.a()).copperOhms();
    return ohms + (bridge.b() == 16 ? 0 : bridge.at() * truth.wire(bridge.b()).copperOhms());
  }

  private static PairResult pair(SurveyResult result, Bridged bridge) {
    return result.pairs().stream()
        .filter(p -> p.a() == bridge.a() && p.b() == bridge.b())
        .findFirst()
        .orElseThrow(() -> new AssertionError("pair not looked at: " + bridge));
  }

  private static void bridges(
      String name, double from, double to, int draws, double relative, double absolute)
      throws Exception {
    double worst = 0;
    double worstOhms = 0;
    double inside = 0;
    for (int k = 0; k < draws; k++) {
      // Not Random: what it draws first hardly differs between seeds that follow one another.
      SplittableRandom random = new SplittableRandom(k + Math.round(from));
      double ohms =
          from == 0
              ? to * Math.pow(random.nextDouble(), 2)
              : from * Math.pow(to / from, random.nextDouble());
      Bridged bridge = bridged(k + 1, ohms);
      SimulatedSurvey survey = SimulatedSurvey.run(bridge.yaml(), OPEN_ONLY);
      assertThat(survey.outcome.result()).as(bridge.yaml()).isNotNull();
      PairResult pair = pair(survey.outcome.result(), bridge);
      Quantity read = pair.ohms();
      double truth = seen(bridge, survey.truth);
      assertThat(read).as("not detected: %s", bridge).isNotNull();
      double error = Math.abs(read.value() - truth);
      inside += error <= 2 * read.u() ? 1 : 0;
      assertThat(error)
          .as("%s seen=%s truth=%s", bridge, read, truth)
          .isLessThanOrEqualTo(Math.max(relative * truth, absolute));
      if (error / truth > worst && error > absolute) {
        worst = error / truth;
      }
      worstOhms = Math.max(worstOhms, error);
    }
    System.out.printf(
        Locale.ROOT,
        "%-22s draws %d  largest error %.3f %%, %.3g ohm  inside 2 u: %.3f%n",
        name,
        draws,
        worst * 100,
        worstOhms,
        inside / draws);
  }

  @Test
  void shortsToAHundredOhm() throws Exception {
    bridges("0 to 100 ohm", 0, 100, 80, 0.02, 0.010);
  }

  @Test
  void bridgesBetween() throws Exception {
    bridges("100 ohm to 1 kohm", 100, 1e3, 40, 0.03, 0);
  }

  @Test
  void leakagesToTenMegohm() throws Exception {
    bridges("1 kohm to 10 Mohm", 1e3, 1e7, 120, 0.03, 0);
  }

  @Test
  void leakagesToFiftyMegohm() throws Exception {
    bridges("10 to 50 Mohm", 1e7, 5e7, 40, 0.15, 0);
  }

  /**
   * Where nothing is detected the statement 'above X' must be true; and nothing is detected where
   * nothing is.
   */
  @Test
  void limitOfDetectionIsNeverFalse() throws Exception {
    int pairs = 0;
    int falseLimits = 0;
    int falseAlarms = 0;
    int detected = 0;
    double least = Double.POSITIVE_INFINITY;
    for (int seed = 1; pairs < PAIRS; seed++) {
      RandomCable cable = new RandomCable(seed, RandomCable.Fault.NONE, 16);
      double ohms = 3e8 * Math.pow(100, new Random(seed).nextDouble());
      int a = Math.min(cable.ports.get(0), cable.ports.get(1));
      int b = Math.max(cable.ports.get(0), cable.ports.get(1));
      cable.bridges.add(
          String.format(
              Locale.ROOT, "{between: [P%d, P%d], at: 0.5, ohm: %.0f}", a + 1, b + 1, ohms));
      SimulatedSurvey survey = SimulatedSurvey.run(cable.yaml(3000, 6000), OPEN_ONLY);
      assertThat(survey.outcome.result()).as(cable.toString()).isNotNull();
      for (PairResult pair : survey.outcome.result().pairs()) {
        pairs++;
        boolean real = pair.a() == a && pair.b() == b;
        if (pair.ohms() == null) {
          least = Math.min(least, pair.aboveOhms());
          falseLimits += real && pair.aboveOhms() > ohms ? 1 : 0;
        } else {
          detected += real ? 1 : 0;
          falseAlarms += real ? 0 : 1;
        }
      }
    }
    System.out.printf(
        Locale.ROOT,
        "limit of detection: %d pairs, %d false limits, %d false alarms, %d real leakages of 0.3 to 30 Gohm detected, least limit %.2f Gohm%n",
        pairs,
        falseLimits,
        falseAlarms,
        detected,
        least * 1e-9);
    assertThat(falseLimits).isZero();
    assertThat(falseAlarms).isZero();
  }
}
