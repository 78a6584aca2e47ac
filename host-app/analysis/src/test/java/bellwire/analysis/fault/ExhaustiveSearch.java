package bellwire.analysis.fault;

import bellwire.analysis.fault.Supposition.Pair;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;

/**
 * Every supposition about the only group of a small cable, at every assignment of its conductors to
 * the free positions of the plug, each fitted from several beginnings: what the inference would say
 * without a shortlist, trees picked beforehand, or a first guess.
 */
final class ExhaustiveSearch {
  private static final double[] BRIDGE_OHMS = {0.5, 20};
  private static final double LEAST_SIGMAS = 3;
  private static final double MISSING_SIGMAS = 6;

  private final Evidence evidence;
  private final List<Integer> conductors;
  private final List<Ratio> ratios;
  private final Surroundings surroundings;
  private final FaultPriors priors = FaultPriors.standard();
  private final Map<Set<String>, List<Double>> byFaults = new HashMap<>();
  private final Map<Integer, Map<Integer, List<Double>>> byPosition = new HashMap<>();
  int fits;

  ExhaustiveSearch(Evidence evidence) {
    this.evidence = evidence;
    List<Integer> group = evidence.groups().get(0).ports();
    conductors = group.stream().filter(p -> p != evidence.setting().metal()).toList();
    ratios = evidence.ratios().stream().filter(r -> group.contains(r.p())).toList();
    int ports = evidence.setting().ports();
    surroundings =
        new Surroundings(
            evidence.setting(), evidence.stages(), new double[ports][ports], conductors, ratios);
    for (List<Pair> tree : trees(group)) {
      suppose(tree);
    }
  }

  /** All choices of pairs that leave no port apart: the trees, and with three ports the ring. */
  private static List<List<Pair>> trees(List<Integer> group) {
    List<Pair> pairs = new ArrayList<>();
    for (int i = 0; i < group.size(); i++) {
      for (int j = i + 1; j < group.size(); j++) {
        pairs.add(new Pair(group.get(i), group.get(j)));
      }
    }
    List<List<Pair>> trees = new ArrayList<>();
    for (int mask = 0; mask < 1 << pairs.size(); mask++) {
      if (Integer.bitCount(mask) >= group.size() - 1) {
        List<Pair> tree = new ArrayList<>();
        for (int k = 0; k < pairs.size(); k++) {
          if ((mask >> k & 1) == 1) {
            tree.add(pairs.get(k));
          }
        }
        if (joins(tree, group.size())) {
          trees.add(tree);
        }
      }
    }
    return trees;
  }

  private static boolean joins(List<Pair> tree, int ports) {
    Set<Integer> reached = new TreeSet<>(List.of(tree.get(0).a()));
    for (int round = 0; round < ports; round++) {
      for (Pair pair : tree) {
        if (reached.contains(pair.a()) || reached.contains(pair.b())) {
          reached.add(pair.a());
          reached.add(pair.b());
        }
      }
    }
    return reached.size() == ports;
  }

  /** Nothing else, or one conductor broken beyond its bridges, or a joint in one. Theory (34). */
  private void suppose(List<Pair> tree) {
    Supposition plain = Supposition.bridges(tree);
    List<Integer> broken = conductors.stream().filter(evidence.broken()::contains).toList();
    for (int port : broken) {
      plain = plain.alsoBroken(port);
    }
    double bridge = Math.log(priors.touch() / evidence.setting().ports());
    double prior = bridge * tree.size();
    weigh(plain, prior);
    for (int port : conductors) {
      if (!broken.contains(port)) {
        double withBreak = prior - bridge + Math.log(priors.open()) + Math.log(priors.touching());
        weigh(plain.alsoBroken(port), withBreak);
        weigh(plain.jointAhead(port), prior + Math.log(priors.joint()));
        weigh(plain.jointBeyond(port), prior + Math.log(priors.joint()));
      }
    }
  }

