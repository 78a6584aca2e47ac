package bellwire.board;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class CodedPlugTest {
  /** E96 is round(100·10^(i/96)) without exception: IEC 60063:2015. */
  @Test
  void armsAreE96InStepsOfFortyOhmAndMore() {
    CodedPlug plug = CodedPlug.nominal();
    for (int position = 1; position <= CodedPlug.POSITIONS; position++) {
      double ohms = plug.armOhms(position);
      double decade = Math.pow(10, Math.floor(Math.log10(ohms)) - 2);
      double index = Math.rint(96 * Math.log10(ohms / decade / 100));
      assertThat(ohms / decade).isCloseTo(Math.rint(100 * Math.pow(10, index / 96)), within(1e-9));
      if (position > 1) {
        assertThat(ohms - plug.armOhms(position - 1)).isGreaterThanOrEqualTo(40 - 1e-9);
      }
    }
    assertThat(plug.armOhms(1)).isEqualTo(49.9);
    assertThat(plug.tolerance()).isEqualTo(1e-4);
  }
}
