package bellwire.analysis.landing;

import static bellwire.analysis.findings.Symptom.*;
import static org.assertj.core.api.Assertions.assertThat;

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
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** Consequences as the trade knows them: common practice, no source. */
class SymptomReaderTest {
  private static final SampleLoops FURNACE = SampleLoops.FURNACE_COOLING;
  private static final SampleLoops PUMP = SampleLoops.HEAT_PUMP_O;

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

  private static Mistake floatOpen(SampleLoops sample) {
    return sample.healthy().equipment().all(Switch.class).stream()
        .filter(s -> s.kind() == Switch.Kind.FLOAT)
        .map(PartMistake.SwitchOpened::new)
        .findFirst()
        .orElseThrow();
  }
}
