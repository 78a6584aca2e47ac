package bellwire.analysis.fault;

import bellwire.analysis.fault.Evidence.Group;
import bellwire.analysis.network.Network;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;

/**
 * A cable with faults on a board of its own, solved node by node, and the evidence that a survey
 * with an open far end, a coded plug and a tie plug would make of it. Shares no circuit with the
 * inference: a real source with its limiter, each direction of the current solved by itself.
 *
 * <p>Resistance within 0.5 % of the cable's, contacts from 2 to 20 mohm, arms of the plug within
 * 0.01 %, all rectangular.
 */
final class SyntheticCable {
  static final double[] ARMS = {
    49.9, 90.9, 133, 174, 215, 255, 301, 348, 392, 432, 475, 523, 576, 619, 665, 715
  };
  private static final double PATH_OHMS = 3.5;
  private static final double REFERENCE_OHMS = 100;
  private static final double DIVIDER_OHMS = 1.02e6;
  private static final double VOLTS = 2;
  private static final double LIMITER_OHMS = 766;
  private static final double SPREAD = 0.005;
  private static final double CONTACT_OHMS = 0.011;
  private static final double CONTACT_U = 0.009 / Math.sqrt(3);
  private static final double PLUG_TOLERANCE = 1e-4;

  private record Bridge(int a, int b, double at, double ohms) {}

  final Random random;
  final int conductors;
  final int metal;
  final double runOhms;
  final double[] arms;
  private final int[] position;
  private final double[] own;
  private final double[] clamp;
  private final double[][] contact;
  private final double[] arm;
  private final double[] brokenAt;
  private final double[] jointAt;
  private final double[] jointOhms;
  private final List<Bridge> bridges = new ArrayList<>();
  final List<Fault> truth = new ArrayList<>();
  private final List<Ratio> ratios = new ArrayList<>();

  /**
   * @param arms resistors of the coded plug; conductors are in drawn positions of it
   */
  SyntheticCable(Random random, int conductors, double[] arms, double runOhms) {
    this.random = random;
    this.conductors = conductors;
    this.arms = arms;
    this.runOhms = runOhms;
    metal = conductors;
    position = random.ints(0, arms.length).distinct().limit(conductors).toArray();
    own = drawn(runOhms, SPREAD * runOhms);
    clamp = drawn(CONTACT_OHMS, 0.009);
    contact = new double[][] {{}, drawn(CONTACT_OHMS, 0.009), drawn(CONTACT_OHMS, 0.009)};
    arm = new double[conductors];
    for (int i = 0; i < conductors; i++) {
      arm[i] = arms[position[i]] * (1 + PLUG_TOLERANCE * symmetric());
    }
    brokenAt = filled(Double.NaN);
    jointAt = filled(Double.NaN);
    jointOhms = filled(0);
  }

  private double symmetric() {
    return 2 * random.nextDouble() - 1;
  }

  private double[] drawn(double mean, double halfWidth) {
    double[] values = new double[conductors + 1];
    Arrays.setAll(values, i -> mean + halfWidth * symmetric());
    return values;
  }

  private double[] filled(double value) {
    double[] values = new double[conductors];
    Arrays.fill(values, value);
    return values;
  }

  int position(int port) {
    return position[port];
  }

  SyntheticCable broken(int port, double at) {
    brokenAt[port] = at;
    truth.add(Fault.open(port, null));
    return this;
  }

  SyntheticCable joint(int port, double at, double ohms) {
    jointAt[port] = at;
    jointOhms[port] = ohms;
    truth.add(Fault.joint(port, null, Quantity.ohms(ohms, 0)));
    return this;
  }

  SyntheticCable bridge(int a, int b, double at, double ohms) {
    bridges.add(new Bridge(a, b, at, ohms));
    truth.add(
        Fault.bridge(
            List.of(a), List.of(b), new Quantity(at, 0, "of the run"), Quantity.ohms(ohms, 0)));
    return this;
  }

  /** Terminals first, then the common point, then what the walk along each conductor adds. */
  private Network network(int stage, BitSet held) {
    List<double[]> joins = new ArrayList<>();
    Map<String, Integer> ends = new HashMap<>();
    int star = conductors + 1;
    int[] next = {star + 1};
    for (int port = 0; port < conductors; port++) {
      walk(port, stage, joins, ends, next);
    }
    int clip = next[0]++;
    joins.add(new double[] {metal, clip, clamp[metal]});
    for (int k = 0; k < bridges.size(); k++) {
      Bridge b = bridges.get(k);
      int x = ends.getOrDefault(b.a() + "/" + k, -1);
      int y = b.b() == metal ? clip : ends.getOrDefault(b.b() + "/" + k, -1);
      joins.add(new double[] {x, y, b.ohms()});
    }
    Network net = new Network(next[0] + 2);
    for (int node = 0; node < next[0]; node++) {
      boolean terminal = node <= metal;
      net.ground(node, held.get(node) ? 1 / PATH_OHMS : terminal ? 1 / DIVIDER_OHMS : 1e-12);
    }
    for (double[] join : joins) {
      net.join((int) join[0], (int) join[1], 1 / join[2]);
    }
    return net;
  }

