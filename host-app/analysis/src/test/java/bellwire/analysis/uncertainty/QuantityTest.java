package bellwire.analysis.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class QuantityTest {

  /** GUM 7.2.6: two significant digits of u, the value to the same place. */
  @ParameterizedTest
  @CsvSource({
    "10.05762, 0.027, 10.058 ± 0.027 ohm", // 7.2.6 has 10.057 62 with u = 27 milliohm: 10.058
    "0.50012, 0.00731, 0.5001 ± 0.0073 ohm",
    "1234567, 23456, 1235000 ± 23000 ohm",
    "1234567, 1000, 1234600 ± 1000 ohm",
    "1234567, 150, 1234570 ± 150 ohm",
    "3.2, 47.3, 3 ± 47 ohm",
    "3.2, 4730, 0 ± 4700 ohm",
    "-3.2, 4730, 0 ± 4700 ohm",
    "-0.0412, 0.0133, -0.041 ± 0.013 ohm",
    "5, 1, 5.0 ± 1.0 ohm",
    "5, 0.5, 5.00 ± 0.50 ohm",
    "1e-9, 2.56e-12, 0.0000000010000 ± 0.0000000000026 ohm",
  })
  void valueInTheDigitsItsUncertaintyWarrants(double value, double u, String text) {
    assertThat(Quantity.ohms(value, u)).hasToString(text);
  }

  /** Rounding up to the next power of ten gave three digits. */
  @Test
  void uncertaintyThatRoundsUpToTheNextDecadeKeepsTwoDigits() {
    assertThat(Quantity.ohms(7.0049, 0.0996)).hasToString("7.00 ± 0.10 ohm");
    assertThat(Quantity.ohms(7.0049, 0.996)).hasToString("7.0 ± 1.0 ohm");
    assertThat(Quantity.ohms(704.9, 99.6)).hasToString("700 ± 100 ohm");
    assertThat(Quantity.ohms(704.9, 9.96)).hasToString("705 ± 10 ohm");
  }

  @Test
  void withoutFiniteUncertaintyOrValue() {
    assertThat(Quantity.ohms(3, 0)).hasToString("3.00000 ohm");
    assertThat(Quantity.ohms(Double.NaN, 1)).hasToString("NaN ohm");
    assertThat(Quantity.ohms(Double.POSITIVE_INFINITY, 1)).hasToString("Infinity ± 1.0 ohm");
    assertThat(Quantity.ohms(3, Double.POSITIVE_INFINITY)).hasToString("3.00000 ± Infinity ohm");
    assertThatThrownBy(() -> Quantity.ohms(3, Double.NaN)).hasMessage("u=NaN");
    assertThatThrownBy(() -> Quantity.ohms(3, -1)).hasMessage("u=-1.0");
  }
}
