package bellwire.analysis.circuit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import org.hipparchus.complex.Complex;
import org.junit.jupiter.api.Test;

/** Transformers worked out in textbooks, as circuits; the tables name their sources. */
class TransformerExamplesTest {

  private static void near(Row row, String cell, double value) {
    assertThat(value).as(cell).isCloseTo(row.number(cell), within(0.51 * row.lastPlace(cell)));
  }

  /** What a voltage of one finds in its way, by the current it drives. */
  private static Complex seen(Complex... inSeries) {
    Circuit circuit = new Circuit(inSeries.length);
    int source = circuit.source(0, inSeries.length - 1, Complex.ONE, inSeries[0]);
    for (int i = 1; i < inSeries.length; i++) {
      circuit.impedance(i - 1, i, inSeries[i]);
    }
    return circuit.solve().amps(source).negate().reciprocal();
  }

  /** Volts at a load of the given current and power factor, lagging, at voltsOut, behind z. */
  private static double openVolts(double voltsOut, double amps, double powerFactor, Complex z) {
    double angle = Math.acos(powerFactor);
    Complex load = new Complex(Math.cos(angle), Math.sin(angle)).multiply(voltsOut / amps);
    Circuit circuit = new Circuit(2);
    circuit.source(0, 1, Complex.ONE, z);
    circuit.impedance(0, 1, load);
    return voltsOut / circuit.solve().voltsRms(0, 1);
  }

  /** Bird 20.13: the secondary's impedance by the square of the turns ratio. */
  @Test
  void referredImpedance() {
    Row row = ReferenceTables.load("circuits/transformer-referred").only();
    double square = Math.pow(row.number("turns1") / row.number("turns2"), 2);
    Complex z =
        seen(
            new Complex(row.number("ohms1"), row.number("reactanceOhms1")),
            new Complex(row.number("ohms2"), row.number("reactanceOhms2")).multiply(square));
    near(row, "equivalentOhms", z.getRealPart());
    near(row, "equivalentReactanceOhms", z.getImaginaryPart());
    near(row, "impedanceOhms", z.norm());
    near(row, "phaseDegrees", Math.toDegrees(z.getArgument()));
  }

  /** Bird 20.14, 20.15, with reactance of none, as much and thrice as much as resistance. */
  @Test
  void regulationIntoAResistance() {
    for (Row row : ReferenceTables.load("circuits/transformer-regulation").rows()) {
      double open = row.number("openVolts");
      double rated = row.number("loadedVolts");
      near(row, "regulationPercent", 100 * (open - rated) / open);
      for (double xPerR : new double[] {0, 1, 3}) {
        Complex z = TransformerImpedance.of(open, rated, 40, xPerR);
        assertThat(z.getImaginaryPart()).isEqualTo(xPerR * z.getRealPart());
        Circuit circuit = new Circuit(2);
        circuit.source(0, 1, new Complex(0, open), z);
        circuit.resistance(0, 1, rated * rated / 40);
        assertThat(circuit.solve().voltsRms(0, 1)).isCloseTo(rated, within(1e-12 * rated));
      }
    }
  }

  /** Bird 20.16, 20.17: the copper's loss is that of the impedance's resistance. */
  @Test
  void efficiency() {
    Row row = ReferenceTables.load("circuits/transformer-efficiency").only();
    double volts = 1000;
    double ratedAmps = row.number("voltAmps") / volts;
    double ohms = row.number("copperWatts") / (ratedAmps * ratedAmps);
    for (double share : new double[] {1, 0.5}) {
      double amps = share * ratedAmps;
      double angle = Math.acos(row.number("powerFactor"));
      Circuit circuit = new Circuit(2);
      double open = openVolts(volts, amps, row.number("powerFactor"), new Complex(ohms));
      int source = circuit.source(0, 1, new Complex(open), new Complex(ohms));
      Complex load = new Complex(Math.cos(angle), Math.sin(angle)).multiply(volts / amps);
      int fed = circuit.impedance(0, 1, load);
      Solution solution = circuit.solve();
      double out = Math.pow(solution.ampsRms(fed), 2) * load.getRealPart();
      double lost = Math.pow(solution.ampsRms(source), 2) * ohms + row.number("ironWatts");
      near(row, share == 1 ? "efficiencyFull" : "efficiencyHalf", out / (out + lost));
    }
  }