  private void weigh(Supposition supposed, double logPrior) {
    List<Integer> hanging =
        conductors.stream().filter(p -> !supposed.brokenBeyond().contains(p)).toList();
    for (Map<Integer, Integer> positions : assignments(hanging)) {
      GroupModel model = new GroupModel(surroundings, ratios, supposed.at(positions));
      GroupFit best = null;
      boolean several = supposed.bridges().size() > 1;
      for (double ohms : BRIDGE_OHMS) {
        for (double first : several ? new double[] {0.25, 0.75} : new double[] {0.5}) {
          for (int b = 0; b < supposed.bridges().size(); b++) {
            model.parameters().startAt(model.logOhmsIndex(b), Math.log(ohms));
            model.startAlong(b, b % 2 == 0 ? first : 1 - first);
          }
          GroupFit fit = GroupFit.of(model, ratios);
          fits++;
          if (fit != null && (best == null || fit.logEvidence() > best.logEvidence())) {
            best = fit;
          }
        }
      }
      if (best != null && !misses(best) && jointsSeen(supposed, model, best)) {
        double weight = logPrior + best.logEvidence();
        byFaults.computeIfAbsent(names(supposed), k -> new ArrayList<>()).add(weight);
        positions.forEach(
            (port, position) ->
                byPosition
                    .computeIfAbsent(port, k -> new HashMap<>())
                    .computeIfAbsent(position, k -> new ArrayList<>())
                    .add(weight));
      }
    }
  }

  private List<Map<Integer, Integer>> assignments(List<Integer> ports) {
    List<Map<Integer, Integer>> all = new ArrayList<>(List.of(Map.of()));
    for (int port : ports) {
      List<Map<Integer, Integer>> longer = new ArrayList<>();
      for (Map<Integer, Integer> sofar : all) {
        for (int p = 0; p < evidence.setting().armOhms().length; p++) {
          if (!sofar.containsValue(p) && !evidence.positions().containsValue(p)) {
            Map<Integer, Integer> next = new LinkedHashMap<>(sofar);
            next.put(port, p);
            longer.add(next);
          }
        }
      }
      all = longer;
    }
    return all;
  }

  private boolean misses(GroupFit fit) {
    int n = ratios.size();
    return fit.chiSquared() > n + MISSING_SIGMAS * Math.sqrt(2.0 * n);
  }

  private boolean jointsSeen(Supposition supposed, GroupModel model, GroupFit fit) {
    for (int port : conductors) {
      int joint = model.logJointIndex(port);
      if (joint >= 0) {
        var ohms = fit.exponential(joint, "ohm");
        if (ohms.value() < LEAST_SIGMAS * ohms.u()) {
          return false;
        }
      }
    }
    return true;
  }

  private static Set<String> names(Supposition supposed) {
    Set<String> names = new TreeSet<>();
    supposed.bridges().forEach(p -> names.add("bridge " + p.a() + "-" + p.b()));
    supposed.brokenBeyond().forEach(p -> names.add("open " + p));
    supposed.jointsAhead().forEach(p -> names.add("joint " + p));
    supposed.jointsBeyond().forEach(p -> names.add("joint " + p));
    return names;
  }

  static Set<String> names(List<Fault> faults) {
    Set<String> names = new TreeSet<>();
    for (Fault fault : faults) {
      int a = fault.ports().get(0);
      names.add(
          switch (fault.kind()) {
            case OPEN -> "open " + a;
            case JOINT -> "joint " + a;
            case BRIDGE ->
                "bridge "
                    + Math.min(a, fault.others().get(0))
                    + "-"
                    + Math.max(a, fault.others().get(0));
          });
    }
    return names;
  }

  private static double logSum(List<Double> logs) {
    double most = logs.stream().mapToDouble(x -> x).max().orElse(Double.NEGATIVE_INFINITY);
    return most + Math.log(logs.stream().mapToDouble(x -> Math.exp(x - most)).sum());
  }

  private double logTotal() {
    return logSum(byFaults.values().stream().map(ExhaustiveSearch::logSum).toList());
  }

  double probability(Set<String> faults) {
    List<Double> weights = byFaults.get(faults);
    return weights == null ? 0 : Math.exp(logSum(weights) - logTotal());
  }

  Set<String> mostProbable() {
    return byFaults.entrySet().stream()
        .max(Map.Entry.comparingByValue((x, y) -> Double.compare(logSum(x), logSum(y))))
        .orElseThrow()
        .getKey();
  }

  /** Natural logarithm of the odds of a position to all others. */
  double logOdds(int port, int position) {
    List<Double> others = new ArrayList<>();
    List<Double> own = new ArrayList<>();
    byPosition
        .getOrDefault(port, Map.of())
        .forEach((p, weights) -> (p == position ? own : others).addAll(weights));
    return others.isEmpty() ? Double.POSITIVE_INFINITY : logSum(own) - logSum(others);
  }
}
