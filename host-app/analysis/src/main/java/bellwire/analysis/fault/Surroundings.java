package bellwire.analysis.fault;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;

/**
 * All that a group's supposition does not change: the other conductors as they were measured, the
 * board's loads; reduced to the terminals that the group's readings use and the plug's common
 * point, once for each stage and choice of held ports. Theory (5), (31).
 */
final class Surroundings {
  private static final double STAR_SIEMENS = 1e-12;

  private final Setting setting;
  private final List<Stage> stages;
  private final double[][] background;
  private final List<Integer> conductors;
  private final List<Integer> kept;
  private final int[] indices;
  private final Map<List<Object>, Conductances> reduced = new HashMap<>();

  /**
   * @param background conductances between terminals that are not of this group's making, siemens
   * @param conductors of the group
   * @param ratios all readings that will be asked for
   */
  Surroundings(
      Setting setting,
      List<Stage> stages,
      double[][] background,
      List<Integer> conductors,
      List<Ratio> ratios) {
    this.setting = setting;
    this.stages = stages;
    this.background = background;
    this.conductors = conductors;
    TreeSet<Integer> used = new TreeSet<>(conductors);
    if (setting.metal() >= 0) {
      used.add(setting.metal());
    }
    for (Ratio ratio : ratios) {
      used.addAll(List.of(ratio.a(), ratio.b(), ratio.p(), ratio.q()));
    }
    kept = List.copyOf(used);
    List<Integer> order = new ArrayList<>(kept);
    for (int port = 0; port < setting.ports(); port++) {
      if (!used.contains(port)) {
        order.add(port);
      }
    }
    indices = new int[setting.ports()];
    for (int k = 0; k < order.size(); k++) {
      // The common point comes after the terminals that are kept.
      indices[order.get(k)] = k < kept.size() ? k : k + 1;
    }
  }

  Setting setting() {
    return setting;
  }

  List<Stage> stages() {
    return stages;
  }

  List<Integer> conductors() {
    return conductors;
  }

  /** Where a terminal is in the networks; only of those that readings use. */
  int index(int port) {
    return indices[port];
  }

  /** Where the plug's common point is in the networks, after the terminals. */
  int star() {
    return kept.size();
  }

  /** Terminals that readings use, in the order of their ports, and the common point. */
  Conductances network(int stage, BitSet held) {
    return reduced.computeIfAbsent(
        List.of(stage, held), key -> whole(stage, held).reducedTo(kept.size() + 1));
  }

  private Conductances whole(int stage, BitSet held) {
    Conductances net = new Conductances(setting.ports() + 1);
    double[] arms = stages.get(stage).arms();
    for (int port = 0; port < setting.ports(); port++) {
      int x = indices[port];
      net.ground(x, held.get(port) ? 1 / setting.pathOhms() : 1 / setting.dividerOhms());
      for (int other = port + 1; other < setting.ports(); other++) {
        if (background[port][other] > 0) {
          net.join(x, indices[other], background[port][other]);
        }
      }
      boolean alone = port < arms.length && !conductors.contains(port);
      if (alone && !Double.isNaN(arms[port])) {
        net.join(x, star(), 1 / Math.max(arms[port], Resistor.LEAST_OHMS));
      }
    }
    net.ground(star(), STAR_SIEMENS);
    return net;
  }
}
