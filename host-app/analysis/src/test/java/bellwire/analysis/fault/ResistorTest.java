package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** A stretch of copper past the end of the run stays positive, and the fit can follow it back. */
class ResistorTest {

  private static Resistor of(double ohms) {
    Resistor resistor = new Resistor(0, 1);
    resistor.add(7, ohms, 1);
    resistor.keepPositive();
    return resistor;
  }

  /** s ln(1 + e^(r/s)) with s = 1 mohm: ln 2 mohm at 0, and never more than that off above it. */
  @Test
  void bendsToZeroBelowAndLeavesTheRestAlone() {
    assertThat(of(0).ohms).isCloseTo(0.001 * Math.log(2), within(1e-15));
    assertThat(of(-0.004).ohms).isCloseTo(0.001 * Math.log1p(Math.exp(-4)), within(1e-15));
    assertThat(of(-1).ohms).isEqualTo(Resistor.LEAST_OHMS);
    assertThat(of(0.002).ohms - 0.002).isBetween(0.0, 0.00013);
    assertThat(of(0.011).ohms).isCloseTo(0.011, within(2e-8));
    assertThat(of(0.03).ohms).isEqualTo(0.03);
  }

  @Test
  void slopeIsThatOfTheBend() {
    for (double ohms : new double[] {-0.003, -0.001, 0, 0.002, 0.02}) {
      double difference = (of(ohms + 1e-7).ohms - of(ohms - 1e-7).ohms) / 2e-7;
      assertThat(of(ohms).slope[0]).as("ohms=" + ohms).isCloseTo(difference, within(1e-6));
      assertThat(of(ohms).index[0]).isEqualTo(7);
    }
  }
}
