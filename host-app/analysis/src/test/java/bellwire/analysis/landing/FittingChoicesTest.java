package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.Closing;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Control.Mode;
import bellwire.analysis.loop.Control.Setting;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Point.Side;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Jumpers and settings, and how many differ from what is at hand: counted by hand. */
class FittingChoicesTest {
  private static final Jumper SUPPLIES = new Jumper(Side.FAR, "RC", "RH");
  private static final Jumper OF_THE_OLD_ONE = new Jumper(Side.FAR, "R", "RC");
  private static final Jumper CALLS = new Jumper(Side.NEAR, "Y", "G");
  private static final Setting VALVE = new Setting("valve", List.of("O", "B"));
  private static final Setting LIGHT = new Setting("light", List.of("on", "off"));

  /** The valve's setting changes what is closed, the light's nothing. */
  private static Control control(List<Jumper> jumpers, List<Setting> settings) {
    return new Control(
        "drawn up",
        List.of("RC", "RH", "Y", "O/B"),
        new Control.Supply(Control.Supply.Kind.BATTERY, null, null, List.of(), 0, 0),
        List.of(),
        jumpers,
        settings,
        List.of(
            new State("off", Mode.OFF, Call.NONE, List.of()),
            new State(
                "cooling",
                Mode.COOL,
                Call.COOL_1,
                List.of(new Closing("Y", Map.of()), new Closing("O/B", Map.of("valve", "O"))))));
  }

  private static LandingPlan found(Set<Jumper> jumpers, Map<String, String> settings) {
    return new LandingPlan(List.of(), jumpers, settings);
  }

  private static Map<Object, Integer> changes(Control control, LandingPlan asFound) {
    Map<Object, Integer> changes = new HashMap<>();
    for (Scheme.Fittings f : FittingChoices.of(control, asFound)) {
      assertThat(changes.put(List.of(f.jumpers(), f.settings()), f.changes())).isNull();
    }
    return changes;
  }

  @Test
  void whatIsNotAsFoundIsAChange() {
    Control control = control(List.of(SUPPLIES), List.of(VALVE));
    LandingPlan asFound = found(Set.of(SUPPLIES, CALLS, OF_THE_OLD_ONE), Map.of("valve", "B"));
    assertThat(changes(control, asFound))
        .isEqualTo(
            Map.of(
                List.of(Set.of(SUPPLIES, CALLS), Map.of("valve", "B")), 0,
                List.of(Set.of(SUPPLIES, CALLS), Map.of("valve", "O")), 1,
                List.of(Set.of(SUPPLIES), Map.of("valve", "B")), 1,
                List.of(Set.of(SUPPLIES), Map.of("valve", "O")), 2,
                List.of(Set.of(CALLS), Map.of("valve", "B")), 1,
                List.of(Set.of(CALLS), Map.of("valve", "O")), 2,
                List.of(Set.of(), Map.of("valve", "B")), 2,
                List.of(Set.of(), Map.of("valve", "O")), 3));
  }

  @Test
  void withNothingFoundTheFirstChoiceIsNoChange() {
    Control control = control(List.of(SUPPLIES), List.of(VALVE));
    assertThat(changes(control, found(Set.of(), Map.of())))
        .isEqualTo(
            Map.of(
                List.of(Set.of(), Map.of("valve", "O")), 0,
                List.of(Set.of(), Map.of("valve", "B")), 1,
                List.of(Set.of(SUPPLIES), Map.of("valve", "O")), 1,
                List.of(Set.of(SUPPLIES), Map.of("valve", "B")), 2));
  }

  @Test
  void fewestChangesComeFirst() {
    Control control = control(List.of(SUPPLIES), List.of(VALVE));
    assertThat(
            FittingChoices.of(control, found(Set.of(SUPPLIES, CALLS), Map.of("valve", "B")))
                .stream()
                .map(Scheme.Fittings::changes))
        .containsExactly(0, 1, 1, 1, 2, 2, 2, 3);
  }

  /** What changes nothing at the contacts stays as found. */
  @Test
  void aSettingThatClosesNothingIsLeftAsItWas() {
    Control control = control(List.of(), List.of(VALVE, LIGHT));
    assertThat(changes(control, found(Set.of(), Map.of("light", "off"))))
        .isEqualTo(
            Map.of(
                List.of(Set.of(), Map.of("valve", "O", "light", "off")), 0,
                List.of(Set.of(), Map.of("valve", "B", "light", "off")), 1));
    assertThat(FittingChoices.usual(LIGHT, found(Set.of(), Map.of("light", "off"))))
        .isEqualTo("off");
    // The old control's choice is none of the new one's
    assertThat(FittingChoices.usual(LIGHT, found(Set.of(), Map.of("light", "dim"))))
        .isEqualTo("on");
    assertThat(FittingChoices.usual(LIGHT, found(Set.of(), Map.of()))).isEqualTo("on");
  }

  @Test
  void fourThousandWaysAreTriedAndNoMore() {
    List<Jumper> jumpers = new ArrayList<>();
    for (int k = 0; k < 12; k++) {
      jumpers.add(new Jumper(Side.FAR, "RC", "terminal " + k));
    }
    assertThat(FittingChoices.of(control(jumpers, List.of()), found(Set.of(), Map.of())))
        .hasSize(4096);
    assertThatIllegalArgumentException()
        .isThrownBy(
            () -> FittingChoices.of(control(jumpers, List.of(VALVE)), found(Set.of(), Map.of())))
        .withMessage("jumpers and settings=4097");
    for (int k = 12; k < 70; k++) {
      jumpers.add(new Jumper(Side.FAR, "RC", "terminal " + k));
    }
    assertThatIllegalArgumentException()
        .isThrownBy(() -> FittingChoices.of(control(jumpers, List.of()), found(Set.of(), Map.of())))
        .withMessageStartingWith("jumpers and settings=");
  }
}
