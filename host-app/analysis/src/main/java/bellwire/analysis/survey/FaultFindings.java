package bellwire.analysis.survey;

import bellwire.analysis.fault.Explanation;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What the explanation of all readings adds to the verdicts on single conductors and pairs: breaks
 * and joints of conductors that touch others, and readings that nothing explains.
 */
final class FaultFindings {
  private FaultFindings() {}

  static List<Finding> of(OpenResult open, List<Explanation> explanations, @Nullable Quantity run) {
    List<Finding> findings = new ArrayList<>();
    if (explanations.isEmpty()) {
      return findings;
    }
    Explanation best = explanations.get(0);
    for (Fault fault : best.faults()) {
      int port = fault.ports().get(0);
      if (best.explained() && beside(best, port) && fault.kind() == Fault.Kind.OPEN) {
        Touch touch =
            Touch.of(explanations, run).stream()
                .filter(t -> t.a() == port || t.b() == port)
                .findFirst()
                .orElse(null);
        String other =
            touch == null ? "another" : Ports.name(touch.a() == port ? touch.b() : touch.a());
        findings.add(
            new Finding(
                CableFinding.BROKEN_BESIDE,
                List.of(port),
                Ports.name(port) + " is broken and touches " + other,
                touch == null ? null : touch.at()));
      } else if (best.explained() && fault.kind() == Fault.Kind.JOINT) {
        joint(open, fault, run, findings);
      }
    }
    if (!best.explained()) {
      List<Integer> ports =
          open.conductors().stream().filter(p -> !open.touching(p).isEmpty()).toList();
      findings.add(
          new Finding(
              CableFinding.UNEXPLAINED,
              ports,
              (ports.isEmpty() ? "what was read" : "what was read of " + Ports.names(ports))
                  + " fits no fault known here; what is said of it is what was seen, not where it"
                  + " is"));
    }
    return findings;
  }

  /** Conductors that are broken and touch others besides, by the best explanation. */
  static Set<Integer> brokenBeside(List<Explanation> explanations) {
    Set<Integer> ports = new LinkedHashSet<>();
    if (!explanations.isEmpty() && explanations.get(0).explained()) {
      Explanation best = explanations.get(0);
      best.faults().stream()
          .filter(f -> f.kind() == Fault.Kind.OPEN && beside(best, f.ports().get(0)))
          .forEach(f -> ports.add(f.ports().get(0)));
    }
    return ports;
  }

  private static boolean beside(Explanation explanation, int port) {
    return explanation.faults().stream()
        .anyMatch(
            f ->
                f.kind() == Fault.Kind.BRIDGE
                    && (f.ports().contains(port) || f.others().contains(port)));
  }

  /** Of a conductor that touches others or hangs on the plug by a thread; others have theirs. */
  private static void joint(
      OpenResult open, Fault fault, @Nullable Quantity run, List<Finding> findings) {
    int port = fault.ports().get(0);
    Quantity ohms = fault.ohms();
    Quantity place = fault.place();
    if (ohms != null && !open.hiding(port).isEmpty()) {
      findings.add(
          new Finding(
              CableFinding.JOINT,
              List.of(port),
              Ports.name(port) + " has a joint of about " + ohms + " besides",
              place == null ? null : AlongRun.of(place, run)));
    }
  }
}
