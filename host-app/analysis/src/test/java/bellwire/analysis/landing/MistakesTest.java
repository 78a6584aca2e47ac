package bellwire.analysis.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.landing.LandingMistake.Exchanged;
import bellwire.analysis.landing.LandingMistake.NotLanded;
import bellwire.analysis.loop.Installation;
import bellwire.analysis.loop.Point.Side;
import bellwire.analysis.loop.SampleLoops;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
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
}
