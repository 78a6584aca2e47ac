package bellwire.analysis.landing;

import static bellwire.analysis.findings.LoopFinding.*;
import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.findings.LoopFinding;
import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.CopperMistake.TouchingMetal;
import bellwire.analysis.landing.LandingMistake.Exchanged;
import bellwire.analysis.landing.LandingMistake.Mislanded;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Simulation;
import bellwire.analysis.loop.StateResult;
import bellwire.analysis.loop.Switch;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class LandingCheckTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation PUMP = SampleLoops.HEAT_PUMP_O.healthy();
  private static final Installation TWO = SampleLoops.TWO_SUPPLIES.healthy();

  private static Found only(List<Found> found, LoopFinding kind) {
    List<Found> such = found.stream().filter(f -> f.kind() == kind).toList();
    assertThat(such).as("%s in %s", kind, found).hasSize(1);
    return such.get(0);
  }

  @ParameterizedTest
  @EnumSource
  void aHealthySampleHasNoticesAtMost(SampleLoops sample) {
    assertThat(LandingCheck.check(sample.healthy())).allMatch(Found::notice);
    assertThat(LandingCheck.sound(sample.healthy())).isTrue();
  }

  @ParameterizedTest
  @EnumSource
  void everySingleMistakeIsToldWorstFirstInWordsAndSoundAgrees(SampleLoops sample) {
    for (Mistake mistake : Mistakes.single(sample.healthy())) {
      Installation made = mistake.in(sample.healthy());
      List<Found> found = LandingCheck.check(made);
      assertThat(found).as(mistake.words()).allMatch(f -> !f.words().isBlank());
      assertThat(found)
          .as(mistake.words())
          .isSortedAccordingTo(Comparator.comparing(Found::notice).thenComparing(Found::kind));
      assertThat(LandingCheck.sound(made))
          .as(mistake.words())
          .isEqualTo(found.stream().allMatch(Found::notice));
    }
  }

  /**
   * Pairs of single mistakes; how many a sample by {@code -Dbellwire.doubles}, drawn from {@code
   * -Dbellwire.seed}.
   */
  @ParameterizedTest
  @EnumSource
  void everyStateThatIsNotRightIsToldWithDoubleMistakesToo(SampleLoops sample) {
    long seed = Long.getLong("bellwire.seed", 5);
    System.out.println("double mistakes of " + sample + ": seed=" + seed);
    Random random = new Random(seed);
    List<Mistake> single = Mistakes.single(sample.healthy());
    for (int i = 0; i < Integer.getInteger("bellwire.doubles", 30); i++) {
      Mistake first = single.get(random.nextInt(single.size()));
      Mistake second = single.get(random.nextInt(single.size()));
      Installation made = second.in(first.in(sample.healthy()));
      Simulation simulation = new Simulation(made);
      List<Found> faults = new ArrayList<>(LandingCheck.check(made, simulation));
      faults.removeIf(Found::notice);
      for (StateResult state : simulation.states()) {
        String name = state.state().name();
        boolean told =
            faults.stream().anyMatch(f -> f.states().isEmpty() || f.states().contains(name));
        assertThat(told || Cures.right(made.equipment(), state))
            .as("%s; %s: %s, %s", first.words(), second.words(), name, faults)
            .isTrue();
      }
    }
  }

  @Test
  void thePathNamesConductorByConductor() {
    Found found =
        only(
            LandingCheck.check(new Mislanded(Side.NEAR, "white", "W", "C", true).in(FURNACE)),
            SUPPLY_SHORTED);
    assertThat(found.path())
        .containsExactly(
            "main transformer",
            "board fuse",
            "R at the equipment",
            "red",
            "R at the control",
            "contact R-W",
            "W at the control",
            "white",
            "C at the equipment");
  }

  @Test
  void aShortHidesWhatItDoesToTheLoads() {
    List<Found> found = LandingCheck.check(new Touching("red", "blue", 1, false).in(FURNACE));
    assertThat(found).extracting(Found::kind).containsExactly(SUPPLY_SHORTED);
    assertThat(found.get(0).words())
        .contains("because red touches blue")
        .endsWith("then the control is blank");
  }

  /** The control lives through the contactor's coil until it calls it. */
  @Test
  void aControlThatIsFedThroughACoilGoesBlankAsItCalls() {
    Installation made = new Mislanded(Side.NEAR, "blue", "C", "Y", true).in(FURNACE);
    List<Found> faults = LandingCheck.check(made).stream().filter(f -> !f.notice()).toList();
    assertThat(faults).extracting(Found::kind).containsExactly(CONTROL_RESTARTS);
    assertThat(faults.get(0).states()).containsExactly("cooling, calling");
    assertThat(faults.get(0).words())
        .endsWith("because blue is under Y, not under C, at the equipment");
  }

  /** A jumper would make it run, off the wrong transformer. */
  @Test
  void noCureJoinsTwoSupplies() {
    Installation made = new Mislanded(Side.NEAR, "blue", "C", "CH", false).in(TWO);
    assertThat(only(LandingCheck.check(made), COMMON_OF_OTHER_SUPPLY).words())
        .endsWith("because blue is under CH, not under C, at the equipment");
  }

  @Test
  void namesWhatIsInTheWay() {
    Installation exchanged = new Exchanged(Side.FAR, "white", "W", "yellow", "Y").in(FURNACE);
    assertThat(LandingCheck.check(exchanged))
        .filteredOn(f -> f.kind() == WRONG_LOAD)
        .hasSize(2)
        .allMatch(f -> f.words().endsWith("because white and yellow are exchanged at one end"));
    Found broken = only(LandingCheck.check(new Broken("yellow").in(FURNACE)), NEVER_RUNS);
    assertThat(broken.words()).endsWith("because yellow is broken");
  }

  @Test
  void aFloatSwitchInTheSupplyBlanksTheControlOneInTheCallDoesNot() {
    Found inSupply = only(LandingCheck.check(PUMP), BLANK_ON_SWITCH);
    assertThat(inSupply.where()).containsExactly("float switch");
    assertThat(inSupply.states()).isEmpty();
    for (Installation of : List.of(FURNACE, Variant.onBattery(FURNACE, "blue"))) {
      assertThat(LandingCheck.check(of))
          .filteredOn(f -> f.where().contains("float switch"))
          .singleElement()
          .matches(f -> f.kind() == CALLS_IN_SILENCE && f.notice())
          .matches(f -> f.states().equals(List.of("cooling, calling")));
    }
  }

  /** A limit switch closes again by itself, and every furnace has one: no news. */
  @Test
  void thatAControlCallsOnIsToldOfFloatSwitchesOnly() {
    boolean limits = false;
    for (SampleLoops sample : SampleLoops.values()) {
      Installation healthy = sample.healthy();
      limits |=
          healthy.equipment().all(Switch.class).stream()
              .anyMatch(s -> s.kind() == Switch.Kind.LIMIT || s.kind() == Switch.Kind.PRESSURE);
      assertThat(LandingCheck.check(healthy))
          .filteredOn(f -> f.kind() == CALLS_IN_SILENCE)
          .allMatch(f -> f.where().equals(List.of("float switch")));
    }
    assertThat(limits).isTrue();
  }

  @Test
  void commonsJoinedAreANoticeOverMetalToo() {
    Installation tied = Variant.wired(TWO, "wire CH-C", Point.near("CH"), Point.near("C"));
    Found found = only(LandingCheck.check(tied), SUPPLIES_MEET);
    assertThat(found.notice()).isTrue();
    Installation bonded = Variant.wired(TWO, "bond of CH", Point.near("CH"), Point.METAL);
    Found overMetal = only(LandingCheck.check(bonded), METAL_SUPPLIES_MEET);
    assertThat(overMetal.notice()).isTrue();
    assertThat(overMetal.words()).contains("over bare metal", "nothing circulates");
    assertThat(LandingCheck.sound(bonded)).isTrue();
  }

  @Test
  void aCommonOnMetalThatIsBondedIsNoFault() {
    assertThat(LandingCheck.sound(new TouchingMetal("blue", 0).in(FURNACE))).isTrue();
  }

  /** 24 V into 14.4 ohm is the rated load of 40 VA: half of it again overloads. */
  @Test
  void loadsThatAreTooMuchOverloadTheTransformerBeforeTheFuse() {
    Installation heavy = Variant.load(FURNACE, "gas valve", new Complex(9.6));
    Found found = only(LandingCheck.check(heavy), TRANSFORMER_OVERLOADED);
    assertThat(found.states()).containsExactly("heat, calling");
    // 27 V through 1.79 + 0.54j into 9.6 ohm
    assertThat(found.words()).contains("carries 2.4", "rated for 1.67 A");
    Installation small = Variant.fuse(heavy, "board fuse", FuseKind.FAST, 1);
    Found fuse = only(LandingCheck.check(small), FUSE_OPENS);
    // UL 248-14, fast: at twice the rating at most 2 min
    assertThat(fuse.words()).contains("opens within 120 s");
  }

  @Test
  void aControlFedFromBothSuppliesInSeriesGetsTwiceItsVolts() {
    Installation tied = Variant.wired(TWO, "wire CH-RC", Point.near("CH"), Point.near("RC"));
    Installation made = Variant.landed(tied, "black", "RH", "RC");
    // 54·288 / |288 + 2·0.52 + 2·(1.79 + 0.54j) + 0.15|
    assertThat(LandingCheck.check(made))
        .filteredOn(f -> f.kind() == OVERVOLTAGE && f.states().isEmpty())
        .singleElement()
        .matches(f -> f.words().equals("the control gets 53.1 V"));
  }

  @Test
  void lowMainsAndUncertainOhmsMakeAContactorDoubtful() {
    // 18 V at the contactor with nominal mains: 1.05 times 18 V is 18.9 V
    Installation enough = Variant.ohms(FURNACE, 1.9);
    assertThat(LandingCheck.check(enough))
        .filteredOn(f -> f.kind() == MAY_NOT_PULL_IN)
        .singleElement()
        .matches(f -> f.words().startsWith("with the mains 5 % low compressor contactor gets 17."));
    List<Cable.Conductor> uncertain =
        FURNACE.cable().conductors().stream()
            .map(c -> new Cable.Conductor(c.name(), c.nearColour(), c.farColour(), 0.5, 2))
            .toList();
    Installation measured =
        FURNACE.withCable(new Cable("measured", uncertain, FURNACE.cable().bridges()));
    assertThat(LandingCheck.check(measured)).anyMatch(f -> f.kind() == MAY_NOT_PULL_IN);
    assertThat(LandingCheck.sound(Variant.ohms(FURNACE, 0.5))).isTrue();
  }

  @Test
  void aRelayThatBreaksItsOwnSupplyChatters() {
    Installation made = Variant.breakingItsOwnSupply(FURNACE, "compressor contactor");
    assertThat(only(LandingCheck.check(made), CHATTERS).states())
        .containsExactly("cooling, calling");
  }

  /** 1500 ohm through 2 kohm of damp: 27·1500/3500 = 11.6 V, between 7 V and 15 V. */
  @Test
  void aLeakBetweenHoldInAndPickUpMayRunALoad() {
    Installation damp =
        Variant.bridged(Variant.onBattery(FURNACE, "blue"), "red", "green", 2000, 1);
    List<Found> found = LandingCheck.check(damp);
    // The fan runs on other calls, and this keeps it in
    assertThat(only(found, HELD).words()).startsWith("fan input gets 11.6 V");
  }

  @Test
  void aLoadWhoseCoilIsOpenNeverRuns() {
    Installation made = new PartMistake.CoilOpen("gas valve").in(FURNACE);
    assertThat(only(LandingCheck.check(made), NEVER_RUNS).words()).contains("gas valve");
  }

  @Test
  void everyKindHasATitleAndARemedyInWholeSentences() {
    Set<String> titles = new HashSet<>();
    for (LoopFinding kind : LoopFinding.values()) {
      assertThat(kind.title()).isNotBlank().doesNotEndWith(".");
      assertThat(kind.remedy()).endsWith(".");
      assertThat(titles.add(kind.title())).as(kind.title()).isTrue();
      if (kind.remedy().contains("fit a fuse") || kind.remedy().contains("then fit")) {
        assertThat(kind.remedy()).containsIgnoringCase("find").contains("same type and rating");
      }
    }
  }
}