  /**
   * The example's regulation is the usual approximation, theory (68); what that leaves out is the
   * voltage across the load's direction.
   */
  @Test
  void shortCircuitTest() {
    Row row = ReferenceTables.load("circuits/transformer-short-circuit").only();
    double volts = row.number("volts1");
    double amps = row.number("voltAmps") / volts;
    Complex z = new Complex(row.number("equivalentOhms"), row.number("reactanceOhms"));
    assertThat(seen(z).norm()).isCloseTo(row.number("impedanceOhms"), within(0.005));
    double pf = row.number("powerFactor");
    double regulation = openVolts(volts, amps, pf, z) / volts - 1;
    double across =
        amps / volts * (z.getImaginaryPart() * pf - z.getRealPart() * Math.sqrt(1 - pf * pf));
    near(row, "regulationPercent", 100 * (regulation - across * across / 2));
    assertThat(100 * across * across / 2).isBetween(0.05, 0.06);
  }

  /** Hubert 2.14, in per unit and in volts. */
  @Test
  void openAndShortCircuitTests() {
    Row row = ReferenceTables.load("circuits/transformer-open-and-short-circuit").only();
    Circuit open = new Circuit(2);
    int source = open.source(0, 1, new Complex(row.number("openVolts")), Complex.ZERO);
    open.resistance(0, 1, row.number("ironOhms"));
    open.impedance(0, 1, new Complex(0, row.number("magnetisingOhms")));
    assertThat(open.solve().ampsRms(source))
        .isCloseTo(row.number("openAmps"), within(13.04 * 0.005 / 17.91));

    double resistance = row.number("shortWatts") / Math.pow(row.number("shortAmps"), 2);
    double impedance = row.number("shortVolts") / row.number("shortAmps");
    Complex z = new Complex(resistance, Math.sqrt(impedance * impedance - resistance * resistance));
    Circuit shorted = new Circuit(1);
    int loop = shorted.source(0, 0, new Complex(row.number("shortVolts")), z);
    Solution solution = shorted.solve();
    assertThat(solution.ampsRms(loop)).isCloseTo(row.number("shortAmps"), within(1e-12));
    double amps = row.number("voltAmps") / row.number("volts1");
    double regulation =
        openVolts(row.number("volts1"), amps, row.number("powerFactor"), z) / row.number("volts1")
            - 1;
    near(row, "regulationPercent", 100 * regulation);
    near(row, "regulationPercentComputed", 100 * regulation);
  }

  @Test
  void anImpossibleTransformerIsRefused() {
    assertThatThrownBy(() -> TransformerImpedance.of(24, 27, 40, 0.3))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("openVolts=24.0 ratedVolts=27.0");
  }

  /** From 27 V to 24 V at 40/24 A: 3 V/(5/3 A) = 1.8 ohm, and not the other root, below 0. */
  @Test
  void aTransformersImpedanceIsARealOne() {
    assertThat(TransformerImpedance.of(27, 24, 40, 0).getRealPart()).isCloseTo(1.8, within(1e-15));
    assertThat(TransformerImpedance.of(27, 24, 40, 3).getRealPart()).isBetween(0.0, 1.8);
    assertThat(TransformerImpedance.of(24, 24, 40, 0.3)).isEqualTo(Complex.ZERO);
  }

  @Test
  void aTransformerWithoutAVoltageOrPowerIsRefused() {
    assertThatThrownBy(() -> TransformerImpedance.of(27, 0, 40, 0.3))
        .hasMessageContaining("ratedVolts=0.0");
    assertThatThrownBy(() -> TransformerImpedance.of(27, 24, 0, 0.3))
        .hasMessageContaining("voltAmperes=0.0");
    assertThatThrownBy(() -> TransformerImpedance.of(27, 24, 40, -0.1))
        .hasMessageContaining("xPerR=-0.1");
  }
}
