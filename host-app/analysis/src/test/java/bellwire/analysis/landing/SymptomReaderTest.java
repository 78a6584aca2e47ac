package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;
import static bellwire.analysis.landing.ByHand.*;
import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.circuit.FuseKind;
import bellwire.analysis.findings.Symptom;
import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.landing.CopperMistake.PoorJoint;
import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.CopperMistake.TouchingMetal;
import bellwire.analysis.landing.LandingMistake.Exchanged;
import bellwire.analysis.landing.LandingMistake.NotLanded;
import bellwire.analysis.landing.SymptomReader.Reading;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
import bellwire.analysis.loop.Switch;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Consequences as the trade knows them: common practice, no source. */
class SymptomReaderTest {
  private static final SampleLoops FURNACE = SampleLoops.FURNACE_COOLING;
  private static final SampleLoops PUMP = SampleLoops.HEAT_PUMP_O;
  private static final Map<String, String> FURNACE_TERMINALS =
      Map.of("blue", "C", "yellow", "Y", "green", "G");

  private static Reading read(SampleLoops sample, Mistake... mistakes) {
    Installation made = sample.healthy();
    for (Mistake m : mistakes) {
      made = m.in(made);
    }
    return new SymptomReader(sample.healthy()).read(made);
  }

  @ParameterizedTest
  @EnumSource
  void nothingShowsWhereAllIsWell(SampleLoops sample) {
    assertThat(read(sample).certain()).isEmpty();
    assertThat(read(sample).doubtful()).isEmpty();
  }

  @ParameterizedTest
  @EnumSource
  void onlyWhatIsPossibleShows(SampleLoops sample) {
    SymptomReader reader = new SymptomReader(sample.healthy());
    for (Mistake m : Mistakes.single(sample.healthy())) {
      Reading reading = reader.read(m.in(sample.healthy()));
      assertThat(reader.possible()).as(m.words()).containsAll(reading.certain());
      assertThat(reader.possible()).as(m.words()).containsAll(reading.doubtful());
    }
  }

  @Test
  void fanConductorNotLanded() {
    assertThat(read(FURNACE, new NotLanded(Side.FAR, "green", "G")).shown())
        .containsExactlyInAnyOrder(NO_FAN, NO_FAN_ON_COOLING);
  }

  @Test
  void heatAndCoolingConductorsExchanged() {
    Mistake m = new Exchanged(Side.NEAR, "white", "W", "yellow", "Y");
    assertThat(read(FURNACE, m).shown())
        .containsExactlyInAnyOrder(COOLS_ON_HEAT, HEATS_ON_COOLING, ONLY_FAN_ON_COOLING);
  }

  @Test
  void supplyTouchesFan() {
    assertThat(read(FURNACE, new Touching("red", "green", 0.5, false)).shown())
        .containsExactly(FAN_ALWAYS_ON);
  }

  @Test
  void supplyOnMetalOpensTheFuseAtOnce() {
    Reading reading = read(FURNACE, new TouchingMetal("red", 0));
    assertThat(reading.shown()).containsExactly(FUSE_OPENS_AT_ONCE);
    assertThat(reading.implied()).contains(NOTHING_WORKS, CONTROL_BLANK, NO_HEAT, NO_COOLING);
  }

  @Test
  void heatConductorOnMetalOpensTheFuseOnHeatOnly() {
    Reading reading = read(FURNACE, new TouchingMetal("white", 0.5));
    assertThat(reading.certain()).contains(FUSE_OPENS_ON_HEAT, NO_HEAT);
    assertThat(reading.certain()).doesNotContain(FUSE_OPENS_ON_COOLING, NO_COOLING);
  }

  @Test
  void commonBrokenBlanksTheControl() {
    assertThat(read(FURNACE, new Broken("blue")).shown()).containsExactly(CONTROL_BLANK);
  }

  @Test
  void poorJointStarvesTheContactor() {
    assertThat(read(FURNACE, new PoorJoint("yellow")).shown()).contains(HUMS);
  }

  @Test
  void valveSettingTurnsTheHeatPumpRound() {
    assertThat(read(PUMP, new PartMistake.WrongSetting("valve", "B", "O")).shown())
        .contains(COOLS_ON_HEAT, HEATS_ON_COOLING);
  }

  @Test
  void floatSwitchInTheSupplyBlanksInTheCallDoesNot() {
    assertThat(read(PUMP, floatOpen(PUMP)).shown()).contains(CONTROL_BLANK);
    assertThat(read(FURNACE, floatOpen(FURNACE)).shown()).containsExactly(ONLY_FAN_ON_COOLING);
  }

  @Test
  void noFuseNoFuseSymptom() {
    Symptom[] fuses = {FUSE_OPENS_AT_ONCE, FUSE_OPENS_ON_HEAT, FUSE_OPENS_ON_COOLING};
    Reading reading = read(SampleLoops.HEAT_ONLY, new Touching("red", "white", 0.5, false));
    assertThat(reading.shown()).containsExactly(HEAT_ALWAYS_ON);
    assertThat(new SymptomReader(SampleLoops.HEAT_ONLY.healthy()).possible()).doesNotContain(fuses);
  }

  private static Reading read(Installation made) {
    return new SymptomReader(FURNACE.healthy()).read(made);
  }

  private static Installation withOhms(String conductor, double ohms) {
    Installation healthy = FURNACE.healthy();
    return healthy.withCable(Jobs.with(healthy.cable(), conductor, ohms));
  }

