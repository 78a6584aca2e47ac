package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.MistakeKind;
import bellwire.analysis.landing.LandingMistake.Exchanged;
import bellwire.analysis.landing.LandingMistake.NotLanded;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

class MistakesTest {
  @ParameterizedTest
  @EnumSource
  void everyMistakeMakesAnInstallationOfItsOwnAndSaysSo(SampleLoops sample) {
    List<Mistake> mistakes = Mistakes.single(sample.healthy());
    Set<Installation> made = new HashSet<>(Set.of(sample.healthy()));
    Set<String> words = new HashSet<>();
    for (Mistake m : mistakes) {
      assertThat(made.add(m.in(sample.healthy()))).as(m.words()).isTrue();
      assertThat(words.add(m.words())).as(m.words()).isTrue();
      assertThat(m.prior()).isBetween(1e-5, 0.05);
      assertThat(m.remedy()).endsWith(".");
    }
  }

  /** Five conductors, all landed, five terminals at each end, all taken. */
  @Test
  void furnaceWithCoolingCounted() {
    List<Mistake> mistakes = Mistakes.single(SampleLoops.FURNACE_COOLING.healthy());
    int pairs = 5 * 4 / 2;
    assertThat(mistakes).filteredOn(m -> m instanceof Exchanged).hasSize(2 * pairs);
    assertThat(mistakes).filteredOn(m -> m instanceof NotLanded).hasSize(2 * 5);
    assertThat(mistakes).filteredOn(m -> m instanceof LandingMistake.Mislanded).hasSize(2 * 5 * 4);
    assertThat(mistakes)
        .filteredOn(m -> m instanceof CopperMistake.Touching t && t.at() == 0.5)
        .hasSize(pairs);
    assertThat(mistakes)
        .filteredOn(m -> m instanceof CopperMistake.Touching t && t.at() == 0)
        .hasSize(4);
  }

  @Test
  void exchangedTwiceIsAsPlanned() {
    Installation healthy = SampleLoops.HEAT_PUMP_O.healthy();
    for (Mistake m : Mistakes.single(healthy)) {
      if (m instanceof Exchanged) {
        assertThat(m.in(m.in(healthy))).isEqualTo(healthy);
      }
    }
  }

  @Test
  void namesConductorAndTerminal() {
    assertThat(new Exchanged(Side.FAR, "white", "W", "yellow", "Y").words())
        .isEqualTo("white and yellow exchanged at the control: white is under Y, yellow under W");
    assertThat(new Exchanged(Side.NEAR, "brown", null, "yellow", "Y").words())
        .isEqualTo("brown under Y at the equipment in place of yellow");
    assertThat(new NotLanded(Side.NEAR, "white", "W").words())
        .isEqualTo("white not gripped under W at the equipment");
  }

  @Test
  void whatIsGoneByAnotherMistakeChangesNothingFurther() {
    Installation healthy = SampleLoops.TWO_SUPPLIES.healthy();
    Installation off = new PartMistake.SupplyOff("cooling transformer").in(healthy);
    assertThat(new PartMistake.SupplyReversed("cooling transformer").in(off)).isEqualTo(off);
    Installation broken = new CopperMistake.Broken("white").in(healthy);
    assertThat(new CopperMistake.PoorJoint("white").in(broken)).isEqualTo(broken);
  }

  private static long count(List<Mistake> of, MistakeKind kind) {
    return of.stream().filter(m -> m.kind() == kind).count();
  }

  /** Six conductors landed and a spare; RH of the control is free; one transformer and fuse. */
  @Test
  void heatPumpWithASpareCounted() {
    List<Mistake> all = Mistakes.single(SampleLoops.HEAT_PUMP_O.healthy());
    assertThat(count(all, MistakeKind.NOT_LANDED)).isEqualTo(2 * 6);
    assertThat(count(all, MistakeKind.DOUBLY_LANDED)).isEqualTo(2 * 6 * 5);
    assertThat(count(all, MistakeKind.MISLANDED)).isEqualTo(6);
    assertThat(count(all, MistakeKind.EXCHANGED)).isEqualTo(2 * (7 * 6 / 2));
    assertThat(count(all, MistakeKind.TOUCHING_NEIGHBOUR)).isEqualTo(2 * 5);
    assertThat(count(all, MistakeKind.TOUCHING_FREE_END)).isEqualTo(2 * 6);
    assertThat(count(all, MistakeKind.TOUCHING_ON_THE_WAY)).isEqualTo(7 * 6 / 2);
    assertThat(count(all, MistakeKind.TOUCHING_METAL)).isEqualTo(7);
    assertThat(count(all, MistakeKind.TOUCHING_METAL_ON_THE_WAY)).isEqualTo(7);
    assertThat(count(all, MistakeKind.JUMPER_MISSING)).isEqualTo(1);
    assertThat(count(all, MistakeKind.JUMPER_TOO_MANY)).isZero();
    // Of three, two and two choices
    assertThat(count(all, MistakeKind.WRONG_SETTING)).isEqualTo(2 + 1 + 1);
    assertThat(count(all, MistakeKind.FUSE_OPENED)).isEqualTo(1);
    assertThat(count(all, MistakeKind.FLOAT_OPEN)).isEqualTo(1);
    assertThat(count(all, MistakeKind.PRESSURE_OPEN)).isEqualTo(1);
    assertThat(count(all, MistakeKind.SUPPLY_OFF)).isEqualTo(1);
    assertThat(count(all, MistakeKind.SUPPLY_REVERSED)).isZero();
    // Three to the outdoor unit; the bond to the cabinet is none
    assertThat(count(all, MistakeKind.WIRE_OPEN)).isEqualTo(3);
    assertThat(count(all, MistakeKind.COIL_OPEN)).isEqualTo(4);
    assertThat(count(all, MistakeKind.COIL_SHORTED)).isEqualTo(4);
  }

