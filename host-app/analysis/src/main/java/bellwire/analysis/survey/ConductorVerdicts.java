package bellwire.analysis.survey;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.PlugMap.Place;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.uncertainty.Quantity;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Says of every conductor whether it is sound, and where its far end is. */
final class ConductorVerdicts {

  /**
   * What is known of the conductors, by port.
   *
   * @param places on the coded plug
   * @param ohms resistances without contacts
   * @param joints excess of those that stand out
   * @param contacts ports that stood out until they were seated afresh
   * @param openAt where those without a path to the far end are broken
   * @param brokenBeside ports that touch others and are broken beyond that
   * @param compared whether there are two or more of the resistances
   */
  record Known(
      Map<Integer, Place> places,
      Map<Integer, Quantity> ohms,
      Map<Integer, Quantity> joints,
      Set<Integer> contacts,
      Map<Integer, AlongRun> openAt,
      Set<Integer> brokenBeside,
      boolean compared) {}

  /** A resistance less certain than this compares with nothing. Common practice, no source. */
  private static final double TELLING_OHMS = 1;

  private final OpenResult open;
  private final @Nullable StarResult coded;
  private final @Nullable StarResult tie;
  private final Known known;
  private final double identityOdds;
  private final List<Finding> findings = new ArrayList<>();
  private final List<Integer> hidden = new ArrayList<>();

  ConductorVerdicts(
      OpenResult open,
      @Nullable StarResult coded,
      @Nullable StarResult tie,
      Known known,
      double identityOdds) {
    this.open = open;
    this.coded = coded;
    this.tie = tie;
    this.known = known;
    this.identityOdds = identityOdds;
  }

  List<ConductorResult> conductors() {
    List<ConductorResult> conductors = new ArrayList<>();
    for (int port : open.conductors()) {
      conductors.add(conductor(port));
    }
    for (List<Integer> cluster : open.clusters()) {
      List<Integer> ports = cluster.stream().filter(hidden::contains).toList();
      if (!ports.isEmpty()) {
        String words = Ports.names(ports) + ": which is which can't be told";
        find(CableFinding.HIDDEN, ports, words + " until what touches is cleared");
      }
    }
    if (conductors.isEmpty()) {
      find(CableFinding.NOTHING_LANDED, List.of(), "no port has copper on it");
    }
    return conductors;
  }

  List<Finding> findings() {
    return findings;
  }

  private ConductorResult conductor(int port) {
    if (open.conductors().size() == 1) {
      find(CableFinding.ALONE, List.of(port), Ports.name(port) + " is alone");
      return undecided(port, "alone: there is nothing to measure it against");
    }
    if (!open.hiding(port).isEmpty()) {
      return touching(port);
    }
    if (coded == null && tie == null) {
      return undecided(port, "no plug was on the far end");
    }
    boolean onCoded = coded != null && coded.connected().contains(port);
    boolean onTie = tie != null && tie.connected().contains(port);
    if (!onCoded && !onTie) {
      return broken(port);
    }
    if ((coded != null && !onCoded) || (tie != null && !onTie)) {
      String words =
          "on the "
              + (onTie ? "tie" : "coded")
              + " plug only: a loose contact, or that plug is not fully on";
      find(CableFinding.OPEN, List.of(port), Ports.name(port) + " is " + words);
      return result(port, Standing.UNDECIDED, words);
    }
    return connected(port);
  }

  /** Its arm cannot be read by itself; what all readings together say of it may still be enough. */
  private ConductorResult touching(int port) {
    String others = Ports.names(open.hiding(port));
    if (known.brokenBeside().contains(port)) {
      return new ConductorResult(
          port, 0, 1, null, Standing.FAULTY, "broken, and touches " + others);
    }
    if (position(port) != 0) {
      String where = "; far position " + position(port) + oddsWords(port);
      return result(port, Standing.FAULTY, "touches " + others + where);
    }
    hidden.add(port);
    return undecided(
        port, "touches " + others + ": which is which can't be told until that is cleared");
  }

  private ConductorResult broken(int port) {
    AlongRun at = known.openAt().get(port);
    findings.add(
        new Finding(
            CableFinding.OPEN,
            List.of(port),
            Ports.name(port) + " has no path to the plug at the far end",
            at));
    return new ConductorResult(port, 0, 1, null, Standing.FAULTY, "no path to the far end", at);
  }

  private ConductorResult connected(int port) {
    Quantity joint = known.joints().get(port);
    if (joint != null) {
      find(
          CableFinding.JOINT,
          List.of(port),
          Ports.name(port) + " has " + joint + " more than its fellows");
      return result(
          port, Standing.FAULTY, joint + " more than its fellows: a joint, a nick or a contact");
    }
    if (known.contacts().contains(port)) {
      find(
          CableFinding.CONTACT,
          List.of(port),
          Ports.name(port) + " stood out until it was seated afresh");
    }
    int position = position(port);
    if (coded != null && position == 0) {
      String words = undecidedWords(coded, port);
      find(CableFinding.UNIDENTIFIED, List.of(port), Ports.name(port) + ": " + words);
      return result(port, Standing.UNDECIDED, "reaches the plug, position undecided: " + words);
    }
    String where =
        coded == null
            ? "not identified: no coded plug was on"
            : "far position " + position + oddsWords(port);
    Quantity ohms = known.ohms().get(port);
    if (!known.compared() || ohms == null || ohms.u() > TELLING_OHMS) {
      String words = "reaches the plug, its resistance has nothing to be compared with; " + where;
      return result(port, Standing.UNDECIDED, words);
    }
    return result(port, Standing.SOUND, "sound, " + where);
  }

  private String undecidedWords(StarResult coded, int port) {
    if (coded.arms().isEmpty()) {
      return "fewer than three conductors reach the plug";
    }
    if (!known.places().containsKey(port)) {
      return "what joins it to others may hide a joint";
    }
    return tie == null
        ? "more than one position fits its reading"
        : "its readings with the two plugs do not agree";
  }

  /**
   * How sure the position is: likelihood ratio to the best assignment that places the conductor
   * elsewhere.
   */
  private String oddsWords(int port) {
    Place place = known.places().get(port);
    double odds = place == null ? 1 : place.odds();
    return odds >= 1e6
        ? ", odds over a million to one"
        : String.format(
            Locale.ROOT, ", odds %,.0f to one", Math.pow(10, Math.floor(Math.log10(odds))));
  }

  private ConductorResult undecided(int port, String words) {
    return new ConductorResult(port, 0, 1, null, Standing.UNDECIDED, words);
  }

  private ConductorResult result(int port, Standing standing, String words) {
    Place place = known.places().get(port);
    double odds = place == null ? 1 : place.odds();
    return new ConductorResult(port, position(port), odds, known.ohms().get(port), standing, words);
  }

  /** Position on the plug where it is certain enough, otherwise 0. */
  private int position(int port) {
    Place place = known.places().get(port);
    return place != null && place.odds() >= identityOdds ? place.position() : 0;
  }

  private void find(CableFinding kind, List<Integer> ports, String words) {
    findings.add(new Finding(kind, ports, words));
  }
}
