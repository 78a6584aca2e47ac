package bellwire.analysis.loop;

import static bellwire.analysis.loop.Point.far;
import static bellwire.analysis.loop.Point.near;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.loop.Cable.Bridge;
import bellwire.analysis.loop.Cable.Conductor;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Touches and breaks along a cable of 2 ohm conductors, 27 V behind 1.8 ohm. */
class AlongTheCableTest {
  private static final double EXACT = 1e-9;
  private static final double TOUCH_OHMS = 0.3;

  private static Conductor whole(String name) {
    return new Conductor(name, name, name, 2, 0);
  }

  private static Conductor broken(String name, double at) {
    return new Conductor(name, name, name, Double.POSITIVE_INFINITY, 0, at);
  }

  private static StateResult result(Conductor red, Conductor blue, Bridge... bridges) {
    return installed(red, blue, bridges).states().get(0);
  }

  private static Simulation installed(Conductor red, Conductor blue, Bridge... bridges) {
    Installation landed =
        SampleLoops.landed(
            new Equipment(
                "tiny",
                List.of("R", "C"),
                List.of(new Transformer("transformer", near("R"), near("C"), 27, 24, 40, 0, 0, 0)),
                Map.of()),
            SampleControls.heatAndCool(SampleControls.common("R")),
            Map.of(SampleControls.FAN, "equipment"),
            "red:R:R blue:C:C",
            2);
    return new Simulation(
        landed.withCable(new Cable("18-2", List.of(red, blue), List.of(bridges))));
  }

  private static double amps(StateResult result) {
    return result.transformers().get(0).amps();
  }

  private static double beside(double a, double b) {
    return 1 / (1 / a + 1 / b);
  }

  @Test
  void aTouchDividesBothConductors() {
    for (double at : new double[] {0, 0.25, 0.9, 1}) {
      StateResult result =
          result(whole("red"), whole("blue"), new Bridge("red", "blue", TOUCH_OHMS, at));
      double beyond = 288 + 4 * (1 - at);
      double amps = 27 / (1.8 + 4 * at + beside(TOUCH_OHMS, beyond));
      assertThat(amps(result)).as("at " + at).isCloseTo(amps, within(EXACT));
    }
  }

  @Test
  void touchesAtTheSamePlaceMeetInOnePoint() {
    StateResult result =
        result(
            whole("red"),
            whole("blue"),
            new Bridge("red", null, TOUCH_OHMS, 0.5),
            new Bridge("blue", null, TOUCH_OHMS, 0.5));
    double amps = 27 / (1.8 + 2 + beside(2 * TOUCH_OHMS, 288 + 2));
    assertThat(amps(result)).isCloseTo(amps, within(EXACT));
  }

  @Test
  void aTouchOnTheNearPartOfABrokenConductorStillShorts() {
    StateResult result =
        result(broken("red", 0.6), whole("blue"), new Bridge("red", "blue", TOUCH_OHMS, 0.5));
    assertThat(amps(result)).isCloseTo(27 / (1.8 + 2 + TOUCH_OHMS), within(EXACT));
    assertThat(result.lit()).isFalse();
  }

  @Test
  void aTouchBeyondTheBreakDoesNot() {
    StateResult result =
        result(broken("red", 0.4), whole("blue"), new Bridge("red", "blue", TOUCH_OHMS, 0.5));
    assertThat(amps(result)).isZero();
    assertThat(result.lit()).isFalse();
  }

  /** It takes on the potential of what it touches. */
  @Test
  void theFarPartOfABrokenConductorIsCopperToo() {
    Simulation simulation =
        installed(broken("red", 0.5), whole("blue"), new Bridge("red", "blue", TOUCH_OHMS, 0.75));
    Control.State rest = simulation.states().get(0).state();
    assertThat(simulation.volts(rest, far("R"), far("C"))).isCloseTo(0, within(EXACT));
    assertThat(simulation.volts(rest, near("R"), far("R"))).isCloseTo(27, within(EXACT));
  }

  /** Metal bridges the break. */
  @Test
  void bothPartsOfABrokenConductorCarryCurrent() {
    StateResult result =
        result(
            broken("red", 0.5),
            whole("blue"),
            new Bridge("red", null, TOUCH_OHMS, 0.25),
            new Bridge("red", null, TOUCH_OHMS, 0.75));
    assertThat(amps(result))
        .isCloseTo(27 / (1.8 + 0.5 + 2 * TOUCH_OHMS + 0.5 + 288 + 2), within(EXACT));
  }

  @Test
  void aBreakAtAnEndIsABreak() {
    for (double at : new double[] {0, 1}) {
      assertThat(amps(result(broken("red", at), whole("blue")))).as("at " + at).isZero();
      StateResult touched =
          result(broken("red", at), whole("blue"), new Bridge("red", "blue", TOUCH_OHMS, 0.5));
      assertThat(amps(touched))
          .as("at " + at)
          .isCloseTo(at == 0 ? 0 : 27 / (1.8 + 2 + TOUCH_OHMS), within(EXACT));
    }
  }

  @Test
  void aBreakNeedsAPlace() {
    assertThatThrownBy(() -> broken("red", Double.NaN)).hasMessageContaining("brokenAt=NaN");
    assertThatThrownBy(() -> new Conductor("red", null, null, 2, 0, 0.5))
        .hasMessageContaining("ohms=2");
    assertThat(new Conductor("red", null, null, Double.POSITIVE_INFINITY, 0).brokenAt())
        .isEqualTo(0.5);
  }

  @Test
  void aTouchOffTheCableIsRefused() {
    assertThatThrownBy(
            () -> result(whole("red"), whole("blue"), new Bridge("red", "blue", TOUCH_OHMS, 1.1)))
        .hasMessageContaining("at=1.1");
    assertThatThrownBy(
            () -> result(whole("red"), whole("blue"), new Bridge("red", "green", TOUCH_OHMS, 1)))
        .hasMessageContaining("conductor=green");
  }

  /** What is at the very place belongs to the near part. */
  @Test
  void aBreakAtATouchIsBeyondIt() {
    Bridge touch = new Bridge("red", "blue", TOUCH_OHMS, 0.5);
    Simulation simulation = installed(broken("red", 0.5), whole("blue"), touch);
    StateResult rest = simulation.states().get(0);
    assertThat(amps(rest)).isCloseTo(27 / (1.8 + 2 + TOUCH_OHMS), within(EXACT));
    assertThat(simulation.volts(rest.state(), far("R"), far("C"))).isCloseTo(0, within(EXACT));
  }

  @Test
  void aConductorThatThePlanDoesNotNameIsFree() {
    Installation healthy = SampleLoops.HEAT_ONLY.healthy();
    LandingPlan plan = healthy.plan();
    LandingPlan redOnly =
        new LandingPlan(List.of(plan.landed().get(0)), plan.jumpers(), plan.settings());
    assertThat(new Simulation(healthy.withPlan(redOnly)).states())
        .hasSize(3)
        .allMatch(s -> s.loads().get(0).volts() == 0);
    assertThat(new Simulation(healthy).states().get(2).loads().get(0).volts()).isGreaterThan(18);
  }
}
