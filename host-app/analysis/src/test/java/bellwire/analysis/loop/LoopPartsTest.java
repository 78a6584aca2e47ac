package bellwire.analysis.loop;

import static bellwire.analysis.loop.Point.far;
import static bellwire.analysis.loop.Point.inside;
import static bellwire.analysis.loop.Point.near;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.loop.Load.Kind;
import bellwire.analysis.loop.Load.Role;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.TransformerResult;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** What the loop is made of, each part by itself. */
class LoopPartsTest {
  private static final Transformer SUPPLY =
      new Transformer("transformer", near("R"), near("C"), 27, 24, 40, 0, 0, 0);

  private static Load relay(int number) {
    Complex ohms = new Complex(10_000);
    String name = "relay " + number;
    return new Load(name, near("W"), near("C"), Kind.RELAY, ohms, ohms, 18, 8, 30, Role.NONE, 1);
  }

  private static Simulation relays(int count, Control control) {
    List<Element> elements = new ArrayList<>(List.of(SUPPLY));
    IntStream.range(0, count).forEach(i -> elements.add(relay(i)));
    return new Simulation(
        SampleLoops.landed(
            new Equipment("tiny", List.of("R", "W", "C"), elements, Map.of()),
            control,
            Map.of(),
            "red:R:R white:W:W",
            1));
  }

  private static Control contacts(int count) {
    Control one = SampleControls.heatOnly(SampleControls.battery());
    return new Control(
        one.title(),
        one.terminals(),
        one.supply(),
        Collections.nCopies(count, one.contacts().get(0)),
        one.jumpers(),
        one.settings(),
        one.states());
  }

  @Test
  void sixtyThreeLoadsAreAsManyAsThereCanBe() {
    List<StateResult> states = relays(63, contacts(1)).states();
    assertThat(states.get(0).loads())
        .hasSize(63)
        .noneMatch(l -> l.held() || l.energised() == Energised.ON);
    assertThat(states.get(2).loads())
        .hasSize(63)
        .allMatch(l -> l.held() && l.energised() == Energised.ON);
    assertThatThrownBy(() -> relays(64, contacts(1))).hasMessageContaining("loads=64");
  }

  @Test
  void sixtyThreeContactsAreAsManyAsThereCanBe() {
    assertThat(relays(1, contacts(63)).states()).hasSize(3);
    assertThatThrownBy(() -> relays(1, contacts(64))).hasMessageContaining("contacts=64");
  }

  /** The first contact closed and five loads pulled in have the same hash. */
  @Test
  void conditionsAreTheSameByContactsAndLoadsOnly() {
    Condition closed = new Condition(1, 0);
    Condition pulledIn = new Condition(0, 31);
    assertThat(closed).hasSameHashCodeAs(pulledIn).isNotEqualTo(pulledIn);
    assertThat(closed).isNotEqualTo(new Condition(1, 31)).isNotEqualTo(new Condition(2, 0));
    assertThat(closed).isEqualTo(new Condition(1, 0)).hasSameHashCodeAs(new Condition(1, 0));
  }

  @Test
  void aTerminalAtTheEquipmentIsNotTheControlsOfThatName() {
    assertThat(near("R")).isEqualTo(near("R")).hasSameHashCodeAs(near("R"));
    assertThat(near("R")).isNotEqualTo(far("R")).isNotEqualTo(inside("R")).isNotEqualTo(near("C"));
  }

  @Test
  void aJointLeadsFromEitherEndToTheOther() {
    Joint joint = new Joint("red", near("R"), far("R"), 1);
    assertThat(joint.other(near("R"))).isEqualTo(far("R"));
    assertThat(joint.other(far("R"))).isEqualTo(near("R"));
  }

  @Test
  void aConductorIsFoundByItsName() {
    Cable cable = SampleLoops.FURNACE_COOLING.healthy().cable();
    assertThat(cable.conductor("yellow").nearColour()).isEqualTo("yellow");
    assertThatThrownBy(() -> cable.conductor("mauve")).hasMessage("conductor=mauve");
  }

  /** 40 VA at 24 V are 5/3 A; a thousandth more is not told from it. */
  @Test
  void aTransformerAtItsRatingIsNotOverloaded() {
    double rated = 40 / 24.0;
    assertThat(new TransformerResult(SUPPLY, rated, 45).overloaded()).isFalse();
    assertThat(new TransformerResult(SUPPLY, 1.0005 * rated, 45).overloaded()).isFalse();
    assertThat(new TransformerResult(SUPPLY, 1.002 * rated, 45).overloaded()).isTrue();
  }
}
