package bellwire.analysis.fault;

import bellwire.analysis.fault.Supposition.Pair;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What may be wrong with a group of conductors that low resistances join: every tree of bridges
 * that joins them, alone and with one further break or joint, at the positions on the coded plug
 * that come near the readings; each fitted and weighed. Theory (32) to (34).
 */
final class GroupFaults {
  /** An explanation this much worse than the best, e^-40, is not followed up. */
  private static final double HOPELESS = 40;

  /** An unexplained reading may lie anywhere below this. */
  private static final double ANYWHERE_OHMS = 1000;

  /** Tried for a bridge that no reading shows by itself. */
  private static final double[] UNREAD_BRIDGE_OHMS = {1, 8, 60};

  private static final int MOST_ASSIGNMENTS = 250;
  private static final int SHORTLIST = 3;
  private static final int LARGEST_ENUMERATED = 3;
  private static final int MOST_TREES = 12;

  private final Evidence evidence;
  private final FaultPriors priors;
  private final Evidence.Group joined;
  private final List<Integer> group;
  private final List<Integer> conductors;
  private final List<Ratio> ratios;
  private final double[][] background;
  private final List<Weighed> weighed = new ArrayList<>();
  private double best = Double.NEGATIVE_INFINITY;

  GroupFaults(Evidence evidence, Evidence.Group joined) {
    this.evidence = evidence;
    this.priors = FaultPriors.standard();
    this.joined = joined;
    group = joined.ports();
    int metal = evidence.setting().metal();
    conductors = group.stream().filter(p -> p != metal).toList();
    ratios = evidence.ratios().stream().filter(r -> group.contains(r.p()) && usable(r)).toList();
    background = outside(evidence.background(), group);
  }

  /** Readings of a conductor on the coded plug serve only where its position can be known. */
  private boolean usable(Ratio ratio) {
    return evidence.stages().get(ratio.stage()).kind() != Stage.Kind.CODED || countable();
  }

  private boolean countable() {
    long unknown =
        group.stream()
            .filter(p -> p != evidence.setting().metal() && !evidence.positions().containsKey(p))
            .count();
    int free = evidence.setting().armOhms().length - evidence.positions().size();
    double assignments = 1;
    for (int k = 0; k < unknown; k++) {
      assignments *= Math.max(1, free - k);
    }
    return assignments <= MOST_ASSIGNMENTS;
  }

  private static double[][] outside(double[][] all, List<Integer> group) {
    double[][] rest = new double[all.length][];
    for (int i = 0; i < all.length; i++) {
      rest[i] = all[i].clone();
      for (int j = 0; j < all.length; j++) {
        if (group.contains(i) && group.contains(j)) {
          rest[i][j] = 0;
        }
      }
    }
    return rest;
  }

  /** The explanations, most probable first; logarithms of weights that sum to one. */
  List<Weighed> explain() {
    List<Supposition> trees = new ArrayList<>();
    List<Integer> broken = conductors.stream().filter(evidence.broken()::contains).toList();
    for (List<Pair> tree : trees()) {
      Supposition supposed = Supposition.bridges(tree);
      for (int port : broken) {
        supposed = supposed.alsoBroken(port);
      }
      trees.add(supposed);
    }
    double bridgePrior = Math.log(priors.touch() / evidence.setting().ports());
    for (Supposition tree : trees) {
      double prior = bridgePrior * tree.bridges().size();
      weigh(tree, prior);
      for (int port : conductors) {
        if (broken.contains(port)) {
          continue;
        }
        // The break and what it touches have one cause.
        weigh(
            tree.alsoBroken(port),
            prior - bridgePrior + Math.log(priors.open() * priors.touching()));
        weigh(tree.jointAhead(port), prior + Math.log(priors.joint()));
        weigh(tree.jointBeyond(port), prior + Math.log(priors.joint()));
      }
    }
    weighed.add(unexplained(trees.get(0)));
    return Weighed.normalised(weighed);
  }

