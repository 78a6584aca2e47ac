package bellwire.app.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.Found;
import bellwire.analysis.landing.LandingCheck;
import bellwire.analysis.loop.Installation;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import org.junit.jupiter.api.Test;

/** Landings that are legal and out of the way: what is told of them is so, and is told. */
class OddLandingsTest {
  private static final String FURNACE =
      """
      bellwire-landing: 1
      equipment: furnace-cooling
      control: CONTROL
      cable: {gauge: 18 AWG, length: 20 m, conductors: [red, white, yellow, green, blue, brown]TOUCHING}
      as-planned:
        landed: {red: [R, RC], white: [W, W1], yellow: [Y, Y1], green: [G, G]BLUE}
        jumpers: [[RC, RH]]
      """;

  private static String fedFromC(String more) {
    return FURNACE.replace("CONTROL", "one-stage").replace("BLUE", ", blue: [C, C]" + more);
  }

  private static String touching(String touching) {
    return fedFromC("").replace("TOUCHING", ", touching: [" + touching + "]");
  }

  private static Installation landing(String text) throws Exception {
    return Objects.requireNonNull(
        LandingFile.parse("odd.yaml", text.replace("TOUCHING", ""), Path.of("")).planned());
  }

  private static List<Found> faults(String text) throws Exception {
    return LandingCheck.check(landing(text)).stream().filter(f -> !f.notice()).toList();
  }

  private static Found only(String text, LoopFinding kind) throws Exception {
    List<Found> such = faults(text).stream().filter(f -> f.kind() == kind).toList();
    assertThat(such).as("%s in %s", kind, faults(text)).hasSize(1);
    return such.get(0);
  }

  @Test
  void aPressureSwitchOfWhatAHeatOnlyControlNeverCallsIsNotSaidToBeByPassed() throws Exception {
    String heatOnly =
        """
        bellwire-landing: 1
        equipment: furnace-cooling
        control: heat-only-battery
        cable: {length: 20 m, conductors: [red, white]}
        as-planned: {landed: {red: [R, R], white: [W, W1]}}
        """;
    assertThat(faults(heatOnly)).isEmpty();
    assertThat(LandingCheck.sound(landing(heatOnly))).isTrue();
  }

  @Test
  void aStealingControlWithoutItsSupplyIsNotBlankBecauseItLeaks() throws Exception {
    String unfed =
        FURNACE
            .replace("CONTROL", "one-stage-stealing")
            .replace("BLUE", "")
            .replace("red: [R, RC]", "red: [free, RC]");
    assertThat(only(unfed, LoopFinding.CONTROL_BLANK).words())
        .endsWith("because red is free, not under R, at the equipment");
  }

  @Test
  void aSpareThatShortsTheSupplyIsNamedAndNotTheConductorsThatAreRight() throws Exception {
    assertThat(only(fedFromC(", brown: [R, C]"), LoopFinding.SUPPLY_SHORTED).words())
        .contains("because brown joins R at the equipment and C at the control");
  }

  @Test
  void aShortTooFarAwayToOverloadItsTransformerIsNotSaidToOverheatIt() throws Exception {
    String far =
        fedFromC(", brown: [R, C]").replace("18 AWG, length: 20 m", "24 AWG, length: 90 m");
    // By hand: 90 m of 24 AWG, 84.2 ohm/km at 20 °C, twice over, are 15.2 ohm; with the transformer
    // 17.0 + j0.5 ohm for 27 V: 1.6 A of 1.67 A.
    assertThat(only(far, LoopFinding.SHORT_MAY_LAST).words())
        .contains("drives 1.6 A", "because brown joins R", "bears it")
        .doesNotContain("overheats");
  }

  @Test
  void aTouchOfThirtyOhmBetweenSupplyAndCommonIsNoSoundLanding() throws Exception {
    // By hand: halfway 27 V drive 0.83 A through 30 ohm and 2.2 ohm in its way, 21 W in the wall.
    Found found = only(touching("{between: [red, blue], ohm: 30 ohm}"), LoopFinding.TOUCH_CARRIES);
    assertThat(found.words()).contains("red touches blue", "0.83 A", "20.7 W");
    assertThat(found.states()).isEmpty();
    assertThat(found.path()).contains("red", "touch red-blue", "blue");
    assertThat(faults(touching("{between: [red, blue], ohm: 100 kohm}"))).isEmpty();
  }

  @Test
  void anOverloadByATouchNamesTheTouch() throws Exception {
    assertThat(
            only(
                    touching("{between: [red, blue], ohm: 15 ohm}"),
                    LoopFinding.TRANSFORMER_OVERLOADED)
                .words())
        .contains("because red touches blue");
  }

  @Test
  void aValveThatItsRelayKeepsOnIsNotSaidToHoldInAtNoVolts() throws Exception {
    // By hand: 27 V by 1440 ohm of 1440 + 2000 are 11.3 V, above the input's 8 V.
    assertThat(only(touching("{between: [red, white], ohm: 2 kohm}"), LoopFinding.HELD).words())
        .contains("gas valve stays on by heat input: it gets 11.2 V and holds in from 8 V")
        .doesNotContain("0.0 V");
  }

  @Test
  void tooManyVoltsFromOneTransformerAreNotBlamedOnTwo() {
    assertThat(LoopFinding.OVERVOLTAGE.remedy()).contains("where there is only one");
  }
}
