package bellwire.analysis.loop;

import static bellwire.analysis.loop.Point.inside;
import static bellwire.analysis.loop.Point.near;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.loop.Load.Kind;
import bellwire.analysis.loop.Load.Role;
import bellwire.analysis.loop.StateResult.Energised;
import bellwire.analysis.loop.StateResult.LoadResult;
import java.util.List;
import java.util.Map;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** At the very limits of loads and of a control's supply. */
class LoadLimitsTest {
  private static final Transformer SUPPLY =
      new Transformer("transformer", near("R"), near("C"), 27, 24, 40, 0, 0, 0);

  private static Load relay(String name, Point a, double pickUpVolts, double holdInVolts) {
    Complex ohms = new Complex(100);
    return new Load(
        name, a, near("C"), Kind.RELAY, ohms, ohms, pickUpVolts, holdInVolts, 30, Role.NONE, 1);
  }

  private static List<StateResult> states(Control control, Element... elements) {
    Installation landed =
        SampleLoops.landed(
            new Equipment("tiny", List.of("R", "W", "C"), List.of(elements), Map.of()),
            control,
            Map.of(SampleControls.FAN, "equipment"),
            "red:R:R white:W:W blue:C:C",
            1);
    return new Simulation(landed).states();
  }

  private static LoadResult calling(double pickUpVolts, double holdInVolts) {
    Control heat = SampleControls.heatOnly(SampleControls.battery());
    return states(heat, SUPPLY, relay("relay", near("W"), pickUpVolts, holdInVolts))
        .get(2)
        .loads()
        .get(0);
  }

  /** It pulls in at its pick-up voltage for certain, and not for certain below. */
  @Test
  void aLoadPullsInAtItsPickUpVoltage() {
    double volts = calling(30, 8).volts();
    assertThat(volts).isCloseTo(2700 / (100 + 1.8 + 2 + 0.1), within(1e-9));
    assertThat(calling(volts, 8).energised()).isEqualTo(Energised.ON);
    assertThat(calling(Math.nextUp(volts), 8).energised()).isEqualTo(Energised.DOUBTFUL);
  }

  /** It drops out below its hold-in voltage for certain. */
  @Test
  void aLoadMayStayAtItsHoldInVoltage() {
    double volts = calling(30, 8).volts();
    assertThat(calling(30, volts).energised()).isEqualTo(Energised.DOUBTFUL);
    assertThat(calling(30, volts).held()).isTrue();
    assertThat(calling(30, Math.nextUp(volts)).energised()).isEqualTo(Energised.OFF);
    assertThat(calling(30, Math.nextUp(volts)).held()).isFalse();
  }

  @Test
  void aControlGoesBlankBelowItsLeastVoltage() {
    StateResult usual = supplied(16);
    assertThat(usual.controlVolts()).isCloseTo(27 * 288 / (288 + 1.8 + 2), within(1e-9));
    assertThat(supplied(usual.controlVolts()).lit()).isTrue();
    assertThat(supplied(Math.nextUp(usual.controlVolts())).lit()).isFalse();
  }

  private static StateResult supplied(double leastVolts) {
    Control.Supply supply =
        new Control.Supply(Control.Supply.Kind.COMMON, "R", "C", List.of(), 288, leastVolts);
    return states(SampleControls.heatAndCool(supply), SUPPLY).get(0);
  }

  /** 13.4 V by a leak of 100 ohm: too little to pull in, enough to stay. */
  @Test
  void ofTwoLoadsTheOneThatALeakFeedsIsHeld() {
    Control heat = SampleControls.heatOnly(SampleControls.battery());
    Wire leak = new Wire("leak", near("R"), near("W"), 100);
    Load idle = relay("idle relay", inside("loose lead"), 18, 8);
    Load fed = relay("fed relay", near("W"), 18, 8);
    for (List<Load> order : List.of(List.of(idle, fed), List.of(fed, idle))) {
      List<LoadResult> rest = states(heat, SUPPLY, leak, order.get(0), order.get(1)).get(0).loads();
      assertThat(rest)
          .filteredOn(LoadResult::held)
          .extracting(LoadResult::load)
          .containsExactly(fed);
      assertThat(rest)
          .filteredOn(l -> l.energised() == Energised.DOUBTFUL)
          .extracting(LoadResult::load)
          .containsExactly(fed);
    }
  }
}
