package bellwire.app.landing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.loop.Load;
import bellwire.yaml.FileException;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** Descriptions of equipment and controls: the built-in ones, and what a slip in one is told. */
class DescribedTest {
  static Stream<String> equipment() {
    return Described.EQUIPMENT.stream();
  }

  static Stream<String> controls() {
    return Described.CONTROLS.stream();
  }

  static Stream<String> examples() {
    return Described.EXAMPLES.stream();
  }

  @ParameterizedTest
  @MethodSource("equipment")
  void builtInEquipmentWantsOnlyLoadsOfItsOwnAndEveryLoadIsWantedBySomeCall(String name)
      throws FileException {
    var equipment = Described.equipment(name);
    List<String> loads = equipment.all(Load.class).stream().map(Load::name).toList();
    List<String> wanted =
        equipment.wanted().values().stream()
            .flatMap(w -> Stream.concat(w.must().stream(), w.may().stream()))
            .distinct()
            .toList();
    assertThat(wanted).containsExactlyInAnyOrderElementsOf(loads);
  }

  @ParameterizedTest
  @MethodSource("controls")
  void everyContactOfABuiltInControlIsClosedInSomeState(String name) throws FileException {
    var control = Described.control(name);
    assertThat(
            control.states().stream()
                .flatMap(s -> s.closes().stream())
                .map(c -> c.terminal())
                .distinct())
        .containsExactlyInAnyOrderElementsOf(
            control.contacts().stream().map(c -> c.terminal()).toList());
  }

  @ParameterizedTest
  @MethodSource("examples")
  void everyExampleHasAPlan(String name) throws FileException {
    assertThat(Described.example(name).planned()).isNotNull();
  }

  @Test
  void aLoadsImpedanceIsItsRatedVoltageSquaredOverItsPower() throws FileException {
    // |Z| = V²/S: 24 V and 8 VA are 72 ohm (arithmetic).
    Load contactor =
        Described.equipment("furnace-cooling").all(Load.class).stream()
            .filter(l -> l.name().equals("contactor"))
            .findFirst()
            .orElseThrow();
    assertThat(contactor.holding().norm()).isCloseTo(72, org.assertj.core.data.Offset.offset(1e-9));
    assertThat(contactor.holding().getReal() / contactor.holding().norm())
        .isCloseTo(0.35, org.assertj.core.data.Offset.offset(1e-9));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "fan input: {between: [G, C]    | fan input: {between: [G, D]    | 14: only one part ends at this point: D",
        "closed-by: heat input          | closed-by: heat imput          | 17: no such load: heat imput; did you mean 'heat input'?",
        "must: [contactor, fan input]   | must: [contacter, fan input]   | 27: no such load: contacter; did you mean 'contactor'?",
        "rating: 3 A                    | rating: 3                      | ok",
        "rating: 3 A                    | rating: 3 V                    | 10: unit not known here in board fuse: rating=3 V; use one of A, mA",
        "open: 27 V                     | open: 23 V                     | 8: no more than at full load: open=23.0",
        "terminals: [R, C, W, Y, G]     | terminals: [R, C, W, Y, metal] | 6: no name for a terminal: metal",
        "kind: gas-valve                | kind: gas                      | 13: no such choice in gas valve: kind=gas",
      })
  void aSlipInEquipmentIsToldWithItsLineAndARemedy(String from, String to, String told)
      throws FileException {
    String text = Described.text("furnace-cooling").replace("\r", "");
    assertThat(text).contains(from);
    String slipped = text.replace(from, to);
    if (told.equals("ok")) {
      assertThat(Described.equipment("mine.yaml", slipped)).isNotNull();
    } else {
      assertThatThrownBy(() -> Described.equipment("mine.yaml", slipped))
          .isInstanceOf(FileException.class)
          .hasMessageContaining("mine.yaml:" + told);
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "yellow: [Y, Y1]       | yellow: [Y, Y3]         | 15: no such terminal at the control: Y3",
        "yellow: [Y, Y1]       | yelow: [Y, Y1]          | 15: no such conductor: yelow; did you mean 'yellow'?",
        "yellow: [Y, Y1]       | yellow: [Y]             | 15: not two ends: yellow",
        "jumpers: [[RC, RH]]   | jumpers: [[RC, RX]]     | 17: no such terminal: RX",
        "jumpers: [[RC, RH]]   | settings: {fan: on}     | 17: no such setting: fan",
        "control: one-stage    | control: two-stages     | 5: neither built in nor a file beside this one: control=two-stages",
        "length: 20 m          | length: 20              | 8: unit missing",
      })
  void aSlipInALandingIsToldWithItsLineAndARemedy(String from, String to, String told) {
    String text = Described.text("example-furnace-cooling");
    assertThat(text).contains(from);
    assertThatThrownBy(
            () -> LandingFile.parse("mine.yaml", text.replace(from, to), java.nio.file.Path.of("")))
        .isInstanceOf(FileException.class)
        .hasMessageContaining("mine.yaml:" + told);
  }
}
