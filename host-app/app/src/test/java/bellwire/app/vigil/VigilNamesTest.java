package bellwire.app.vigil;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.vigil.VigilProgram;
import java.util.Map;
import org.junit.jupiter.api.Test;

class VigilNamesTest {
  @Test
  void aRowWithoutNamesIsShortAndANameIsNeverLeftOut() {
    VigilNames plain = new VigilNames(VigilProgram.TOUCH, Map.of());
    assertThat(plain.all(0b1111_0000_0000_0101)).isEqualTo("P1, P3 and P13 to P16");
    assertThat(plain.all(0x1FFFF)).isEqualTo("P1 to P16 and M");
    assertThat(plain.oneOf(0b111)).isEqualTo("P1, P2 or P3");
    VigilNames red = new VigilNames(VigilProgram.CONTINUITY, Map.of(2, "red"));
    assertThat(red.all(0b111_1111)).isEqualTo("P1, P2, P3 red and P4 to P7");
  }
}
