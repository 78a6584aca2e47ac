package bellwire.analysis.attached;

import bellwire.analysis.fault.Explanation;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.Finding;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.Standing;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.survey.SurveyResult.PairResult;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;

/** Says in a survey's result what is attached, in place of the touching that it looked like. */
public final class AttachedVerdicts {
  private final OpenResult open;
  private final List<Attachment> attached;

  /**
   * @param attached what joins ports, copper included
   */
  public AttachedVerdicts(OpenResult open, List<Attachment> attached) {
    this.open = open;
    this.attached = attached;
  }

  /** The same result, with what is attached said. */
  public SurveyResult in(SurveyResult result) {
    List<Finding> findings = new ArrayList<>(loads());
    List<Integer> second = SecondCable.ports(open, attached);
    if (!second.isEmpty()) {
      findings.add(
          new Finding(
              CableFinding.ATTACHED_CABLE,
              second,
              Ports.names(second)
                  + " have more capacitance than their fellows, by about the same amount: a second"
                  + " cable under the same clamps"));
    }
    if (findings.isEmpty()) {
      return result;
    }
    for (Finding finding : result.findings()) {
      boolean joining = finding.kind().touching() || finding.kind() == CableFinding.LEAKAGE;
      boolean said =
          joining
              ? explained(finding.ports(), finding.ports())
              : finding.kind() == CableFinding.UNEXPLAINED && onlyLoads(finding.ports());
      if (!said) {
        findings.add(worded(finding));
      }
    }
    findings.sort(Comparator.comparing(Finding::kind));
    return new SurveyResult(
        result.conductors().stream().map(this::conductor).toList(),
        result.pairs().stream().map(this::pair).toList(),
        List.copyOf(findings),
        result.metalChecked(),
        result.length(),
        result.gauge(),
        result.phases(),
        explanations(result.explanations()),
        result.ties());
  }

  /**
   * The same without the bridges that are no copper; what then agrees counts as one. What fits no
   * fault fits what is attached, where only that joins conductors.
   */
  private List<Explanation> explanations(List<Explanation> all) {
    List<Integer> joined =
        open.conductors().stream().filter(p -> !open.touching(p).isEmpty()).toList();
    List<Explanation> left = new ArrayList<>();
    for (Explanation e : all) {
      List<Fault> faults =
          e.faults().stream()
              .filter(f -> f.kind() != Fault.Kind.BRIDGE || !explained(f.ports(), f.others()))
              .toList();
      boolean explains = e.explained() || onlyLoads(joined);
      double probability = e.probability();
      for (int k = 0; k < left.size(); k++) {
        if (left.get(k).explained() == explains && left.get(k).sameFaults(faults)) {
          probability += left.remove(k).probability();
          break;
        }
      }
      left.add(new Explanation(faults, probability, explains));
    }
    left.sort(Comparator.comparingDouble(e -> -e.probability()));
    return List.copyOf(left);
  }

  /** A conductor that only what is attached joins to others touches none. */
  private ConductorResult conductor(ConductorResult c) {
    List<Integer> others = open.hiding(c.port());
    if (!onlyLoads(List.of(c.port()))) {
      return c;
    }
    boolean broken = c.standing() == Standing.FAULTY && c.position() == 0;
    return new ConductorResult(
        c.port(),
        c.position(),
        c.odds(),
        c.ohms(),
        broken ? Standing.FAULTY : Standing.UNDECIDED,
        c.reason()
            .replace(
                "touches " + Ports.names(others),
                "joined to " + Ports.names(others) + " by what is attached"),
        c.openAt());
  }

  private Finding worded(Finding finding) {
    List<Integer> ports = finding.ports();
    boolean only = onlyLoads(ports);
    if (only && finding.kind() == CableFinding.BROKEN_BESIDE) {
      return new Finding(
          CableFinding.OPEN,
          ports,
          Ports.names(ports) + " has no path to the far end beyond what is attached");
    }
    return only && finding.kind() == CableFinding.HIDDEN
        ? new Finding(
            finding.kind(),
            ports,
            Ports.names(ports) + ": which is which can't be told until what is attached is lifted")
        : finding;
  }