  /**
   * What may be wrong with a conductor whose arm nothing explains, where others are broken: the far
   * part of one of those may touch it and lend it its arm.
   */
  List<Weighed> explainBeside(List<Integer> broken) {
    Supposition alone = Supposition.bridges(List.of());
    int doubtful = conductors.stream().filter(p -> !broken.contains(p)).findFirst().orElseThrow();
    for (int other : broken) {
      alone = alone.alsoBroken(other);
    }
    double prior = Math.log(priors.open()) * broken.size();
    weigh(alone, prior);
    weigh(alone.jointAhead(doubtful), prior + Math.log(priors.joint()));
    for (int other : broken) {
      Supposition touching =
          new Supposition(
              List.of(new Pair(doubtful, other)),
              without(alone.brokenBeyond(), other),
              Set.of(other),
              Set.of(),
              Set.of(),
              Map.of());
      weigh(touching, prior + Math.log(priors.touching()));
    }
    weighed.add(unexplained(alone));
    return Weighed.normalised(weighed);
  }

  private static Set<Integer> without(Set<Integer> ports, int port) {
    Set<Integer> rest = new HashSet<>(ports);
    rest.remove(port);
    return Set.copyOf(rest);
  }

  /**
   * The ways in which bridges may join the group: within each cluster all trees of a small one and
   * that of the nearest neighbours of a larger one; between clusters every leakage, from any of the
   * ports it may come from.
   */
  private List<List<Pair>> trees() {
    List<List<Pair>> ways = List.of(List.of());
    for (List<Integer> cluster : joined.clusters()) {
      ways = product(ways, within(cluster));
    }
    for (Evidence.Leakage leak : joined.leaks()) {
      List<List<Pair>> ends = new ArrayList<>();
      for (int a : leak.ports()) {
        leak.others().forEach(b -> ends.add(List.of(new Pair(a, b))));
      }
      ways = product(ways, ends);
    }
    return ways.subList(0, Math.min(MOST_TREES, ways.size()));
  }

  private static List<List<Pair>> product(List<List<Pair>> left, List<List<Pair>> right) {
    List<List<Pair>> all = new ArrayList<>();
    for (List<Pair> some : left) {
      for (List<Pair> more : right) {
        List<Pair> both = new ArrayList<>(some);
        both.addAll(more);
        all.add(both);
      }
    }
    return all;
  }

  private List<List<Pair>> within(List<Integer> cluster) {
    List<Pair> pairs = new ArrayList<>();
    for (int i = 0; i < cluster.size(); i++) {
      for (int j = i + 1; j < cluster.size(); j++) {
        pairs.add(new Pair(cluster.get(i), cluster.get(j)));
      }
    }
    if (cluster.size() <= 2) {
      return List.of(pairs);
    }
    if (cluster.size() > LARGEST_ENUMERATED) {
      return List.of(nearest(cluster, pairs));
    }
    List<List<Pair>> trees = new ArrayList<>();
    for (Pair left : pairs) {
      trees.add(pairs.stream().filter(p -> p != left).toList());
    }
    return trees;
  }

  /** Kruskal's spanning tree of the largest conductances. */
  private List<Pair> nearest(List<Integer> cluster, List<Pair> pairs) {
    Map<Integer, Integer> root = new HashMap<>();
    cluster.forEach(p -> root.put(p, p));
    List<Pair> tree = new ArrayList<>();
    List<Pair> sorted =
        pairs.stream()
            .sorted(Comparator.comparingDouble(p -> -evidence.background()[p.a()][p.b()]))
            .toList();
    for (Pair pair : sorted) {
      int a = rootOf(root, pair.a());
      int b = rootOf(root, pair.b());
      if (a != b) {
        root.put(a, b);
        tree.add(pair);
      }
    }
    return tree;
  }

  private static int rootOf(Map<Integer, Integer> root, int port) {
    int at = port;
    for (Integer up = root.get(at); up != null && up != at; up = root.get(at)) {
      at = up;
    }
    return at;
  }

