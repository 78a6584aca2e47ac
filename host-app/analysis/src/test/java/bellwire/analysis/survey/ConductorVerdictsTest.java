package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.PlugMap.Place;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.uncertainty.Quantity;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** One conductor, P1, beside two others on which nothing is wrong. */
class ConductorVerdictsTest {
  private static final double ODDS = Criteria.standard().identityOdds();

  private OpenFindings open = new OpenFindings(0, 1, 2);
  private StarResult coded = star(0, 1, 2);
  private StarResult tie = star(0, 1, 2);
  private final Map<Integer, Place> places = new HashMap<>();
  private final Map<Integer, Quantity> ohms = new HashMap<>();
  private final Map<Integer, Quantity> joints = new HashMap<>();
  private final Set<Integer> contacts = new HashSet<>();
  private final Map<Integer, AlongRun> openAt = new HashMap<>();
  private final Set<Integer> brokenBeside = new HashSet<>();
  private boolean compared = true;
  private List<Finding> findings = List.of();

  ConductorVerdictsTest() {
    for (int port = 0; port < 3; port++) {
      places.put(port, new Place(port + 4, 3e8));
      ohms.put(port, Quantity.ohms(0.5, 0.01));
    }
  }

  private static StarResult star(Integer... connected) {
    Map<Integer, Quantity> arms = new HashMap<>();
    for (int port : connected) {
      arms.put(port, Quantity.ohms(100, 0.01));
    }
    return new StarResult(
        List.of(connected), arms, Map.of(), null, List.of(), 0, new double[Ports.COUNT]);
  }

  private ConductorResult first() {
    ConductorVerdicts verdicts =
        new ConductorVerdicts(
            open.result(),
            coded,
            tie,
            new ConductorVerdicts.Known(
                places, ohms, joints, contacts, openAt, brokenBeside, compared),
            ODDS);
    List<ConductorResult> all = verdicts.conductors();
    findings = verdicts.findings();
    return all.get(0);
  }

  private void found(CableFinding... kinds) {
    assertThat(findings).extracting(Finding::kind).containsExactly(kinds);
  }

  @Test
  void identifiedAndLikeItsFellowsIsSound() {
    ConductorResult result = first();
    assertThat(result.standing()).isEqualTo(Standing.SOUND);
    assertThat(result.position()).isEqualTo(4);
    assertThat(result.odds()).isEqualTo(3e8);
    assertThat(result.ohms()).isEqualTo(Quantity.ohms(0.5, 0.01));
    assertThat(result.reason()).isEqualTo("sound, far position 4, odds over a million to one");
    found();
  }