  /** Whether each of these is joined to others, and by nothing but what is attached. */
  private boolean onlyLoads(List<Integer> ports) {
    return !ports.isEmpty()
        && ports.stream()
            .allMatch(p -> !open.hiding(p).isEmpty() && explained(List.of(p), open.hiding(p)));
  }

  private List<Finding> loads() {
    List<Finding> findings = new ArrayList<>();
    for (Attachment load : attached) {
      if (load.load()) {
        List<Integer> ports = List.of(Math.min(load.a(), load.b()), Math.max(load.a(), load.b()));
        findings.add(new Finding(kind(load), ports, Ports.names(ports) + ": " + words(load)));
      }
    }
    return findings;
  }

  private static CableFinding kind(Attachment load) {
    return switch (load.kind()) {
      case COIL -> CableFinding.ATTACHED_COIL;
      case SECONDARY -> CableFinding.ATTACHED_SECONDARY;
      case CAPACITOR -> CableFinding.ATTACHED_CAPACITOR;
      case DIODE -> CableFinding.ATTACHED_DIODE;
      case UNKNOWN -> CableFinding.ATTACHED_UNKNOWN;
      case RESISTANCE -> throw new IllegalArgumentException("kind=" + load.kind());
    };
  }

  /** "a coil (relay, contactor or valve), 16 ohm, 0.25 H". */
  static String words(Attachment load) {
    String figures =
        switch (load.kind()) {
          case COIL, SECONDARY ->
              String.format(Locale.ROOT, ", %.3g ohm, %.2g H", load.ohms(), load.value());
          case CAPACITOR -> String.format(Locale.ROOT, ", %.2g uF", load.value() * 1e6);
          case DIODE ->
              String.format(
                  Locale.ROOT,
                  " that conducts from %s to %s, %.2f V",
                  Ports.name(load.a()),
                  Ports.name(load.b()),
                  load.value());
          case RESISTANCE -> String.format(Locale.ROOT, ", %.3g ohm", load.value());
          case UNKNOWN -> "";
        };
    String sure =
        load.probability() < SURE
            ? String.format(Locale.ROOT, " (probability %.0f %%)", 100 * load.probability())
            : "";
    return load.kind().words() + figures + sure;
  }

  private static final double SURE = 0.99;

  private PairResult pair(PairResult pair) {
    for (Attachment load : attached) {
      if (load.load() && load.joins(pair.a(), pair.b())) {
        return undecided(pair, words(load) + ": lift it, measure again");
      }
    }
    return explained(pair.a(), pair.b())
        ? undecided(pair, "joined by what is attached: lift it, measure again")
        : pair;
  }

  private static PairResult undecided(PairResult pair, String reason) {
    return new PairResult(
        pair.a(), pair.b(), pair.ohms(), pair.aboveOhms(), Standing.UNDECIDED, reason);
  }

  /** Whether that holds for every port of the one and every other port of the other. */
  private boolean explained(List<Integer> ports, List<Integer> others) {
    return others.size() > 0
        && ports.stream()
            .allMatch(a -> others.stream().allMatch(b -> a.equals(b) || explained(a, b)));
  }

  /** Whether two ports of one cluster are joined by what is attached, and not by copper alone. */
  private boolean explained(int a, int b) {
    return open.clusterOf(a) == open.clusterOf(b)
        && (reached(a, true) & Ports.bit(b)) != 0
        && (reached(a, false) & Ports.bit(b)) == 0;
  }

  /** Mask of the ports that a path of attachments leads to; of copper alone, or of any kind. */
  private int reached(int from, boolean loads) {
    int mask = Ports.bit(from);
    for (int before = 0; before != mask; ) {
      before = mask;
      for (Attachment t : attached) {
        int ends = Ports.bit(t.a()) | Ports.bit(t.b());
        mask |= (loads || !t.load()) && (mask & ends) != 0 ? ends : 0;
      }
    }
    return mask;
  }
}
