package bellwire.analysis.landing;

import static bellwire.analysis.landing.Jobs.bridged;
import static bellwire.analysis.landing.Jobs.job;
import static bellwire.analysis.landing.Jobs.jumpered;
import static bellwire.analysis.landing.Jobs.landed;
import static bellwire.analysis.landing.Jobs.plan;
import static bellwire.analysis.landing.Jobs.wide;
import static bellwire.analysis.landing.Jobs.with;
import static bellwire.analysis.landing.Jobs.words;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What a proposal says beside the landing itself: sentences, and what is refused. */
class ProposalTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();
  private static final Installation PUMP = SampleLoops.HEAT_PUMP_O.healthy();
  private static final String LANDED = "red:R:R blue:C:C white:W:W yellow:Y:Y green:G:G";

  private static Replacement furnace(String landing) {
    return job(FURNACE.equipment(), FURNACE.control(), landing);
  }

  private static List<String> moves(Proposal proposal) {
    return proposal.moves().stream().map(Proposal.Move::words).toList();
  }

  @Test
  void whatIsOutOfUseIsToBeCappedAtItsFreeEnd() {
    Proposal heat = plan(job(HEAT.equipment(), HEAT.control(), "red:R:R white:W:W green:C:G"));
    assertThat(moves(heat))
        .containsExactly("green at the control: from G of the old one to a free end, capped");
    assertThat(heat.remarks())
        .containsExactly(
            "green stays under C at the equipment and is free at the control: cap it there, it may"
                + " be live.");
    Proposal furnace = plan(furnace(LANDED + " brown:-:Y"));
    assertThat(furnace.moves()).isEmpty();
    assertThat(furnace.remarks())
        .containsExactly(
            "brown goes under Y at the control and is free at the equipment: cap it there, it may"
                + " be live.");
    assertThat(plan(furnace(LANDED)).remarks()).isEmpty();
  }

  @Test
  void aMoveSaysFromWhereToWhere() {
    Proposal proposal =
        plan(furnace(LANDED.replace("yellow:Y:Y green:G:G", "yellow:G:Y green:Y:G")));
    assertThat(moves(proposal)).hasSize(2).allMatch(m -> m.contains(" from "));
    assertThat(new Proposal.Move("blue", Side.NEAR, "Y", "C").words())
        .isEqualTo("blue at the equipment: from Y to C");
    assertThat(new Proposal.Move("blue", Side.NEAR, "Y", null).words())
        .isEqualTo("blue at the equipment: from Y to a free end, capped");
    assertThat(new Proposal.Move("blue", Side.FAR, "Y", "C").words())
        .isEqualTo("blue at the control: from Y of the old one to C");
    assertThat(new Proposal.Move("blue", Side.FAR, null, "C").words())
        .isEqualTo("blue at the control: from a free end to C");
  }

  @Test
  void aConductorFreeAtOneEndIsASpareToo() {
    Proposal near = plan(furnace(LANDED.replace("blue:C:C", "blue:C:-")));
    assertThat(near.spares()).extracting(Proposal.Spare::conductor).containsExactly("blue");
    Proposal far = plan(furnace(LANDED.replace("blue:C:C", "blue:-:C")));
    assertThat(far.spares()).extracting(Proposal.Spare::conductor).containsExactly("blue");
    assertThat(moves(far)).containsExactly("blue at the equipment: from a free end to C");
    assertThat(plan(furnace(LANDED)).spares()).isEmpty();
    assertThat(plan(furnace(LANDED + " brown:-:-")).spares()).isEmpty();
  }

  @Test
  void aSpareIsProvedByItsSurveyOrToBeSurveyedFirst() {
    Replacement job = furnace(LANDED.replace("blue:C:C", "blue:-:-"));
    Cable assumed = with(job.cable(), "blue", 0.52);
    assertThat(plan(with(job, assumed, Map.of())).spares())
        .extracting(Proposal.Spare::proof)
        .containsExactly("0.52 ohm assumed: survey it first");
    assertThat(plan(with(job, job.cable(), Map.of("blue", "its joint stands out"))).spares())
        .extracting(Proposal.Spare::proof)
        .containsExactly("not sound: its joint stands out");
  }

  /** Blue comes first, brown is under C already. */
  @Test
  void ofTwoDoubtfulOnesTheOneWithFewerMovesIsUsed() {
    Replacement job = furnace(LANDED.replace("blue:C:C", "blue:-:- brown:C:- grey:-:-"));
    Map<String, String> doubtful = Map.of("blue", "a joint", "brown", "a joint", "grey", "a joint");
    Proposal proposal = plan(with(job, job.cable(), doubtful));
    assertThat(moves(proposal)).containsExactly("brown at the control: from a free end to C");
    assertThat(landed(proposal, "blue")).isEqualTo(new Landed("blue", null, null));
  }

  @Test
  void whatIsBrokenIsNotCounted() {
    Replacement job = furnace(LANDED);
    Proposal proposal =
        plan(with(job, with(job.cable(), "blue", Double.POSITIVE_INFINITY), Map.of()));
    assertThat(proposal.plan()).isNull();
    assertThat(proposal.settings()).isEmpty();
    assertThat(proposal.remarks()).containsExactly("blue is not counted: it is broken.");
  }

  @Test
  void settingsThatCloseNothingHereAreNotTold() {
    Proposal proposal = plan(job(FURNACE.equipment(), PUMP.control(), LANDED));
    assertThat(words(proposal.changes()))
        .contains("set 'equipment' to 'conventional'", "fit the jumper RC to RH at the control")
        .noneMatch(w -> w.contains("valve"));
    assertThat(proposal.settings()).containsEntry("equipment", "conventional");
  }

  /**
   * A jumper that called the outdoor unit and the fan by one conductor; and one of the old control.
   */
  @Test
  void aJumperAtTheEquipmentThatDoesHarmIsLeftOut() {
    Jumper calls = new Jumper(Side.NEAR, "Y", "G");
    Jumper old = new Jumper(Side.FAR, "RC", "RH");
    Proposal proposal = plan(jumpered(furnace(LANDED), calls, old));
    assertThat(words(proposal.changes()))
        .containsOnlyOnce("leave out the jumper Y to G at the equipment")
        .noneMatch(w -> w.contains("RC"));
    assertThat(proposal.moves()).isEmpty();
  }

  @Test
  void aJumperAtTheEquipmentThatDoesNoHarmStaysUntold() {
    Jumper common = new Jumper(Side.NEAR, "C", "CH");
    Installation two = SampleLoops.TWO_SUPPLIES.healthy();
    Proposal proposal =
        plan(
            jumpered(
                job(
                    two.equipment(),
                    two.control(),
                    "red:RH:RH white:W:W black:RC:RC blue:C:C yellow:Y:Y green:G:G"),
                common));
    assertThat(Objects.requireNonNull(proposal.plan()).jumpers()).containsExactly(common);
    assertThat(words(proposal.changes())).noneMatch(w -> w.contains("CH"));
  }

  @Test
  void aLeakageIsToldOfConductorsInUse() {
    Replacement job = furnace(LANDED + " brown:-:- grey:-:-");
    Proposal metal = plan(bridged(job, new Cable.Bridge("white", null, 50_000, 0.5)));
    assertThat(metal.remarks())
        .containsExactly(
            "white leaks to bare metal (50 kohm): too little to matter at 24 V, and it may grow.");
    Proposal other = plan(bridged(job, new Cable.Bridge("brown", "white", 50_000, 0.5)));
    assertThat(other.remarks())
        .containsExactly(
            "brown leaks to white (50 kohm): too little to matter at 24 V, and it may grow.");
    Proposal spares = plan(bridged(job, new Cable.Bridge("brown", "grey", 50_000, 0.5)));
    assertThat(spares.remarks()).isEmpty();
  }

  /** 20 kohm is the most that counts as a touch. */
  @Test
  void whatTouchesIsNotUsedWhereAnotherIsLeft() {
    Replacement job = furnace(LANDED.replace("blue:C:C", "blue:-:- brown:-:-"));
    Proposal metal = plan(bridged(job, new Cable.Bridge("blue", null, 20_000, 0.5)));
    assertThat(landed(metal, "brown")).isEqualTo(new Landed("brown", "C", "C"));
    assertThat(metal.remarks())
        .containsExactly("blue is not used and lifted at both ends: it touches bare metal.");
  }

  @Test
  void twoUnderOneClampAreTold() {
    assertThat(plan(furnace(LANDED + " black:R:R")).remarks())
        .containsExactly("red and black are both under R at the equipment and R at the control.");
  }

  @Test
  void whatDoesNotFitTheCableIsRefused() {
    Replacement job = furnace(LANDED);
    List<Landed> turned = new ArrayList<>(job.asFound().landed());
    turned.add(turned.remove(0));
    assertRefused(
        asFound(job, turned), "conductors=[red, blue, white, yellow, green] landed=[blue");
    assertRefused(furnace("red:R:R red:C:C"), "conductors=[red, red]");
  }

  private static Replacement asFound(Replacement job, List<Landed> landed) {
    return new Replacement(
        job.equipment(),
        job.control(),
        job.cable(),
        job.doubtful(),
        new LandingPlan(landed, Set.of(), Map.of()));
  }

  private static void assertRefused(Replacement job, String words) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Planner.plan(job, Planner.Progress.NONE))
        .withMessageStartingWith(words);
  }

  /** Terminals are bits of a whole number. */
  @Test
  void aControlOfMoreThanThirtyTerminalsIsRefused() {
    assertRefused(
        job(HEAT.equipment(), wide(HEAT.control(), 31), "red:R:R white:W:W"), "terminals=31");
    assertThat(plan(job(HEAT.equipment(), wide(HEAT.control(), 30), "red:R:R white:W:W")).moves())
        .isEmpty();
  }
}
