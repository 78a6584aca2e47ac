package bellwire.analysis.landing;

import static bellwire.analysis.landing.Jobs.job;
import static bellwire.analysis.landing.Jobs.plan;
import static bellwire.analysis.landing.Jobs.with;
import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.landing.Proposal.Needed;
import bellwire.analysis.landing.Proposal.Shortfall;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.ControlContact;
import bellwire.analysis.loop.Control.Supply;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.SampleLoops;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Why there is no landing, and what would do instead. */
class ShortageTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();

  private static Shortfall shortfall(Replacement job) {
    Proposal proposal = plan(job);
    assertThat(proposal.plan()).isNull();
    return Objects.requireNonNull(proposal.shortfall());
  }

  @ParameterizedTest
  @CsvSource({"0, no", "1, one", "5, five", "12, twelve", "13, 13", "20, 20"})
  void numbersUpToTwelveAreWords(int n, String words) {
    assertThat(Shortage.number(n)).isEqualTo(words);
  }

  @Test
  void oneConductorIsNotEnoughForHeat() {
    Shortfall shortfall = shortfall(job(HEAT.equipment(), HEAT.control(), "red:R:R"));
    assertThat(shortfall.words()).isEqualTo("one sound conductor, two needed: R, W");
    assertThat(shortfall.usable()).containsExactly("red");
    assertThat(shortfall.needed()).containsExactly(new Needed("R", "R"), new Needed("W", "W"));
    // It lives on batteries already, and has no fan
    assertThat(shortfall.alternatives())
        .containsExactly(
            "one conductor more: a repair, or a new cable with at least two sound conductors");
  }

  @Test
  void aFanThatIsNeverCalledAloneIsNotGivenUp() {
    Control cooling = Variant.without(FURNACE, Call.FAN).control();
    assertThat(
            shortfall(job(FURNACE.equipment(), cooling, "red:R:R white:W:W yellow:Y:Y green:G:G"))
                .alternatives())
        .hasSize(2)
        .noneMatch(a -> a.contains("fan"));
  }

  @Test
  void threeConductorsMoreAreCounted() {
    Shortfall shortfall =
        shortfall(job(FURNACE.equipment(), FURNACE.control(), "red:R:R white:W:W"));
    assertThat(shortfall.words()).isEqualTo("two sound conductors, five needed: R, C, W, Y, G");
    assertThat(shortfall.alternatives())
        .containsExactly(
            "three conductors more: a repair, or a new cable with at least five sound conductors");
  }

  /** Broken ones lie in the cable, and are none of its sound ones. */
  @Test
  void aBrokenConductorIsMissing() {
    Replacement job =
        job(FURNACE.equipment(), FURNACE.control(), "red:R:R blue:C:C white:W:W yellow:Y:Y g:G:G");
    Shortfall shortfall =
        shortfall(with(job, with(job.cable(), "g", Double.POSITIVE_INFINITY), Map.of()));
    assertThat(shortfall.words()).isEqualTo("four sound conductors, five needed: R, C, W, Y, G");
    assertThat(shortfall.alternatives())
        .containsExactly(
            "one conductor more: a repair, or a new cable with at least five sound conductors",
            "a control with the same terminals that lives on batteries: this cable's four sound"
                + " conductors will do",
            "to give up the fan's own call: a jumper Y to G at the equipment frees a conductor, and"
                + " the control must never be set to fan on");
  }

  /** Its only contact feeds no terminal of the heat. */
  @Test
  void oneCallThatNothingServesIsNamedAlone() {
    Control c = HEAT.control();
    Control dead =
        new Control(
            c.title(), c.terminals(), c.supply(), List.of(), c.jumpers(), c.settings(), c.states());
    assertThat(shortfall(job(HEAT.equipment(), dead, "red:R:R white:W:W")).words())
        .isEqualTo(
            "no number of conductors would do: nothing that can be landed, fitted and set makes the"
                + " equipment do what it must on 'heat'");
    assertThat(shortfall(job(HEAT.equipment(), dead, "red:R:R")).alternatives())
        .containsExactly("another control, whose terminals and settings suit this equipment");
  }

  /** 15 kohm from R through G into the fan's input of 1500 ohm: 27 V / 3.25 holds it at 8.3 V. */
  @Test
  void aControlThatLeaksThroughItsCallsWouldDoOnBatteries() {
    Control c = FURNACE.control();
    List<ControlContact> leaky =
        c.contacts().stream()
            .map(k -> new ControlContact(k.supply(), k.terminal(), k.ohms(), 30_000))
            .toList();
    Supply stolen = new Supply(Supply.Kind.STOLEN, "R", null, List.of("G"), 3000, 12);
    Control stealing =
        new Control(c.title(), c.terminals(), stolen, leaky, c.jumpers(), c.settings(), c.states());
    Shortfall shortfall =
        shortfall(job(FURNACE.equipment(), stealing, "red:R:R white:W:W yellow:Y:Y green:G:G"));
    assertThat(shortfall.words())
        .startsWith("the conductors are enough, but no landing is free of findings; the best has ");
    assertThat(shortfall.needed()).hasSize(4);
    assertThat(shortfall.alternatives())
        .containsExactly(
            "a control with the same terminals that lives on batteries: this cable's four sound"
                + " conductors will do");
  }

  /** 3 ohm a conductor starve the contactor; 18 AWG against 14 AWG is 2.52 to 1 (ASTM B258). */
  @Test
  void fourGaugeNumbersThickerWouldDo() {
    Replacement job =
        job(
            FURNACE.equipment(),
            FURNACE.control(),
            "red:R:R blue:C:C white:W:W yellow:Y:Y green:G:G");
    assertThat(alternatives(job, 3))
        .containsExactly("a new cable of the same length, four gauge numbers thicker");
    // 2.52 times what just starves it is too much for that one, too
    assertThat(alternatives(job, 8)).isEmpty();
  }

  private static List<String> alternatives(Replacement job, double ohms) {
    Cable thin = job.cable();
    for (Cable.Conductor c : job.cable().conductors()) {
      thin = with(thin, c.name(), ohms);
    }
    return shortfall(with(job, thin, Map.of())).alternatives();
  }
}
