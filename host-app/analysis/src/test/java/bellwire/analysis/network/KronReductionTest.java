package bellwire.analysis.network;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.reference.ReferenceTables;
import bellwire.reference.Row;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/**
 * Eliminating nodes against textbook conversions and bridges: test-fixtures/reference,
 * network-reduction.yaml, where each table names its source and status.
 */
class KronReductionTest {

  private static Row only(String table) {
    Row row = ReferenceTables.load("network-reduction/" + table).only();
    assertThat(row.status().decides()).isTrue();
    return row;
  }

  private static Network delta(double[] sides) {
    return new Network(3)
        .join(0, 1, 1 / sides[0])
        .join(1, 2, 1 / sides[1])
        .join(2, 0, 1 / sides[2]);
  }

  /**
   * A star has the terminal resistances of its delta (electric machines text, TBC no. 1445; Bird
   * 34.03), and eliminating its centre gives the delta back.
   */
  @Test
  void deltaAndStar() {
    Row row = only("delta-to-star");
    double[] delta = row.numbers("deltaOhms");
    double[] star = row.numbers("starOhms");
    Network sides = delta(delta);
    // Side k joins corners k and k + 1; the arm of the corner that two sides share comes from both.
    int[] corner = {1, 2, 0};
    for (int a = 0; a < 3; a++) {
      for (int b = 0; b < a; b++) {
        assertThat(sides.resistanceDistance(corner[a], corner[b]))
            .isCloseTo(star[a] + star[b], within(1.01e-4));
      }
    }
    Network y = new Network(4);
    for (int a = 0; a < 3; a++) {
      y.join(corner[a], 3, 1 / star[a]);
    }
    Network back = y.reduceTo(0, 1, 2);
    for (int k = 0; k < 3; k++) {
      // The published arms have four places: 1e-5 of each.
      assertThat(1 / back.between(k, (k + 1) % 3)).isCloseTo(delta[k], within(4e-5 * delta[k]));
    }
  }

  /** Bird 34.03: 13 ohm seen by the source, 4 A, 0.75 A through the middle; C-D-B as a star. */
  @Test
  void bridge3403() {
    Row row = only("bridge-network");
    List<String> names = List.of("A", "B", "C", "D");
    Network net = new Network(4);
    Map<String, Double> ohms = new HashMap<>();
    for (List<String> edge : row.texts("edges")) {
      double r = Double.parseDouble(edge.get(2));
      net.join(names.indexOf(edge.get(0)), names.indexOf(edge.get(1)), 1 / r);
      ohms.put(edge.get(0) + edge.get(1), r);
    }
    assertThat(net.resistanceDistance(0, 1)).isCloseTo(row.number("totalOhms"), within(1e-12));
    assertThat(1 / net.reduceTo(0, 1).between(0, 1))
        .isCloseTo(row.number("totalOhms"), within(1e-12));
    double[] volts = driven(net, row.number("amps"));
    assertThat(volts[0]).isCloseTo(row.number("sourceVolts"), within(1e-6));
    assertThat(Math.abs(volts[2] - volts[3]) / ohms.get("CD"))
        .isCloseTo(row.number("ampsInCd"), within(1e-6));
    double[] star = row.numbers("starOhms");
    Network delta = delta(new double[] {ohms.get("CD"), ohms.get("DB"), ohms.get("CB")});
    assertThat(delta.resistanceDistance(0, 1)).isCloseTo(star[0] + star[1], within(1e-12));
    assertThat(delta.resistanceDistance(1, 2)).isCloseTo(star[1] + star[2], within(1e-12));
    assertThat(delta.resistanceDistance(2, 0)).isCloseTo(star[2] + star[0], within(1e-12));
  }

  /** Node 1 is held by a wire to ground, current goes into node 0. */
  private static double[] driven(Network net, double amps) {
    double wire = 1e9;
    net.ground(1, wire);
    double[] into = new double[net.nodes()];
    into[0] = amps;
    return net.volts(into);
  }

  /** Bird 13.11: 54 V on an unbalanced bridge, 1 A from B to A through 32 ohm. */
  @Test
  void unbalancedBridge1311() {
    Row row = only("unbalanced-bridge");
    int top = 0;
    int bottom = 1;
    int a = 2;
    int b = 3;
    Network net =
        new Network(4)
            .join(top, a, 1 / row.number("topAOhms"))
            .join(a, bottom, 1 / row.number("bottomAOhms"))
            .join(top, b, 1 / row.number("topBOhms"))
            .join(b, bottom, 1 / row.number("bottomBOhms"))
            .join(a, b, 1 / row.number("bridgeOhms"));
    double volts = row.number("volts");
    double amps = volts / net.resistanceDistance(top, bottom);
    double[] v = driven(net, amps);
    assertThat(v[top]).isCloseTo(volts, within(1e-6));
    assertThat(v[a]).isCloseTo(row.number("voltsA"), within(1e-6));
    assertThat(v[b]).isCloseTo(row.number("voltsB"), within(1e-6));
    assertThat((v[b] - v[a]) / row.number("bridgeOhms"))
        .isCloseTo(row.number("ampsFromBToA"), within(1e-7));
  }

  /** Bird 10.17: in balance the detector's own resistance does not matter. */
  @Test
  void balance1017() {
    Row row = only("balance");
    for (double detector : new double[] {1, 50, 1e6}) {
      Network net =
          new Network(4)
              .join(0, 2, 1 / row.number("ratioTopOhms"))
              .join(2, 1, 1 / row.number("ratioBottomOhms"))
              .join(0, 3, 1 / row.number("unknownOhms"))
              .join(3, 1, 1 / row.number("knownOhms"))
              .join(2, 3, 1 / detector);
      double[] v = driven(net, 0.01);
      assertThat(v[2] - v[3]).as("detector=" + detector).isCloseTo(0, within(1e-12));
    }
  }

  /** Bird 13.06 and 13.08: two sources on a common load, Thévenin's equivalent. */
  @Test
  void twoSourcesAndThevenin() {
    Row two = only("two-source");
    Network net =
        new Network(1)
            .ground(0, 1 / two.number("ohms1"))
            .ground(0, 1 / two.number("ohms2"))
            .ground(0, 1 / two.number("commonOhms"));
    double amps =
        two.number("volts1") / two.number("ohms1") - two.number("volts2") / two.number("ohms2");
    double common = net.volts(new double[] {amps})[0];
    assertThat(common)
        .isCloseTo(two.number("commonVolts"), within(0.51 * two.lastPlace("commonVolts")));
    assertThat((two.number("volts1") - common) / two.number("ohms1"))
        .isCloseTo(two.number("amps1"), within(two.lastPlace("amps1")));

    Row source = only("thevenin");
    Network loaded =
        new Network(1)
            .ground(0, 1 / source.number("seriesOhms"))
            .ground(0, 1 / source.number("shuntOhms"))
            .ground(0, 1 / source.number("loadOhms"));
    double volts =
        loaded.volts(new double[] {source.number("volts") / source.number("seriesOhms")})[0];
    assertThat(volts / source.number("loadOhms"))
        .isCloseTo(source.number("loadAmps"), within(1e-12));
  }
}
