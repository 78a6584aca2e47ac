package bellwire.analysis.loop;

import static bellwire.analysis.loop.Point.METAL;
import static bellwire.analysis.loop.Point.near;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.loop.StateResult.LoadResult;
import bellwire.analysis.loop.Supplies.Joined;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Two transformers of 27 V behind 1.8 ohm each, and every way of joining them. */
class SuppliesTest {
  private static final double EXACT = 1e-9;
  private static final double JUMPER_OHMS = 0.005;
  private static final double WIRE_OHMS = 0.1;

  private static Transformer supply(String name, String hot, String common, double degrees) {
    return new Transformer(name, near(hot), near(common), 27, 24, 40, 0, degrees, 0);
  }

  private static Installation two(double degrees, boolean jumper, Element... more) {
    return two(0, degrees, jumper, more);
  }

  private static Installation two(
      double heatingDegrees, double degrees, boolean jumper, Element... more) {
    List<Element> elements = new ArrayList<>();
    elements.add(supply("heating transformer", "RH", "CH", heatingDegrees));
    elements.add(supply("cooling transformer", "RC", "C", degrees));
    elements.addAll(List.of(more));
    Installation landed =
        SampleLoops.landed(
            new Equipment(
                "tiny", List.of("RH", "W", "CH", "RC", "C", "Y", "G"), elements, Map.of()),
            SampleControls.twoSupplies(),
            Map.of(SampleControls.FAN, "equipment"),
            "red:RH:RH black:RC:RC blue:C:C",
            0.5);
    LandingPlan plan = landed.plan();
    return landed.withPlan(
        new LandingPlan(
            plan.landed(), jumper ? Set.of(SampleControls.SUPPLIES) : Set.of(), plan.settings()));
  }

  private static Wire commons() {
    return new Wire("commons' wire", near("CH"), near("C"), WIRE_OHMS);
  }

  private static Supplies atRest(Installation installation) {
    return new Simulation(installation).supplies(installation.control().states().get(0)).get(0);
  }

  /** Both transformers, both conductors, jumper and wire. */
  private static final double RING_OHMS = 2 * 1.8 + 2 * 0.5 + JUMPER_OHMS + WIRE_OHMS;

  @Test
  void apart() {
    Supplies supplies = atRest(two(0, false));
    assertThat(supplies.joined()).isEqualTo(Joined.APART);
    assertThat(supplies.circulatingAmps()).isZero();
    assertThat(atRest(two(0, false, commons())).joined()).isEqualTo(Joined.COMMONS);
  }

  @Test
  void joinedHotsCirculateNothingWhileTheCommonsAreIsolated() {
    for (double degrees : new double[] {0, 180, 120}) {
      Installation joined = two(degrees, true);
      assertThat(atRest(joined).joined()).isEqualTo(Joined.HOTS);
      assertThat(atRest(joined).circulatingAmps()).isZero();
      StateResult result = new Simulation(joined).states().get(0);
      assertThat(result.transformers().get(0).amps()).isCloseTo(0, within(EXACT));
      assertThat(result.transformers().get(1).amps()).isLessThan(0.1);
    }
  }

  @Test
  void equalVoltagesInPhaseCirculateNothing() {
    Supplies supplies = atRest(two(0, true, commons()));
    assertThat(supplies.joined()).isEqualTo(Joined.IN_PHASE);
    assertThat(supplies.circulatingAmps()).isCloseTo(0, within(EXACT));
    assertThat(supplies.overMetal()).isFalse();
  }

  @Test
  void opposedVoltagesAddUpInTheRing() {
    Supplies supplies = atRest(two(180, true, commons()));
    assertThat(supplies.joined()).isEqualTo(Joined.OPPOSED);
    assertThat(supplies.circulatingAmps()).isCloseTo(54 / RING_OHMS, within(EXACT));
  }

  /** |1 − exp(j·120°)| = √3. */
  @Test
  void anotherPhaseOfTheMains() {
    Supplies supplies = atRest(two(-120, true, commons()));
    assertThat(supplies.joined()).isEqualTo(Joined.OTHER_PHASE);
    assertThat(supplies.circulatingAmps()).isCloseTo(27 * Math.sqrt(3) / RING_OHMS, within(EXACT));
  }

