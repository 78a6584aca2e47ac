package bellwire.analysis.loop;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** One installation simulated from another's simulation. */
class SharedSimulationTest {
  private static final Installation HEALTHY = SampleLoops.FURNACE_COOLING.healthy();

  private static Installation fanByControl() {
    LandingPlan plan = HEALTHY.plan();
    Map<String, String> settings = new HashMap<>(plan.settings());
    settings.put(SampleControls.FAN, "control");
    return HEALTHY.withPlan(new LandingPlan(plan.landed(), plan.jumpers(), settings));
  }

  private static Control.State state(Call call) {
    return HEALTHY.control().states().stream()
        .filter(s -> s.call() == call)
        .findFirst()
        .orElseThrow();
  }

  /** Cooling closes the same contacts under both settings, heat does not. */
  @Test
  void aSettingAloneLeavesWhatIsWorkedOut() {
    Simulation simulation = new Simulation(HEALTHY);
    Simulation other = simulation.of(fanByControl());
    assertThat(other.state(state(Call.COOL_1)).loads().get(0))
        .isSameAs(simulation.state(state(Call.COOL_1)).loads().get(0));
    assertThat(other.state(state(Call.HEAT_1)).loads().get(0))
        .isNotSameAs(simulation.state(state(Call.HEAT_1)).loads().get(0));
  }

  @Test
  void everyOtherChangeComesToWhatItComesToByItself() {
    LandingPlan plan = HEALTHY.plan();
    List<LandingPlan.Landed> swapped = new ArrayList<>(plan.landed());
    swapped.set(2, new LandingPlan.Landed("white", "W", "Y"));
    swapped.set(3, new LandingPlan.Landed("yellow", "Y", "W"));
    Control.Jumper jumper = new Control.Jumper(Point.Side.FAR, "W", "Y");
    Cable cable = HEALTHY.cable();
    List<Cable.Bridge> touch = List.of(new Cable.Bridge("white", "yellow", 0.1, 0.5));
    Control control = SampleControls.heatAndCool(SampleControls.common("W"));
    for (Installation changed :
        List.of(
            fanByControl(),
            HEALTHY.withEquipment(SampleLoops.ZONE_PANEL.healthy().equipment()),
            new Installation(HEALTHY.equipment(), control, cable, plan),
            HEALTHY.withCable(new Cable(cable.name(), cable.conductors(), touch)),
            HEALTHY.withPlan(new LandingPlan(swapped, plan.jumpers(), plan.settings())),
            HEALTHY.withPlan(new LandingPlan(plan.landed(), Set.of(jumper), plan.settings())),
            HEALTHY.withOpen(Set.of("float switch")))) {
      Simulation simulation = new Simulation(HEALTHY);
      List<String> before = words(simulation);
      List<String> after = words(simulation.of(changed));
      assertThat(after).isEqualTo(words(new Simulation(changed))).isNotEqualTo(before);
    }
  }

  private static List<String> words(Simulation simulation) {
    return simulation.states().stream()
        .map(
            s ->
                s.state().name()
                    + s.lit()
                    + s.loads().stream()
                        .map(l -> l.load().name() + " " + l.energised() + " " + l.amps())
                        .toList())
        .toList();
  }
}
