package bellwire.analysis.survey;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.fault.Diagnosis;
import bellwire.analysis.fault.Explanation;
import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.PlugMap.Place;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.uncertainty.Propagation;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * Puts the phases together: a place, a resistance and a verdict for every conductor, a verdict for
 * every pair.
 */
public final class SurveyAnalysis {
  /** A conductor longer than any run this is for, in thin wire; sums beyond it hold a joint. */
  private static final double MOST_CONDUCTOR_OHMS = 8;

  /** A bridge of more hardly changes what the plug's arms read. */
  private static final double BRIDGE_OHMS = 3000;

  private static final int LARGEST_AWG = 12;
  private static final int SMALLEST_AWG = 28;
  private static final double GAUGE_LOG_BAND = 0.15;

  private final BoardModel board;
  private final Criteria criteria;
  private final Plug plug;
  private final CableFacts facts;
  private final List<Finding> findings = new ArrayList<>();

  public SurveyAnalysis(BoardModel board, Criteria criteria, Plug plug, CableFacts facts) {
    this.board = board;
    this.criteria = criteria;
    this.plug = plug;
    this.facts = facts;
  }

  /**
   * @param open always there
   * @param coded null if that phase was skipped
   * @param ties one for each seating of the tie plug, the last counts; earlier ones tell a contact
   *     from a joint
   */
  public SurveyResult result(OpenResult open, @Nullable StarResult coded, List<StarResult> ties) {
    findings.clear();
    @Nullable StarResult tie = ties.isEmpty() ? null : ties.get(ties.size() - 1);
    Map<Integer, Quantity> alone = alone(tie, open);
    Map<Integer, Place> places = new LinkedHashMap<>(places(coded, ties, open));
    Map<Integer, Quantity> ohms = new LinkedHashMap<>(alone);
    if (coded != null) {
      codedArms(coded, new JointTest(alone, criteria), open)
          .forEach(
              (port, arm) -> {
                Place place = places.get(port);
                if (place != null && place.odds() >= criteria.identityOdds()) {
                  ohms.putIfAbsent(port, ConductorResistance.withCoded(arm, place, plug, criteria));
                }
              });
    }
    JointTest test = new JointTest(ohms, criteria);
    Map<Integer, Quantity> joints = test.standingOut();
    Set<Integer> contacts = contactsCleared(ties, joints.keySet(), open);
    @Nullable Quantity length = length(test.median());
    List<StarResult> plugs = new ArrayList<>(ties);
    if (coded != null) {
      plugs.add(coded);
    }
    Readings readings = new Readings(open, coded, ties.isEmpty() ? null : ties.get(0));
    Map<Integer, AlongRun> openAt = OpenPlaces.of(open, plugs, Set.of(), length, facts.metres());
    Diagnosis.Outcome diagnosis = diagnosis(readings, ohms, test, places, openAt);
    Set<Integer> beside = FaultFindings.brokenBeside(diagnosis.explanations());
    if (!openAt.isEmpty() && !beside.isEmpty()) {
      openAt = OpenPlaces.of(open, plugs, beside, length, facts.metres());
      diagnosis = diagnosis(readings, ohms, test, places, openAt);
    }
    List<Explanation> explanations = diagnosis.explanations();
    diagnosis
        .positions()
        .forEach((port, p) -> places.putIfAbsent(port, new Place(p.position() + 1, p.odds())));
    ConductorVerdicts conductorVerdicts =
        new ConductorVerdicts(
            open,
            coded,
            tie,
            new ConductorVerdicts.Known(
                places,
                ohms,
                joints,
                contacts,
                openAt,
                FaultFindings.brokenBeside(explanations),
                test.compared()),
            criteria.identityOdds());
    List<ConductorResult> conductors = conductorVerdicts.conductors();
    findings.addAll(conductorVerdicts.findings());
    if (open.conductors().size() == 2 || (coded != null && coded.loop() != null)) {
      twoConductors(open, coded, tie);
    }
    PairVerdicts pairs = new PairVerdicts(open, criteria, Touch.of(explanations, length));
    List<SurveyResult.PairResult> pairResults = pairs.pairs();
    findings.addAll(pairs.findings());
    findings.addAll(FaultFindings.of(open, explanations, length));
    if (!open.metalClipped()) {
      findings.add(
          new Finding(
              CableFinding.METAL_UNCHECKED, List.of(), "M was not clipped: not checked to ground"));
    }
    findings.sort(Comparator.comparing(Finding::kind));
    return new SurveyResult(
        List.copyOf(conductors),
        pairResults,
        List.copyOf(findings),
        open.metalClipped(),
        length,
        gauge(test.median()),
        phases(coded, ties),
        explanations,
        null);
  }

