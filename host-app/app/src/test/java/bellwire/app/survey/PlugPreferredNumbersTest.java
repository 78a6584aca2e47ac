package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.survey.Plug;
import bellwire.board.CodedPlug;
import bellwire.reference.ReferenceTables;
import bellwire.reference.Table;
import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

/**
 * The coded plug's resistors against IEC 60063's E96 series (test-fixtures/reference,
 * preferred-numbers.yaml), and the steps that the map of positions rests on.
 */
class PlugPreferredNumbersTest {
  private static final Plug PLUG = BoardModels.plug(CodedPlug.nominal());

  @Test
  void everyArmIsAnE96Number() {
    Table e96 = ReferenceTables.load("preferred-numbers/e96");
    assertThat(e96.status().decides()).isTrue();
    List<Integer> digits = Arrays.stream(e96.only().integers("digits")).boxed().toList();
    assertThat(digits).hasSize(96);
    assertThat(PLUG.armOhms()).hasSize(16).isSorted();
    for (double ohms : PLUG.armOhms()) {
      BigDecimal arm = BigDecimal.valueOf(ohms);
      // Three digits, whatever the decade.
      BigDecimal scaled = arm.scaleByPowerOfTen(3 - (arm.precision() - arm.scale()));
      assertThat(digits).as("ohms=" + ohms).contains(scaled.intValueExact());
    }
  }

  @Test
  void stepsAreLargerThanConductorAndContacts() {
    for (int p = 1; p < PLUG.positions(); p++) {
      assertThat(PLUG.armOhms()[p] - PLUG.armOhms()[p - 1])
          .as("position=" + p)
          .isGreaterThanOrEqualTo(40);
    }
  }

  /** The analysis takes tolerance and drift from the same file. */
  @Test
  void tolerancesAreHandedOver() {
    CodedPlug plug = CodedPlug.nominal();
    assertThat(PLUG.tolerance()).isEqualTo(plug.tolerance());
    assertThat(PLUG.perKelvin()).isEqualTo(plug.ppmPerKelvin() * 1e-6);
    for (int p = 0; p < PLUG.positions(); p++) {
      assertThat(PLUG.armOhms()[p]).isEqualTo(plug.armOhms(p + 1));
    }
  }
}
