package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.CopperMistake.TouchingMetal;
import bellwire.analysis.landing.PartMistake.JumperChanged;
import bellwire.analysis.landing.PartMistake.WrongSetting;
import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What may be in the way, one thing at a time, and the installation without it. */
class CureTest {
  private static final Installation HEAT = SampleLoops.HEAT_ONLY.healthy();
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();
  private static final Installation TWO = SampleLoops.TWO_SUPPLIES.healthy();

  private static List<String> words(Installation of) {
    return Cure.all(of).stream().map(Cure::words).toList();
  }

  private static Installation cured(Installation of, String words) {
    return Cure.all(of).stream()
        .filter(c -> c.words().equals(words))
        .findFirst()
        .orElseThrow(() -> new AssertionError("no cure=" + words + " in " + words(of)))
        .installation();
  }

  /** C of the equipment is empty; both of the control's terminals are taken. */
  @Test
  void everyChangeOfTwoConductors() {
    assertThat(words(HEAT))
        .containsExactly(
            "red joins R at the equipment and R at the control",
            "white joins W at the equipment and W at the control",
            "red and white are exchanged at one end",
            "red is under R, not under C, at the equipment",
            "white is under W, not under C, at the equipment");
    assertThat(Cure.all(HEAT)).noneMatch(Cure::fault).noneMatch(Cure::otherSupply);
  }

  @Test
  void aFreeEndIsPutUnderWhatIsEmpty() {
    Installation free = Variant.landed(HEAT, "white", "W", null);
    assertThat(words(free))
        .containsExactly(
            "red joins R at the equipment and R at the control",
            "red is under R, not under C, at the equipment",
            "white is under W, not under C, at the equipment",
            "red is under R, not under W, at the control",
            "white is free, not under W, at the control");
    assertThat(cured(free, "white is free, not under W, at the control")).isEqualTo(HEAT);
    // A spare that is free at both ends is in nobody's way
    assertThat(words(Variant.landed(HEAT, "white", null, null)))
        .containsExactly(
            "red joins R at the equipment and R at the control",
            "red is under R, not under W, at the equipment",
            "red is under R, not under C, at the equipment",
            "red is under R, not under W, at the control");
  }

  @Test
  void faultsComeFirst() {
    Installation of =
        new TouchingMetal("red", 0.5)
            .in(new Touching("red", "blue", 0.5, false).in(new Broken("yellow").in(FURNACE)))
            .withOpen(Set.of("float switch", "board fuse"));
    assertThat(words(of))
        .startsWith(
            "board fuse has opened",
            "float switch is open",
            "yellow is broken",
            "red touches blue",
            "red touches bare metal")
        .contains("'fan in heat' is not set to 'control'")
        .doesNotContain("'fan in heat' is not set to 'equipment'");
    assertThat(Cure.all(of).stream().filter(Cure::fault)).hasSize(5);
    assertThat(cured(of, "board fuse has opened").open()).containsExactly("float switch");
    assertThat(cured(of, "float switch is open").open()).containsExactly("board fuse");
    assertThat(cured(of, "red touches blue").cable().bridges())
        .extracting(b -> b.b())
        .containsExactly((String) null);
    Installation mended = cured(of, "yellow is broken");
    assertThat(mended.cable().conductor("yellow").ohms()).isEqualTo(0.5);
    assertThat(mended.cable().conductor("red")).isEqualTo(FURNACE.cable().conductor("red"));
  }

  @Test
  void whatWasExchangedOrSetOtherwiseIsPutRight() {
    Installation exchanged =
        new LandingMistake.Exchanged(Side.FAR, "white", "W", "yellow", "Y").in(FURNACE);
    assertThat(cured(exchanged, "white and yellow are exchanged at one end")).isEqualTo(FURNACE);
    Installation set = new WrongSetting("fan in heat", "control", "equipment").in(FURNACE);
    assertThat(cured(set, "'fan in heat' is not set to 'equipment'")).isEqualTo(FURNACE);
    Installation mislanded = Variant.landed(FURNACE, "blue", "C", null);
    assertThat(cured(mislanded, "blue is free, not under C, at the control")).isEqualTo(FURNACE);
  }

  @Test
  void aJumperIsFittedOrMissing() {
    Installation fitted = new JumperChanged(new Jumper(Side.FAR, "RC", "RH"), true).in(TWO);
    assertThat(words(TWO)).contains("the jumper RC-RH is missing");
    assertThat(cured(TWO, "the jumper RC-RH is missing")).isEqualTo(fitted);
    assertThat(cured(fitted, "the jumper RC-RH is fitted")).isEqualTo(TWO);
  }

  @Test
  void aControlThatLeaksWouldBeAnotherOnABattery() {
    Installation boiler = SampleLoops.BOILER.healthy();
    Cure leak = Cure.all(boiler).get(0);
    assertThat(leak.words()).isEqualTo("the control leaks through its open calls");
    assertThat(leak.fault()).isTrue();
    assertThat(leak.otherSupply()).isTrue();
    assertThat(leak.installation().control().contacts())
        .allMatch(c -> Double.isInfinite(c.leakOhms()));
    assertThat(leak.installation().control().supply().leastVolts()).isZero();
  }

  @Test
  void aControlLeaksByItsContactsOrByStealing() {
    Control common = FURNACE.control();
    Control stealing = Variant.stealing(FURNACE, "blue", "R", "W").control();
    assertThat(Leaks.possible(common)).isFalse();
    assertThat(Leaks.possible(with(common.supply(), stealing.contacts()))).isTrue();
    assertThat(Leaks.possible(with(stealing.supply(), common.contacts()))).isTrue();
  }

  private static Control with(Control.Supply supply, List<Control.ControlContact> contacts) {
    Control c = FURNACE.control();
    return new Control(
        c.title(), c.terminals(), supply, contacts, c.jumpers(), c.settings(), c.states());
  }
}
