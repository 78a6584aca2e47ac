package bellwire.agent;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import bellwire.agent.board.Reading;
import bellwire.board.BoardDescription;
import bellwire.link.Check;
import bellwire.link.Message.Samples;
import bellwire.link.Range;
import bellwire.link.ScanStep;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * Verdicts on readings worked out by Ohm's law from the board's values: 2 V behind 766 ohm, check
 * resistors of 1 kohm and 10 Mohm, references of 100 ohm and 1 Mohm, two switches of 2.5 ohm.
 */
class SelfCheckTest {
  private static final double LOW_AMPS = 2.0 / (766 + 2.5 + 1000 + 2.5 + 100);
  private static final double HIGH_AMPS = 2.0 / (766 + 1e7);

  private double lowCheckVolts = LOW_AMPS * 1002.5;
  private double lowReferenceVolts = LOW_AMPS * 100;
  private double highCheckVolts = HIGH_AMPS * 1e7;
  private double highReferenceVolts = HIGH_AMPS * 1e6;

  /** Of every reading, excited or not: it must drop out. */
  private double offsetVolts;

  private int flags;

  private static final List<ScanStep> STEPS = SelfCheck.steps();

  private String verdict() {
    SelfCheck check = new SelfCheck(BoardDescription.revisionA());
    double[] volts = {lowCheckVolts, lowReferenceVolts, highCheckVolts, highReferenceVolts};
    for (int k = 0; k < STEPS.size(); k++) {
      boolean excited = STEPS.get(k).excite();
      double seen = (excited ? volts[k / 4 * 2 + k % 2] : 0) + offsetVolts;
      int code = (int) Math.rint(seen / 2.5 * (1 << 23));
      check.take(k, new Reading(code, k, 0, 0, k == 5 ? flags : 0), k);
    }
    return check.verdict();
  }

  @Test
  void eachCheckResistorIsReadWithAndWithoutExcitationInItsRange() {
    assertThat(STEPS).hasSize(8);
    for (int k = 0; k < 8; k++) {
      ScanStep step = STEPS.get(k);
      assertThat(step.check()).isEqualTo(k < 4 ? Check.LOW : Check.HIGH);
      assertThat(step.range()).isEqualTo(k < 4 ? Range.LOW : Range.HIGH);
      assertThat(step.excite()).isEqualTo(k % 4 < 2);
      assertThat(step.testLoad()).isTrue();
      assertThat(step.drive() | step.returned() | step.guard()).isZero();
    }
  }

  @Test
  void aBoardAsDescribedPassesWhateverIsInBothReadings() {
    assertThat(verdict()).isEmpty();
    offsetVolts = 0.02;
    assertThat(verdict()).isEmpty();
  }

  @Test
  void withoutAllReadingsThereIsNoVerdict() {
    SelfCheck check = new SelfCheck(BoardDescription.revisionA());
    assertThatIllegalStateException().isThrownBy(check::verdict).withMessage("readings=0");
  }

  @Test
  void anOverloadAnywhereFails() {
    flags = Samples.OVERLOAD;
    assertThat(verdict()).contains("overloaded");
    flags = Samples.MISSED;
    assertThat(verdict()).isEmpty();
  }

  /**
   * 0.01 % and 0.01 % of the resistors, 6 mohm in the ohm of two switches at their worst: 0.62 %,
   * and twice that is allowed.
   */
  @Test
  void theLowRangeMayBeOffByTwiceItsTolerances() {
    double within = 2 * (1e-4 + 1e-4 + 2 * 3.0 / 1000);
    lowCheckVolts = lowReferenceVolts * 10 * (1 + within * 0.999);
    assertThat(verdict()).isEmpty();
    lowCheckVolts = lowReferenceVolts * 10 * (1 + within * 1.001);
    assertThat(verdict())
        .isEqualTo(
            "self-check: the low range measures its check resistor wrongly: ratio=10.1241"
                + " expected=10.0000 within=1.2 %");
    lowCheckVolts = lowReferenceVolts * 10 * (1 - within * 0.999);
    assertThat(verdict()).isEmpty();
    lowCheckVolts = lowReferenceVolts * 10 * (1 - within * 1.001);
    assertThat(verdict()).contains("the low range");
  }

  /**
   * 0.1 % and 0.05 % of the resistors, switches of nothing, and what seventeen switches' leakage of
   * 0.3 nA changes by 10 % a volt: 1.02 nA of 200 nA, 0.51 %.
   */
  @Test
  void theHighRangeMayBeOffByItsLeakageToo() {
    double within = 2 * (1e-3 + 5e-4 + 6.0 / 1e7 + 17 * 3e-10 * 0.1 * 2 / 2e-7);
    highReferenceVolts = highCheckVolts / 10 / (1 + within * 0.999);
    assertThat(verdict()).isEmpty();
    highReferenceVolts = highCheckVolts / 10 / (1 + within * 1.001);
    assertThat(verdict()).contains("the high range").endsWith("within=1.3 %");
  }

  /** A quarter of the excitation is less than what a board in order has across either resistor. */
  @Test
  void withoutExcitationItIsSaidWhatWasThere() {
    lowCheckVolts = 0.499;
    lowReferenceVolts = 0.0499;
    assertThat(verdict())
        .isEqualTo("self-check: the excitation does not reach the low check resistor: volts=0.499");
    lowCheckVolts = LOW_AMPS * 1002.5;
    lowReferenceVolts = LOW_AMPS * 100;
    highCheckVolts = 0.1;
    highReferenceVolts = 0.01;
    assertThat(verdict()).contains("does not reach the high check resistor: volts=0.100");
  }

  /** 1 % of excitation, 1.04 % of limiters, 0.2 % of reference; twice that is allowed. */
  @Test
  void aShortedLimiterLetsTooMuchPass() {
    double within = 2 * (0.01 + 8.0 / 766 + 0.005 / 2.5);
    lowCheckVolts = LOW_AMPS * 1002.5 * (1 + within * 0.999);
    lowReferenceVolts = lowCheckVolts / 10.025;
    assertThat(verdict()).isEmpty();
    lowCheckVolts = LOW_AMPS * 1002.5 * (1 + within * 1.001);
    lowReferenceVolts = lowCheckVolts / 10.025;
    assertThat(verdict())
        .contains("the excitation's limiters let too much pass")
        .endsWith("milliamps=1.12 expected=1.07 within=4.5 %");
    double oneLimiter = 2.0 / (383 + 2.5 + 1000 + 2.5 + 100);
    lowCheckVolts = oneLimiter * 1002.5;
    lowReferenceVolts = oneLimiter * 100;
    assertThat(verdict()).contains("milliamps=1.34");
  }
}