  @Test
  void twoSparesAreNotExchanged() {
    Installation spares = Variant.landed(SampleLoops.HEAT_PUMP_O.healthy(), "orange", null, null);
    assertThat(count(Mistakes.single(spares), MistakeKind.EXCHANGED)).isEqualTo(2 * (21 - 1));
  }

  @Test
  void twoSuppliesCounted() {
    List<Mistake> all = Mistakes.single(SampleLoops.TWO_SUPPLIES.healthy());
    assertThat(count(all, MistakeKind.SUPPLY_OFF)).isEqualTo(2);
    assertThat(count(all, MistakeKind.SUPPLY_REVERSED)).isEqualTo(2);
    assertThat(count(all, MistakeKind.JUMPER_TOO_MANY)).isEqualTo(1);
    assertThat(count(all, MistakeKind.JUMPER_MISSING)).isZero();
    assertThat(count(all, MistakeKind.LIMIT_OPEN)).isEqualTo(1);
    // CH of the equipment has no conductor
    assertThat(count(all, MistakeKind.MISLANDED)).isEqualTo(6);
    // A board's input has no coil: of the furnace's four loads two have
    List<Mistake> furnace = Mistakes.single(SampleLoops.FURNACE_COOLING.healthy());
    assertThat(count(furnace, MistakeKind.COIL_OPEN)).isEqualTo(2);
  }

  @Test
  void wordsSayWhereItTouches() {
    assertThat(new CopperMistake.Touching("red", "blue", 0, false).words())
        .isEqualTo("red and blue touch at the equipment");
    assertThat(new CopperMistake.Touching("red", "blue", 1, false).words())
        .isEqualTo("red and blue touch at the control");
    assertThat(new CopperMistake.TouchingMetal("red", 0.5).words())
        .isEqualTo("red touches metal on the way");
    assertThat(new LandingMistake.Mislanded(Side.NEAR, "white", "W", "Y", true).words())
        .isEqualTo("white under Y instead of W at the equipment, where another conductor is too");
    assertThat(new LandingMistake.Mislanded(Side.FAR, "white", "W", "Y", false).words())
        .isEqualTo("white under Y instead of W at the control");
    Jumper jumper = new Jumper(Side.FAR, "RC", "RH");
    assertThat(new PartMistake.JumperChanged(jumper, true).words())
        .isEqualTo("a jumper between RC and RH at the control too many");
    assertThat(new PartMistake.JumperChanged(jumper, false).words())
        .isEqualTo("no jumper between RC and RH at the control");
    assertThat(new Exchanged(Side.FAR, "yellow", "Y", "brown", null).words())
        .isEqualTo("brown under Y at the control in place of yellow");
  }

  /** 15 ohm more; a touch that is there already is no second one. */
  @Test
  void whatAMistakeOfCopperDoesToTheCable() {
    Installation healthy = SampleLoops.FURNACE_COOLING.healthy();
    double ohms = healthy.cable().conductor("red").ohms();
    Installation poor = new CopperMistake.PoorJoint("red").in(healthy);
    assertThat(poor.cable().conductor("red").ohms()).isEqualTo(ohms + 15);
    assertThat(poor.cable().conductor("blue").ohms()).isEqualTo(ohms);
    Mistake touching = new CopperMistake.Touching("red", "blue", 0.5, false);
    assertThat(touching.in(touching.in(healthy))).isEqualTo(touching.in(healthy));
  }

  @Test
  void aDeadCoilIsKnownByItsLoad() {
    Installation healthy = SampleLoops.FURNACE_COOLING.healthy();
    Installation open = new PartMistake.CoilOpen("gas valve").in(healthy);
    Installation shorted = new PartMistake.CoilShorted("gas valve").in(healthy);
    assertThat(PartMistake.CoilOpen.is(open, "gas valve")).isTrue();
    assertThat(PartMistake.CoilOpen.is(open, "compressor contactor")).isFalse();
    assertThat(PartMistake.CoilOpen.is(shorted, "gas valve")).isFalse();
    assertThat(PartMistake.CoilShorted.is(shorted, "gas valve")).isTrue();
    assertThat(PartMistake.CoilShorted.is(open, "gas valve")).isFalse();
    assertThat(PartMistake.CoilShorted.is(healthy, "gas valve")).isFalse();
    // Of the same ohms, and it pulls in
    Installation low = Variant.load(healthy, "gas valve", new Complex(0.1));
    assertThat(PartMistake.CoilShorted.is(low, "gas valve")).isFalse();
  }

  @Test
  void leadsExchangedTurnThePhaseByHalfATurn() {
    Installation two = SampleLoops.TWO_SUPPLIES.healthy();
    String name = "cooling transformer";
    Mistake reversed = new PartMistake.SupplyReversed(name);
    assertThat(reversed.in(two)).isEqualTo(Variant.degrees(two, name, 180));
    assertThat(reversed.in(reversed.in(two))).isEqualTo(two);
    assertThat(reversed.in(Variant.degrees(two, name, 120)))
        .isEqualTo(Variant.degrees(two, name, -60));
    assertThat(reversed.in(Variant.degrees(two, name, -120)))
        .isEqualTo(Variant.degrees(two, name, 60));
  }
}