  private void walk(
      int port, int stage, List<double[]> joins, Map<String, Integer> ends, int[] next) {
    record Stop(double at, int bridge, boolean cut, double ohms) {}
    List<Stop> stops = new ArrayList<>();
    for (int k = 0; k < bridges.size(); k++) {
      if (bridges.get(k).a() == port || bridges.get(k).b() == port) {
        stops.add(new Stop(bridges.get(k).at(), k, false, 0));
      }
    }
    if (!Double.isNaN(brokenAt[port])) {
      stops.add(new Stop(brokenAt[port], -1, true, 0));
    }
    if (!Double.isNaN(jointAt[port])) {
      stops.add(new Stop(jointAt[port], -1, false, jointOhms[port]));
    }
    stops.sort(Comparator.comparingDouble(Stop::at));
    int node = port;
    double ohms = clamp[port];
    double at = 0;
    for (Stop stop : stops) {
      ohms += own[port] * (stop.at() - at) + stop.ohms();
      at = stop.at();
      if (stop.bridge() >= 0 || stop.cut()) {
        int fresh = next[0]++;
        if (stop.bridge() >= 0) {
          ends.put(port + "/" + stop.bridge(), fresh);
          joins.add(new double[] {node, fresh, ohms});
        }
        node = fresh;
        ohms = 0;
      }
    }
    if (stage > 0) {
      ohms += own[port] * (1 - at) + contact[stage][port] + (stage == 1 ? arm[port] : 0);
      joins.add(new double[] {node, conductors + 1, ohms});
    }
  }

  /** A four-terminal reading with the current reversed, without noise. Theory (3). */
  double ohms(int stage, int a, int b, int p, int q, BitSet held) {
    double[] forward = volts(stage, a, b, p, q, held);
    double[] back = volts(stage, b, a, p, q, held);
    return (forward[0] - back[0]) * REFERENCE_OHMS / (forward[1] + back[1]);
  }

  private double[] volts(int stage, int driven, int returned, int p, int q, BitSet held) {
    Network net = network(stage, held);
    int source = net.nodes() - 2;
    int back = net.nodes() - 1;
    net.join(driven, source, 1 / PATH_OHMS).ground(source, 1 / LIMITER_OHMS);
    net.join(returned, back, 1 / PATH_OHMS).ground(back, 1 / REFERENCE_OHMS);
    double[] amps = new double[net.nodes()];
    amps[source] = VOLTS / LIMITER_OHMS;
    double[] v = net.volts(amps);
    return new double[] {v[p] - v[q], v[back]};
  }

  /** With the noise of a precise reading and what a board's gains and reference leave. */
  private void read(int stage, int a, int b, int p, int q, BitSet held) {
    double ohms = ohms(stage, a, b, p, q, held);
    double u = Math.hypot(5e-5, 3e-5 * ohms);
    ratios.add(new Ratio(stage, a, b, p, q, held, ohms + u * random.nextGaussian(), u));
  }

  private Set<Integer> joined(int port, int stage) {
    Network net = network(stage, new BitSet());
    Set<Integer> reached = new LinkedHashSet<>(List.of(port));
    List<Integer> open = new ArrayList<>(reached);
    while (!open.isEmpty()) {
      int x = open.remove(open.size() - 1);
      for (int y = 0; y < net.nodes() - 2; y++) {
        if (y != x && net.between(x, y) > 0 && reached.add(y)) {
          open.add(y);
        }
      }
    }
    return reached;
  }

  private List<List<Integer>> clusters() {
    List<List<Integer>> clusters = new ArrayList<>();
    for (int port = 0; port <= metal; port++) {
      int wanted = port;
      if (clusters.stream().noneMatch(c -> c.contains(wanted))) {
        clusters.add(joined(port, 0).stream().filter(p -> p <= metal).sorted().toList());
      }
    }
    return clusters;
  }

