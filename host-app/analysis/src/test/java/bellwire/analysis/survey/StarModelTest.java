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
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class StarModelTest {
  private static final long SEED = 11;
  private static final int ARMS = 6;

  private static StarModel model(SplittableRandom random, double[] along) {
    Network bridges = new Network(Ports.COUNT);
    for (int k = 0; k < 4; k++) {
      int a = random.nextInt(ARMS);
      bridges.join(
          a, (a + 1 + random.nextInt(ARMS - 1)) % ARMS, Math.pow(10, random.nextDouble(-6, -2)));
    }
    List<Integer> ports = new ArrayList<>();
    Map<Integer, Integer> armOf = new LinkedHashMap<>();
    List<Observation> seen = new ArrayList<>();
    for (int i = 0; i < ARMS; i++) {
      ports.add(i);
      armOf.put(i, i);
      seen.add(
          new Observation(i, (i + 1) % ARMS, (i + 2) % ARMS, Quantity.ohms(1, 0.1), List.of()));
    }
    ports.add(9); // copper that does not reach the plug, held at common
    ports.add(Ports.METAL);
    int guard = Ports.bit(9) | Ports.bit(Ports.METAL);
    return new StarModel(IdealBoard.MODEL, bridges, ports, guard, armOf, seen, along);
  }

  /** The circuit's own derivatives against difference quotients, bridges at either end. */
  @Test
  void jacobianAgreesWithDifferences() {
    SplittableRandom random = new SplittableRandom(SEED);
    for (int draw = 0; draw < 60; draw++) {
      double most = draw % 2 == 0 ? 700 : 2;
      double[] arms = new double[ARMS];
      Arrays.setAll(arms, i -> random.nextDouble(0.5, most));
      double[] along = new double[ARMS];
      Arrays.fill(along, 0.4);
      StarModel model = model(random, draw % 4 < 2 ? null : along);
      double[][] jacobian = model.at(arms).jacobian();
      for (int i = 0; i < ARMS; i++) {
        double step = 1e-3 * arms[i];
        double[] above = arms.clone();
        double[] below = arms.clone();
        above[i] += step;
        below[i] -= step;
        double[] up = model.at(above).values();
        double[] down = model.at(below).values();
        for (int o = 0; o < up.length; o++) {
          assertThat(jacobian[o][i])
              .as("seed=%d draw=%d reading=%d arm=%d", SEED, draw, o, i)
              .isCloseTo((up[o] - down[o]) / (2 * step), within(2e-5));
        }
      }
    }
  }

  /** Without bridges a reading is its own arm, but for what the board's dividers draw. */
  @Test
  void readsEachArmByItself() {
    double[] arms = {50, 90, 130, 170, 210, 250};
    List<Integer> ports = List.of(0, 1, 2, 3, 4, 5);
    Map<Integer, Integer> armOf = new LinkedHashMap<>();
    ports.forEach(p -> armOf.put(p, p));
    List<Observation> seen =
        ports.stream()
            .map(
                p ->
                    new Observation(
                        p, (p + 1) % 6, (p + 2) % 6, Quantity.ohms(arms[p], 0.01), List.of()))
            .toList();
    double[] values =
        new StarModel(IdealBoard.MODEL, new Network(Ports.COUNT), ports, 0, armOf, seen, null)
            .at(arms)
            .values();
    for (int i = 0; i < 6; i++) {
      // Current strays through five dividers of 1.02 megohm beside some hundred ohm.
      assertThat(values[i]).isCloseTo(arms[i], within(1e-3 * arms[i]));
    }
  }

  /** Arms that a solver's step takes below nothing still have a circuit. */
  @Test
  void negativeArmsStillHaveAnAnswer() {
    double[] arms = {-3, 0, 1e-5, 0.5, 0.5, 0.5};
    double[] along = new double[ARMS];
    for (double[] place : new double[][] {null, along}) {
      StarModel.Readings at = model(new SplittableRandom(SEED), place).at(arms);
      assertThat(Arrays.stream(at.values())).allMatch(Double::isFinite);
      assertThat(Arrays.stream(at.jacobian()).flatMapToDouble(Arrays::stream))
          .allMatch(Double::isFinite);
    }
  }
}
