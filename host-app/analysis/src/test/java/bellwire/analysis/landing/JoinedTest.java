package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.landing.CopperMistake.Broken;
import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.CopperMistake.TouchingMetal;
import bellwire.analysis.loop.Cable;
import bellwire.analysis.loop.Cable.Bridge;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What an ohmmeter finds joined with the cable lifted at the equipment, thought out by hand. */
class JoinedTest {
  private static final Installation FURNACE = SampleLoops.FURNACE_COOLING.healthy();

  @Test
  void copperOnTheWayAndAtTheControlIsFound() {
    String asIs = Joined.words(FURNACE);
    assertThat(Joined.words(new Touching("blue", "yellow", 0.5, false).in(FURNACE)))
        .contains("blue and yellow");
    assertThat(Joined.words(new TouchingMetal("white", 0.5).in(FURNACE)))
        .contains("metal and white");
    assertThat(Joined.words(new Touching("blue", "yellow", 0, false).in(FURNACE))).isEqualTo(asIs);
  }

  @Test
  void aJumperAndATouchMakeOneGroup() {
    Installation two = SampleLoops.TWO_SUPPLIES.healthy();
    String rh = under(two, "RH");
    String rc = under(two, "RC");
    Installation joined =
        new PartMistake.JumperChanged(new Jumper(Side.FAR, "RC", "RH"), true).in(two);
    assertThat(Joined.words(two)).isEqualTo("none");
    assertThat(Joined.words(joined)).contains(rh).contains(rc);
    String common = under(two, "C");
    assertThat(Joined.words(new Touching(rc, common, 0.5, false).in(joined)))
        .contains(rh, rc, common)
        .doesNotContain(";");
  }

  private static String under(Installation of, String terminal) {
    return of.plan().landed().stream()
        .filter(l -> terminal.equals(l.far()))
        .findFirst()
        .orElseThrow()
        .conductor();
  }

  @Test
  void copperBetweenConductorsIsFoundByTheOhmmeter() {
    Installation leak = Variant.bridged(FURNACE, "red", "white", 9.9, 0.5);
    assertThat(Joined.words(leak)).isEqualTo("red and white");
    assertThat(Joined.words(Variant.bridged(FURNACE, "red", "white", 10, 0.5))).isEqualTo("none");
    Bridge metal = new Bridge("red", null, 0.05, 1);
    Installation two =
        FURNACE.withCable(
            new Cable(
                "drawn up",
                FURNACE.cable().conductors(),
                List.of(metal, new Bridge("yellow", "green", 0.05, 0.5))));
    assertThat(Joined.words(two)).isEqualTo("green and yellow; metal and red");
    Installation shared = Variant.landed(FURNACE, "white", "W", "Y");
    assertThat(Joined.words(shared)).isEqualTo("white and yellow");
    assertThat(Joined.words(new Broken("white").in(shared))).isEqualTo("none");
    assertThat(Joined.words(Variant.landed(shared, "white", "W", null))).isEqualTo("none");
  }
}
