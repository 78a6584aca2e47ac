package bellwire.analysis.loop;

import static bellwire.analysis.loop.Point.inside;
import static bellwire.analysis.loop.Point.near;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.circuit.FuseKind;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Which of several fuses opens first, theory (79); 27 V behind 1.8 ohm. */
class FusesInTurnTest {
  private static final double SUPPLY_OHMS = 1.8;
  private static final Wire SHORT = new Wire("short", near("R"), near("C"), 0.05);

  private static Transformer supply(String name, String hot, String common) {
    return new Transformer(name, inside(hot), near(common), 27, 24, 40, 0, 0, 0);
  }

  private static Fuse first(String name, FuseKind kind, double ratedAmps) {
    return new Fuse(name, inside("hot"), inside("between"), kind, ratedAmps);
  }

  private static Fuse second(String name, FuseKind kind, double ratedAmps) {
    return new Fuse(name, inside("between"), near("R"), kind, ratedAmps);
  }

  private static Simulation of(Element... elements) {
    return new Simulation(
        SampleLoops.landed(
            new Equipment("tiny", List.of("R", "W", "C"), List.of(elements), Map.of()),
            SampleControls.heatOnly(SampleControls.battery()),
            Map.of(),
            "red:R:R white:W:W",
            1));
  }

  private static List<String> opening(Simulation simulation) {
    return simulation.opening(simulation.states().get(0).state());
  }

  /** 14 A: a blade of 3 A has opened after 0.5 s, a breaker of 2 A after 10 s. */
  @Test
  void theOneWithTheShorterLimitThoughTheOtherCarriesMoreOfItsRating() {
    Transformer supply = supply("transformer", "hot", "C");
    Simulation breakerFirst =
        of(
            supply,
            first("breaker", FuseKind.BREAKER, 2),
            second("blade", FuseKind.BLADE, 3),
            SHORT);
    Simulation bladeFirst =
        of(
            supply,
            first("blade", FuseKind.BLADE, 3),
            second("breaker", FuseKind.BREAKER, 2),
            SHORT);
    assertThat(opening(breakerFirst)).containsExactly("blade");
    assertThat(opening(bladeFirst)).containsExactly("blade");
  }

  /** 14 A are between 3.5 and 6 times both ratings. */
  @Test
  void ofEqualLimitsTheSmallerFuseOfOneCurrent() {
    Transformer supply = supply("transformer", "hot", "C");
    Simulation largeFirst =
        of(supply, first("3 A", FuseKind.BLADE, 3), second("2.5 A", FuseKind.BLADE, 2.5), SHORT);
    Simulation smallFirst =
        of(supply, first("2.5 A", FuseKind.BLADE, 2.5), second("3 A", FuseKind.BLADE, 3), SHORT);
    assertThat(opening(largeFirst)).containsExactly("2.5 A");
    assertThat(opening(smallFirst)).containsExactly("2.5 A");
  }

  /** 1 A carries 4 A, 3 A on another transformer 14 A, 4.7 times its rating. */
  @Test
  void ofEqualLimitsTheLargerMultipleThoughItsRatingIsLarger() {
    double ohms = 27 / 4.0 - SUPPLY_OHMS - 0.09;
    Simulation both =
        of(
            supply("one", "hot of one", "W"),
            new Fuse("1 A", inside("hot of one"), inside("shorted"), FuseKind.BLADE, 1),
            new Wire("load of one", inside("shorted"), near("W"), ohms),
            supply("other", "hot", "C"),
            new Fuse("3 A", inside("hot"), near("R"), FuseKind.BLADE, 3),
            SHORT);
    Control.State rest = both.states().get(0).state();
    assertThat(both.state(rest).fuses().get(0).amps()).isCloseTo(4, within(1e-9));
    assertThat(opening(both)).containsExactly("3 A", "1 A");
    assertThat(both.afterFuses(rest).fuses()).allMatch(f -> f.amps() == 0);
  }
}
