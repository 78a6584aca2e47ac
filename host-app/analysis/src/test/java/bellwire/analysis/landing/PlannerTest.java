package bellwire.analysis.landing;

import static bellwire.analysis.landing.Jobs.job;
import static bellwire.analysis.landing.Jobs.landed;
import static bellwire.analysis.landing.Jobs.plan;
import static bellwire.analysis.landing.Jobs.with;
import static bellwire.analysis.landing.Jobs.words;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.SampleLoops;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;

class PlannerTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation HEAT_PUMP = SampleLoops.HEAT_PUMP_O.healthy();
  private static final Installation DUAL_FUEL = SampleLoops.DUAL_FUEL_TWO_STAGE.healthy();
  private static final Installation TWO_SUPPLIES = SampleLoops.TWO_SUPPLIES.healthy();

  private static final String FURNACE_OF_FIVE = "red:R:R blue:-:- white:W:W yellow:Y:Y green:G:G";

  @Test
  void takesTheSpareForTheCommon() {
    Proposal proposal = plan(job(FURNACE.equipment(), FURNACE.control(), FURNACE_OF_FIVE));
    assertThat(proposal.spares())
        .containsExactly(new Proposal.Spare("blue", "C", "surveyed as sound, 0.52 ohm"));
    assertThat(proposal.moves().stream().map(Proposal.Move::words))
        .containsExactly(
            "blue at the equipment: from a free end to C",
            "blue at the control: from a free end to C");
  }

  @Test
  void takesTheSpareForABrokenConductorAndLiftsThatOne() {
    Replacement job =
        job(
            FURNACE.equipment(),
            FURNACE.control(),
            FURNACE_OF_FIVE.replace("blue:-:-", "blue:C:C brown:-:-"));
    Proposal proposal =
        plan(with(job, with(job.cable(), "yellow", Double.POSITIVE_INFINITY), Map.of()));
    assertThat(landed(proposal, "brown")).isEqualTo(new Landed("brown", "Y", "Y"));
    assertThat(landed(proposal, "yellow")).isEqualTo(new Landed("yellow", null, null));
    assertThat(proposal.moves()).hasSize(4);
    assertThat(proposal.remarks())
        .containsExactly("yellow is not used and lifted at both ends: it is broken.");
  }

  @Test
  void saysWhatIsMissingAndWhatWouldDo() {
    Proposal proposal =
        plan(job(FURNACE.equipment(), FURNACE.control(), "red:R:R white:W:W yellow:Y:Y green:G:G"));
    assertThat(proposal.plan()).isNull();
    Proposal.Shortfall shortfall = Objects.requireNonNull(proposal.shortfall());
    assertThat(shortfall.words()).isEqualTo("four sound conductors, five needed: R, C, W, Y, G");
    assertThat(shortfall.alternatives()).hasSize(3);
    assertThat(shortfall.alternatives().get(0)).startsWith("one conductor more");
    assertThat(shortfall.alternatives().get(1)).contains("batteries");
    assertThat(shortfall.alternatives().get(2)).contains("a jumper Y to G at the equipment");
  }

  @Test
  void countsConductorsThatAreNotSoundAsMissing() {
    Replacement job = job(FURNACE.equipment(), FURNACE.control(), FURNACE_OF_FIVE);
    Proposal proposal =
        plan(with(job, with(job.cable(), "blue", Double.POSITIVE_INFINITY), Map.of()));
    assertThat(Objects.requireNonNull(proposal.shortfall()).usable())
        .containsExactly("red", "white", "yellow", "green");
  }

  @Test
  void usesADoubtfulConductorOnlyWhereItMust_AndSaysSo() {
    Replacement job = job(FURNACE.equipment(), FURNACE.control(), FURNACE_OF_FIVE);
    Proposal proposal = plan(with(job, job.cable(), Map.of("blue", "its joint stands out")));
    assertThat(landed(proposal, "blue")).isEqualTo(new Landed("blue", "C", "C"));
    assertThat(proposal.remarks())
        .containsExactly("blue is used though it is not sound: its joint stands out.");
    Replacement two = job(FURNACE.equipment(), FURNACE.control(), FURNACE_OF_FIVE + " brown:-:-");
    Proposal other = plan(with(two, two.cable(), Map.of("blue", "its joint stands out")));
    assertThat(landed(other, "blue")).isEqualTo(new Landed("blue", null, null));
    assertThat(landed(other, "brown")).isEqualTo(new Landed("brown", "C", "C"));
  }

  @Test
  void usesTwoDoubtfulConductorsWhereOneMoreWouldNotDo() {
    Replacement job = job(FURNACE.equipment(), FURNACE.control(), FURNACE_OF_FIVE + " brown:-:-");
    Map<String, String> doubtful =
        Map.of("blue", "a joint", "white", "a joint", "brown", "leakage");
    Proposal proposal = plan(with(job, job.cable(), doubtful));
    assertThat(landed(proposal, "white")).isEqualTo(new Landed("white", "W", "W"));
    assertThat(proposal.remarks()).filteredOn(r -> r.contains("is used though")).hasSize(2);
  }

  @Test
  void ofTwoThatTouchUsesOneAtMost() {
    Replacement job = job(FURNACE.equipment(), FURNACE.control(), FURNACE_OF_FIVE + " brown:-:-");
    Cable touching =
        new Cable(
            "touching",
            job.cable().conductors(),
            List.of(new Cable.Bridge("blue", "brown", 0.2, 0.4)));
    Proposal proposal = plan(with(job, touching, Map.of()));
    assertThat(proposal.spares()).hasSize(1);
    assertThat(proposal.remarks())
        .containsExactly(
            "blue is used though it is not sound: it touches brown.",
            "brown is not used and lifted at both ends: it touches blue.");
  }

  @Test
  void fitsTheJumperForOneSupplyAndLeavesItOutForTwo() {
    Proposal one =
        plan(
            job(
                FURNACE.equipment(),
                TWO_SUPPLIES.control(),
                "red:R:R blue:C:C white:W:W yellow:Y:Y green:G:G"));
    assertThat(one.moves()).isEmpty();
    assertThat(words(one.changes())).contains("fit the jumper RC to RH at the control");
    Proposal two =
        plan(
            job(
                TWO_SUPPLIES.equipment(),
                TWO_SUPPLIES.control(),
                "red:RH:RH white:W:W black:RC:RC blue:C:C yellow:Y:Y green:G:G"));
    assertThat(two.moves()).isEmpty();
    assertThat(words(two.changes())).contains("leave out the jumper RC to RH at the control");
  }

  @Test
  void setsTheValveAndTheKindOfEquipment() {
    Proposal proposal =
        plan(
            job(
                HEAT_PUMP.equipment(),
                HEAT_PUMP.control(),
                "red:R:R blue:C:C white:W1:W2 yellow:Y:Y green:G:G orange:O:O brown:-:-"));
    assertThat(proposal.moves())
        .containsExactly(new Proposal.Move("white", Point.Side.FAR, "W2", "W1"));
    assertThat(proposal.plan().settings())
        .isEqualTo(Map.of("equipment", "heat pump", "valve", "O", "fan in heat", "control"));
  }

  @Test
  void coloursAreNoReasonToMove() {
    Proposal proposal =
        plan(
            job(
                FURNACE.equipment(),
                FURNACE.control(),
                "green:R:R red:C:C yellow:W:W white:Y:Y blue:G:G"));
    assertThat(proposal.moves()).isEmpty();
    assertThat(proposal.disagreements()).hasSize(10);
    assertThat(proposal.disagreements().get(0).words())
        .isEqualTo("green is under R at the equipment, where red is usual; green is usual for G");
  }

  @Test
  void coloursDecideAmongSpares() {
    Proposal proposal =
        plan(
            job(
                FURNACE.equipment(),
                FURNACE.control(),
                "red:R:R brown:-:- orange:-:- blue:-:- white:W:W yellow:Y:Y green:G:G"));
    assertThat(landed(proposal, "blue")).isEqualTo(new Landed("blue", "C", "C"));
  }

  @Test
  void undoesEveryExchangeOfEightConductorsAmongSixteen() {
    Proposal proposal =
        plan(
            job(
                DUAL_FUEL.equipment(),
                DUAL_FUEL.control(),
                "red:R:C blue:C:R white:W1:Y1 brown:W2:O yellow:Y1:Y2 black:Y2:G green:G:W1"
                    + " orange:O:W2 a:-:- b:-:- c:-:- d:-:- e:-:- f:-:- g:-:- h:-:-"));
    assertThat(proposal.moves()).hasSize(8).allMatch(m -> m.side() == Point.Side.FAR);
  }

  @Test
  void saysWhichCallsNoLandingServes() {
    Proposal proposal =
        plan(
            job(
                HEAT_PUMP.equipment(),
                FURNACE.control(),
                "red:R:R blue:C:C white:W1:W yellow:Y:Y green:G:G orange:O:O"));
    Proposal.Shortfall shortfall = Objects.requireNonNull(proposal.shortfall());
    assertThat(shortfall.needed()).isEmpty();
    assertThat(shortfall.words()).contains("no number of conductors would do");
    assertThat(shortfall.words()).endsWith("on all of 'fan on', 'cooling', 'heat'");
  }

  @Test
  void aLongThinCableNeedsAThickerOne() {
    Replacement job =
        job(
            FURNACE.equipment(),
            FURNACE.control(),
            "red:R:R blue:C:C white:W:W yellow:Y:Y green:G:G");
    Cable thin = job.cable();
    for (Cable.Conductor c : job.cable().conductors()) {
      thin = with(thin, c.name(), 3);
    }
    Proposal proposal = plan(with(job, thin, Map.of()));
    Proposal.Shortfall shortfall = Objects.requireNonNull(proposal.shortfall());
    assertThat(shortfall.words()).contains("may not pull in");
    assertThat(shortfall.alternatives()).anyMatch(a -> a.contains("thicker"));
  }

  @Test
  void sparesBesideTheThinConductorsLetTheContactorPullIn() {
    Replacement job =
        job(
            FURNACE.equipment(),
            FURNACE.control(),
            "red:R:R blue:C:C white:W:W yellow:Y:Y green:G:G brown:-:- black:-:- orange:-:-");
    Cable thin = job.cable();
    for (Cable.Conductor c : job.cable().conductors()) {
      thin = with(thin, c.name(), 3);
    }
    Proposal proposal = plan(with(job, thin, Map.of()));
    assertThat(proposal.plan()).isNotNull();
    assertThat(proposal.remarks()).isNotEmpty().allMatch(r -> r.contains(" are both under "));
  }

  @Test
  void twoConductorsOnOneTerminalStayTogether() {
    Proposal proposal =
        plan(
            job(
                FURNACE.equipment(),
                FURNACE.control(),
                "red:R:R black:R:R blue:C:C white:W:W yellow:Y:Y green:G:G"));
    assertThat(proposal.moves()).isEmpty();
  }

  @Test
  void canBeStopped() {
    Replacement job = job(FURNACE.equipment(), FURNACE.control(), FURNACE_OF_FIVE);
    assertThatThrownBy(() -> Planner.plan(job, (moves, schemes) -> false))
        .isInstanceOf(Planner.Stopped.class);
  }

  @Test
  void refusesATerminalThatTheEquipmentHasNot() {
    Replacement job = job(FURNACE.equipment(), FURNACE.control(), "red:RX:R");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Planner.plan(job, Planner.Progress.NONE))
        .withMessageEndingWith("near=RX");
  }
}
