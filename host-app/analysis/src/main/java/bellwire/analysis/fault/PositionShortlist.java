package bellwire.analysis.fault;

import bellwire.analysis.fault.Supposition.Pair;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Which free positions of the coded plug the conductors of a group may be in: the assignments that
 * come nearest to the readings on that plug before anything is fitted.
 */
final class PositionShortlist {
  /** Tried for a bridge that no reading shows by itself; the first is where a fit starts. */
  static final double[] UNREAD_BRIDGE_OHMS = {1, 8, 60};

  private static final int MOST_ASSIGNMENTS = 250;
  private static final int LISTED = 8;

  /** Tried for a joint, whose size no reading shows by itself. */
  private static final double[] JOINT_OHMS = {1, 6, 35};

  /** An assignment that misses by so much more than the nearest can't be the right one. */
  private static final double HOPELESS_MISFIT = 60;

  private static final double MISFIT_OHMS = 0.3;
  private static final double MISFIT_SHARE = 0.002;

  /** Of one reading, so that one alone rules nothing out. */
  private static final double WORST = 1e4;

  private final Evidence evidence;
  private final List<Integer> conductors;
  private final boolean countable;
  private List<Ratio> ratios;
  private List<Ratio> coded;
  private final Surroundings surroundings;

  /**
   * @param group its ports
   * @param conductors of the group
   * @param background conductances between terminals that are not of the group's making, siemens
   */
  PositionShortlist(
      Evidence evidence, List<Integer> group, List<Integer> conductors, double[][] background) {
    this.evidence = evidence;
    this.conductors = conductors;
    countable = countable();
    ratios =
        evidence.ratios().stream()
            .filter(r -> group.contains(r.p()) && (countable || !coded(r)))
            .toList();
    coded = ratios.stream().filter(this::coded).toList();
    surroundings =
        new Surroundings(evidence.setting(), evidence.stages(), background, conductors, ratios);
  }

  /** Whether there are few enough assignments to try them all. */
  private boolean countable() {
    long unknown = conductors.stream().filter(p -> !evidence.positions().containsKey(p)).count();
    int free = evidence.setting().armOhms().length - evidence.positions().size();
    double assignments = 1;
    for (int k = 0; k < unknown; k++) {
      assignments *= Math.max(1, free - k);
    }
    return assignments <= MOST_ASSIGNMENTS;
  }

  /**
   * The readings that belong to the group; those on the coded plug only where positions can be
   * known.
   */
  List<Ratio> usable() {
    return ratios;
  }

  /** From now on the readings on the coded plug are left out. */
  List<Ratio> withoutCoded() {
    ratios = ratios.stream().filter(r -> !coded(r)).toList();
    coded = List.of();
    return ratios;
  }

  private boolean coded(Ratio ratio) {
    return evidence.stages().get(ratio.stage()).kind() == Stage.Kind.CODED;
  }

  GroupModel model(Supposition supposed, List<Ratio> readings) {
    return new GroupModel(surroundings, readings, supposed);
  }

  /**
   * Assignments that may be right.
   *
   * @param assignments the nearest first; positions that are known are in each
   * @param complete whether all that come near the readings are among them
   */
  record Listing(List<Map<Integer, Integer>> assignments, boolean complete) {}

  Listing of(Supposition supposed) {
    List<Integer> open = new ArrayList<>();
    Map<Integer, Integer> known = new LinkedHashMap<>();
    for (int port : conductors) {
      Integer position = evidence.positions().get(port);
      if (position != null) {
        known.put(port, position);
      } else if (!supposed.brokenBeyond().contains(port) && !supposed.lent().contains(port)) {
        open.add(port);
      }
    }
    if (open.isEmpty() || coded.isEmpty()) {
      return new Listing(List.of(known), open.isEmpty());
    }
    record Scored(Map<Integer, Integer> positions, double misfit) {}
    List<Scored> scored = new ArrayList<>();
    for (Map<Integer, Integer> positions : assignments(open, 0, known)) {
      scored.add(new Scored(positions, misfit(supposed, positions)));
    }
    scored.sort(Comparator.comparingDouble(Scored::misfit));
    double most = scored.isEmpty() ? 0 : scored.get(0).misfit() + HOPELESS_MISFIT;
    List<Map<Integer, Integer>> near =
        scored.stream().filter(s -> s.misfit() <= most).map(Scored::positions).toList();
    return new Listing(near.subList(0, Math.min(LISTED, near.size())), near.size() <= LISTED);
  }

  /** The least over the sizes that bridges and joints may have where no reading shows them. */
  private double misfit(Supposition supposed, Map<Integer, Integer> positions) {
    GroupModel model = model(supposed.at(positions), coded);
    double least = Double.POSITIVE_INFINITY;
    for (double ohms : allRead(supposed) ? new double[] {1} : UNREAD_BRIDGE_OHMS) {
      startAtReadings(model, supposed, ohms);
      boolean joint = !supposed.jointsAhead().isEmpty() || !supposed.jointsBeyond().isEmpty();
      for (double jointOhms : joint ? JOINT_OHMS : new double[] {1}) {
        for (int port : conductors) {
          int index = model.logJointIndex(port);
          if (index >= 0) {
            model.parameters().startAt(index, Math.log(jointOhms));
          }
        }
        least = Math.min(least, misfit(model));
      }
    }
    return least;
  }

  private boolean allRead(Supposition supposed) {
    return supposed.bridges().stream()
        .allMatch(pair -> ratios.stream().anyMatch(r -> direct(r, pair)));
  }

  private boolean direct(Ratio ratio, Pair pair) {
    return ratio.p() == pair.a()
        && ratio.q() == pair.b()
        && evidence.stages().get(ratio.stage()).kind() == Stage.Kind.OPEN;
  }

  private double misfit(GroupModel model) {
    double[] values = model.at(model.parameters().start(), false).values();
    double misfit = 0;
    for (int k = 0; k < values.length; k++) {
      double wide = MISFIT_OHMS + evidence.setting().runOhms() + MISFIT_SHARE * values[k];
      misfit += Math.min(WORST, Math.pow((values[k] - coded.get(k).ohms()) / wide, 2));
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

  /**
   * A bridge begins at what its two ports have between them, less one run of copper.
   *
   * @param unread where nothing was read between them
   */
  void startAtReadings(GroupModel model, Supposition supposed, double unread) {
    double run = evidence.setting().runOhms();
    for (int b = 0; b < supposed.bridges().size(); b++) {
      Pair pair = supposed.bridges().get(b);
      model.parameters().startAt(model.logOhmsIndex(b), Math.log(unread));
      for (Ratio ratio : ratios) {
        if (direct(ratio, pair)) {
          double ohms = Math.max(ratio.ohms() - run, Math.max(0.02 * ratio.ohms(), 1e-3));
          model.parameters().startAt(model.logOhmsIndex(b), Math.log(ohms));
        }
      }
    }
  }
}
