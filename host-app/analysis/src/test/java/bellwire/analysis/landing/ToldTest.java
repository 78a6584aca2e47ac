package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.Symptoms.Told;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** The figures of theory (82), and what counts for something outside the loop. */
class ToldTest {
  private static final double EXACT = 1e-12;
  private static final long FOUR = bits(NO_HEAT, NO_COOLING, HUMS, CHATTERS);

  private static long bits(Symptom... symptoms) {
    return Symptoms.bits(Set.of(symptoms));
  }

  private static void assertLikelihood(Told told, Symptoms rendered, double... factors) {
    double product = 1;
    for (double factor : factors) {
      product *= factor;
    }
    assertThat(Math.exp(told.logLikelihood(rendered)) / product).isCloseTo(1, within(EXACT));
  }

  private static Told told(long possible, long seen, long denied) {
    return new Told(possible, seen, denied, 0, 0, 0);
  }

  @Test
  void whatWasTold() {
    Told told = told(FOUR, FOUR, 0);
    Symptoms one = new Symptoms(bits(NO_HEAT), bits(NO_COOLING), bits(HUMS));
    assertLikelihood(told, one, 0.65, 0.45, 0.4, 0.04);
    assertLikelihood(told, new Symptoms(FOUR, 0, 0), 0.65, 0.65, 0.65, 0.65);
  }

  @Test
  void whatWasDenied() {
    Told told = told(FOUR, 0, FOUR);
    Symptoms one = new Symptoms(bits(NO_HEAT), bits(NO_COOLING), bits(HUMS));
    assertLikelihood(told, one, 0.05, 0.05, 0.5, 0.96);
  }

  @Test
  void whatWasNotMentioned() {
    Told told = told(FOUR, 0, 0);
    Symptoms one = new Symptoms(bits(NO_HEAT), bits(NO_COOLING), bits(HUMS));
    assertLikelihood(told, one, 0.35, 0.55, 0.6, 0.96);
    // What this installation can't show does not count
    assertLikelihood(told(bits(NO_HEAT), 0, 0), one, 0.35);
  }

  /** Who tells of one symptom tells of the gravest, and seldom adds what follows from it. */
  @Test
  void whatFollowsFromTheOnlyOneTold() {
    long possible = bits(NOTHING_WORKS, NO_HEAT, NO_COOLING, NO_FAN, HUMS);
    Told one = told(possible, bits(NOTHING_WORKS), 0);
    Symptoms dead =
        new Symptoms(bits(NOTHING_WORKS, HUMS), bits(NO_HEAT, NO_COOLING), bits(NO_FAN));
    assertLikelihood(one, dead, 0.65, 0.8, 0.8, 0.8, 0.35);
    assertLikelihood(
        one, new Symptoms(bits(NOTHING_WORKS), bits(NO_HEAT), 0), 0.65, 0.8, 0.96, 0.96, 0.96);
    Told two = told(possible, bits(NOTHING_WORKS, HUMS), 0);
    assertLikelihood(two, dead, 0.65, 0.55, 0.55, 0.6, 0.65);
    Told denied = told(possible, bits(NOTHING_WORKS), bits(NO_HEAT));
    assertLikelihood(denied, dead, 0.65, 0.05, 0.8, 0.8, 0.35);
  }

  /**
   * Odds of 0.01 that a complaint comes from elsewhere, 3e-5 for what hardly anything else does.
   */
  @Test
  void whatShowsNothingOfWhatWasToldIsNotItsCause() {
    Told heat = told(bits(NO_HEAT, HUMS), bits(NO_HEAT), 0);
    assertLikelihood(heat, Symptoms.NONE, 0.01, 0.04, 0.96);
    assertLikelihood(heat, new Symptoms(bits(HUMS), 0, 0), 0.01, 0.04, 0.35);
    assertLikelihood(heat, new Symptoms(0, 0, bits(NO_HEAT)), 0.4, 0.96);
    assertLikelihood(heat, new Symptoms(0, bits(NO_HEAT), 0), 0.45, 0.96);
    Told fuse = told(bits(FUSE_OPENS_ON_HEAT, HUMS), bits(FUSE_OPENS_ON_HEAT), 0);
    assertLikelihood(fuse, Symptoms.NONE, 3e-5, 0.04, 0.96);
    assertLikelihood(told(FOUR, 0, FOUR), Symptoms.NONE, 0.96, 0.96, 0.96, 0.96);
  }

  /**
   * Its answer is weighed as a step's (83): the telling counts no more, the complaint still does.
   */
  @Test
  void whatWasAskedForSinceCountsByItsAnswer() {
    long all = bits(NO_HEAT, NO_COOLING, HUMS);
    Told told = new Told(all, bits(NO_HEAT), bits(NO_COOLING), all, 0, 0);
    assertLikelihood(told, new Symptoms(bits(NO_HEAT), bits(HUMS), 0), 1);
    assertLikelihood(told, new Symptoms(bits(HUMS), 0, 0), 0.01);
    assertThat(told.logBound()).isZero();
    Told confirmed = new Told(all, 0, 0, bits(HUMS), bits(HUMS), 0);
    assertLikelihood(confirmed, new Symptoms(bits(HUMS), 0, 0), 0.96, 0.96);
    assertLikelihood(confirmed, Symptoms.NONE, 0.01, 0.96, 0.96);
    Told blank = new Told(bits(CONTROL_BLANK), 0, 0, bits(CONTROL_BLANK), bits(CONTROL_BLANK), 0);
    assertLikelihood(blank, Symptoms.NONE, 3e-5);
  }

  @Test
  void whatNeedNotBeAskedFor() {
    Told told = new Told(-1, bits(FUSE_OPENS_ON_FAN), bits(HUMS), bits(TRANSFORMER_HOT), 0, 0);
    assertThat(told.known()).isEqualTo(bits(FUSE_OPENS_ON_FAN, NO_FAN, HUMS));
    Told confirmed = new Told(-1, bits(HUMS), 0, bits(TRANSFORMER_HOT), bits(TRANSFORMER_HOT), 0);
    assertThat(confirmed.known()).isEqualTo(bits(HUMS, TRANSFORMER_HOT, TRANSFORMER_HOT_ON_CALL));
  }

  @Test
  void theBoundIsReachedAndNeverPassed() {
    long possible = bits(NO_HEAT, NO_COOLING, HUMS, CHATTERS, NO_FAN);
    Told told = told(possible, bits(NO_HEAT), bits(HUMS));
    assertThat(Math.exp(told.logBound()) / (0.65 * 0.96 * 0.96 * 0.96 * 0.96))
        .isCloseTo(1, within(EXACT));
    assertThat(told.logLikelihood(new Symptoms(bits(NO_HEAT), 0, 0)))
        .isCloseTo(told.logBound(), within(EXACT));
    Random random = new Random(3);
    for (int draw = 0; draw < 1000; draw++) {
      long shown = random.nextLong() & possible;
      long implied = random.nextLong() & possible & ~shown;
      long doubtful = random.nextLong() & possible & ~shown & ~implied;
      Symptoms rendered = new Symptoms(shown, implied, doubtful);
      assertThat(told.logLikelihood(rendered)).isLessThanOrEqualTo(told.logBound() + EXACT);
    }
  }
}
