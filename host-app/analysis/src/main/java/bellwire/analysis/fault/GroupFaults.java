package bellwire.analysis.fault;

import bellwire.analysis.fault.Supposition.Pair;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
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

  private static final double MISSING_SIGMAS = 6;

  /** In a larger bundle the readings do not tell a further fault from the many bridges. */
  private static final int LARGEST_WITH_MORE = 4;

  private static final double[] UNKNOWN_RUN_OHMS = {0.3, 1, 4};

  /** For how many trees of bridges two further faults are tried. */
  private static final int MOST_TREES = 3;

  /** An unexplained reading may lie anywhere below this. */
  private static final double ANYWHERE_OHMS = 1000;

  private final Evidence evidence;
  private final FaultPriors priors;
  private final Evidence.Group joined;
  private final List<Integer> group;
  private final List<Integer> conductors;
  private List<Ratio> ratios;
  private final PositionShortlist shortlist;
  private final List<Weighed> weighed = new ArrayList<>();

  /** What assignments that were not fitted may weigh: as much as the best of those that were. */
  private final List<Double> unlisted = new ArrayList<>();

  private double best = Double.NEGATIVE_INFINITY;
  private boolean tangled;

  GroupFaults(Evidence evidence, Evidence.Group joined) {
    this.evidence = evidence;
    this.priors = FaultPriors.standard();
    this.joined = joined;
    group = joined.ports();
    int metal = evidence.setting().metal();
    conductors = group.stream().filter(p -> p != metal).toList();
    shortlist =
        new PositionShortlist(evidence, group, conductors, outside(evidence.background(), group));
    ratios = shortlist.usable();
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
    for (List<Pair> tree : BridgeTrees.of(joined, evidence.background())) {
      Supposition supposed = Supposition.bridges(tree);
      for (int port : broken) {
        supposed = supposed.alsoBroken(port);
      }
      trees.add(supposed);
    }
    double bridgePrior = Math.log(priors.touch() / evidence.setting().ports());
    trees.forEach(tree -> weighTree(tree, bridgePrior));
    if (weighed.stream().noneMatch(Weighed::explained) && !unlisted.isEmpty()) {
      // Too many assignments of positions to try them: the coded plug tells nothing.
      ratios = shortlist.withoutCoded();
      unlisted.clear();
      trees.forEach(tree -> weighTree(tree, bridgePrior));
    }
    if (weighed.stream().noneMatch(Weighed::explained)) {
      tangled = true;
      trees.stream().limit(MOST_TREES).forEach(tree -> weighTwo(tree, bridgePrior));
    }
    weighed.add(unexplained(trees.get(0)));
    return Weighed.normalised(weighed);
  }

  private void weighTree(Supposition tree, double bridgePrior) {
    double prior = bridgePrior * tree.bridges().size();
    weigh(tree, prior);
    for (Further one : further(tree)) {
      weigh(one.supposed(), prior + one.logPrior());
    }
  }

  /** One fault more than the bridges. */
  private record Further(Supposition supposed, double logPrior) {}

  private List<Further> further(Supposition tree) {
    List<Further> further = new ArrayList<>();
    if (group.size() > LARGEST_WITH_MORE) {
      return further;
    }
    // The break and what it touches have one cause.
    double broken = Math.log(priors.open() * priors.touching() / priors.touch());
    for (int port : conductors) {
      if (!tree.brokenBeyond().contains(port)) {
        double touch = Math.log(evidence.setting().ports());
        further.add(new Further(tree.alsoBroken(port), broken + touch));
        if (!evidence.broken().isEmpty() && !tree.lent().contains(port)) {
          double lending = Math.log(priors.open() * priors.touching());
          further.add(new Further(tree.lentTo(port), lending));
        }
        if (tree.jointsAhead().contains(port) || tree.jointsBeyond().contains(port)) {
          continue;
        }
        further.add(new Further(tree.jointAhead(port), Math.log(priors.joint())));
        further.add(new Further(tree.jointBeyond(port), Math.log(priors.joint())));
      }
    }
    return further;
  }

  /** Two faults more than the bridges, where none with one more explains the readings. */
  private void weighTwo(Supposition tree, double bridgePrior) {
    Set<Supposition> seen = new HashSet<>();
    for (Further one : further(tree)) {
      for (Further other : further(one.supposed())) {
        if (seen.add(other.supposed())) {
          double prior = bridgePrior * tree.bridges().size() + one.logPrior() + other.logPrior();
          weigh(other.supposed(), prior);
        }
      }
    }
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

  private void weigh(Supposition supposed, double logPrior) {
    PositionShortlist.Listing listing = shortlist.of(supposed);
    double bestHere = Double.NEGATIVE_INFINITY;
    for (Map<Integer, Integer> positions : listing.assignments()) {
      GroupModel model = shortlist.model(supposed.at(positions), ratios);
      GroupFit fit = fit(model, supposed);
      if (fit == null || misses(fit)) {
        continue;
      }
      List<Fault> faults = faults(supposed, model, fit);
      if (faults.stream().anyMatch(GroupFaults::noJoint)) {
        continue;
      }
      double weight = logPrior + fit.logEvidence();
      bestHere = Math.max(bestHere, weight);
      if (weight > best - HOPELESS) {
        best = Math.max(best, weight);
        // Where an arm is lent, what lends it and where is not supposed: no explanation.
        double chiSquared = supposed.lent().isEmpty() ? fit.chiSquared() : Double.NaN;
        weighed.add(new Weighed(faults, weight, chiSquared, ratios.size(), positions));
      }
    }
    if (!listing.complete()) {
      unlisted.add(bestHere);
    }
  }

  /**
   * The best of fits from several beginnings: where nothing is known of the copper, from a short
   * run, a middling and a long one; where several bridges share a conductor, from either order.
   */
  private @Nullable GroupFit fit(GroupModel model, Supposition supposed) {
    Beginnings beginnings = shortlist.beginnings(supposed);
    boolean known = evidence.setting().commonKnown();
    double[] runs = known ? new double[] {evidence.setting().runOhms()} : UNKNOWN_RUN_OHMS;
    boolean ordered = supposed.bridges().size() > 1 && group.size() <= LARGEST_WITH_MORE;
    GroupFit found = null;
    for (double run : runs) {
      model.startRunAt(run);
      for (double first : ordered ? new double[] {0.3, 0.7} : new double[] {0.5}) {
        for (int b = 0; b < supposed.bridges().size(); b++) {
          model.startAlong(b, b % 2 == 0 ? first : 1 - first);
        }
        beginnings.nearest(model, ratios);
        GroupFit fit = GroupFit.of(model, ratios);
        if (fit != null && (found == null || fit.logEvidence() > found.logEvidence())) {
          found = fit;
        }
      }
    }
    return found;
  }

  /**
   * A circuit that the readings contradict explains nothing, however much worse all others are:
   * beyond six standard deviations of chi-squared.
   */
  private boolean misses(GroupFit fit) {
    return fit.chiSquared() > ratios.size() + MISSING_SIGMAS * Math.sqrt(2.0 * ratios.size());
  }

  /** A joint that the fit does not see is none. */
  private static boolean noJoint(Fault fault) {
    Quantity ohms = fault.ohms();
    return fault.kind() == Fault.Kind.JOINT && ohms != null && ohms.value() < 3 * ohms.u();
  }

  /**
   * Where on the coded plug the conductors are, over all that was weighed. Where more assignments
   * come near the readings than were fitted, one of the others may be as good as the best of these.
   * None where it takes two further faults to explain the readings: with three, others may do.
   */
  Map<Integer, Position> positions() {
    Map<Integer, Position> found = new LinkedHashMap<>();
    if (tangled) {
      return found;
    }
    for (int port : conductors) {
      if (evidence.positions().containsKey(port) || best == Double.NEGATIVE_INFINITY) {
        continue;
      }
      Map<Integer, Double> weights = new HashMap<>();
      double others = unlisted.stream().mapToDouble(w -> Math.exp(w - best)).sum();
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

  private List<Fault> faults(Supposition supposed, GroupModel model, GroupFit fit) {
    List<Fault> faults = new ArrayList<>();
    for (int b = 0; b < supposed.bridges().size(); b++) {
      Pair pair = supposed.bridges().get(b);
      // Of a bundle too little is read to place each of its bridges.
      Quantity place =
          group.size() > LARGEST_WITH_MORE
              ? null
              : Places.withinRun(fit.parameter(model.alongIndex(b), "of the run"));
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
        Quantity place = jointPlace(supposed, model, fit, port);
        faults.add(Fault.joint(port, place, fit.exponential(joint, "ohm")));
      }
    }
    return faults;
  }

  /** Anywhere on its side of the conductor's bridges, null where it has none. */
  private static @Nullable Quantity jointPlace(
      Supposition supposed, GroupModel model, GroupFit fit, int port) {
    boolean ahead = supposed.jointsAhead().contains(port);
    double edge = Double.NaN;
    for (int b = 0; b < supposed.bridges().size(); b++) {
      Pair pair = supposed.bridges().get(b);
      if (pair.a() == port || pair.b() == port) {
        double x = Places.withinRun(fit.parameter(model.alongIndex(b), "of the run")).value();
        edge = Double.isNaN(edge) ? x : ahead ? Math.min(edge, x) : Math.max(edge, x);
      }
    }
    return Double.isNaN(edge)
        ? null
        : Places.uniform(ahead ? 0 : edge, ahead ? edge : 1, "of the run");
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
