package bellwire.analysis.survey;

import bellwire.analysis.copper.Gauge;
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
import org.jspecify.annotations.Nullable;

/**
 * Puts the phases together: a place, a resistance and a verdict for every conductor, a verdict for
 * every pair.
 */
public final class SurveyAnalysis {
  /** A conductor longer than any run this is for, in thin wire; sums beyond it hold a joint. */
  private static final double MOST_CONDUCTOR_OHMS = 8;

  private final Criteria criteria;
  private final Plug plug;
  private final CableFacts facts;
  private final List<Finding> findings = new ArrayList<>();

  public SurveyAnalysis(Criteria criteria, Plug plug, CableFacts facts) {
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
    Map<Integer, Place> places = places(coded, alone, open);
    Map<Integer, Quantity> ohms = new LinkedHashMap<>(alone);
    if (coded != null) {
      coded
          .arms()
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
    List<ConductorResult> conductors = new ArrayList<>();
    for (int port : open.conductors()) {
      conductors.add(
          conductor(
              port,
              open,
              coded,
              tie,
              places.get(port),
              ohms.get(port),
              joints.get(port),
              contacts));
    }
    if (open.conductors().size() == 2 || (coded != null && coded.loop() != null)) {
      twoConductors(open, coded, tie);
    }
    PairVerdicts verdicts = new PairVerdicts(open, criteria);
    List<SurveyResult.PairResult> pairs = verdicts.pairs();
    findings.addAll(verdicts.findings());
    if (!open.metalClipped()) {
      findings.add(
          new Finding(
              Finding.Kind.METAL_UNCHECKED, List.of(), "M was not clipped: not checked to ground"));
    }
    findings.sort(Comparator.comparing(Finding::kind));
    return new SurveyResult(
        List.copyOf(conductors),
        pairs,
        List.copyOf(findings),
        open.metalClipped(),
        length(test.median()),
        phases(coded, ties));
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
                if (open.touching(port).isEmpty()) {
                  alone.put(port, ConductorResistance.withTie(arm, criteria));
                }
              });
    }
    return alone;
  }

  private Map<Integer, Place> places(
      @Nullable StarResult coded, Map<Integer, Quantity> alone, OpenResult open) {
    if (coded == null) {
      return Map.of();
    }
    Map<Integer, Quantity> apart = new LinkedHashMap<>();
    coded
        .arms()
        .forEach(
            (port, arm) -> {
              if (open.touching(port).isEmpty()) {
                apart.put(port, arm);
              }
            });
    return new PlugMap(plug, criteria).places(apart, alone);
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

  private ConductorResult conductor(
      int port,
      OpenResult open,
      @Nullable StarResult coded,
      @Nullable StarResult tie,
      @Nullable Place place,
      @Nullable Quantity ohms,
      @Nullable Quantity joint,
      Set<Integer> contacts) {
    String name = Ports.name(port);
    boolean known = place != null && place.odds() >= criteria.identityOdds();
    int position = known && place != null ? place.position() : 0;
    double odds = place == null ? 1 : place.odds();
    if (coded == null && tie == null) {
      return new ConductorResult(
          port, 0, 1, null, Standing.UNDECIDED, "no plug was on the far end");
    }
    if (!open.touching(port).isEmpty()) {
      String words =
          "touches "
              + Ports.names(open.touching(port))
              + ": which is which can't be told until that is cleared";
      findings.add(new Finding(Finding.Kind.UNIDENTIFIED, List.of(port), name + " " + words));
      return new ConductorResult(port, 0, 1, null, Standing.UNDECIDED, words);
    }
    boolean onCoded = coded != null && coded.connected().contains(port);
    boolean onTie = tie != null && tie.connected().contains(port);
    if (!onCoded && !onTie) {
      findings.add(
          new Finding(
              Finding.Kind.OPEN, List.of(port), name + " has no path to the plug at the far end"));
      return new ConductorResult(port, 0, 1, null, Standing.FAULTY, "no path to the far end");
    }
    if ((coded != null && !onCoded) || (tie != null && !onTie)) {
      String words =
          "on the "
              + (onTie ? "tie" : "coded")
              + " plug only: a loose contact, or that plug is not fully on";
      findings.add(new Finding(Finding.Kind.OPEN, List.of(port), name + " is " + words));
      return new ConductorResult(port, position, odds, ohms, Standing.UNDECIDED, words);
    }
    if (joint != null) {
      findings.add(
          new Finding(
              Finding.Kind.JOINT,
              List.of(port),
              name + " has " + joint + " more than its fellows"));
      return new ConductorResult(
          port,
          position,
          odds,
          ohms,
          Standing.FAULTY,
          joint + " more than its fellows: a joint, a nick or a contact");
    }
    if (contacts.contains(port)) {
      findings.add(
          new Finding(
              Finding.Kind.CONTACT, List.of(port), name + " stood out until it was seated afresh"));
    }
    if (coded != null && !known) {
      String words =
          coded.arms().isEmpty()
              ? "fewer than three conductors reach the plug"
              : "two positions fit its reading";
      findings.add(new Finding(Finding.Kind.UNIDENTIFIED, List.of(port), name + ": " + words));
      return new ConductorResult(
          port, 0, odds, ohms, Standing.UNDECIDED, "sound path, position undecided: " + words);
    }
    String path =
        known ? "sound, far position " + position : "sound, not identified: no coded plug was on";
    return new ConductorResult(port, position, odds, ohms, Standing.SOUND, path);
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
    findings.add(new Finding(Finding.Kind.TWO_CONDUCTORS, ports, words.toString()));
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
}