  Evidence evidence() {
    List<List<Integer>> clusters = clusters();
    List<List<Integer>> touching = clusters.stream().filter(c -> c.size() > 1).toList();
    double[][] background = new double[metal + 1][metal + 1];
    for (List<Integer> cluster : touching) {
      BitSet held = allBut(cluster);
      for (int a : cluster) {
        for (int b : cluster) {
          if (a < b) {
            read(0, a, b, a, b, held);
            double siemens = 1 / ratios.get(ratios.size() - 1).ohms();
            background[a][b] = siemens;
            background[b][a] = siemens;
          }
        }
      }
    }
    List<Stage> stages = new ArrayList<>(List.of(new Stage(Stage.Kind.OPEN, new double[0])));
    stages.add(new Stage(Stage.Kind.CODED, star(1, clusters)));
    stages.add(new Stage(Stage.Kind.TIE, star(2, clusters)));
    Map<Integer, Integer> positions = new LinkedHashMap<>();
    Map<Integer, Quantity> resistances = new LinkedHashMap<>();
    List<Integer> broken = new ArrayList<>();
    for (int port = 0; port < conductors; port++) {
      if (!joined(port, 1).contains(metal + 1)) {
        broken.add(port);
      } else if (alone(port, touching)) {
        positions.put(port, position[port]);
        double ohms = stages.get(2).arms()[port] - 2 * CONTACT_OHMS;
        resistances.put(port, Quantity.ohms(ohms, Math.sqrt(2) * CONTACT_U));
      }
    }
    return new Evidence(
        setting(resistances),
        stages,
        List.copyOf(ratios),
        background,
        touching.stream().map(c -> new Group(List.of(c), List.of())).toList(),
        List.of(),
        resistances,
        standingOut(resistances),
        broken,
        Map.of(),
        Map.of(),
        positions,
        Set.of());
  }

  private static boolean alone(int port, List<List<Integer>> touching) {
    return touching.stream().noneMatch(c -> c.contains(port));
  }

  private BitSet allBut(List<Integer> ports) {
    BitSet held = new BitSet();
    held.set(0, metal + 1);
    ports.forEach(held::clear);
    return held;
  }

  /**
   * Readings round the ring of conductors that nothing joins, and along the bridges.
   *
   * @return arms by port as those readings give them
   */
  private double[] star(int stage, List<List<Integer>> clusters) {
    List<Integer> connected = new ArrayList<>();
    for (int port = 0; port < conductors; port++) {
      if (joined(port, stage).contains(metal + 1)) {
        connected.add(port);
      }
    }
    List<Integer> floating = new ArrayList<>(connected);
    if (joined(metal, stage).contains(metal + 1)) {
      floating.add(metal);
    }
    BitSet held = allBut(floating);
    List<Integer> ring = new ArrayList<>();
    for (List<Integer> cluster : clusters) {
      cluster.stream().filter(connected::contains).findFirst().ifPresent(ring::add);
    }
    double[] arms = new double[conductors];
    Arrays.fill(arms, Double.NaN);
    int m = ring.size();
    for (int i = 0; i < m && m > 2; i++) {
      read(stage, ring.get(i), ring.get((i + 1) % m), ring.get(i), ring.get((i + 2) % m), held);
      arms[ring.get(i)] = ratios.get(ratios.size() - 1).ohms();
    }
    for (List<Integer> cluster : clusters) {
      List<Integer> apart = ring.stream().filter(p -> !cluster.contains(p)).toList();
      for (int port : cluster) {
        if (connected.contains(port) && !ring.contains(port) && apart.size() > 1) {
          read(stage, port, apart.get(0), port, apart.get(1), held);
        }
        for (int other : cluster) {
          if (other != port && port != metal && !apart.isEmpty()) {
            read(stage, port, other, port, apart.get(0), held);
          }
        }
      }
    }
    return arms;
  }

  /** Theory (21), with the criterion's spread, which is wider than the drawn one. */
  private Setting setting(Map<Integer, Quantity> resistances) {
    double[] sorted = resistances.values().stream().mapToDouble(Quantity::value).sorted().toArray();
    int n = sorted.length;
    double median = n == 0 ? Double.NaN : sorted[(n - 1) / 2];
    double u =
        n == 0
            ? Double.POSITIVE_INFINITY
            : Math.sqrt(Math.PI / 2 / n) * Math.hypot(Math.sqrt(2) * CONTACT_U, SPREAD * median);
    return new Setting(
        metal + 1,
        metal,
        PATH_OHMS,
        REFERENCE_OHMS,
        DIVIDER_OHMS,
        Quantity.ohms(median, u),
        SPREAD,
        CONTACT_OHMS,
        CONTACT_U,
        arms,
        PLUG_TOLERANCE / Math.sqrt(3));
  }

  /** Theory (15), the joints drawn being few; a joint raises, so the lower of two medians. */
  private Map<Integer, Quantity> standingOut(Map<Integer, Quantity> resistances) {
    double[] sorted = resistances.values().stream().mapToDouble(Quantity::value).sorted().toArray();
    Map<Integer, Quantity> out = new LinkedHashMap<>();
    resistances.forEach(
        (port, ohms) -> {
          double median = sorted[(sorted.length - 1) / 2];
          double sigma = Math.hypot(ohms.u(), SPREAD * median);
          if (ohms.value() - median > Math.max(4.5 * sigma, 0.06)) {
            out.put(port, Quantity.ohms(ohms.value() - median, sigma));
          }
        });
    return out;
  }
}
