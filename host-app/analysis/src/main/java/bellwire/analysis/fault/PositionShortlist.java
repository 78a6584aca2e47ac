package bellwire.analysis.fault;

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
  private static final int MOST_ASSIGNMENTS = 250;
  private static final int LISTED = 8;

  /** An assignment that misses by so much more than the nearest can't be the right one. */
  private static final double HOPELESS_MISFIT = 60;

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

  private double misfit(Supposition supposed, Map<Integer, Integer> positions) {
    return beginnings(supposed).leastMisfit(model(supposed.at(positions), coded), coded);
  }

  Beginnings beginnings(Supposition supposed) {
    return new Beginnings(evidence, supposed, ratios);
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
}
