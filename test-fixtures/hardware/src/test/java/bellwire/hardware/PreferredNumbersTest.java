package bellwire.hardware;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.board.BoardDescription;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** E96 and E24: IEC 60063:2015, as in test-fixtures/reference, preferred-numbers.yaml. */
class PreferredNumbersTest {
  @ParameterizedTest
  @CsvSource({
    "383, 383",
    "4990, 4990",
    "5000, 4990",
    "47000, 47000",
    "4600, 4590",
    "999, 1000",
    "1, 1",
    "1000000, 1000000",
    "9190, 9200"
  })
  void theNearestIsFound(double value, double nearest) {
    assertThat(PreferredNumbers.nearest(value)).isCloseTo(nearest, within(1e-9 * nearest));
  }

  /** Foil is made to any value; all others are bought. */
  @Test
  void aResistorOfTheBoardCanBeBought() {
    for (Part part : Netlist.revisionA().parts()) {
      ValueExpression value = part.value();
      if (value == null
          || !part.line().kind().equals("resistor")
          || part.line().requirement().contains("foil")) {
        continue;
      }
      double ohms = value.of(BoardDescription.revisionA()::nominal);
      double off = part.line().name().equals("resistor") ? 0.0025 : 1e-6;
      assertThat(PreferredNumbers.nearest(ohms) / ohms).as(part.ref()).isCloseTo(1, within(off));
    }
  }
}