  @Test
  void aPositionCountsFromTheCriterionsOddsOn() {
    places.put(0, new Place(4, ODDS));
    assertThat(first().position()).isEqualTo(4);
    places.put(0, new Place(4, ODDS * 0.99));
    ConductorResult result = first();
    assertThat(result.position()).isZero();
    assertThat(result.standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(result.reason()).contains("the two plugs do not agree");
    found(CableFinding.UNIDENTIFIED);
    tie = null;
    assertThat(first().reason()).contains("more than one position fits");
    places.remove(0);
    assertThat(first().reason()).contains("what joins it to others may hide a joint");
    coded =
        new StarResult(
            List.of(0, 1, 2), Map.of(), Map.of(), null, List.of(), 0, new double[Ports.COUNT]);
    assertThat(first().reason()).contains("fewer than three conductors reach the plug");
  }

  @Test
  void withoutACodedPlugItIsSoundAndNotIdentified() {
    coded = null;
    places.clear();
    ConductorResult result = first();
    assertThat(result.standing()).isEqualTo(Standing.SOUND);
    assertThat(result.reason()).isEqualTo("sound, not identified: no coded plug was on");
  }

  @Test
  void nothingToBeComparedWithIsUndecided() {
    compared = false;
    assertThat(first().standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(first().reason()).contains("nothing to be compared with");
    compared = true;
    ohms.put(0, Quantity.ohms(0.5, 1.0));
    assertThat(first().standing()).isEqualTo(Standing.SOUND);
    ohms.put(0, Quantity.ohms(0.5, 1.01));
    assertThat(first().standing()).isEqualTo(Standing.UNDECIDED);
    ohms.remove(0);
    assertThat(first().standing()).isEqualTo(Standing.UNDECIDED);
  }

  @Test
  void aJointIsAFaultWithItsExcess() {
    joints.put(0, Quantity.ohms(0.4, 0.02));
    ConductorResult result = first();
    assertThat(result.standing()).isEqualTo(Standing.FAULTY);
    assertThat(result.reason()).startsWith("0.400 ± 0.020 ohm more than its fellows");
    found(CableFinding.JOINT);
  }

  @Test
  void aContactThatWasSeatedAfreshIsSoundAndTold() {
    contacts.add(0);
    assertThat(first().standing()).isEqualTo(Standing.SOUND);
    found(CableFinding.CONTACT);
  }

  @Test
  void onOnePlugOnlyIsALooseContact() {
    coded = star(1, 2);
    ConductorResult result = first();
    assertThat(result.standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(result.reason()).startsWith("on the tie plug only");
    found(CableFinding.OPEN);
    coded = star(0, 1, 2);
    tie = star(1, 2);
    assertThat(first().reason()).startsWith("on the coded plug only");
  }

  @Test
  void onNoPlugIsBrokenWhereItIsKnownThere() {
    coded = star(1, 2);
    tie = star(1, 2);
    AlongRun at = new AlongRun(new Quantity(0.6, 0.01, ""), null);
    openAt.put(0, at);
    ConductorResult result = first();
    assertThat(result.standing()).isEqualTo(Standing.FAULTY);
    assertThat(result.openAt()).isEqualTo(at);
    assertThat(result.position()).isZero();
    found(CableFinding.OPEN);
    assertThat(findings.get(0).at()).isEqualTo(at);
    tie = null;
    assertThat(first().standing()).isEqualTo(Standing.FAULTY);
  }

  @Test
  void withoutAnyPlugNothingIsSaid() {
    coded = null;
    tie = null;
    assertThat(first().standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(first().reason()).isEqualTo("no plug was on the far end");
  }

  @Test
  void oneThatTouchesIsFaultyAndToldApartWhereThePlugTells() {
    open.joined(0, 1, 0.5);
    ConductorResult result = first();
    assertThat(result.standing()).isEqualTo(Standing.FAULTY);
    assertThat(result.reason()).isEqualTo("touches P2; far position 4, odds over a million to one");
    places.remove(0);
    places.remove(1);
    result = first();
    assertThat(result.standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(result.reason()).contains("which is which can't be told until that is cleared");
    found(CableFinding.HIDDEN);
    assertThat(findings.get(0).ports()).containsExactly(0, 1);
    brokenBeside.add(0);
    result = first();
    assertThat(result.standing()).isEqualTo(Standing.FAULTY);
    assertThat(result.reason()).isEqualTo("broken, and touches P2");
    assertThat(findings.get(0).ports()).containsExactly(1);
  }

  @Test
  void oddsAreSaidInPowersOfTen() {
    brokenBeside.clear();
    coded = star(0, 1, 2);
    places.put(0, new Place(4, 999_999));
    ConductorVerdicts loose =
        new ConductorVerdicts(
            open.result(),
            coded,
            tie,
            new ConductorVerdicts.Known(
                places, ohms, joints, contacts, openAt, brokenBeside, compared),
            1000);
    assertThat(loose.conductors().get(0).reason()).endsWith("odds 100,000 to one");
  }

  @Test
  void oneAloneAndNoneAtAll() {
    open = new OpenFindings(0);
    assertThat(first().standing()).isEqualTo(Standing.UNDECIDED);
    found(CableFinding.ALONE);
    open = new OpenFindings(16);
    ConductorVerdicts none =
        new ConductorVerdicts(
            open.result(),
            null,
            null,
            new ConductorVerdicts.Known(
                places, ohms, joints, contacts, openAt, brokenBeside, compared),
            ODDS);
    assertThat(none.conductors()).isEmpty();
    assertThat(none.findings())
        .extracting(Finding::kind)
        .containsExactly(CableFinding.NOTHING_LANDED);
  }
}
