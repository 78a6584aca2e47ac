package bellwire.analysis.landing;

import static bellwire.analysis.findings.LoopFinding.*;
import static bellwire.analysis.landing.ByHand.*;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Simulation;
import java.util.List;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** What is said to be in the way, and what holds a load or heats a transformer. */
class ReasonsTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation BATTERY = Variant.onBattery(FURNACE, "blue");
  private static final Installation BOILER = SampleLoops.BOILER.healthy();

  private static Found only(Installation of, LoopFinding kind) {
    List<Found> such = LandingCheck.check(of).stream().filter(f -> f.kind() == kind).toList();
    assertThat(such).as("%s of %s", kind, LandingCheck.check(of)).hasSize(1);
    return such.get(0);
  }

  private static List<String> reasons(Installation of, LoopFinding kind) {
    return LandingCheck.check(of).stream()
        .filter(f -> f.kind() == kind)
        .map(f -> f.words().replaceFirst(".*, because ", ""))
        .toList();
  }

  /** Neither puts everything right; each puts its own calls right. */
  @Test
  void ofTwoSlipsEachIsToldWhereItIsInTheWay() {
    Installation two =
        Variant.landed(Variant.landed(FURNACE, "white", "W", null), "yellow", "Y", null);
    assertThat(reasons(two, NEVER_RUNS))
        .containsExactlyInAnyOrder(
            "white is free, not under W, at the control",
            "yellow is free, not under Y, at the control");
  }

  /** A control on a battery would be lit, too, and is no answer to an empty terminal. */
  @Test
  void aBlankControlIsNotPutDownToItsLeaking() {
    assertThat(reasons(Variant.landed(BOILER, "white", "W", null), CONTROL_BLANK))
        .containsExactly("white is free, not under W, at the control");
    assertThat(reasons(new Broken("white").in(BOILER), CONTROL_BLANK))
        .containsExactly("white is broken");
  }

  /** No landing brings a transformer back that gives nothing. */
  @Test
  void whereNoOneThingDoesItNoneIsNamed() {
    Installation transformer = new PartMistake.SupplyOff("main transformer").in(BATTERY);
    assertThat(only(transformer, NOTHING_RUNS).words()).doesNotContain("because");
  }

  /** 2500 ohm from R to W leave 10.1 V at the input of 1500 ohm: it holds in from 7 V. */
  @Test
  void aLoadStaysOnByTheRelayThatFeedsIt() {
    Installation damp = Variant.bridged(BATTERY, "red", "white", 2500, 1);
    double volts = volts(OPEN_VOLTS, ohms(1500), TRANSFORMER, ohms(2500), CONDUCTOR, CONDUCTOR);
    assertThat(volts).isCloseTo(10.1, within(0.05));
    List<String> held =
        LandingCheck.check(damp).stream().filter(f -> f.kind() == HELD).map(Found::words).toList();
    assertThat(held)
        .containsExactly(
            "gas valve stays on by heat input: it gets 10.1 V and holds in from 7 V, because red"
                + " touches white");
  }

  /** 6 kohm of damp in place of a broken conductor leave 5.4 V: no copper leads there. */
  @Test
  void whatDampFeedsIsNotStarved() {
    Installation damp = Variant.bridged(new Broken("white").in(BATTERY), "red", "white", 6000, 0);
    assertThat(LandingCheck.check(damp))
        .filteredOn(f -> !f.notice())
        .extracting(Found::kind)
        .containsExactly(NEVER_RUNS);
  }

  /** 24 V into 14.4 ohm is the rated load; the input's 18 mA are not worth a word. */
  @Test
  void whatOverloadsATransformerIsNamed() {
    Installation heavy = Variant.load(BATTERY, "gas valve", new Complex(9.6));
    assertThat(only(heavy, TRANSFORMER_OVERLOADED).words())
        .matches(
            "main transformer carries 2\\.\\d\\d A, rated for 1.67 A \\(gas valve 2\\.\\d\\d A\\)");
  }

  /** 20 ohm each way let 0.6 A through: the fuse of 3 A and the transformer bear it for ever. */
  @Test
  void aShortFarAwayHeatsTheCableOnly() {
    Installation far = new Touching("red", "blue", 1, false).in(Variant.ohms(FURNACE, 20));
    Found found = only(far, SHORT_MAY_LAST);
    double amps = amps(OPEN_VOLTS, TRANSFORMER, ohms(20), TOUCH, ohms(20));
    assertThat(amps).isCloseTo(0.65, within(0.01));
    assertThat(found.words())
        .contains("drives 0.6 A", "it holds")
        .endsWith("rated for 1.7 A, bears it, and the cable is heated");
  }

  /** The board's blade of 3 A opens within 5 s, a fast one of 1 A sooner. */
  @Test
  void ofTwoFusesInTheWayTheOneThatOpensSoonerIsTold() {
    Touching touching = new Touching("red", "blue", 1, false);
    Installation two = Variant.inLine(FURNACE, "main transformer", FuseKind.BLADE, 30);
    assertThat(only(touching.in(two), SUPPLY_SHORTED).words()).contains("through board fuse (3 A)");
    Installation small =
        Variant.fuse(
            Variant.inLine(FURNACE, "main transformer", FuseKind.BLADE, 3),
            "board fuse",
            FuseKind.BLADE,
            30);
    assertThat(only(touching.in(small), SUPPLY_SHORTED).words())
        .contains("through in-line fuse (3 A)");
  }

  /** 10 ohm are a joint, more a leakage. */
  @Test
  void aTouchOfMoreThanTenOhmIsNoShort() {
    Installation joint = Variant.bridged(FURNACE, "red", "blue", 10, 0);
    Installation leak = Variant.bridged(FURNACE, "red", "blue", 10.1, 0);
    assertThat(LandingCheck.check(joint)).anyMatch(f -> f.kind() == SHORT_MAY_LAST);
    assertThat(LandingCheck.check(leak))
        .noneMatch(f -> f.kind() == SHORT_MAY_LAST)
        .anyMatch(f -> f.kind() == TOUCH_CARRIES);
    assertThat(LandingCheck.check(joint)).noneMatch(f -> f.kind() == TOUCH_CARRIES);
  }

  /** Mending green does not ease it. */
  @Test
  void aShortThatOverloadsNothingIsPutDownToItsTouch() {
    Installation far =
        new Touching("red", "blue", 1, false).in(new Broken("green").in(Variant.ohms(FURNACE, 20)));
    assertThat(only(far, SHORT_MAY_LAST).words()).contains("because red touches blue;");
  }

  /** The contactor is starved and switches nothing: the fan's break is told all the same. */
  @Test
  void aStarvedLoadHidesOnlyWhatItSwitches() {
    Installation both = new Broken("green").in(new CopperMistake.PoorJoint("yellow").in(FURNACE));
    assertThat(only(both, DOES_NOT_PULL_IN).where()).containsExactly("compressor contactor");
    Found fan = only(both, NEVER_RUNS);
    assertThat(fan.states()).contains("cooling, calling");
    assertThat(fan.where()).containsExactly("fan input");
  }

  @Test
  void aTouchIsNoStolenPowerThoughTheControlSteals() {
    Installation touching = new Touching("red", "white", 0.5, false).in(BOILER);
    assertThat(LandingCheck.check(touching))
        .anyMatch(f -> f.kind() == RUNS_UNCALLED)
        .noneMatch(f -> f.kind() == STOLEN_POWER);
    assertThat(only(new Broken("white").in(BOILER), CONTROL_BLANK).where()).isEmpty();
  }

  private static boolean right(Installation of, String state) {
    return new Simulation(of)
        .states().stream()
            .filter(s -> s.state().name().equals(state))
            .allMatch(s -> Cures.right(of.equipment(), s));
  }

  @Test
  void aStateIsRightWhereAllThatIsCalledRunsAndNothingElse() {
    for (SampleLoops sample : SampleLoops.values()) {
      Installation healthy = sample.healthy();
      assertThat(new Simulation(healthy).states())
          .allMatch(s -> Cures.right(healthy.equipment(), s));
    }
    assertThat(right(new Broken("white").in(FURNACE), "heat, calling")).isFalse();
    assertThat(right(new Broken("white").in(FURNACE), "off")).isTrue();
    assertThat(right(new Touching("red", "green", 0.5, false).in(FURNACE), "off")).isFalse();
    // Blank, with nothing called
    assertThat(right(new Broken("blue").in(FURNACE), "off")).isFalse();
    // All runs, and opens the fuse after a while
    Installation small = Variant.fuse(BATTERY, "board fuse", FuseKind.FAST, 0.2);
    assertThat(right(small, "heat, calling")).isFalse();
    assertThat(right(small, "off")).isTrue();
    Installation chatters = Variant.breakingItsOwnSupply(BATTERY, "compressor contactor");
    assertThat(right(chatters, "cooling, calling")).isFalse();
  }

  /** O energised at rest cools nothing; on a heat call the pump cools the house. */
  @Test
  void directionIsJudgedOnACallOfTheCompressor() {
    Installation pump = SampleLoops.HEAT_PUMP_O.healthy();
    Installation held =
        new Touching("red", "orange", 0.5, false)
            .in(new Touching("red", "yellow", 0.5, false).in(pump));
    assertThat(only(held, WRONG_DIRECTION).states())
        .containsExactly("heat, stage 1", "heat, stage 2");
    Installation b = Variant.set(Variant.valveHeating(pump), "valve", "B");
    assertThat(LandingCheck.sound(b)).isTrue();
    Found cools = only(new Broken("orange").in(b), WRONG_DIRECTION);
    assertThat(cools.words()).endsWith("it cools, because orange is broken");
    assertThat(cools.states()).containsExactly("heat, stage 1", "heat, stage 2");
  }
}
