package bellwire.reference;

import static bellwire.reference.Elimination.resistance;
import static bellwire.reference.Elimination.solve;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

/** Worked circuits, reductions and fault locations, from their inputs. */
class CircuitsRecomputedTest {

  private static void near(Row row, String cell, double value) {
    assertThat(row.number(cell))
        .as(row.table() + " " + row.cells())
        .isCloseTo(value, within(0.51 * row.lastPlace(cell)));
  }

  @Test
  void linearSystems() {
    for (Row row : ReferenceTables.load("circuits/linear-systems").rows()) {
      assertThat(solve(row.matrix("matrix"), row.numbers("right")))
          .containsExactly(row.numbers("solution"), within(1e-9));
    }
  }

  @Test
  void nodalDirectCurrent() {
    Row row = ReferenceTables.load("circuits/nodal-direct").only();
    double[][] g = {
      {1 + 1 / 6.0 + 1 / 5.0, -1, -1 / 5.0},
      {-1, 0.5 + 1 + 1 / 3.0, -1 / 3.0},
      {-1 / 5.0, -1 / 3.0, 1 / 4.0 + 1 / 3.0 + 1 / 5.0}
    };
    double[] v = solve(g, new double[] {8 / 5.0, 0, -8 / 5.0});
    assertThat(v).containsExactly(row.numbers("nodeVolts"), within(5.1e-7));
    assertThat(v)
        .containsExactly(new double[] {240 / 197.0, 224 / 591.0, -928 / 591.0}, within(1e-12));
    near(row, "amps2Ohm", v[1] / 2);
    near(row, "watts3Ohm", (v[1] - v[2]) * (v[1] - v[2]) / 3);
  }

  /** Complex nodal equations as a real system of twice the size. */
  @Test
  void nodalAlternatingCurrent() {
    Row row = ReferenceTables.load("circuits/nodal-alternating").only();
    double g1 = 1 / 2.0 + 1 / 5.0;
    double b1 = 1 / 4.0;
    double g2 = 1 / 5.0 + 1 / 2.5;
    double b2 = -1 / 4.0;
    double[][] real = {
      {g1, -b1, -0.2, 0},
      {b1, g1, 0, -0.2},
      {-0.2, 0, g2, -b2},
      {0, -0.2, b2, g2}
    };
    double[] v = solve(real, new double[] {12.5, 0, 0, 10});
    assertThat(new double[] {v[0], v[1]})
        .containsExactly(row.numbers("node1Volts"), within(5.1e-5));
    assertThat(new double[] {v[2], v[3]})
        .containsExactly(row.numbers("node2Volts"), within(5.1e-5));
    assertThat(new double[] {v[3] / 4, -v[2] / 4})
        .containsExactly(row.numbers("ampsInductor"), within(5.1e-5));
    assertThat(new double[] {(v[0] - v[2]) / 5, (v[1] - v[3]) / 5})
        .containsExactly(row.numbers("amps5Ohm"), within(5.1e-5));
    near(row, "watts2_5Ohm", (v[2] * v[2] + (25 - v[3]) * (25 - v[3])) / 2.5);
  }

  @Test
  void transformerTests() {
    Row row = ReferenceTables.load("circuits/transformer-short-circuit").only();
    double r = row.number("shortWatts") / Math.pow(row.number("shortAmps"), 2);
    double z = row.number("shortVolts") / row.number("shortAmps");
    double x = Math.sqrt(z * z - r * r);
    double cos = row.number("powerFactor");
    double sin = Math.sqrt(1 - cos * cos);
    near(row, "equivalentOhms", r);
    near(row, "impedanceOhms", z);
    near(row, "reactanceOhms", x);
    double ratedAmps = row.number("voltAmps") / row.number("volts1");
    near(row, "regulationPercent", 100 * ratedAmps * (r * cos + x * sin) / row.number("volts1"));

    row = ReferenceTables.load("circuits/transformer-open-and-short-circuit").only();
    double ironAmps = row.number("openWatts") / row.number("openVolts");
    near(row, "ironOhms", row.number("openVolts") / ironAmps);
    near(
        row,
        "magnetisingOhms",
        row.number("openVolts")
            / Math.sqrt(Math.pow(row.number("openAmps"), 2) - ironAmps * ironAmps));
    double base = Math.pow(row.number("volts1"), 2) / row.number("voltAmps");
    r = row.number("shortWatts") / Math.pow(row.number("shortAmps"), 2) / base;
    z = row.number("shortVolts") / row.number("shortAmps") / base;
    x = Math.sqrt(z * z - r * r);
    near(row, "resistancePerUnit", r);
    near(row, "reactancePerUnit", x);
    near(row, "impedancePerUnit", z);
    near(row, "phaseDegrees", Math.toDegrees(Math.atan2(x, r)));
    cos = row.number("powerFactor");
    sin = Math.sqrt(1 - cos * cos);
    near(row, "regulationPercentComputed", 100 * (Math.hypot(r + cos, x + sin) - 1));
  }

