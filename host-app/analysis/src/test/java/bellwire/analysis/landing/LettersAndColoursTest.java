package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What letters and colours stand for: common practice, no source. */
class LettersAndColoursTest {
  @ParameterizedTest
  @CsvSource({
    "R, R, R C W, true",
    "R, C, R C W, false",
    "RC, R, R C W, true",
    "RH, R, R C W, true",
    "R, RC, RC RH C W, true",
    "R, RH, RC RH C W, true",
    // The new control has an RC of its own
    "RC, RH, RC RH C W, false",
    "W, W1, RC C W1 W2, true",
    "W2, W1, RC C W1 W2, false",
    "AUX, W2, RC C W1 W2, true",
    "Y1, Y, R C Y, true",
    "O, O/B, R Y O/B, true",
    "B, O/B, R Y O/B, true",
    "Y, O/B, R C O/B, false",
    "O/B, O, R Y O, true",
    "O/B, B, R Y B, false",
    "O, B, R Y B, false",
    "W, -, R C W, false",
    "-, W, R C W, false",
    "-, -, R C W, true"
  })
  void aRoleIsKeptUnderTheSameLetterOrOneThatStandsForIt(
      String old, String now, String terminals, boolean keeps) {
    assertThat(
            Letters.keeps(
                old.equals("-") ? null : old,
                now.equals("-") ? null : now,
                List.of(terminals.split(" "))))
        .isEqualTo(keeps);
  }

  @ParameterizedTest
  @CsvSource({"' w1 ', W", "rc, R", "o/b, O", "aux, W2", "Y2, Y2", "g, G"})
  void spellingsOfALetter(String spelt, String letter) {
    assertThat(Letters.plain(spelt)).isEqualTo(letter);
  }

  @ParameterizedTest
  @CsvSource({
    "red, R, true",
    "red, RC, true",
    "Red, rh, true",
    "' white ', W1, true",
    "white, Y, false",
    "blue, C, true",
    "black, C, true",
    "green, C, false",
    "brown, W2, true",
    "brown, AUX, true",
    "orange, O/B, true",
    "blue, B, true",
    "light blue, Y2, true",
    // Nothing is known of K, nor of a conductor without a colour, nor of a free end
    "pink, K, true",
    "-, R, true",
    "green, -, true"
  })
  void aColourIsUsualForItsLetter(String colour, String terminal, boolean agrees) {
    assertThat(
            ColourConvention.agrees(
                colour.equals("-") ? null : colour, terminal.equals("-") ? null : terminal))
        .isEqualTo(agrees);
  }

  @Test
  void whereColourAndLetterDisagreeIsSaidWithWhatIsUsual() {
    Cable cable =
        new Cable(
            "18-4",
            List.of(
                new Cable.Conductor("P1", "yellow", "green", 0.5, 0),
                new Cable.Conductor("pink", "pink", null, 0.5, 0),
                new Cable.Conductor("red", "red", "red", 0.5, 0),
                new Cable.Conductor("white", "white", "white", 0.5, 0)),
            List.of());
    LandingPlan plan =
        new LandingPlan(
            List.of(
                new Landed("P1", "G", "Y2"),
                new Landed("pink", "C", "C"),
                new Landed("red", "R", "R"),
                new Landed("white", null, "R")),
            Set.of(),
            Map.of());
    assertThat(ColourConvention.disagreements(cable, plan))
        .extracting(ColourConvention.Disagreement::words)
        .containsExactly(
            "P1 (yellow there) is under G at the equipment, where green is usual;"
                + " yellow is usual for Y",
            "P1 (green there) is under Y2 at the control, where light blue or yellow is usual;"
                + " green is usual for G",
            "pink is under C at the equipment, where black or blue is usual",
            "white is under R at the control, where red is usual; white is usual for W");
  }
}