  /**
   * The same for a survey whose far ends were joined in pairs.
   *
   * @param result of the open phase alone
   */
  public SurveyResult withTies(SurveyResult result, OpenResult open, TieRun run) {
    TieJoints joints = new TieJoints(run, criteria);
    Quantity common = joints.conductor();
    @Nullable Quantity length = length(common);
    TieBreaks breaks = new TieBreaks(open, run.reading(), OpenPlaces.run(length, facts.metres()));
    TieVerdicts verdicts = new TieVerdicts(open, run, joints, breaks);
    List<ConductorResult> conductors = verdicts.conductors();
    List<Finding> all = new ArrayList<>(verdicts.findings());
    result.findings().stream()
        .filter(f -> f.kind() != CableFinding.HIDDEN && f.kind() != CableFinding.TWO_CONDUCTORS)
        .forEach(all::add);
    all.sort(Comparator.comparing(Finding::kind));
    List<String> phases = new ArrayList<>(result.phases());
    for (int round = 1; round <= run.rounds().size(); round++) {
      phases.add("ties " + round);
    }
    return new SurveyResult(
        conductors,
        result.pairs(),
        List.copyOf(all),
        result.metalChecked(),
        length,
        gauge(common),
        List.copyOf(phases),
        result.explanations(),
        run);
  }

  /**
   * @param tie of the first seating
   */
  private record Readings(OpenResult open, @Nullable StarResult coded, @Nullable StarResult tie) {}

  private Diagnosis.Outcome diagnosis(
      Readings readings,
      Map<Integer, Quantity> ohms,
      JointTest test,
      Map<Integer, Place> places,
      Map<Integer, AlongRun> openAt) {
    FaultEvidence evidence =
        new FaultEvidence(board, criteria, plug, readings.open(), readings.coded(), readings.tie());
    return Diagnosis.of(evidence.evidence(ohms, test, places, fractions(openAt)));
  }

  private static Map<Integer, Quantity> fractions(Map<Integer, AlongRun> openAt) {
    Map<Integer, Quantity> fractions = new LinkedHashMap<>();
    openAt.forEach((port, at) -> fractions.put(port, at.fraction()));
    return fractions;
  }

  private static List<String> phases(@Nullable StarResult coded, List<StarResult> ties) {
    List<String> done = new ArrayList<>(List.of("open"));
    if (coded != null) {
      done.add("coded");
    }
    ties.forEach(t -> done.add("tie"));
    return done;
  }

  /**
   * Resistances by the tie plug alone; ports that touch others are left out, their arms cannot be
   * told apart.
   */
  private Map<Integer, Quantity> alone(@Nullable StarResult tie, OpenResult open) {
    Map<Integer, Quantity> alone = new LinkedHashMap<>();
    if (tie != null) {
      tie.arms()
          .forEach(
              (port, arm) -> {
                if (open.hiding(port).isEmpty()) {
                  alone.put(port, ConductorResistance.withTie(arm, criteria));
                }
              });
    }
    return alone;
  }

  /**
   * Places on the coded plug, against each seating of the tie plug: a contact that was loose with
   * the coded plug on was so in the seating before or after it, and only there does the conductor's
   * resistance fit.
   */
  private Map<Integer, Place> places(
      @Nullable StarResult coded, List<StarResult> ties, OpenResult open) {
    if (coded == null) {
      return Map.of();
    }
    Map<Integer, Quantity> last = alone(ties.isEmpty() ? null : ties.get(ties.size() - 1), open);
    Map<Integer, Quantity> apart = new LinkedHashMap<>();
    codedArms(coded, new JointTest(last, criteria), open)
        .forEach(
            (port, arm) -> {
              if (open.hiding(port).isEmpty() && bridgesPlaced(port, last, open)) {
                apart.put(port, arm);
              }
            });
    boolean broken = !coded.connected().containsAll(open.conductors());
    PlugMap map = new PlugMap(plug, criteria);
    if (ties.isEmpty()) {
      return map.places(apart, Map.of(), broken);
    }
    Map<Integer, Place> best = new LinkedHashMap<>();
    for (StarResult tie : ties) {
      map.places(apart, alone(tie, open), broken)
          .forEach(
              (port, place) -> best.merge(port, place, (a, b) -> a.odds() >= b.odds() ? a : b));
    }
    return best;
  }

  /**
   * Arms with the coded plug. A leakage that lies behind a large joint takes current past the
   * reference that the star's fit has ahead of it: the joint over the leakage is the share by which
   * every arm may be off.
   */
  private Map<Integer, Quantity> codedArms(StarResult coded, JointTest test, OpenResult open) {
    double share = 0;
    for (Map.Entry<Integer, Quantity> e : coded.arms().entrySet()) {
      Quantity excess = test.standingOut().get(e.getKey());
      double joint = Math.max(excess == null ? 0 : excess.value(), overNearestArm(e.getValue()));
      share += joint > MOST_CONDUCTOR_OHMS ? joint / open.apartOhms(e.getKey()) : 0;
    }
    double wide = share;
    Map<Integer, Quantity> arms = new LinkedHashMap<>();
    coded
        .arms()
        .forEach(
            (port, arm) ->
                arms.put(
                    port, Quantity.ohms(arm.value(), Math.hypot(arm.u(), wide * arm.value()))));
    return arms;
  }

