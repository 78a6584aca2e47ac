package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.fault.Evidence;
import bellwire.analysis.fault.Evidence.Group;
import bellwire.analysis.fault.Ratio;
import bellwire.analysis.network.Network;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;

/** What hangs together, what is left apart, and what counts as broken. */
class FaultEvidenceTest {
  private static final BoardModel BOARD = IdealBoard.MODEL;
  private static final Criteria CRITERIA = Criteria.standard();
  private static final Plug PLUG = new Plug(new double[] {50, 90, 133, 174, 215}, 1e-4, 5e-6, 15);

  /** An open phase in the making. */
  private static final class Open {
    final List<List<Integer>> clusters = new ArrayList<>();
    final Leak[][] leaks;
    final @Nullable Quantity[][] distances = new @Nullable Quantity[Ports.COUNT][Ports.COUNT];
    final double[] restOhms = new double[Ports.COUNT];

    Open(List<List<Integer>> touching) {
      clusters.addAll(touching);
      leaks = new Leak[touching.size()][touching.size()];
      for (Leak[] row : leaks) {
        Arrays.fill(row, new Leak(0, 1e-10));
      }
      Arrays.fill(restOhms, 1e9);
    }

    static Open singles(int ports) {
      return new Open(IntStream.range(0, ports).mapToObj(List::of).toList());
    }

    Open leak(int clusterA, int clusterB, double ohms, double u) {
      leaks[clusterA][clusterB] = new Leak(1 / ohms, u / ohms);
      leaks[clusterB][clusterA] = leaks[clusterA][clusterB];
      return this;
    }

    Open touch(int a, int b, double ohms) {
      distances[a][b] = Quantity.ohms(ohms, 1e-4);
      distances[b][a] = distances[a][b];
      restOhms[a] = restOhms[b] = ohms;
      return this;
    }

    OpenResult result() {
      List<Integer> ports = clusters.stream().flatMap(List::stream).sorted().toList();
      return new OpenResult(
          ports,
          clusters.stream().map(c -> (Quantity) null).toList(),
          new Quantity(1e-11, 0, "F"),
          restOhms,
          clusters,
          distances,
          leaks,
          new Network(Ports.COUNT),
          1);
    }

    Evidence evidence(@Nullable StarResult coded) {
      return new FaultEvidence(BOARD, CRITERIA, PLUG, result(), coded, null)
          .evidence(Map.of(), new JointTest(Map.of(), CRITERIA), Map.of(), Map.of());
    }
  }

  private static List<List<Integer>> ports(Evidence evidence) {
    return evidence.groups().stream()
        .map(g -> g.clusters().stream().flatMap(List::stream).sorted().toList())
        .toList();
  }

  @Test
  void nothingJoinedIsNoGroup() {
    Evidence evidence = Open.singles(4).evidence(null);
    assertThat(evidence.groups()).isEmpty();
    assertThat(evidence.leaks()).isEmpty();
    assertThat(evidence.ratios()).isEmpty();
  }

  /**
   * The reading as it was before the open phase took the returned port's divider off: (R_ref +
   * path)/divider = 115.9/1.02e6 = 1.1363e-4 more.
   */
  @Test
  void touchingConductorsAreAGroupWithTheirReading() {
    Open open = new Open(List.of(List.of(0, 3), List.of(1), List.of(2))).touch(0, 3, 10);
    Evidence evidence = open.evidence(null);
    assertThat(ports(evidence)).containsExactly(List.of(0, 3));
    assertThat(evidence.ratios()).hasSize(1);
    Ratio ratio = evidence.ratios().get(0);
    assertThat(ratio.ohms()).isCloseTo(10 * (1 + 115.9 / 1.02e6), within(1e-9));
    assertThat(List.of(ratio.a(), ratio.b(), ratio.p(), ratio.q())).containsExactly(0, 3, 0, 3);
    assertThat(ratio.held().get(0)).isFalse();
    assertThat(ratio.held().get(3)).isFalse();
    assertThat(ratio.held().get(1)).isTrue();
  }

