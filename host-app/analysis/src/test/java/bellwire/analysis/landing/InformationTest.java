package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Figures of MacKay's book, sections 4.1, 4.2 and 9.3 to 9.5, quoted from memory. */
class InformationTest {
  private static double[][] channel(double flipped) {
    return new double[][] {{1 - flipped, flipped}, {flipped, 1 - flipped}};
  }

  @Test
  void symmetricChannelWithUnequalInput() {
    // 9.3: P(1) = 0.1, f = 0.15: H(Y) = H2(0.22) = 0.76, H(Y|X) = H2(0.15) = 0.61, 0.15 bits
    assertThat(Information.entropy(0.22, 0.78)).isCloseTo(0.76, within(0.005));
    assertThat(Information.entropy(0.15, 0.85)).isCloseTo(0.61, within(0.005));
    assertThat(Information.expected(new double[] {0.9, 0.1}, channel(0.15)))
        .isCloseTo(0.15, within(0.005));
  }

  @Test
  void symmetricChannelsCapacity() {
    // 9.5: f = 0.15, equal input: 0.39 bits
    assertThat(Information.expected(new double[] {0.5, 0.5}, channel(0.15)))
        .isCloseTo(0.39, within(0.005));
  }

  @Test
  void weighingTwelveBalls() {
    // 4.1: 12 balls, one heavier or lighter: 24 cases; 4 against 4 tells log2 3 bits, 6 against 6
    // one bit
    double[] cases = new double[24];
    java.util.Arrays.fill(cases, 1 / 24.0);
    assertThat(Information.expected(cases, weighing(4)))
        .isCloseTo(Math.log(3) / Math.log(2), within(1e-12));
    assertThat(Information.expected(cases, weighing(6))).isCloseTo(1, within(1e-12));
    assertThat(Information.expected(cases, weighing(0))).isCloseTo(0, within(1e-12));
  }

  /** Balls 0 to n-1 against n to 2n-1; left heavier, right heavier, balance. */
  private static double[][] weighing(int n) {
    double[][] answers = new double[24][3];
    for (int k = 0; k < 24; k++) {
      int ball = k / 2;
      boolean heavy = k % 2 == 0;
      int answer = ball >= 2 * n ? 2 : (ball < n) == heavy ? 0 : 1;
      answers[k][answer] = 1;
    }
    return answers;
  }
}
