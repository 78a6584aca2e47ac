package bellwire.simbench.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.simbench.control.ControlSetup.ContactKind;
import bellwire.simbench.control.ControlSetup.Contacts;
import bellwire.simbench.control.ControlSetup.Supply;
import bellwire.simbench.control.Operation.Fan;
import bellwire.simbench.control.Operation.Mode;
import java.util.List;
import java.util.function.LongToDoubleFunction;
import org.junit.jupiter.api.Test;

/** Voltages at a control's terminals against arithmetic. */
class ControlVoltsTest {
  private static final long SECOND = 1_000_000_000L;

  /** Whole cycles of 50, 60 and 59.9 Hz alike. */
  private static final long WINDOW = 10 * SECOND;

  private static final int SAMPLES = 100_000;

  private static ControlSetup with(ControlSetup plain, Contacts contacts, List<Supply> supplies) {
    return new ControlSetup(
        plain.kind(),
        plain.timing(),
        contacts,
        plain.feed(),
        supplies,
        plain.valveRests(),
        plain.clockError(),
        plain.driftKelvinPerHour(),
        plain.faults());
  }

  private static Contacts semiconductor() {
    return new Contacts(ContactKind.SEMICONDUCTOR, 8, 5, 1, 0.4, 0.01);
  }

  /** Mean of a product over the window, by equidistant samples of whole cycles. */
  private static double mean(long from, LongToDoubleFunction product) {
    double sum = 0;
    for (int i = 0; i < SAMPLES; i++) {
      sum += product.applyAsDouble(from + i * (WINDOW / SAMPLES));
    }
    return sum / SAMPLES;
  }

  private static double rms(
      SimulatedControl control, int lead, boolean wetting, boolean load, long from) {
    return Math.sqrt(
        mean(
            from,
            nanos -> {
              double volts = control.volts(lead, wetting, load, nanos);
              return volts * volts;
            }));
  }

  /** 24 V less 1 % for each terminal that is on: W1, W2 and G. */
  @Test
  void aCallHasItsSupplysVoltsAndSags() {
    ControlSetup setup = ControlSetup.healthy(Kind.TWO_STAGE);
    SimulatedControl control = new SimulatedControl(setup, List.of("", "W1", "Y1"), 1);
    control.operate(Operation.mode(Mode.HEAT, 1), 0);
    assertThat(rms(control, 1, false, false, 2 * SECOND)).isCloseTo(24 * 0.99, within(1e-6));
    assertThat(rms(control, 2, false, false, 20 * SECOND)).isZero();
    assertThat(rms(control, 0, false, false, 40 * SECOND)).isZero();
    control.operate(new Operation(null, Fan.ON, 4.0, null), 60 * SECOND);
    assertThat(rms(control, 1, false, true, 100 * SECOND)).isCloseTo(24 * 0.97, within(1e-6));
  }

  /** √2 · 24 V · cos(2π · 60 Hz · t + 40°), and both at once from two transformers 120° apart. */
  @Test
  void phaseAndFrequencyAreTheSupplys() {
    ControlSetup setup =
        with(
            ControlSetup.healthy(Kind.TWO_SUPPLIES),
            ControlSetup.healthy(Kind.TWO_SUPPLIES).contacts(),
            List.of(new Supply(24, 59.9, 40, 0), new Supply(26, 59.9, 160, 0)));
    SimulatedControl control = new SimulatedControl(setup, List.of("W1", "Y1", "G"), 1);
    control.operate(new Operation(Mode.HEAT, Fan.ON, 1.0, null), 0);
    for (long nanos : new long[] {3 * SECOND, 3 * SECOND + 1234567, 86_400 * SECOND + 7654321}) {
      double turns = 59.9 * (nanos / 1e9);
      double expected =
          Math.sqrt(2) * 24 * Math.cos(2 * Math.PI * (turns % 1) + Math.toRadians(40));
      assertThat(control.volts(0, false, false, nanos)).isCloseTo(expected, within(1e-5));
    }
    double together =
        mean(
            90_000 * SECOND,
            nanos -> control.volts(0, false, false, nanos) * control.volts(2, false, false, nanos));
    assertThat(together).isCloseTo(24 * 26 * Math.cos(Math.toRadians(120)), within(1e-3));
  }

  @Test
  void aSemiconductorLeaksUnlessItIsLoaded() {
    ControlSetup plain = ControlSetup.healthy(Kind.ZONE_PANEL);
    ControlSetup setup = with(plain, semiconductor(), plain.supplies());
    SimulatedControl control = new SimulatedControl(setup, plain.kind().terminals(), 1);
    assertThat(rms(control, 0, false, false, 0)).isCloseTo(0.4 * 24, within(1e-6));
    assertThat(rms(control, 0, false, true, 20 * SECOND)).isCloseTo(0.01 * 24, within(1e-6));
  }

  /** Its supply is a cosine from 0°: it crosses zero at odd multiples of 1/240 s. */
  @Test
  void aSemiconductorSwitchesWhereItsSupplyCrossesZero() {
    ControlSetup plain = ControlSetup.healthy(Kind.FURNACE_COOLING);
    ControlSetup setup = with(plain, semiconductor(), plain.supplies());
    Course course = Course.ofEverything(setup, 1);
    // Without their supply, from 1240 to 1250 s, they open at once.
    List<Course.Edge> fed =
        course.edges().stream().filter(e -> e.seconds() < 1240 || e.seconds() > 1250).toList();
    assertThat(fed).hasSize(14);
    for (Course.Edge edge : fed) {
      double quarters = edge.seconds() * 240;
      assertThat(Math.abs(quarters - Math.rint(quarters))).isLessThan(1e-6);
      assertThat(Math.round(quarters) % 2).isEqualTo(1);
    }
  }

  @Test
  void withoutPowerThereIsNothing() {
    SimulatedControl control =
        new SimulatedControl(ControlSetup.healthy(Kind.HEAT_ONLY), List.of("W1"), 1);
    control.operate(Operation.mode(Mode.HEAT, 1), 0);
    assertThat(rms(control, 0, false, false, 2 * SECOND)).isGreaterThan(23);
    control.operate(Operation.power(false), 20 * SECOND);
    // Its contact still holds, its supply is gone.
    assertThat(control.closed("W1", 20 * SECOND + 1000)).isTrue();
    assertThat(rms(control, 0, false, false, 20 * SECOND + 1000)).isZero();
    assertThat(control.closed("W1", 40 * SECOND)).isFalse();
  }

  @Test
  void aDryContactPassesTheBoardsSupplyOnly() {
    SimulatedControl control =
        new SimulatedControl(ControlSetup.healthy(Kind.BOILER_DRY), List.of("W1"), 1);
    assertThat(control.volts(0, true, false, 0)).isZero();
    control.operate(Operation.mode(Mode.HEAT, 1), 0);
    assertThat(control.volts(0, true, false, 2 * SECOND)).isEqualTo(5);
    assertThat(control.volts(0, false, false, 2 * SECOND)).isZero();
  }
}