  private void weigh(Supposition supposed, double logPrior) {
    for (Map<Integer, Integer> positions : shortlist(supposed)) {
      GroupModel model = model(supposed.at(positions), ratios);
      startAtReadings(model, supposed, UNREAD_BRIDGE_OHMS[0]);
      GroupFit fit = GroupFit.of(model, ratios);
      if (fit == null) {
        continue;
      }
      List<Fault> faults = faults(supposed, model, fit);
      if (faults.stream().anyMatch(GroupFaults::noJoint)) {
        continue;
      }
      double weight = logPrior + fit.logEvidence();
      if (weight > best - HOPELESS) {
        best = Math.max(best, weight);
        weighed.add(new Weighed(faults, weight, fit.chiSquared(), ratios.size(), positions));
      }
    }
  }

  /** A joint that the fit does not see is none. */
  private static boolean noJoint(Fault fault) {
    Quantity ohms = fault.ohms();
    return fault.kind() == Fault.Kind.JOINT && ohms != null && ohms.value() < 3 * ohms.u();
  }

  /**
   * Where on the coded plug the conductors are, over all that was weighed. Positions that are not
   * on the shortlist fit worse than the last of it, whose weight therefore bounds the odds.
   */
  Map<Integer, Position> positions() {
    Map<Integer, Position> found = new LinkedHashMap<>();
    for (int port : conductors) {
      if (evidence.positions().containsKey(port) || best == Double.NEGATIVE_INFINITY) {
        continue;
      }
      Map<Integer, Double> weights = new HashMap<>();
      double others = 0;
      for (Weighed w : weighed) {
        Integer position = w.positions().get(port);
        double weight = Math.exp(w.logWeight() - best);
        if (position == null) {
          others += weight;
        } else {
          weights.merge(position, weight, Double::sum);
        }
      }
      double total = weights.values().stream().mapToDouble(Double::doubleValue).sum() + others;
      weights.forEach(
          (position, weight) -> {
            double odds = weight / Math.max(total - weight, Math.exp(-HOPELESS));
            Position sofar = found.get(port);
            if (sofar == null || odds > sofar.odds()) {
              found.put(port, new Position(position, odds));
            }
          });
    }
    return found;
  }

  private GroupModel model(Supposition supposed, List<Ratio> readings) {
    return new GroupModel(
        evidence.setting(), evidence.stages(), background, conductors, readings, supposed);
  }

  /**
   * A bridge begins at what its two ports have between them, less one run of copper.
   *
   * @param unread where nothing was read between them
   */
  private void startAtReadings(GroupModel model, Supposition supposed, double unread) {
    double run = evidence.setting().runOhms();
    for (int b = 0; b < supposed.bridges().size(); b++) {
      Pair pair = supposed.bridges().get(b);
      model.parameters().startAt(model.logOhmsIndex(b), Math.log(unread));
      for (Ratio ratio : ratios) {
        boolean direct = ratio.p() == pair.a() && ratio.q() == pair.b();
        if (direct && evidence.stages().get(ratio.stage()).kind() == Stage.Kind.OPEN) {
          double ohms = Math.max(ratio.ohms() - run, Math.max(0.02 * ratio.ohms(), 1e-3));
          model.parameters().startAt(model.logOhmsIndex(b), Math.log(ohms));
        }
      }
    }
  }

