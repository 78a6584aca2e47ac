package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.landing.CopperMistake.Touching;
import bellwire.analysis.landing.CopperMistake.TouchingMetal;
import bellwire.analysis.loop.Control.Jumper;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
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
}