  private double overNearestArm(Quantity arm) {
    double over = arm.value();
    for (int p = 0; p < plug.positions(); p++) {
      double rest = arm.value() - plug.armOhms()[p];
      over = rest > -3 * arm.u() ? Math.min(over, Math.max(rest, 0)) : over;
    }
    return over;
  }

  /**
   * Whether it is known well enough where the bridges of a port's cluster sit: the star's fit takes
   * no more than a conductor's own resistance to lie ahead of them. A joint may be there as well,
   * unless the tie plug shows that none of the cluster's conductors has one.
   */
  private boolean bridgesPlaced(int port, Map<Integer, Quantity> alone, OpenResult open) {
    List<Integer> bridged = open.bridged(port, BRIDGE_OHMS);
    boolean cluster = !open.touching(port).isEmpty();
    if (!cluster && bridged.stream().anyMatch(p -> !open.touching(p).isEmpty())) {
      return false; // to which port of that cluster is not known
    }
    Set<Integer> joints = new JointTest(alone, criteria).standingOut().keySet();
    return (!cluster && bridged.isEmpty())
        || Stream.concat(Stream.of(port), bridged.stream())
            .filter(p -> p != Ports.METAL)
            .allMatch(p -> alone.containsKey(p) && !joints.contains(p));
  }

  /** Ports that stood out at an earlier seating and no longer do. */
  private Set<Integer> contactsCleared(List<StarResult> ties, Set<Integer> still, OpenResult open) {
    Set<Integer> cleared = new LinkedHashSet<>();
    for (StarResult tie : ties.subList(0, Math.max(0, ties.size() - 1))) {
      Map<Integer, Quantity> earlier = alone(tie, open);
      cleared.addAll(new JointTest(earlier, criteria).standingOut().keySet());
    }
    cleared.removeAll(still);
    return cleared;
  }

  /**
   * Ports whose resistance stands out in this seating, to be seated afresh before a joint is
   * blamed.
   */
  public Set<Integer> suspectContacts(OpenResult open, StarResult tie) {
    Map<Integer, Quantity> alone = alone(tie, open);
    return new JointTest(alone, criteria).standingOut().keySet();
  }

  private void twoConductors(
      OpenResult open, @Nullable StarResult coded, @Nullable StarResult tie) {
    List<Integer> ports = coded != null ? coded.connected() : open.conductors();
    StringBuilder words = new StringBuilder(Ports.names(ports));
    if (coded != null && coded.loop() != null) {
      List<int[]> pairs = new PlugMap(plug, criteria).pairsFor(coded.loop(), MOST_CONDUCTOR_OHMS);
      words.append(": together on the plug's positions");
      for (int k = 0; k < pairs.size(); k++) {
        words
            .append(k == 0 ? " " : " or ")
            .append(pairs.get(k)[0])
            .append(" and ")
            .append(pairs.get(k)[1]);
      }
    }
    if (tie != null && tie.loop() != null) {
      words.append("; loop resistance ").append(tie.loop());
    }
    findings.add(new Finding(CableFinding.TWO_CONDUCTORS, ports, words.toString()));
  }

  /**
   * What the conductors have in common over what a metre of copper of that gauge has at that
   * temperature; the gauge's section is known as well as one conductor is like the next. Theory
   * (21).
   */
  private @Nullable Quantity length(Quantity common) {
    Gauge gauge = facts.gauge();
    if (gauge == null || !(common.value() > 0)) {
      return null;
    }
    Propagation inputs =
        Propagation.of(
            common,
            new Quantity(facts.celsius(), facts.uCelsius(), "C"),
            new Quantity(1, criteria.spread(), "sections"));
    return inputs.through(x -> x[0] * x[2] / gauge.ohmsPerMetre(x[1])).quantity(0, "m");
  }

  /**
   * The even AWG size whose copper comes nearest to what the conductors have in common. Theory
   * (21).
   */
  private @Nullable String gauge(Quantity common) {
    if (facts.gauge() != null || Double.isNaN(facts.metres()) || !(common.value() > 0)) {
      return null;
    }
    Gauge nearest = Gauge.awg(SMALLEST_AWG);
    double least = Double.POSITIVE_INFINITY;
    for (int number = LARGEST_AWG; number <= SMALLEST_AWG; number += 2) {
      Gauge gauge = Gauge.awg(number);
      double ratio = common.value() / (facts.metres() * gauge.ohmsPerMetre(facts.celsius()));
      double distance = Math.abs(Math.log(ratio));
      if (distance < least) {
        least = distance;
        nearest = gauge;
      }
    }
    // Two even sizes are a factor of 1.59 apart; what lies near the middle fits neither.
    return least < GAUGE_LOG_BAND ? nearest.label() : null;
  }
}
