package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.CopperMistake.TouchingMetal;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control.State;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Simulation;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** What is safe to measure in a supposed installation, and what tells it from another. */
class SupposedTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final List<State> STATES = FURNACE.control().states();
  private static final long AT_HEAT = bit("heat, calling");
  private static final long ALL_STATES = (1L << STATES.size()) - 1;

  private static long bit(String state) {
    return 1L << STATES.stream().map(State::name).toList().indexOf(state);
  }

  private static Case of(Installation installation) {
    return new Case(installation, new Simulation(installation), Symptoms.NONE);
  }

  private static Supposed supposed(Installation installation) {
    return new Supposed(new Hypothesis(List.of()), installation, Symptoms.NONE);
  }

  private static Supposed hazards(Mistake mistake) {
    Supposed supposed = supposed(mistake.in(FURNACE));
    assertThat(supposed.codes(List.of())).isEmpty();
    return supposed;
  }

  /** White is live while heat is called: its touch on metal opens the fuse then, and only then. */
  @Test
  void aHeatConductorOnMetalIsAHazardOnHeatOnly() {
    Supposed white = hazards(new TouchingMetal("white", 0.5));
    assertThat(white.hazardous(AT_HEAT)).isTrue();
    assertThat(white.hazardous(ALL_STATES & ~AT_HEAT)).isFalse();
    assertThat(white.hazardous(Trials.LIFTED)).isFalse();
  }

  @Test
  void aSupplyConductorOnMetalIsAHazardInEveryStateAndLifted() {
    Supposed red = hazards(new TouchingMetal("red", 0.5));
    for (int k = 0; k < STATES.size(); k++) {
      assertThat(red.hazardous(1L << k)).as(STATES.get(k).name()).isTrue();
    }
    assertThat(red.hazardous(Trials.LIFTED)).isTrue();
    assertThat(hazards(new Touching("yellow", "green", 0.5, false)).hazardous(-1)).isFalse();
  }

  /** What touches at the control's clamps is apart once lifted; what touches on the way is not. */
  @Test
  void liftingAtTheControlPartsWhatTouchesThere() {
    Supposed there = hazards(new Touching("red", "blue", 1, false));
    assertThat(there.hazardous(ALL_STATES)).isTrue();
    assertThat(there.hazardous(Trials.LIFTED)).isFalse();
    assertThat(hazards(new Touching("red", "blue", 0.5, false)).hazardous(Trials.LIFTED)).isTrue();
    assertThat(hazards(new Touching("red", "blue", 0, false)).hazardous(Trials.LIFTED)).isTrue();
  }

  /** 24 V into 14.4 ohm is the rated load of 40 VA. */
  @Test
  void anOverloadedTransformerIsAHazardThoughNoFuseOpens() {
    Installation heavy = Variant.load(FURNACE, "gas valve", new Complex(9.6));
    Case made = of(heavy);
    // 27 V through 1.79 + 0.54j into 9.6 ohm: 2.4 A of a 3 A fuse, 1.67 A rated
    assertThat(STATES.stream().filter(made::hazardous).map(State::name))
        .containsExactly("heat, calling");
    assertThat(made.hazardousLifted()).isFalse();
  }

  /** 0.09 A of the control and 0.4 A of the valve through 0.2 A; 40 VA bear them. */
  @Test
  void aFuseThatIsTooSmallIsAHazardThoughTheTransformerBearsIt() {
    Case made = of(Variant.fuse(FURNACE, "board fuse", FuseKind.FAST, 0.2));
    assertThat(made.hazardous(STATES.get(0))).isFalse();
    assertThat(STATES.stream().filter(made::hazardous).map(State::name)).contains("heat, calling");
  }

  @Test
  void liftedLeavesNearEndsJumpersSettingsAndTheRestOfTheCable() {
    Installation sample = SampleLoops.HEAT_PUMP_O.healthy();
    Installation touching = Variant.bridged(sample, "red", "white", 5000, 0.5);
    Simulation lifted = of(touching).lifted();
    List<Landed> landed = new ArrayList<>();
    sample.plan().landed().forEach(l -> landed.add(new Landed(l.conductor(), l.near(), null)));
    Installation byHand = touching;
    for (Landed l : landed) {
      byHand = Variant.landed(byHand, l.conductor(), l.near(), null);
    }
    State rest = sample.control().states().get(0);
    Simulation expected = new Simulation(byHand);
    assertThat(lifted.state(rest).loads().stream().map(l -> l.volts()))
        .containsExactlyElementsOf(
            expected.state(rest).loads().stream().map(l -> l.volts()).toList());
    Case once = of(touching);
    assertThat(once.lifted()).isSameAs(once.lifted());
  }

  @Test
  void aFuseIsFoundOpenWhereItWasOrWhereItOpensAtRest() {
    String fuse = "board fuse";
    assertThat(Case.opened(of(FURNACE), fuse)).isFalse();
    assertThat(Case.opened(of(FURNACE.withOpen(Set.of(fuse))), fuse)).isTrue();
    assertThat(Case.opened(of(FURNACE.withOpen(Set.of("float switch"))), fuse)).isFalse();
    assertThat(Case.opened(of(new TouchingMetal("red", 0.5).in(FURNACE)), fuse)).isTrue();
    // Only a call opens it: a look at rest, after a sound one was fitted, finds it sound
    assertThat(Case.opened(of(new TouchingMetal("white", 0.5).in(FURNACE)), fuse)).isFalse();
    assertThat(Case.opened(of(new TouchingMetal("red", 0.5).in(FURNACE)), "other fuse")).isFalse();
  }

  @Test
  void twoAreAlikeWhereSymptomsAndEveryStepAgree() {
    Installation touching = new Touching("yellow", "green", 0.5, false).in(FURNACE);
    List<Step> seesBridges =
        List.of(
            new Looking("a", 1, List.of("x", "y"), c -> 1),
            new Looking("b", 1, List.of("x", "y"), c -> bridges(c.installation().cable())));
    assertThat(supposed(touching).codes(seesBridges)).containsExactly((short) 1, (short) 1);
    assertThat(supposed(FURNACE).codes(seesBridges)).containsExactly((short) 1, (short) 0);
    assertThat(supposed(touching).alike(supposed(touching), seesBridges)).isTrue();
    assertThat(supposed(touching).alike(supposed(FURNACE), seesBridges)).isFalse();
    assertThat(supposed(touching).alike(supposed(FURNACE), seesBridges.subList(0, 1))).isTrue();
    Supposed shows = new Supposed(new Hypothesis(List.of()), touching, new Symptoms(1, 0, 0));
    assertThat(shows.alike(supposed(touching), seesBridges)).isFalse();
  }

  private static int bridges(Cable cable) {
    return cable.bridges().size();
  }
}
