package bellwire.analysis.fault;

import bellwire.analysis.fault.Supposition.Pair;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;

/**
 * A drawn circuit of three to six conductors, half of the time with M: some of them a group that
 * bridges join, with breaks, joints and positions; the others arms and leakages as measured; three
 * stages of the far end; and readings between drawn terminals.
 */
final class RandomCircuit {
  static final double PATH_OHMS = 3.5;
  static final double REFERENCE_OHMS = 100;
  static final double DIVIDER_OHMS = 1.02e6;

  private static final double CONTACT_OHMS = 0.011;

  /** The model bends what is less towards zero, so that a place may pass the end of the run. */
  private static final double UNBENT_OHMS = 0.04;

  private final Random random;
  final int conductors;
  final int metal;
  final Setting setting;
  final List<Stage> stages = new ArrayList<>();
  final double[][] background;
  final List<Integer> group;
  final Supposition supposed;
  final List<Ratio> ratios = new ArrayList<>();
  final GroupModel model;
  final double[] point;

  RandomCircuit(long seed) {
    random = new Random(seed * 7919 + 3);
    conductors = 3 + random.nextInt(4);
    boolean clipped = random.nextBoolean();
    metal = clipped ? conductors : -1;
    int ports = conductors + (clipped ? 1 : 0);
    double common = decades(0.5, 8);
    double[] arms = {49.9, 90.9, 133, 174, 215, 255};
    setting =
        new Setting(
            ports,
            metal,
            PATH_OHMS,
            REFERENCE_OHMS,
            DIVIDER_OHMS,
            Quantity.ohms(common, 0.02 * common),
            0.005,
            CONTACT_OHMS,
            0.0052,
            arms,
            6e-5);
    List<Integer> order = new ArrayList<>(IntStream.range(0, conductors).boxed().toList());
    Collections.shuffle(order, random);
    group = List.copyOf(order.subList(0, 2 + random.nextInt(conductors - 1)));
    background = background(ports);
    supposed = supposition();
    stages(order);
    for (int k = 0; k < 12; k++) {
      ratios.add(ratio(ports));
    }
    model =
        new GroupModel(
            new Surroundings(setting, stages, background, group, ratios), ratios, supposed);
    point = point(common);
  }

  private double decades(double low, double high) {
    return low * Math.pow(high / low, random.nextDouble());
  }

  private boolean once(int in) {
    return random.nextInt(in) == 0;
  }

  private double[][] background(int ports) {
    double[][] siemens = new double[ports][ports];
    for (int i = 0; i < ports; i++) {
      for (int j = i + 1; j < ports; j++) {
        if (once(4)) {
          siemens[i][j] = siemens[j][i] = 1 / decades(500, 1e7);
        }
      }
    }
    return siemens;
  }

  /** A chain of bridges along the group, one of them to M at times, and what else is wrong. */
  private Supposition supposition() {
    List<Pair> bridges = new ArrayList<>();
    for (int k = 1; k < group.size(); k++) {
      bridges.add(new Pair(group.get(random.nextInt(k)), group.get(k)));
    }
    if (metal >= 0 && random.nextBoolean()) {
      bridges.add(new Pair(group.get(random.nextInt(group.size())), metal));
    }
    Set<Integer> beyond = new HashSet<>();
    Set<Integer> ahead = new HashSet<>();
    Set<Integer> jointAhead = new HashSet<>();
    Set<Integer> jointBeyond = new HashSet<>();
    Map<Integer, Integer> positions = new HashMap<>();
    List<Integer> free = new ArrayList<>(IntStream.range(0, 6).boxed().toList());
    Collections.shuffle(free, random);
    for (int port : group) {
      if (once(5)) {
        (random.nextBoolean() ? beyond : ahead).add(port);
      }
      if (once(4)) {
        (random.nextBoolean() ? jointAhead : jointBeyond).add(port);
      }
      positions.put(port, free.remove(0));
    }
    return new Supposition(bridges, beyond, ahead, jointAhead, jointBeyond, Set.of(), positions);
  }

  private void stages(List<Integer> order) {
    stages.add(new Stage(Stage.Kind.OPEN, new double[0]));
    for (Stage.Kind kind : new Stage.Kind[] {Stage.Kind.CODED, Stage.Kind.TIE}) {
      double[] arms = new double[conductors];
      Arrays.fill(arms, Double.NaN);
      for (int port : order) {
        if (!once(5)) {
          arms[port] = kind == Stage.Kind.CODED ? decades(50, 700) : decades(0.1, 8);
        }
      }
      stages.add(new Stage(kind, arms));
    }
  }

  /** Current between two, the voltage from either to any other; the rest held at times. */
  private Ratio ratio(int ports) {
    int a = group.get(random.nextInt(group.size()));
    int b = other(ports, a);
    int p = once(3) ? b : a;
    int q = other(ports, p);
    BitSet held = new BitSet();
    for (int port = 0; port < ports; port++) {
      if (port != a && port != b && port != q && once(4)) {
        held.set(port);
      }
    }
    return new Ratio(random.nextInt(3), a, b, p, q, held, 0, 1);
  }

  private int other(int ports, int port) {
    return (port + 1 + random.nextInt(ports - 1)) % ports;
  }

  /** Every parameter within its distribution; bridges apart by a tenth of the run and more. */
  private double[] point(double common) {
    Parameters parameters = model.parameters();
    double[] at = parameters.start();
    at[0] = common;
    for (int i = 1; i < at.length; i++) {
      double x = parameters.mean(i) + parameters.sigma(i) * (2 * random.nextDouble() - 1) * 1.5;
      at[i] = parameters.mean(i) == CONTACT_OHMS ? Math.max(x, 0.002) : x;
    }
    if (supposed.bridges().stream().anyMatch(p -> p.b() == metal)) {
      at[model.alongIndex(0) - 1] = UNBENT_OHMS; // the clip's own, added ahead of the bridges
    }
    List<Integer> tenths = new ArrayList<>(IntStream.rangeClosed(1, 9).boxed().toList());
    Collections.shuffle(tenths, random);
    for (int b = 0; b < supposed.bridges().size(); b++) {
      at[model.alongIndex(b)] = tenths.get(b) / 10.0;
      at[model.logOhmsIndex(b)] = Math.log(decades(0.05, 5000));
    }
    for (int port : group) {
      if (model.logJointIndex(port) >= 0) {
        at[model.logJointIndex(port)] = Math.log(decades(0.1, 1000));
      }
    }
    return at;
  }
}