  private static double contactorVolts(double ohms) {
    return volts(OPEN_VOLTS, load(55, 0.6), TRANSFORMER, CONDUCTOR, CONTACT, ohms(ohms), ohms(0.4));
  }

  /** An armature that gets half of the 18 V it needs hums; the input of a board has none. */
  @Test
  void anArmatureHumsFromHalfOfWhatItNeeds() {
    assertThat(contactorVolts(19)).isBetween(9.0, 10.0);
    assertThat(read(withOhms("yellow", 19)).shown()).contains(HUMS, ONLY_FAN_ON_COOLING);
    assertThat(contactorVolts(25)).isBetween(7.5, 8.5);
    assertThat(read(withOhms("yellow", 25)).shown()).containsExactly(ONLY_FAN_ON_COOLING);
    // 13.4 of 15 V at the heat input
    assertThat(read(withOhms("white", 1500)).shown()).containsExactly(NO_HEAT);
  }

  /** 40 VA at 24 V are 1.67 A, a quarter more 2.08 A: between them it may be noticed. */
  @Test
  void aTransformerIsHotFromAQuarterTooMuch() {
    Installation healthy = FURNACE.healthy();
    double control = OPEN_VOLTS / 288;
    assertThat(amps(OPEN_VOLTS, TRANSFORMER, ohms(13)) + control).isBetween(1.75, 2.0);
    Reading warm = read(Variant.load(healthy, "gas valve", ohms(13)));
    assertThat(warm.doubtful()).containsExactly(TRANSFORMER_HOT_ON_CALL);
    assertThat(warm.certain()).isEmpty();
    assertThat(amps(OPEN_VOLTS, TRANSFORMER, ohms(10.5))).isGreaterThan(2.15);
    Reading hot = read(Variant.load(healthy, "gas valve", ohms(10.5)));
    assertThat(hot.certain()).containsExactly(TRANSFORMER_HOT_ON_CALL);
    assertThat(hot.doubtful()).isEmpty();
    Reading rest = read(Variant.bridged(healthy, "red", "blue", 10.5, 0));
    assertThat(rest.shown()).contains(TRANSFORMER_HOT).doesNotContain(TRANSFORMER_HOT_ON_CALL);
    assertThat(rest.implied()).contains(TRANSFORMER_HOT_ON_CALL);
  }

  @Test
  void aFuseOpensOnTheCallWhoseConductorIsOnMetal() {
    Reading fan = read(FURNACE, new TouchingMetal("green", 0.5));
    assertThat(fan.shown()).containsExactlyInAnyOrder(FUSE_OPENS_ON_FAN, FUSE_OPENS_ON_COOLING);
    Reading cooling = read(FURNACE, new TouchingMetal("yellow", 0.5));
    assertThat(cooling.shown()).containsExactly(FUSE_OPENS_ON_COOLING);
    assertThat(cooling.implied()).contains(NO_COOLING, BLANK_ON_COOLING);
    Reading heat = read(FURNACE, new TouchingMetal("white", 0.5));
    assertThat(heat.shown()).containsExactly(FUSE_OPENS_ON_HEAT);
    assertThat(heat.implied()).contains(NO_HEAT, BLANK_ON_HEAT);
  }

  /**
   * 0.53 A of valve and control through 0.45 A: more than a fast fuse holds, less than opens it.
   */
  @Test
  void aFuseThatMayOpenIsDoubtful() {
    Reading small = read(Variant.fuse(FURNACE.healthy(), "board fuse", FuseKind.FAST, 0.45));
    assertThat(small.doubtful()).contains(FUSE_OPENS_ON_HEAT);
    assertThat(small.certain()).doesNotContain(FUSE_OPENS_ON_HEAT, NO_HEAT);
  }

  @Test
  void aContactorThatBreaksItsOwnSupplyChatters() {
    Installation made = Variant.breakingItsOwnSupply(FURNACE.healthy(), "compressor contactor");
    assertThat(read(made).certain()).contains(CHATTERS);
  }

  /** 10.1 V hold in what 15 V pull in: it stays on after its first call, and comes on by none. */
  @Test
  void whatIsHeldAfterItsCallNeverStops() {
    Installation battery = Variant.onBattery(FURNACE.healthy(), "blue");
    Reading held =
        new SymptomReader(battery).read(Variant.bridged(battery, "red", "white", 2500, 1));
    assertThat(held.certain()).contains(HEAT_ALWAYS_ON);
    assertThat(held.certain()).doesNotContain(NO_HEAT);
  }

  /** 2 kohm of damp hold the fan in at 11.6 V; nothing calls it, so nothing has pulled it in. */
  @Test
  void whatNothingPullsInIsNotHeldForCertain() {
    Installation furnace = FURNACE.healthy();
    Installation heat = SampleLoops.HEAT_ONLY.healthy();
    Installation healthy =
        new Installation(furnace.equipment(), heat.control(), furnace.cable(), furnace.plan());
    for (String free : List.of("blue", "yellow", "green")) {
      healthy = Variant.landed(healthy, free, FURNACE_TERMINALS.get(free), null);
    }
    Reading damp =
        new SymptomReader(healthy).read(Variant.bridged(healthy, "red", "green", 2000, 0));
    assertThat(damp.certain()).isEmpty();
    assertThat(damp.doubtful()).contains(FAN_ALWAYS_ON);
  }

  private static Mistake floatOpen(SampleLoops sample) {
    return sample.healthy().equipment().all(Switch.class).stream()
        .filter(s -> s.kind() == Switch.Kind.FLOAT)
        .map(PartMistake.SwitchOpened::new)
        .findFirst()
        .orElseThrow();
  }
}
