package bellwire.analysis.vigil;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;

class TouchChanceTest {
  private static final double CODE = 1000;
  private static final double BLIND = 40;
  private static final double LATCH = 2;

  /** Looks at each code's window in turn. */
  private static boolean seen(int a, int b, int codes, double begin, double micros) {
    for (int i = 0; i * CODE < begin + micros; i++) {
      double from = Math.max(begin, i * CODE + BLIND);
      double to = Math.min(begin + micros, (i + 1) * CODE);
      if (((a ^ b) >> i % codes & 1) != 0 && to - from >= LATCH) {
        return true;
      }
    }
    return false;
  }

  @Test
  void touchesThrownAtRandomAreSeenAsOftenAsComputed() {
    long seed = 17;
    System.out.println("seed=" + seed);
    Random random = new Random(seed);
    for (int ports : new int[] {2, 5, 8, 16, 20}) {
      TouchChance chance = new TouchChance(ports, CODE, BLIND, LATCH);
      for (double micros : new double[] {1.9, 2, 10, 45, 700, 1500, 2500, 3500, 5200}) {
        int b = 1 + random.nextInt(ports - 1);
        int a = random.nextInt(b);
        int n = 4000;
        int count = 0;
        for (int i = 0; i < n; i++) {
          double begin = random.nextDouble() * chance.codes() * CODE;
          count += seen(a, b, chance.codes(), begin, micros) ? 1 : 0;
        }
        double p = chance.ofPair(a, b, micros);
        assertThat((double) count)
            .as("ports=" + ports + " pair=" + a + "," + b + " micros=" + micros)
            .isCloseTo(n * p, within(4.5 * Math.sqrt(n * p * (1 - p)) + 1e-6));
      }
    }
  }

  /** By hand: 16 ports, 4 codes; of a shortest touch 956 us in each code that tells them apart. */
  @Test
  void someByHand() {
    TouchChance chance = new TouchChance(16, CODE, BLIND, LATCH);
    assertThat(chance.codes()).isEqualTo(4);
    assertThat(chance.ofPair(0, 1, 2)).isCloseTo(958 / 4000.0, within(1e-12));
    assertThat(chance.ofPair(0, 15, 2)).isCloseTo(958 / 1000.0, within(1e-12));
    // Two codes side by side, a touch that bridges the blind time.
    assertThat(chance.ofPair(0, 3, 100)).isCloseTo((1000 + 1056) / 4000.0, within(1e-12));
    // Longer than all that lies between: sure.
    assertThat(chance.ofPair(0, 1, 3044)).isEqualTo(1);
    assertThat(chance.ofPair(0, 1, 3043)).isLessThan(1);
    assertThat(chance.ofPair(0, 1, 1.99)).isZero();
    // Two numbers of four bits differ in 32/15 of them on average.
    assertThat(chance.ofAnyPair(2)).isCloseTo(32 / 15.0 * 958 / 4000, within(1e-12));
    assertThat(chance.ofAnyPair(1e6)).isEqualTo(1);
  }

  /** By hand, the board's: 16 conductors and M, 5 codes, blind for 200 us. Theory (95). */
  @Test
  void theBoardsByHand() {
    TouchChance chance = new TouchLatch(200, 2).chances(new TouchCodes(0xFFFF));
    assertThat(chance.codes()).isEqualTo(5).isEqualTo(new TouchCodes(0xFFFF).codes());
    assertThat(chance.ofPair(0, 1, 2)).isCloseTo(798 / 5000.0, within(1e-12));
    // Of the 17 numbers 0 to 16 each lower bit is set in 8, so 72 of the 136 pairs differ in it,
    // and in the highest, which only 16 has, 16: 304 bits in all.
    assertThat(chance.ofAnyPair(2)).isCloseTo(304 / 136.0 * 798 / 5000, within(1e-12));
    // One code blind, three that don't tell, one more blind, and a latch on either side.
    assertThat(chance.ofPair(0, 1, 4204)).isEqualTo(1);
    assertThat(chance.ofPair(0, 1, 4203)).isLessThan(1);
  }

  @Test
  void mistakesOfTheCallerNameTheirValue() {
    assertThatThrownBy(() -> new TouchChance(1, CODE, BLIND, LATCH))
        .hasMessageContaining("ports=1");
    assertThatThrownBy(() -> new TouchChance(4, CODE, CODE, LATCH))
        .hasMessageContaining("blindMicros=1000.0");
    TouchChance chance = new TouchChance(4, CODE, BLIND, LATCH);
    assertThatThrownBy(() -> chance.ofPair(2, 2, 5)).hasMessage("a=2 b=2 touchMicros=5.0");
    assertThatThrownBy(() -> chance.ofPair(0, 4, 5)).hasMessageContaining("b=4");
  }
}