  /**
   * The assignments of free positions to the conductors that need one that come nearest to the
   * readings on the coded plug, all parameters at where they start.
   */
  private List<Map<Integer, Integer>> shortlist(Supposition supposed) {
    List<Integer> open = new ArrayList<>();
    Map<Integer, Integer> known = new LinkedHashMap<>();
    for (int port : conductors) {
      Integer position = evidence.positions().get(port);
      if (position != null) {
        known.put(port, position);
      } else if (!supposed.brokenBeyond().contains(port)) {
        open.add(port);
      }
    }
    List<Ratio> coded =
        ratios.stream()
            .filter(r -> evidence.stages().get(r.stage()).kind() == Stage.Kind.CODED)
            .toList();
    if (open.isEmpty() || coded.isEmpty()) {
      return List.of(known);
    }
    record Scored(Map<Integer, Integer> positions, double misfit) {}
    List<Scored> scored = new ArrayList<>();
    for (Map<Integer, Integer> positions : assignments(open, 0, known)) {
      GroupModel model = model(supposed.at(positions), coded);
      double misfit = Double.POSITIVE_INFINITY;
      for (double ohms : UNREAD_BRIDGE_OHMS) {
        startAtReadings(model, supposed, ohms);
        misfit = Math.min(misfit, misfit(model, coded));
      }
      scored.add(new Scored(positions, misfit));
    }
    scored.sort(Comparator.comparingDouble(Scored::misfit));
    return scored.stream().limit(SHORTLIST).map(Scored::positions).toList();
  }

  private double misfit(GroupModel model, List<Ratio> coded) {
    double[] values = model.at(model.parameters().start(), false).values();
    double misfit = 0;
    for (int k = 0; k < values.length; k++) {
      double wide = 0.5 + evidence.setting().runOhms() + 0.01 * values[k];
      misfit += Math.min(1e4, Math.pow((values[k] - coded.get(k).ohms()) / wide, 2));
    }
    return misfit;
  }

  private List<Map<Integer, Integer>> assignments(
      List<Integer> ports, int from, Map<Integer, Integer> sofar) {
    if (from == ports.size()) {
      return List.of(sofar);
    }
    List<Map<Integer, Integer>> all = new ArrayList<>();
    for (int p = 0; p < evidence.setting().armOhms().length; p++) {
      if (!sofar.containsValue(p) && !evidence.positions().containsValue(p)) {
        Map<Integer, Integer> next = new LinkedHashMap<>(sofar);
        next.put(ports.get(from), p);
        all.addAll(assignments(ports, from + 1, next));
      }
    }
    return all;
  }

  private List<Fault> faults(Supposition supposed, GroupModel model, GroupFit fit) {
    List<Fault> faults = new ArrayList<>();
    for (int b = 0; b < supposed.bridges().size(); b++) {
      Pair pair = supposed.bridges().get(b);
      Quantity place = Places.withinRun(fit.parameter(model.alongIndex(b), "of the run"));
      faults.add(
          Fault.bridge(
              List.of(pair.a()),
              List.of(pair.b()),
              place,
              fit.exponential(model.logOhmsIndex(b), "ohm")));
    }
    for (int port : conductors) {
      if (supposed.brokenBeyond().contains(port) || supposed.brokenAhead().contains(port)) {
        faults.add(Fault.open(port, evidence.breaks().get(port)));
      }
      int joint = model.logJointIndex(port);
      if (joint >= 0) {
        faults.add(Fault.joint(port, null, fit.exponential(joint, "ohm")));
      }
    }
    return faults;
  }

  /** Readings anywhere, with the bridges that the open phase saw. */
  private Weighed unexplained(Supposition tree) {
    double weight = Math.log(priors.unexplained());
    for (Ratio ratio : ratios) {
      weight += Math.log(ratio.u() * Math.sqrt(2 * Math.PI) / ANYWHERE_OHMS);
    }
    List<Fault> faults = new ArrayList<>();
    for (Pair pair : tree.bridges()) {
      faults.add(Fault.bridge(List.of(pair.a()), List.of(pair.b()), null, readBetween(pair)));
    }
    tree.brokenBeyond().forEach(p -> faults.add(Fault.open(p, evidence.breaks().get(p))));
    return new Weighed(faults, weight, Double.NaN, ratios.size(), Map.of());
  }

  private @Nullable Quantity readBetween(Pair pair) {
    double siemens = evidence.background()[pair.a()][pair.b()];
    return siemens > 0 ? Quantity.ohms(1 / siemens, 0.1 / siemens) : null;
  }
}
