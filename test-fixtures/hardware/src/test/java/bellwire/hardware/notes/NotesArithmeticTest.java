package bellwire.hardware.notes;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.board.BoardDescription;
import bellwire.board.CodedPlug;
import bellwire.hardware.Netlist;
import bellwire.hardware.notes.Induced.Behind;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the tables are computed with, against figures worked out by hand. */
class NotesArithmeticTest {
  private final BoardDescription board = BoardDescription.revisionA();
  private final Induced induced = new Induced(board);

  @ParameterizedTest
  @CsvSource({
    "383, ohm, 383 ohm",
    "19100, ohm, 19.1 kohm",
    "1.0e6, ohm, 1 Mohm",
    "2.2e-9, F, 2.2 nF",
    "1.0e-4, H, 100 µH",
    "1000, ohm, 1 kohm",
    "0.05, A, 50 mA",
    "-0.2, V, −200 mV"
  })
  void aNumberHasItsPrefix(double value, String unit, String text) {
    assertThat(Engineering.text(value, unit)).isEqualTo(text);
  }

  @Test
  void aMinusIsARealOneAndZeroHasNone() {
    assertThat(Engineering.fixed(-0.801, 2)).isEqualTo("−0.80");
    assertThat(Engineering.fixed(-0.0001, 2)).isEqualTo("0.00");
  }

  /** 22 pF at 50 Hz are 144.686 Mohm. 230 V · 1.02 M / |1.02 M − j 144.686 M| = 1.62142 V. */
  @Test
  void aFewPicofaradsIntoTheDividerAndTheLoad() {
    assertThat(induced.volts(230, 50, Behind.FARADS, 22e-12, false))
        .isCloseTo(1.6214, within(1e-4));
    // 1.5896 µA into 22 kohm beside 1.02 Mohm, 21.5355 kohm.
    assertThat(induced.volts(230, 50, Behind.FARADS, 22e-12, true))
        .isCloseTo(1.58965e-6 * 21535.5, within(1e-5));
  }

  /** Shares of 0.3 at the borders that the page states. */
  @Test
  void theBordersOfDrivenKeepTheirShare() {
    double ohms = induced.ohmsKeeping(0.3);
    double kept =
        induced.volts(24, 60, Behind.OHMS, ohms, true)
            / induced.volts(24, 60, Behind.OHMS, ohms, false);
    assertThat(kept).isCloseTo(0.3, within(1e-6));
    double farads = induced.faradsKeeping(0.3, 60);
    kept =
        induced.volts(24, 60, Behind.FARADS, farads, true)
            / induced.volts(24, 60, Behind.FARADS, farads, false);
    assertThat(kept).isCloseTo(0.3, within(1e-6));
  }

  @Test
  void aWordIsSentFromItsHighestBit() {
    assertThat(HandWords.chain(List.of(63, 0))).containsExactly(0x80, 0, 0, 0, 0, 0, 0, 0x01);
    assertThat(HandWords.expander(7, 0x14, 1, 2)).containsExactly(0x4E, 0x14, 1, 2);
  }

  /** Every arm's drift and tolerance together stay far below half of the smallest step. */
  @Test
  void anArmCannotPassForItsNeighbour() {
    CodedPlug plug = CodedPlug.nominal();
    assertThat(PlugTable.smallestStepOhms(plug)).isGreaterThanOrEqualTo(40);
    for (int p = 1; p <= CodedPlug.POSITIONS; p++) {
      assertThat(PlugTable.toleranceOhms(plug, p) + PlugTable.driftOhms(plug, p))
          .isLessThan(PlugTable.smallestStepOhms(plug) / 100);
    }
  }

  /** The parts' capacitances and the board's copper make what the simulated bench takes. */
  @Test
  void theBarriersContributionsMakeTheFilesValue() {
    Figures figures = new Figures(Netlist.revisionA(), board);
    CircuitFigures.add(figures);
    assertThat(figures.texts().get("barrier-all")).isNotNull();
    double all = Double.parseDouble(figures.texts().get("barrier-all").replace(" pF", ""));
    assertThat(1e-12 * all)
        .isCloseTo(board.nominal("barrier-farads"), within(0.2 * board.nominal("barrier-farads")));
  }

  @Test
  void aFigureStandsBeforeItsName() {
    NotesPage page = new NotesPage("| short | 9 mA<!--=a--> or 1.0 to 2 V<!--=b--> |");
    assertThat(page.with(Map.of("a", "2.6 mA", "b", "3 to −4.1 V")))
        .isEqualTo("| short | 2.6 mA<!--=a--> or 3 to −4.1 V<!--=b--> |");
    assertThat(page.names()).containsExactly("a", "b");
    assertThat(page.stray()).isZero();
    assertThat(new NotesPage("soon<!--=a-->").stray()).isEqualTo(1);
  }

  @Test
  void aQuantityWithoutOriginIsFound() {
    assertThat(new NotesPage("It takes 5 mA.").unsupported()).hasSize(1);
    assertThat(new NotesPage("It takes 5 mA (M).\n\nAnd 3 V.").unsupported()).hasSize(1);
    assertThat(new NotesPage("It takes 5 mA<!--=a-->; P1 and 3 ports.").unsupported()).isEmpty();
  }

  @Test
  void aFigureIsGivenOnce() {
    Figures figures = new Figures(Netlist.revisionA(), board);
    figures.text("a", "1 V");
    assertThatThrownBy(() -> figures.text("a", "2 V")).hasMessage("figure twice=a");
  }
}
