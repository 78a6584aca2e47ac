package bellwire.analysis.loop;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Ways of currents, followed with a finger on the wiring diagram. */
class CurrentPathTest {
  private static List<String> path(Installation installation, Call call, String element) {
    Control.State state =
        installation.control().states().stream()
            .filter(s -> s.call() == call)
            .findFirst()
            .orElseThrow();
    return new Simulation(installation).path(state, element);
  }

  private static Installation touching(Cable.Bridge... bridges) {
    Installation healthy = SampleLoops.FURNACE_COOLING.healthy();
    Cable cable = healthy.cable();
    return healthy.withCable(new Cable(cable.name(), cable.conductors(), List.of(bridges)));
  }

  @Test
  void coolingGoesOutByYAndBackByTheOutdoorCommon() {
    assertThat(path(SampleLoops.FURNACE_COOLING.healthy(), Call.COOL_1, "compressor contactor"))
        .containsExactly(
            "main transformer",
            "board fuse",
            "R at the equipment",
            "red",
            "R at the control",
            "contact R-Y",
            "Y at the control",
            "yellow",
            "Y at the equipment",
            "float switch",
            "outdoor cable's Y",
            "compressor contactor",
            "outdoor cable's C",
            "C at the equipment");
  }

  @Test
  void heatGoesOverTheJumper() {
    assertThat(path(SampleLoops.DUAL_FUEL_TWO_STAGE.healthy(), Call.EMERGENCY_1, "heat input"))
        .containsExactly(
            "main transformer",
            "board fuse",
            "R at the equipment",
            "red",
            "RC at the control",
            "jumper RC-RH",
            "RH at the control",
            "contact RH-W1",
            "W1 at the control",
            "white",
            "W1 at the equipment",
            "heat input",
            "C at the equipment");
  }

  @Test
  void aShortAlongTheCableIsNamedByItsConductors() {
    Installation touched = touching(new Cable.Bridge("red", "blue", 0.1, 0.3));
    assertThat(path(touched, Call.NONE, "board fuse"))
        .isEqualTo(path(touched, Call.NONE, "touch red-blue"))
        .containsExactly(
            "main transformer",
            "board fuse",
            "R at the equipment",
            "red",
            "touch red-blue",
            "blue",
            "C at the equipment");
  }

  /** The control is blank at one time and shorted at the other: the short is told. */
  @Test
  void aShortedCallGoesBackOverMetal() {
    assertThat(path(touching(new Cable.Bridge("yellow", null, 0.1, 1)), Call.COOL_1, "board fuse"))
        .containsExactly(
            "main transformer",
            "board fuse",
            "R at the equipment",
            "red",
            "R at the control",
            "contact R-Y",
            "Y at the control",
            "touch yellow-metal",
            "bare metal",
            "bond of the common",
            "C at the equipment");
  }

  /** The supply of the transformer that feeds it, whichever way round its leads are named. */
  @Test
  void eachTransformerFeedsItsOwn() {
    Installation panel = SampleLoops.ZONE_PANEL.healthy();
    assertThat(path(panel, Call.HEAT_1, "gas valve"))
        .containsExactly(
            "furnace transformer", "board fuse", "panel's relay W", "limit switch", "gas valve");
    assertThat(path(panel, Call.HEAT_1, "panel's heat input")).startsWith("panel transformer");
  }

  @Test
  void ofTwoWaysTheOneThatCarriesMoreIsTold() {
    for (String thick : List.of("red", "black")) {
      Installation heat =
          SampleLoops.landed(
              SampleEquipment.heatOnly(),
              SampleControls.heatOnly(SampleControls.battery()),
              Map.of(),
              "red:R:R black:R:R white:W:W",
              1);
      List<Cable.Conductor> conductors =
          heat.cable().conductors().stream()
              .map(c -> c.name().equals(thick) ? new Cable.Conductor(thick, null, null, 0.2, 0) : c)
              .toList();
      Installation uneven = heat.withCable(new Cable("18-3", conductors, List.of()));
      assertThat(path(uneven, Call.HEAT_1, "gas valve"))
          .containsSequence("R at the equipment", thick, "R at the control");
    }
  }

  @Test
  void noCurrentHasNoPath() {
    Installation healthy = SampleLoops.FURNACE_COOLING.healthy();
    assertThat(path(healthy, Call.HEAT_1, "compressor contactor")).isEmpty();
    assertThat(path(healthy.withOpen(Set.of("board fuse")), Call.HEAT_1, "board fuse")).isEmpty();
    assertThat(path(healthy, Call.HEAT_1, "no such thing")).isEmpty();
    assertThat(path(healthy, Call.HEAT_1, "yellow")).isEmpty();
  }

  /** A load wired the other way round is passed the other way round. */
  @Test
  void theWayBeginsAtTheHotEnd() {
    Installation heat =
        SampleLoops.landed(
            new Equipment(
                "tiny",
                List.of("R", "W", "C"),
                List.of(
                    SampleParts.transformer("transformer", Point.near("R"), Point.near("C"), 40),
                    SampleParts.gasValve("gas valve", Point.near("C"), Point.near("W"), 1)),
                Map.of()),
            SampleControls.heatOnly(SampleControls.battery()),
            Map.of(),
            "red:R:R white:W:W",
            1);
    List<String> way =
        List.of(
            "transformer",
            "R at the equipment",
            "red",
            "R at the control",
            "contact R-W",
            "W at the control",
            "white",
            "W at the equipment",
            "gas valve",
            "C at the equipment");
    assertThat(path(heat, Call.HEAT_1, "gas valve")).isEqualTo(way);
    assertThat(path(heat, Call.HEAT_1, "transformer")).isEqualTo(way);
  }

  /** A light touch divides a conductor in two parts of one name. */
  @Test
  void aConductorThatIsTouchedIsNamedOnce() {
    Installation touched = touching(new Cable.Bridge("red", null, 1e6, 0.5));
    assertThat(path(touched, Call.COOL_1, "compressor contactor"))
        .isEqualTo(path(SampleLoops.FURNACE_COOLING.healthy(), Call.COOL_1, "compressor contactor"))
        .containsOnlyOnce("red");
  }

  /** 4 ohm beside twice 0.5 ohm: a fifth of the current, four fifths by the longer way. */
  @Test
  void theLongerWayIsToldWhereItCarriesMore() {
    Point corner = Point.inside("corner");
    Point lead = Point.inside("lead");
    Wire thin = new Wire("thin wire", Point.near("R"), lead, 4);
    Wire thick = new Wire("thick wire", Point.near("R"), corner, 0.5);
    Wire last = new Wire("last wire", corner, lead, 0.5);
    for (List<Wire> wires :
        List.of(
            List.of(last, thick, thin), List.of(thin, thick, last), List.of(thick, thin, last))) {
      List<Element> elements = new ArrayList<>(wires);
      elements.add(SampleParts.gasValve("gas valve", lead, Point.near("C"), 1));
      elements.add(SampleParts.transformer("transformer", Point.near("R"), Point.near("C"), 40));
      Installation installation =
          SampleLoops.landed(
              new Equipment("tiny", List.of("R", "W", "C"), elements, Map.of()),
              SampleControls.heatOnly(SampleControls.battery()),
              Map.of(),
              "red:R:R white:W:W",
              1);
      assertThat(path(installation, Call.NONE, "gas valve"))
          .containsExactly(
              "transformer",
              "R at the equipment",
              "thick wire",
              "last wire",
              "gas valve",
              "C at the equipment");
    }
  }
}
