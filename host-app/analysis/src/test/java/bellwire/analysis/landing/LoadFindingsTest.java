package bellwire.analysis.landing;

import static bellwire.analysis.findings.LoopFinding.*;
import static bellwire.analysis.landing.ByHand.*;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.loop.Call;
import bellwire.analysis.loop.Element;
import bellwire.analysis.loop.Equipment;
import bellwire.analysis.loop.Equipment.Wanted;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.LandingPlan;
import bellwire.analysis.loop.Load;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Wire;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Loads that starve, that may run, that a switch does not stop: where one verdict ends. */
class LoadFindingsTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();

  private static List<Found> faults(Installation of) {
    return LandingCheck.check(of).stream().filter(f -> !f.notice()).toList();
  }

  private static List<Found> found(Installation of, LoopFinding kind) {
    return LandingCheck.check(of).stream().filter(f -> f.kind() == kind).toList();
  }

  private static Installation withOhms(String conductor, double ohms) {
    return FURNACE.withCable(Jobs.with(FURNACE.cable(), conductor, ohms));
  }

  /** What the heat input of 1500 ohm gets of 27 V through a conductor that bad. */
  private static double heatInput(double ohms) {
    return volts(OPEN_VOLTS, ohms(1500), TRANSFORMER, CONDUCTOR, ohms(ohms));
  }

  /** 13.4 V, between 7 V and 15 V: it may pull in, and what its relay switches is not told. */
  @Test
  void aRelayThatMayNotPullInHidesWhatItSwitches() {
    List<Found> faults = faults(withOhms("white", 1500));
    assertThat(faults).extracting(Found::kind).containsExactly(MAY_NOT_PULL_IN);
    assertThat(faults.get(0).words())
        .isEqualTo(
            "heat input gets 13.4 V (pulls in at 15 V); its 0.01 A lose 13.4 V in white"
                + " (1500.00 ohm)");
    // What the control takes of the 27 V is left out
    assertThat(heatInput(1500)).isCloseTo(13.4, within(0.1));
    assertThat(faults.get(0).where()).containsExactly("heat input");
  }

  /** 20 % of 15 V are 3 V: more is starved, less a path that is missing. */
  @Test
  void aLoadIsStarvedFromAFifthOfWhatItNeeds() {
    assertThat(faults(withOhms("white", 11_000)))
        .extracting(Found::kind)
        .containsExactly(DOES_NOT_PULL_IN);
    assertThat(heatInput(11_000)).isBetween(3.0, 7.0);
    assertThat(faults(withOhms("white", 13_000)))
        .extracting(Found::kind)
        .containsExactly(NEVER_RUNS);
    assertThat(heatInput(13_000)).isBetween(2.0, 3.0);
  }

  /** A control for heat only before a furnace that can cool: its fan is called by nothing. */
  private static Installation heatControlAtTheFurnace() {
    LandingPlan plan = HEAT.plan();
    return new Installation(FURNACE.equipment(), HEAT.control(), HEAT.cable(), plan);
  }

  @Test
  void aSwitchOfWhatNothingCallsIsNoFault() {
    assertThat(faults(heatControlAtTheFurnace())).isEmpty();
  }

  private static Installation withElements(Installation of, List<String> terminals, Element more) {
    Equipment e = of.equipment();
    List<Element> elements = new ArrayList<>(e.elements());
    elements.add(more);
    return of.withEquipment(new Equipment(e.title(), terminals, elements, e.wanted()));
  }

  /** 2 kohm from R to G leave 11.6 V at 1500 ohm: holds in from 7 V, pulls in at 15 V. */
  @Test
  void whatIsFedByDampAndNeverCalledMayRun() {
    Installation damp =
        withElements(
            heatControlAtTheFurnace(),
            FURNACE.equipment().terminals(),
            new Wire("damp", Point.near("R"), Point.near("G"), 2000));
    // As a wire, which no limit of a touch looks at
    assertThat(faults(damp))
        .singleElement()
        .matches(f -> f.kind() == MAY_RUN_UNCALLED)
        .matches(
            f ->
                f.words().equals("fan input gets 11.6 V (pulls in at 15 V) and holds in from 7 V"));
  }

  @Test
  void aSwitchThatIsByPassedStopsNothing() {
    Installation bridged =
        withElements(
            FURNACE,
            FURNACE.equipment().terminals(),
            new Wire("by-pass", Point.near("Y"), Point.inside("outdoor Y"), 0.05));
    Found found = found(bridged, SWITCH_WITHOUT_EFFECT).get(0);
    assertThat(found.words())
        .isEqualTo("when float switch opens (the drain pan is full), everything runs on");
    assertThat(found.states()).isEmpty();
    assertThat(found.notice()).isFalse();
    // Not told before what is called runs
    assertThat(found(new Broken("white").in(bridged), SWITCH_WITHOUT_EFFECT)).isEmpty();
    // Nor of one that is open
    assertThat(found(bridged.withOpen(Set.of("float switch")), SWITCH_WITHOUT_EFFECT)).isEmpty();
  }

  /**
   * A terminal behind the float switch: the contactor runs from it, and the switch stops nothing.
   */
  @Test
  void aConductorOnTheWrongSideOfASwitchByPassesIt() {
    List<String> terminals = new ArrayList<>(FURNACE.equipment().terminals());
    terminals.add("Y out");
    Installation two =
        withElements(
            FURNACE,
            terminals,
            new Wire("lead", Point.near("Y out"), Point.inside("outdoor Y"), 0.05));
    assertThat(found(two, SWITCH_WITHOUT_EFFECT)).isEmpty();
    Installation wrong = Variant.landed(two, "yellow", "Y out", "Y");
    assertThat(faults(wrong)).extracting(Found::kind).containsExactly(SWITCH_WITHOUT_EFFECT);
    assertThat(faults(wrong).get(0).where()).containsExactly("float switch");
  }

  @Test
  void whatACallWantsAndIsNotThereNeverRuns() {
    Equipment e = FURNACE.equipment();
    Map<Call, Wanted> wanted = new HashMap<>(e.wanted());
    wanted.put(Call.HEAT_1, new Wanted(Set.of("heat input", "gas valve", "humidifier"), Set.of()));
    Installation made =
        FURNACE.withEquipment(new Equipment(e.title(), e.terminals(), e.elements(), wanted));
    Found found = found(made, NEVER_RUNS).get(0);
    assertThat(found.words()).isEqualTo("no current flows through humidifier");
    assertThat(found.states()).containsExactly("heat, calling");
    assertThat(found.where()).containsExactly("humidifier");
  }

  /** Neither call has its load: one finding, whatever is called. */
  @Test
  void nothingRunsWhereNoCallReachesAnything() {
    Installation off = new PartMistake.SupplyOff("main transformer").in(HEAT);
    assertThat(faults(off)).extracting(Found::kind).containsExactly(NOTHING_RUNS);
    assertThat(faults(new Broken("white").in(FURNACE)))
        .extracting(Found::kind)
        .containsExactly(NEVER_RUNS);
  }

  /** Two loads behind one switch: 'stop', one of them: 'stops'. */
  @Test
  void whatAFloatSwitchStopsIsNamed() {
    assertThat(found(FURNACE, CALLS_IN_SILENCE))
        .extracting(Found::words)
        .containsExactly(
            "when float switch opens (the drain pan is full), compressor contactor stops and the"
                + " control calls on");
    Equipment e = FURNACE.equipment();
    List<Element> elements = new ArrayList<>();
    for (Element element : e.elements()) {
      elements.add(
          element instanceof Load l && l.name().equals("fan input")
              ? new Load(
                  l.name(),
                  Point.inside("outdoor Y"),
                  l.b(),
                  l.kind(),
                  l.inrush(),
                  l.holding(),
                  l.pickUpVolts(),
                  l.holdInVolts(),
                  l.mostVolts(),
                  l.role(),
                  l.stage())
              : element);
    }
    Map<Call, Wanted> wanted = new HashMap<>(e.wanted());
    wanted.remove(Call.FAN);
    Installation both =
        FURNACE.withEquipment(new Equipment(e.title(), e.terminals(), elements, wanted));
    assertThat(found(both, CALLS_IN_SILENCE))
        .extracting(Found::words)
        .containsExactly(
            "when float switch opens (the drain pan is full), fan input and compressor contactor"
                + " stop and the control calls on");
  }

  @Test
  void soundIsWithoutAFault() {
    assertThat(LandingCheck.sound(FURNACE)).isTrue();
    assertThat(LandingCheck.sound(new Broken("white").in(FURNACE))).isFalse();
  }
}