  @Test
  void bothEarthedIsARingOverMetal() {
    Wire bond = new Wire("bond", near("C"), METAL, WIRE_OHMS / 2);
    Wire other = new Wire("other bond", near("CH"), METAL, WIRE_OHMS / 2);
    Supplies supplies = atRest(two(180, true, bond, other));
    assertThat(supplies.joined()).isEqualTo(Joined.OPPOSED);
    assertThat(supplies.overMetal()).isTrue();
    assertThat(supplies.circulatingAmps()).isCloseTo(54 / RING_OHMS, within(EXACT));
    assertThat(atRest(two(180, true, bond)).joined()).isEqualTo(Joined.HOTS);
  }

  /** Crossed copper opposes what is in phase. */
  @Test
  void hotToCommonAndCommonToHotOppose() {
    Wire one = new Wire("one", near("RH"), near("C"), WIRE_OHMS);
    Wire other = new Wire("other", near("RC"), near("CH"), WIRE_OHMS);
    Supplies supplies = atRest(two(0, false, one, other));
    assertThat(supplies.joined()).isEqualTo(Joined.OPPOSED);
    assertThat(supplies.circulatingAmps()).isCloseTo(54 / (3.6 + 2 * WIRE_OHMS), within(EXACT));
    assertThat(atRest(two(180, false, one, other)).joined()).isEqualTo(Joined.IN_PHASE);
    assertThat(atRest(two(0, false, one)).joined()).isEqualTo(Joined.IN_SERIES);
    assertThat(atRest(two(0, false, other)).joined()).isEqualTo(Joined.IN_SERIES);
  }

  @Test
  void aLoadIsNoJoint() {
    Installation fed =
        two(0, true, SampleParts.relay("relay", near("CH"), near("C"), Load.Role.NONE, 1));
    assertThat(atRest(fed).joined()).isEqualTo(Joined.HOTS);
    assertThat(atRest(fed).circulatingAmps()).isZero();
  }

  @Test
  void aRingIsNotALoadOfTheOther() {
    StateResult result = new Simulation(two(180, true, commons())).states().get(0);
    assertThat(result.transformers()).allMatch(t -> t.overloaded());
    assertThat(result.loads()).extracting(LoadResult::energised).isEmpty();
  }

  /** The sample's jumper, commons isolated: all runs as before, from two supplies. */
  @Test
  void theSampleRunsOnWithItsHotsJoined() {
    Installation healthy = SampleLoops.TWO_SUPPLIES.healthy();
    LandingPlan plan = healthy.plan();
    Installation joined =
        healthy.withPlan(
            new LandingPlan(plan.landed(), Set.of(SampleControls.SUPPLIES), plan.settings()));
    List<StateResult> before = new Simulation(healthy).states();
    List<StateResult> after = new Simulation(joined).states();
    for (int i = 0; i < before.size(); i++) {
      assertThat(after.get(i).loads())
          .extracting(LoadResult::energised)
          .isEqualTo(before.get(i).loads().stream().map(LoadResult::energised).toList());
    }
  }

  @Test
  void bothOnAnotherPhaseAreInPhase() {
    Supplies supplies = atRest(two(120, 120, true, commons()));
    assertThat(supplies.joined()).isEqualTo(Joined.IN_PHASE);
    assertThat(supplies.circulatingAmps()).isCloseTo(0, within(EXACT));
  }

  @Test
  void aTransformerThatGivesNothingCirculatesNothing() {
    for (String dead : List.of("heating transformer", "cooling transformer")) {
      Supplies supplies = atRest(two(180, true, commons()).withOpen(Set.of(dead)));
      assertThat(supplies.joined()).isEqualTo(Joined.OPPOSED);
      assertThat(supplies.circulatingAmps()).isZero();
    }
  }

  @Test
  void aTouchJoinsUpToTenOhms() {
    for (double ohms : new double[] {10, 10.01}) {
      Installation apart = two(0, false);
      List<Cable.Bridge> touch = List.of(new Cable.Bridge("red", "black", ohms, 0.5));
      Cable cable = new Cable("18-3", apart.cable().conductors(), touch);
      assertThat(atRest(apart.withCable(cable)).joined())
          .isEqualTo(ohms > 10 ? Joined.APART : Joined.HOTS);
    }
  }

  /** Theory (75): only a ring does. */
  @Test
  void currentsCirculateInRingsOnly() {
    assertThat(Stream.of(Joined.values()).filter(Joined::circulates))
        .containsExactly(Joined.IN_PHASE, Joined.OPPOSED, Joined.OTHER_PHASE);
  }
}
