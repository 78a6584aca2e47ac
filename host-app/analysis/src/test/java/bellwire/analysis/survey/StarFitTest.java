package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.network.Network;
import bellwire.analysis.survey.StarPhase.Observation;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Readings made of known arms give them back. */
class StarFitTest {
  private static final double U = 1e-4;
  private static final double[] ARMS = {50, 90, 130, 170};

  /** What a round over all of them reads, each port driven in its turn. */
  private static List<Observation> round(Network bridges, double[] arms, double[] along) {
    Map<Integer, Integer> armOf = new LinkedHashMap<>();
    List<Integer> ports = new ArrayList<>();
    List<Observation> asked = new ArrayList<>();
    int n = arms.length;
    for (int i = 0; i < n; i++) {
      ports.add(i);
      armOf.put(i, i);
      asked.add(new Observation(i, (i + 1) % n, (i + 2) % n, Quantity.ohms(1, U), List.of()));
    }
    double[] read =
        new StarModel(IdealBoard.MODEL, bridges, ports, 0, armOf, asked, along).at(arms).values();
    return asked.stream()
        .map(o -> new Observation(o.a(), o.b(), o.k(), Quantity.ohms(read[o.a()], U), List.of()))
        .toList();
  }

  private static Map<Integer, Quantity> fit(
      OpenFindings open, List<Observation> seen, boolean landed) {
    return new StarFit(IdealBoard.MODEL, open.result(), 0, seen, landed).arms();
  }

  @Test
  void armsWithoutBridgesComeOutAsTheyAre() {
    Map<Integer, Quantity> arms =
        fit(new OpenFindings(0, 1, 2, 3), round(new Network(Ports.COUNT), ARMS, null), false);
    for (int i = 0; i < ARMS.length; i++) {
      assertThat(arms.get(i).value()).isCloseTo(ARMS[i], within(1e-6));
      // each reading is its own arm, but for what the dividers draw
      assertThat(arms.get(i).u()).isCloseTo(U, within(0.01 * U));
    }
  }

  /**
   * Where a bridge lies along the run is not known: value and half the distance cover both ends.
   */
  @Test
  void aBridgeMayLieAtEitherEnd() {
    Network bridges = new Network(Ports.COUNT).join(0, 1, 1 / 2000.0);
    OpenFindings open = new OpenFindings(0, 1, 2, 3).leaking(0, 1, 2000, 0.1);
    double[] along = new double[ARMS.length];
    Arrays.fill(along, 6);
    List<Map<Integer, Quantity>> both =
        List.of(
            fit(open, round(bridges, ARMS, null), false),
            fit(open, round(bridges, ARMS, along), false));
    for (Map<Integer, Quantity> arms : both) {
      for (int i = 0; i < 2; i++) {
        double off = Math.abs(arms.get(i).value() - ARMS[i]);
        assertThat(off).isGreaterThan(20 * U);
        assertThat(arms.get(i).u()).isCloseTo(off, within(0.02 * off));
      }
      assertThat(arms.get(2).value()).isCloseTo(ARMS[2], within(0.01));
    }
  }

  /** Conductors on a tie plug have half an ohm, not six, ahead of a bridge at the far end. */
  @Test
  void noMoreLiesAheadOfABridgeThanTheLeastArm() {
    Network bridges = new Network(Ports.COUNT).join(0, 1, 1 / 300.0);
    OpenFindings open = new OpenFindings(0, 1, 2, 3).joined(0, 1, 300);
    double[] ohms = {0.5, 0.6, 0.7, 0.8};
    double[] along = {0.45, 0.45, 0.45, 0.45};
    Map<Integer, Quantity> arms = fit(open, round(bridges, ohms, along), false);
    for (int i = 0; i < ohms.length; i++) {
      double off = Math.abs(arms.get(i).value() - ohms[i]);
      assertThat(arms.get(i).u()).isCloseTo(Math.hypot(off, U), within(0.05 * U));
    }
  }

  /** What joins conductors at the equipment is at the near end: no place to be uncertain of. */
  @Test
  void atTheEquipmentABridgeIsAtTheNearEnd() {
    Network bridges = new Network(Ports.COUNT).join(0, 1, 1 / 2000.0);
    Map<Integer, Quantity> arms =
        fit(new OpenFindings(0, 1, 2, 3).joined(0, 1, 2000), round(bridges, ARMS, null), true);
    for (int i = 0; i < ARMS.length; i++) {
      assertThat(arms.get(i).value()).isCloseTo(ARMS[i], within(1e-4));
      assertThat(arms.get(i).u()).isLessThan(2 * U);
    }
  }

  /** Three elements in a ring: each distance read has the other two beside it. */
  @Test
  void aRingAtTheEquipmentIsTakenAsItsDistancesRead() {
    double[] ohms = {0.5, 0.6, 0.7};
    Network ring =
        new Network(Ports.COUNT).join(0, 1, 1 / 1.2).join(1, 2, 1 / 2.0).join(0, 2, 1 / 3.0);
    OpenFindings open = new OpenFindings(0, 1, 2);
    // a delta's distances, by series and parallel
    open.joined(0, 1, 1.2 * 5.0 / 6.2).joined(1, 2, 2.0 * 4.2 / 6.2).joined(0, 2, 3.0 * 3.2 / 6.2);
    Map<Integer, Quantity> arms = fit(open, round(ring, ohms, null), true);
    for (int i = 0; i < ohms.length; i++) {
      assertThat(arms.get(i).value()).isCloseTo(ohms[i], within(2e-3));
    }
  }

  /** P3 is only ever the return: its arm carries current that no voltage is taken over. */
  @Test
  void anArmThatNoReadingTellsIsAsUncertainAsBefore() {
    List<Observation> seen =
        round(new Network(Ports.COUNT), new double[] {50, 90, 130}, null).subList(0, 2);
    Map<Integer, Quantity> arms = fit(new OpenFindings(0, 1, 2), seen, false);
    assertThat(arms.get(0).value()).isCloseTo(50, within(0.05));
    assertThat(arms.get(1).value()).isCloseTo(90, within(0.05));
    assertThat(arms.get(2).u()).isBetween(500.0, 1000.0);
  }
}