  @Test
  void starsDeltasAndBridges() {
    Row delta = ReferenceTables.load("network-reduction/delta-to-star").only();
    double[] d = delta.numbers("deltaOhms");
    double sum = d[0] + d[1] + d[2];
    assertThat(delta.numbers("starOhms"))
        .containsExactly(
            new double[] {d[0] * d[1] / sum, d[1] * d[2] / sum, d[2] * d[0] / sum}, within(5.1e-5));
    Row bridge = ReferenceTables.load("network-reduction/bridge-network").only();
    double[][] edges =
        bridge.texts("edges").stream()
            .map(
                e ->
                    new double[] {
                      e.get(0).charAt(0) - 'A',
                      e.get(1).charAt(0) - 'A',
                      Double.parseDouble(e.get(2))
                    })
            .toArray(double[][]::new);
    assertThat(resistance(4, edges, 0, 1)).isCloseTo(bridge.number("totalOhms"), within(1e-9));
    assertThat(bridge.number("sourceVolts") / bridge.number("totalOhms"))
        .isEqualTo(bridge.number("amps"));
    Row unbalanced = ReferenceTables.load("network-reduction/unbalanced-bridge").only();
    double gBridge = 1 / unbalanced.number("bridgeOhms");
    double topA = 1 / unbalanced.number("topAOhms");
    double topB = 1 / unbalanced.number("topBOhms");
    double[][] g = {
      {topA + 1 / unbalanced.number("bottomAOhms") + gBridge, -gBridge},
      {-gBridge, topB + 1 / unbalanced.number("bottomBOhms") + gBridge}
    };
    double volts = unbalanced.number("volts");
    double[] v = solve(g, new double[] {volts * topA, volts * topB});
    assertThat(v)
        .containsExactly(
            new double[] {unbalanced.number("voltsA"), unbalanced.number("voltsB")}, within(1e-9));
    assertThat((v[1] - v[0]) * gBridge).isCloseTo(unbalanced.number("ampsFromBToA"), within(1e-9));
  }

  @Test
  void sourcesAndLoads() {
    Row two = ReferenceTables.load("network-reduction/two-source").only();
    double v =
        (two.number("volts1") / two.number("ohms1") - two.number("volts2") / two.number("ohms2"))
            / (1 / two.number("ohms1") + 1 / two.number("ohms2") + 1 / two.number("commonOhms"));
    near(two, "commonVolts", v);
    near(two, "commonAmps", v / two.number("commonOhms"));
    near(two, "amps1", (two.number("volts1") - v) / two.number("ohms1"));
    near(two, "amps2", (two.number("volts2") + v) / two.number("ohms2"));
    Row thevenin = ReferenceTables.load("network-reduction/thevenin").only();
    double series = thevenin.number("seriesOhms");
    double shunt = thevenin.number("shuntOhms");
    double open = thevenin.number("volts") * shunt / (series + shunt);
    double inner = series * shunt / (series + shunt);
    near(thevenin, "loadAmps", open / (inner + thevenin.number("loadOhms")));
  }

  @Test
  void murrayAndVarley() {
    for (Row row : ReferenceTables.load("fault-location/murray").rows()) {
      double perMetre = row.number("faultyOhmsPerKm") / 1000;
      double loop = row.number("lengthMetres") * (row.number("returnOhmsPerKm") / 1000 + perMetre);
      double q = row.number("q");
      double metres = q / (row.number("p") + q) * loop / perMetre;
      near(row, row.has("resultMetresComputed") ? "resultMetresComputed" : "resultMetres", metres);
    }
    Row varley = ReferenceTables.load("fault-location/varley").only();
    double perKm = varley.number("ohmsPerKm");
    double loop = 2 * perKm * varley.number("lengthKm");
    near(varley, "balanceOhms", loop - 2 * perKm * varley.number("faultKm"));
    Row handbook = ReferenceTables.load("fault-location/murray-handbook").only();
    near(
        handbook,
        "resultMilesComputed",
        handbook.number("a") * handbook.number("ohms") / 1000 / handbook.number("ohmsPerMile"));
  }

  @Test
  void chargingThroughAResistor() {
    Table table = ReferenceTables.load("fault-location/charging");
    Row row = table.row("problem", "17.01");
    double tau = row.number("farads") * row.number("ohms");
    near(row, "tauSeconds", tau);
    near(row, "voltsAtTau", row.number("volts") * (1 - Math.exp(-1)));
    near(row, "halfValueSeconds", tau * Math.log(2));
    row = table.row("problem", "17.02");
    double left =
        row.number("volts")
            * Math.exp(-row.number("seconds") / row.number("farads") / row.number("ohms"));
    near(row, "voltsLeft", left);
    near(row, "ampsLeft", left / row.number("ohms"));
    row = table.row("problem", "17.03");
    near(row, "firstMilliamps", 1000 * row.number("volts") / row.number("ohms"));
    near(row, "milliampsAt1s", 0.4 * Math.exp(-1));
    near(row, "voltsAt2s", row.number("volts") * (1 - Math.exp(-2)));
    near(row, "resistorAt15VoltsSeconds", Math.log(row.number("volts") / 15));
    row = table.row("problem", "17.04");
    near(row, "ohms", row.number("tauSeconds") / row.number("farads"));
    near(row, "voltsAt7ms", row.number("volts") * (1 - Math.exp(-7.0 / 12)));
  }
}
