package bellwire.analysis.landing;

import static bellwire.analysis.landing.Jobs.job;
import static bellwire.analysis.landing.Jobs.landed;
import static bellwire.analysis.landing.Jobs.plan;
import static bellwire.analysis.landing.Jobs.wide;
import static bellwire.analysis.landing.Jobs.with;
import static bellwire.analysis.landing.Jobs.words;
import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.landing.Proposal.Needed;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan.Landed;
import bellwire.analysis.loop.SampleLoops;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Which of several landings is proposed, and how far the search goes for it. */
class LandingSearchTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();
  private static final Installation TWO = SampleLoops.TWO_SUPPLIES.healthy();
  private static final String LANDED = "red:R:R blue:C:C white:W:W yellow:Y:Y green:G:G";

  private static Replacement furnace(String landing) {
    return job(FURNACE.equipment(), FURNACE.control(), landing);
  }

  /** R to W and W to R would do as well: one contact joins the two. */
  @Test
  void likeLettersAreJoinedWhereNothingElseDecides() {
    Equipment e = HEAT.equipment();
    for (List<String> terminals : List.of(e.terminals(), List.of("W", "C", "R"))) {
      Equipment ordered = new Equipment(e.title(), terminals, e.elements(), e.wanted());
      Proposal proposal = plan(job(ordered, HEAT.control(), "a:-:- b:-:-"));
      assertThat(proposal.plan().landed())
          .allMatch(l -> Objects.equals(l.near(), l.far()))
          .extracting(Landed::near)
          .containsExactlyInAnyOrder("R", "W");
    }
  }

  /** With the jumper as good, and a change: it is not fitted. */
  @Test
  void aJumperIsNotFittedWhereBothSuppliesAreLanded() {
    Proposal proposal =
        plan(
            job(
                FURNACE.equipment(),
                TWO.control(),
                "red:R:RC black:R:RH blue:C:C white:W:W yellow:Y:Y green:G:G"));
    assertThat(proposal.moves()).isEmpty();
    assertThat(words(proposal.changes())).contains("leave out the jumper RC to RH at the control");
  }

  @Test
  void theFewestConnectionsAreThoseNeeded() {
    Proposal proposal =
        plan(job(FURNACE.equipment(), TWO.control(), "red:R:R white:W:W yellow:Y:Y green:G:G"));
    // RC or RH, and the jumper, which is left in where it saves a conductor
    List<Needed> needed = Objects.requireNonNull(proposal.shortfall()).needed();
    assertThat(needed).hasSize(5);
    assertThat(needed)
        .contains(
            new Needed("C", "C"), new Needed("W", "W"), new Needed("Y", "Y"), new Needed("G", "G"));
  }

  /** As docs/theory.md counts them; the first that is checked passes. */
  @Test
  void theEffortIsTold() {
    Installation dual = SampleLoops.DUAL_FUEL_TWO_STAGE.healthy();
    Proposal proposal =
        plan(
            job(
                dual.equipment(),
                dual.control(),
                "red:R:RC blue:C:C white:W1:W1 brown:W2:W2 yellow:Y1:Y1 black:Y2:Y2 green:G:G"
                    + " orange:O:O/B"));
    assertThat(proposal.moves()).isEmpty();
    assertThat(proposal.effort()).isEqualTo(new Proposal.Effort(8, 1));
  }

  /** Two moves more would lift what does no harm. */
  @Test
  void whatIsJoinedAsFoundAndDoesNoHarmStays() {
    Proposal one =
        plan(
            job(
                HEAT.equipment(),
                wide(HEAT.control(), 4),
                "red:R:R white:W:- blue:C:T2 black:C:T3"));
    assertThat(one.moves().stream().map(Proposal.Move::words))
        .containsExactly("white at the control: from a free end to W");
    assertThat(landed(one, "blue")).isEqualTo(new Landed("blue", "C", "T2"));
    assertThat(landed(one, "black")).isEqualTo(new Landed("black", "C", "T3"));
  }

  /** Either may stay; both would join hot and common. */
  @Test
  void ofTwoThatDoHarmTogetherOneStays() {
    Proposal proposal =
        plan(
            job(
                HEAT.equipment(),
                wide(HEAT.control(), 4),
                "red:R:R white:W:- blue:C:T2 black:R:T2"));
    assertThat(proposal.moves()).hasSize(2);
    assertThat(Stream.of("blue", "black").map(c -> landed(proposal, c).far()))
        .containsExactlyInAnyOrder("T2", null);
  }

  /** Eight are tried in every subset; of more it is not proved that nothing is better. */
  @Test
  void moreThanEightThatDoNoHarmAreKeptAllOrNone() {
    assertThat(beside(8).proved()).isTrue();
    Proposal nine = beside(9);
    assertThat(nine.proved()).isFalse();
    assertThat(nine.moves().stream().map(Proposal.Move::words))
        .containsExactly("white at the control: from a free end to W");
  }

  private static Proposal beside(int harmless) {
    StringBuilder landing = new StringBuilder("red:R:R white:W:-");
    for (int k = 2; k < 2 + harmless; k++) {
      landing.append(" c").append(k).append(":C:T").append(k);
    }
    return Planner.plan(
        job(HEAT.equipment(), wide(HEAT.control(), 2 + harmless), landing.toString()),
        Planner.Progress.NONE);
  }

  private static Replacement ohms(Replacement job, double ohms, String... conductors) {
    Cable cable = job.cable();
    for (String c : conductors) {
      cable = with(cable, c, ohms);
    }
    return with(job, cable, Map.of());
  }

  /** 5 ohm starve the contactor: the spare takes its call, and the thin one may stay beside it. */
  @Test
  void aSpareTakesTheCallOfAThinConductor() {
    Proposal proposal = plan(ohms(furnace(LANDED + " brown:-:-"), 5, "yellow"));
    assertThat(landed(proposal, "brown")).isEqualTo(new Landed("brown", "Y", "Y"));
    assertThat(proposal.moves()).hasSize(2);
    assertThat(plan(ohms(furnace(LANDED + " brown:-:-"), 0.6, "yellow")).moves()).isEmpty();
  }

  /** 6 ohm in supply and call: one spare is not enough, nor the two of them side by side. */
  @Test
  void twoSparesTakeTheCallsOfTwoThinConductors() {
    Replacement job = ohms(furnace(LANDED + " brown:-:- grey:-:-"), 6, "red", "yellow");
    Proposal proposal = plan(job);
    assertThat(proposal.moves()).hasSize(4);
    assertThat(Stream.of("brown", "grey").map(c -> landed(proposal, c).near()))
        .containsExactlyInAnyOrder("R", "Y");
    assertThat(proposal.effort().checks()).isGreaterThan(2);
  }

  /** Neither the contactor's call nor its supply: something that takes 0.4 A and less. */
  @Test
  void withoutASpareAThinConductorIsGivenALighterCall() {
    Proposal proposal = plan(ohms(furnace(LANDED), 5, "yellow"));
    assertThat(landed(proposal, "yellow").near()).isIn("C", "G", "W");
    assertThat(proposal.moves()).hasSize(4);
  }

  /** Halved it would do: yellow is doubled, as the least; the others stay as they are. */
  @Test
  void aConnectionGetsASecondConductorWhereHalfTheResistanceDoes() {
    Replacement job =
        ohms(
            furnace(LANDED + " brown:-:- grey:-:-"),
            1.9,
            "red",
            "blue",
            "white",
            "yellow",
            "green",
            "brown",
            "grey");
    Proposal proposal = plan(job);
    assertThat(proposal.moves()).hasSize(2);
    assertThat(proposal.remarks())
        .singleElement()
        .matches(r -> r.contains(" are both under Y ") || r.contains(" are both under R "));
    Replacement none = ohms(furnace(LANDED), 1.9, "red", "blue", "white", "yellow", "green");
    assertThat(plan(none).plan()).isNull();
  }

  /** Three that are not sound are used where it must be, and no fourth. */
  @Test
  void threeThatAreNotSoundAreTheMost() {
    Replacement job = furnace(LANDED);
    Map<String, String> three = Map.of("red", "a joint", "blue", "a joint", "white", "a joint");
    Proposal proposal = plan(with(job, job.cable(), three));
    assertThat(proposal.moves()).isEmpty();
    assertThat(proposal.remarks()).hasSize(3).allMatch(r -> r.contains("is used though"));
    Map<String, String> four =
        Map.of("red", "a joint", "blue", "a joint", "white", "a joint", "green", "a joint");
    assertThat(plan(with(job, job.cable(), four)).plan()).isNull();
  }

  @Test
  void aTouchOfTwentyKilohmIsNoLeakage() {
    Proposal proposal =
        plan(Jobs.bridged(furnace(LANDED), new Cable.Bridge("blue", null, 20_000, 0.5)));
    assertThat(proposal.remarks())
        .containsExactly("blue is used though it is not sound: it touches bare metal.");
  }
}