  /** Below 20 kohm it moves a plug's readings, so both ends are one group; above it is a line. */
  @Test
  void onlyAStrongLeakageMakesAGroup() {
    Open open = Open.singles(6).leak(0, 1, 19_000, 0.001).leak(2, 3, 21_000, 0.001);
    Evidence evidence = open.evidence(null);
    assertThat(ports(evidence)).containsExactly(List.of(0, 1));
    assertThat(evidence.groups().get(0).leaks()).hasSize(1);
    assertThat(evidence.leaks()).hasSize(1);
    assertThat(evidence.leaks().get(0).ports()).containsExactly(2);
    assertThat(evidence.leaks().get(0).others()).containsExactly(3);
    assertThat(evidence.leaks().get(0).ohms().value()).isCloseTo(21_000, within(1e-6));
    assertThat(evidence.leaks().get(0).ohms().u()).isCloseTo(21, within(1e-6));
    Ratio ratio = evidence.ratios().get(0);
    assertThat(ratio.ohms()).isCloseTo(19_000, within(1e-6));
    assertThat(ratio.u()).isGreaterThan(Math.hypot(19 + 5, 0.002 * 19_000) - 1e-6);
  }

  /** Not five standard uncertainties from nothing, or beyond what is called damp. */
  @Test
  void anUndetectedOrADryLeakageIsNone() {
    Evidence evidence =
        Open.singles(5).leak(0, 1, 5_000, 0.21).leak(2, 3, 11e6, 0.001).evidence(null);
    assertThat(evidence.groups()).isEmpty();
    assertThat(evidence.leaks()).isEmpty();
    assertThat(Open.singles(5).leak(0, 1, 5_000, 0.19).evidence(null).groups()).hasSize(1);
    assertThat(Open.singles(5).leak(2, 3, 9e6, 0.001).evidence(null).leaks()).hasSize(1);
  }

  @Test
  void aLeakageJoinsWholeClusters() {
    Open open = new Open(List.of(List.of(0, 1), List.of(2), List.of(3))).touch(0, 1, 0.4);
    Evidence evidence = open.leak(0, 1, 3_000, 0.001).evidence(null);
    assertThat(ports(evidence)).containsExactly(List.of(0, 1, 2));
    Group group = evidence.groups().get(0);
    assertThat(group.clusters()).containsExactly(List.of(0, 1), List.of(2));
    assertThat(group.leaks()).hasSize(1);
  }

  /** Four is the most that is explained as one; a further leakage is said by itself. */
  @Test
  void aBundleThatLeaksEverywhereIsLeftInItsClusters() {
    Open open = Open.singles(6);
    for (int k = 0; k < 5; k++) {
      open.leak(k, k + 1, 5_000, 0.001);
    }
    Evidence evidence = open.evidence(null);
    assertThat(ports(evidence)).allSatisfy(g -> assertThat(g.size()).isLessThanOrEqualTo(4));
    int said =
        evidence.leaks().size() + evidence.groups().stream().mapToInt(g -> g.leaks().size()).sum();
    assertThat(said).isEqualTo(5);
    assertThat(evidence.leaks()).isNotEmpty();
  }

  /** A leakage between two that others have joined already belongs to their group. */
  @Test
  void aRingOfLeakagesIsOneGroup() {
    Open open = Open.singles(4).leak(0, 1, 5_000, 0.001).leak(1, 2, 6_000, 0.001);
    Evidence evidence = open.leak(0, 2, 7_000, 0.001).evidence(null);
    assertThat(ports(evidence)).containsExactly(List.of(0, 1, 2));
    assertThat(evidence.groups().get(0).leaks()).hasSize(3);
    assertThat(evidence.leaks()).isEmpty();
    // What other leakages add to a reading of one widens it: 3 % instead of 0.2 %.
    assertThat(evidence.ratios()).hasSize(3);
    assertThat(evidence.ratios().get(0).u()).isGreaterThan(0.03 * 5_000);
  }

  /** Without a path to the plug: broken from a megohm up, below it a joint of so many ohms. */
  @Test
  void noPathIsABreakAndAPoorOneAJoint() {
    double[] coarse = new double[Ports.COUNT];
    Arrays.fill(coarse, 1e9);
    coarse[3] = 50_000;
    StarResult coded =
        new StarResult(List.of(0, 1, 2), Map.of(), Map.of(), null, List.of(), 0, coarse);
    Evidence evidence = Open.singles(5).evidence(coded);
    assertThat(evidence.broken()).containsExactly(4);
    assertThat(evidence.poor()).containsOnlyKeys(3);
    Quantity poor = evidence.poor().get(3);
    assertThat(poor).isNotNull();
    assertThat(poor.value()).isCloseTo(50_000, within(10.0));
    assertThat(Open.singles(5).evidence(null).broken()).isEmpty();
  }
}
