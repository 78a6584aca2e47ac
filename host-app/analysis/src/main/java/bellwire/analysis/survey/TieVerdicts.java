package bellwire.analysis.survey;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.survey.TieRound.Loop;
import bellwire.analysis.ties.TieReading;
import bellwire.analysis.ties.TieReading.Explanation;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedSet;
import java.util.TreeSet;

/** Says of every conductor, by rounds of ties, where its far end is and whether it is sound. */
final class TieVerdicts {
  private static final int LISTED = 6;

  private final OpenResult open;
  private final TieRun run;
  private final TieReading reading;
  private final TieJoints joints;
  private final TieBreaks breaks;
  private final List<Finding> findings = new ArrayList<>();

  TieVerdicts(OpenResult open, TieRun run, TieJoints joints, TieBreaks breaks) {
    this.open = open;
    this.run = run;
    reading = run.reading();
    this.joints = joints;
    this.breaks = breaks;
  }

  List<Finding> findings() {
    return findings;
  }

  List<ConductorResult> conductors() {
    if (!reading.explained()) {
      find(CableFinding.MISTIED, List.of(), unexplainedWords());
    }
    Finding broken = breaks.finding(numbers(reading.broken()));
    if (broken != null) {
      findings.add(broken);
    }
    poorTies();
    ambiguous();
    return open.conductors().stream().map(this::conductor).toList();
  }

  private String unexplainedWords() {
    return reading.explanation() == Explanation.TOO_MANY
        ? "too many conductors touch to go through all the ways that may be"
        : "what was joined is not what the plan joins, with any two conductors broken";
  }

  private void poorTies() {
    joints.unsure.forEach(
        (loop, ports) -> {
          if (ports.isEmpty()) {
            String where = Ports.name(loop.a()) + " and " + Ports.name(loop.b());
            find(
                CableFinding.CONTACT,
                List.of(loop.a(), loop.b()),
                "the tie of " + where + " has " + joints.excess(loop) + " more than others");
          }
        });
  }

  /** Those that may be any of the same numbers, together. */
  private void ambiguous() {
    Map<SortedSet<Integer>, List<Integer>> alike = new LinkedHashMap<>();
    reading
        .possible()
        .forEach(
            (port, numbers) -> {
              if (numbers.size() > 1) {
                alike.computeIfAbsent(numbers, n -> new ArrayList<>()).add(port);
              }
            });
    alike.forEach(
        (numbers, ports) ->
            find(
                CableFinding.AMBIGUOUS,
                ports,
                Ports.names(ports) + ": " + numbers(numbers) + ", " + why()));
  }

  private ConductorResult conductor(int port) {
    SortedSet<Integer> numbers = reading.possible().getOrDefault(port, new TreeSet<>());
    if (!reading.explained() || numbers.isEmpty()) {
      return undecided(port, "not identified: the ties do not fit the plan");
    }
    String far = numbers(numbers);
    if (breaks.ports().contains(port)) {
      return new ConductorResult(
          port,
          reading.number(port),
          1,
          null,
          Standing.FAULTY,
          far + ", no path to the far end",
          breaks.at(port));
    }
    if (reading.maybeBroken().contains(port)) {
      return undecided(port, "in no tie: broken, or a broken one was its partner; " + far);
    }
    if (!run.touching(port).isEmpty()) {
      return undecided(port, "touches " + Ports.names(run.touching(port)) + "; " + far);
    }
    if (numbers.size() > 1) {
      return undecided(port, far + ": " + why());
    }
    return identified(port, far);
  }

  private String why() {
    return run.complete()
        ? "nothing tells them apart"
        : run.rounds().isEmpty()
            ? "no round of ties was seen"
            : "one round only was seen, which may have been either";
  }

  private ConductorResult identified(int port, String far) {
    String where =
        far + (reading.opens() > 0 || !run.shorted().isEmpty() ? ", if nothing else is wrong" : "");
    if (!run.reached(port)) {
      find(CableFinding.UNPROVED, List.of(port), Ports.name(port) + " was in no tie");
      return undecided(port, where + ", by elimination: nothing shows that it reaches the far end");
    }
    Quantity joint = joints.sure.get(port);
    if (joint != null) {
      find(
          CableFinding.JOINT,
          List.of(port),
          Ports.name(port) + " has " + joint + " more than its fellows, in both its loops");
      return of(
          port, Standing.FAULTY, joint + " more than its fellows: a joint or a nick; " + where);
    }
    for (Loop loop : joints.unsure.keySet()) {
      if (joints.unsure.getOrDefault(loop, List.of()).contains(port)) {
        return suspect(port, loop, where);
      }
    }
    return joints.compared(port)
        ? of(port, Standing.SOUND, "sound, " + where)
        : undecided(port, where + "; its resistance has nothing to be compared with");
  }

  private ConductorResult suspect(int port, Loop loop, String where) {
    int partner = loop.a() == port ? loop.b() : loop.a();
    String words =
        joints.excess(loop)
            + " too much in its pair with "
            + Ports.name(partner)
            + ": a joint, or the clip of that tie";
    find(CableFinding.JOINT, List.of(port), Ports.name(port) + ": " + words);
    return undecided(port, words + "; " + where);
  }

  /** "far number 3", "far number 2 or 4". */
  private static String numbers(SortedSet<Integer> numbers) {
    if (numbers.size() > LISTED) {
      return "one of " + numbers.size() + " far numbers";
    }
    StringBuilder out = new StringBuilder("far number ");
    int k = 0;
    for (int number : numbers) {
      out.append(k == 0 ? "" : k == numbers.size() - 1 ? " or " : ", ").append(number);
      k++;
    }
    return out.toString();
  }

  private ConductorResult undecided(int port, String words) {
    return of(port, Standing.UNDECIDED, words);
  }

  private ConductorResult of(int port, Standing standing, String words) {
    return new ConductorResult(port, reading.number(port), 1, null, standing, words);
  }

  private void find(CableFinding kind, List<Integer> ports, String words) {
    findings.add(new Finding(kind, ports, words));
  }
}
