package bellwire.analysis.fault;

import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * The explanations of a whole cable, ranked. Conductors that nothing joins are independent of one
 * another, so each group is explained by itself and the probabilities multiply. Theory (35).
 */
public final class Diagnosis {
  private static final int KEPT = 5;

  private final Evidence evidence;
  private final FaultPriors priors = FaultPriors.standard();
  private final Map<Integer, Position> positions = new LinkedHashMap<>();

  /** Alternatives for one part of the cable. */
  private record Part(List<Weighed> alternatives) {}

  private record Whole(List<Fault> faults, double logProbability, boolean explained) {}

  private Diagnosis(Evidence evidence) {
    this.evidence = evidence;
  }

  /**
   * What was found.
   *
   * @param explanations the most probable, at most five; one without faults is a healthy cable
   * @param positions on the coded plug of conductors that touch others, by port
   */
  public record Outcome(List<Explanation> explanations, Map<Integer, Position> positions) {}

  public static Outcome of(Evidence evidence) {
    Diagnosis diagnosis = new Diagnosis(evidence);
    return new Outcome(diagnosis.explanations(), diagnosis.positions);
  }

  private List<Explanation> explanations() {
    List<Whole> wholes = List.of(new Whole(certain(), 0, true));
    for (Part part : parts()) {
      List<Whole> next = new ArrayList<>();
      for (Whole whole : wholes) {
        for (Weighed alternative : part.alternatives()) {
          List<Fault> faults = new ArrayList<>(whole.faults());
          faults.addAll(alternative.faults());
          next.add(
              new Whole(
                  faults,
                  whole.logProbability() + alternative.logWeight(),
                  whole.explained() && alternative.explained()));
        }
      }
      next.sort(Comparator.comparingDouble(w -> -w.logProbability()));
      wholes = next.subList(0, Math.min(KEPT, next.size()));
    }
    return wholes.stream()
        .map(w -> new Explanation(w.faults(), Math.exp(w.logProbability()), w.explained()))
        .toList();
  }

  /** What the readings show without alternative. */
  private List<Fault> certain() {
    List<Fault> faults = new ArrayList<>();
    for (Evidence.Leakage leak : evidence.leaks()) {
      faults.add(Fault.bridge(leak.ports(), leak.others(), null, leak.ohms()));
    }
    evidence.poor().forEach((port, ohms) -> faults.add(Fault.joint(port, null, ohms)));
    return faults;
  }

  private List<Part> parts() {
    List<Part> parts = new ArrayList<>();
    for (Evidence.Group group : evidence.groups()) {
      GroupFaults faults = new GroupFaults(evidence, group);
      parts.add(new Part(faults.explain()));
      positions.putAll(faults.positions());
    }
    List<Integer> broken = new ArrayList<>(evidence.broken());
    broken.removeIf(p -> evidence.groups().stream().anyMatch(g -> g.ports().contains(p)));
    if (!broken.isEmpty() && !evidence.doubtful().isEmpty()) {
      parts.add(beside(broken));
      broken.clear();
    }
    for (int port : broken) {
      Fault open = Fault.open(port, evidence.breaks().get(port));
      parts.add(new Part(List.of(new Weighed(List.of(open), 0, 0, 0, Map.of()))));
    }
    evidence
        .standingOut()
        .forEach(
            (port, excess) -> {
              if (evidence.groups().stream().noneMatch(g -> g.ports().contains(port))) {
                parts.add(joint(port, excess));
              }
            });
    return parts;
  }

  /**
   * Broken conductors, with the one conductor that the far part of one of them most likely touches.
   */
  private Part beside(List<Integer> broken) {
    List<Weighed> best = List.of();
    double bestOdds = Double.NEGATIVE_INFINITY;
    for (int doubtful : evidence.doubtful()) {
      List<List<Integer>> single = new ArrayList<>();
      broken.forEach(p -> single.add(List.of(p)));
      single.add(List.of(doubtful));
      Evidence.Group group = new Evidence.Group(single, List.of());
      List<Weighed> alternatives = new GroupFaults(evidence, group).explainBeside(broken);
      double odds = logProbability(alternatives, true) - logProbability(alternatives, false);
      if (best.isEmpty() || odds > bestOdds) {
        best = alternatives;
        bestOdds = odds;
      }
    }
    return new Part(best);
  }

  private static double logProbability(List<Weighed> alternatives, boolean bridged) {
    return Math.log(
        1e-300
            + alternatives.stream()
                .filter(
                    w ->
                        bridged == w.faults().stream().anyMatch(f -> f.kind() == Fault.Kind.BRIDGE))
                .mapToDouble(w -> Math.exp(w.logWeight()))
                .sum());
  }

  /** A conductor that stands out: by chance, or by a joint. Theory (36). */
  private Part joint(int port, Quantity excess) {
    double z = excess.value() / excess.u();
    double chance = Math.exp(-z * z / 2) / (excess.u() * Math.sqrt(2 * Math.PI));
    double log = (Math.log(excess.value()) - priors.logJointOhms()) / priors.logJointSpread();
    double density =
        Math.exp(-log * log / 2)
            / (excess.value() * priors.logJointSpread() * Math.sqrt(2 * Math.PI));
    double odds = priors.joint() * density / ((1 - priors.joint()) * chance);
    double probability = Double.isInfinite(odds) ? 1 : odds / (1 + odds);
    List<Fault> blamed = List.of(Fault.joint(port, null, excess));
    return new Part(
        List.of(
            new Weighed(blamed, Math.log(probability), 0, 1, Map.of()),
            new Weighed(List.of(), Math.log1p(-probability), 0, 1, Map.of())));
  }
}
