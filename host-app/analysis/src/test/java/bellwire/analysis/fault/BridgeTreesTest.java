package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.fault.Evidence.Group;
import bellwire.analysis.fault.Evidence.Leakage;
import bellwire.analysis.fault.Supposition.Pair;
import bellwire.analysis.uncertainty.Quantity;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** How many trees there are is Cayley's n^(n−2); the nearest one by hand. */
class BridgeTreesTest {

  private static Leakage leak(List<Integer> ports, List<Integer> others) {
    return new Leakage(ports, others, Quantity.ohms(5000, 5));
  }

  private static double[][] siemens(int ports) {
    double[][] siemens = new double[ports][ports];
    for (int i = 0; i < ports; i++) {
      for (int j = 0; j < ports; j++) {
        siemens[i][j] = i == j ? 0 : 1.0 / (1 + Math.abs(i - j));
      }
    }
    return siemens;
  }

  @Test
  void twoThatTouchHaveOneBridge() {
    assertThat(BridgeTrees.of(new Group(List.of(List.of(2, 5)), List.of()), siemens(6)))
        .containsExactly(List.of(new Pair(2, 5)));
  }

  @Test
  void threeThatTouchHaveCayleysThreeTreesAndTheRing() {
    List<List<Pair>> trees =
        BridgeTrees.of(new Group(List.of(List.of(0, 1, 2)), List.of()), siemens(3));
    Set<Set<Pair>> distinct = new HashSet<>();
    trees.forEach(t -> distinct.add(Set.copyOf(t)));
    assertThat(distinct)
        .containsExactlyInAnyOrder(
            Set.of(new Pair(0, 1), new Pair(0, 2)),
            Set.of(new Pair(0, 1), new Pair(1, 2)),
            Set.of(new Pair(0, 2), new Pair(1, 2)),
            Set.of(new Pair(0, 1), new Pair(0, 2), new Pair(1, 2)));
    assertThat(trees).hasSize(4);
  }

  /** A chain 3-0-2-1 by its conductances, against the order of the ports. */
  @Test
  void fourThatTouchHaveTheTreeOfTheirLargestConductances() {
    double[][] siemens = new double[4][4];
    double[][] between = {{3, 0, 9}, {0, 2, 8}, {2, 1, 7}, {3, 2, 3}, {0, 1, 2}, {3, 1, 1}};
    for (double[] b : between) {
      siemens[(int) b[0]][(int) b[1]] = b[2];
      siemens[(int) b[1]][(int) b[0]] = b[2];
    }
    List<List<Pair>> trees =
        BridgeTrees.of(new Group(List.of(List.of(0, 1, 2, 3)), List.of()), siemens);
    assertThat(trees).hasSize(1);
    assertThat(trees.get(0))
        .containsExactlyInAnyOrder(new Pair(0, 3), new Pair(0, 2), new Pair(1, 2));
  }

  /** A leakage from two that touch to a third may come from either. */
  @Test
  void leakageMayComeFromAnyPortOfItsClusters() {
    List<Integer> pair = List.of(0, 1);
    List<Integer> single = List.of(4);
    assertThat(
            BridgeTrees.of(
                new Group(List.of(pair, single), List.of(leak(pair, single))), siemens(5)))
        .containsExactlyInAnyOrder(
            List.of(new Pair(0, 1), new Pair(0, 4)), List.of(new Pair(0, 1), new Pair(1, 4)));
  }

  @Test
  void noMoreThanTwelveWays() {
    List<Integer> three = List.of(0, 1, 2);
    List<Integer> others = List.of(3, 4, 5);
    List<List<Pair>> ways =
        BridgeTrees.of(new Group(List.of(three, others), List.of(leak(three, others))), siemens(6));
    assertThat(ways).hasSize(12).allSatisfy(way -> assertThat(way).hasSize(5));
  }
}
