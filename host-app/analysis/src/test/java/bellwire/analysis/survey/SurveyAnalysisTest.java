package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.uncertainty.Quantity;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Phases put together by hand: four conductors of half an ohm on P1 to P4, M clipped. */
class SurveyAnalysisTest {
  private static final Criteria CRITERIA = Criteria.standard();
  private static final double CONTACTS = 2 * CRITERIA.contactOhms();
  private static final double[] ARMS = {
    49.9, 90.9, 133, 174, 215, 255, 301, 348, 392, 432, 475, 523, 576, 619, 665, 715
  };
  private static final Plug PLUG = new Plug(ARMS, 1e-4, 5e-6, 15);
  private static final int[] FAR = {3, 1, 5, 4};

  /** NBS Circular 31's 6.385 ohm a thousand feet of 18 AWG at 20 °C, as reference/copper has it. */
  private static final double AWG_18_OHMS_PER_METRE = 6.385 / 304.8;

  private final double[] ohms = {0.500, 0.501, 0.499, 0.502};
  private CableFacts facts = CableFacts.unknown();
  private OpenFindings open = new OpenFindings(0, 1, 2, 3, 16);

  private StarResult star(boolean coded, Integer... connected) {
    Map<Integer, Quantity> arms = new HashMap<>();
    for (int port : connected) {
      double arm = ohms[port] + CONTACTS + (coded ? ARMS[FAR[port] - 1] : 0);
      arms.put(port, Quantity.ohms(arm, 0.0002));
    }
    return new StarResult(
        List.of(connected), arms, Map.of(), null, List.of(), 0, new double[Ports.COUNT]);
  }

  private static StarResult pair(double loopOhms, Integer... connected) {
    return new StarResult(
        List.of(connected),
        Map.of(),
        Map.of(),
        Quantity.ohms(loopOhms, 0.001),
        List.of(),
        0,
        new double[Ports.COUNT]);
  }

  private SurveyAnalysis analysis() {
    return new SurveyAnalysis(IdealBoard.MODEL, CRITERIA, PLUG, facts);
  }

  private SurveyResult result(StarResult coded, StarResult... ties) {
    return analysis().result(open.result(), coded, List.of(ties));
  }

  private static List<CableFinding> kinds(SurveyResult result) {
    return result.findings().stream().map(Finding::kind).toList();
  }

  @Test
  void bothPlugsIdentifyAndMeasure() {
    SurveyResult result = result(star(true, 0, 1, 2, 3), star(false, 0, 1, 2, 3));
    assertThat(result.phases()).containsExactly("open", "coded", "tie");
    assertThat(result.conductors()).hasSize(4);
    for (ConductorResult c : result.conductors()) {
      assertThat(c.position()).isEqualTo(FAR[c.port()]);
      assertThat(c.standing()).isEqualTo(Standing.SOUND);
      assertThat(c.ohms().value()).isCloseTo(ohms[c.port()], within(1e-9));
    }
    assertThat(result.findings()).isEmpty();
    assertThat(result.allSound()).isTrue();
    assertThat(result.length()).isNull();
    assertThat(result.gauge()).isNull();
  }

  /** The resistor's own tolerance: 0.1 % of it over the root of three is the conductor's. */
  @Test
  void theCodedPlugAloneMeasuresLessSurely() {
    SurveyResult result = result(star(true, 0, 1, 2, 3));
    ConductorResult first = result.conductors().get(0);
    assertThat(first.position()).isEqualTo(3);
    assertThat(first.ohms().value()).isCloseTo(0.5, within(1e-9));
    assertThat(first.ohms().u()).isGreaterThan(133 * 1e-4 / Math.sqrt(3));
    assertThat(result.phases()).containsExactly("open", "coded");
  }

  @Test
  void theTiePlugAloneMeasuresAndDoesNotIdentify() {
    SurveyResult result = result(null, star(false, 0, 1, 2, 3));
    assertThat(result.phases()).containsExactly("open", "tie");
    assertThat(result.conductors())
        .allSatisfy(
            c -> {
              assertThat(c.position()).isZero();
              assertThat(c.standing()).isEqualTo(Standing.SOUND);
            });
  }

  /** 18 AWG at 22 °C: the copper's 0.393 % a kelvin on top, IEC 60028. */
  @Test
  void theGaugeGivesTheLengthOfTheRun() {
    facts = new CableFacts(Gauge.awg(18), Double.NaN, 22, 4);
    SurveyResult result = result(star(true, 0, 1, 2, 3), star(false, 0, 1, 2, 3));
    double metres = 0.5005 / (AWG_18_OHMS_PER_METRE * (1 + 0.00393 * 2));
    assertThat(result.length().value()).isCloseTo(metres, within(2e-3 * metres));
    assertThat(result.length().unit()).isEqualTo("m");
    // 4 K are 1.6 %, a section 0.5 %, contacts of some mohm the rest
    assertThat(result.length().u()).isBetween(0.016 * metres, 0.025 * metres);
    assertThat(result.gauge()).isNull();
  }

  @Test
  void theLengthGivesTheGaugeWhereOneFits() {
    double metres = 0.5005 / AWG_18_OHMS_PER_METRE;
    facts = new CableFacts(null, metres, 20, 2);
    StarResult tie = star(false, 0, 1, 2, 3);
    assertThat(result(null, tie).gauge()).isEqualTo("18 AWG");
    facts = new CableFacts(null, metres * 1.59, 20, 2); // the next even size
    assertThat(result(null, tie).gauge()).isEqualTo("16 AWG");
    facts = new CableFacts(null, metres * 1.14, 20, 2);
    assertThat(result(null, tie).gauge()).isEqualTo("18 AWG");
    facts = new CableFacts(null, metres * 1.26, 20, 2); // between the two
    assertThat(result(null, tie).gauge()).isNull();
    facts = new CableFacts(null, metres * 4.05, 20, 2); // the largest there is
    assertThat(result(null, tie).gauge()).isEqualTo("12 AWG");
    facts = new CableFacts(null, metres / 10.16, 20, 2); // the smallest
    assertThat(result(null, tie).gauge()).isEqualTo("28 AWG");
    facts = new CableFacts(null, metres / 30, 20, 2);
    assertThat(result(null, tie).gauge()).isNull();
    assertThat(analysis().result(open.result(), null, List.of()).gauge()).isNull();
  }

  @Test
  void aContactSeatedAfreshIsToldAndTheConductorSound() {
    ohms[2] = 0.9;
    StarResult loose = star(false, 0, 1, 2, 3);
    assertThat(analysis().suspectContacts(open.result(), loose)).containsExactly(2);
    assertThat(result(null, loose).conductors().get(2).standing()).isEqualTo(Standing.FAULTY);
    ohms[2] = 0.499;
    StarResult seated = star(false, 0, 1, 2, 3);
    assertThat(analysis().suspectContacts(open.result(), seated)).isEmpty();
    SurveyResult result = result(star(true, 0, 1, 2, 3), loose, seated);
    assertThat(result.phases()).containsExactly("open", "coded", "tie", "tie");
    assertThat(result.conductors().get(2).standing()).isEqualTo(Standing.SOUND);
    assertThat(kinds(result)).containsExactly(CableFinding.CONTACT);
    // what still stands out was no contact
    SurveyResult still = result(star(true, 0, 1, 2, 3), loose, loose);
    assertThat(kinds(still)).containsExactly(CableFinding.JOINT);
  }

  /** The coded plug was read while the contact was loose: only that seating's tie fits it. */
  @Test
  void aPlaceIsTakenFromTheSeatingThatFits() {
    ohms[2] = 30;
    StarResult coded = star(true, 0, 1, 2, 3);
    StarResult loose = star(false, 0, 1, 2, 3);
    ohms[2] = 0.499;
    StarResult seated = star(false, 0, 1, 2, 3);
    assertThat(result(coded, loose, seated).conductors().get(2).position()).isEqualTo(5);
    assertThat(result(coded, seated).conductors().get(2).position()).isZero();
  }

  @Test
  void withoutTheClipNothingIsCheckedToGround() {
    open = new OpenFindings(0, 1, 2, 3);
    SurveyResult result = result(star(true, 0, 1, 2, 3), star(false, 0, 1, 2, 3));
    assertThat(result.metalChecked()).isFalse();
    assertThat(kinds(result)).containsExactly(CableFinding.METAL_UNCHECKED);
    assertThat(result.findings().get(0).words()).contains("not checked to ground");
  }

  @Test
  void findingsComeWorstFirst() {
    open.leaking(0, 1, 3e5, 1e3);
    ohms[2] = 0.9;
    List<CableFinding> kinds = kinds(result(star(true, 0, 1, 2), star(false, 0, 1, 2)));
    assertThat(kinds)
        .contains(CableFinding.LEAKAGE, CableFinding.JOINT, CableFinding.OPEN)
        .isSorted();
  }

  @Test
  void theSameAnalysisSaysTheSameAgain() {
    ohms[2] = 0.9;
    SurveyAnalysis analysis = analysis();
    StarResult tie = star(false, 0, 1, 2, 3);
    SurveyResult once = analysis.result(open.result(), null, List.of(tie));
    assertThat(analysis.result(open.result(), null, List.of(tie)).findings())
        .isEqualTo(once.findings());
  }

  @Test
  void oneThatIsOnNoPlugIsBroken() {
    SurveyResult result = result(star(true, 0, 1, 2), star(false, 0, 1, 2));
    assertThat(result.conductors().get(3).standing()).isEqualTo(Standing.FAULTY);
    assertThat(kinds(result)).containsExactly(CableFinding.OPEN);
  }

  /** Only their sum can be read: on the plug, the positions that give it. */
  @Test
  void ofTwoConductorsOnlyTheSumIsKnown() {
    open = new OpenFindings(0, 1, 16);
    SurveyResult result = result(pair(49.9 + 133 + 1.05, 0, 1), pair(1.05, 0, 1));
    assertThat(kinds(result)).contains(CableFinding.TWO_CONDUCTORS);
    String words =
        result.findings().stream()
            .filter(f -> f.kind() == CableFinding.TWO_CONDUCTORS)
            .findFirst()
            .get()
            .words();
    assertThat(words)
        .startsWith("P1 and P2: together on the plug's positions 1 and 3")
        .contains("; loop resistance 1.0500 ± 0.0010 ohm");
    assertThat(result.conductors())
        .extracting(ConductorResult::standing)
        .containsOnly(Standing.UNDECIDED);
    SurveyResult none = analysis().result(open.result(), null, List.of());
    assertThat(kinds(none)).contains(CableFinding.TWO_CONDUCTORS);
    assertThat(none.conductors().get(0).reason()).isEqualTo("no plug was on the far end");
  }

  /** A plug that only two of four hang on reads a sum as well. */
  @Test
  void twoOfFourOnThePlugAreASumToo() {
    SurveyResult result = result(pair(49.9 + 133 + 1.05, 0, 1));
    assertThat(kinds(result)).contains(CableFinding.TWO_CONDUCTORS, CableFinding.OPEN);
    assertThat(result.conductors().get(2).standing()).isEqualTo(Standing.FAULTY);
  }

  /**
   * A bridge of a few hundred ohms may sit behind a joint: the coded arm alone then decides nothing
   * about the two. With a tie plug that shows no joint it does.
   */
  @Test
  void aBridgedPortIsPlacedWhereTheTiePlugShowsNoJoint() {
    open.leaking(0, 1, 2000, 1);
    StarResult coded = star(true, 0, 1, 2, 3);
    SurveyResult alone = result(coded);
    assertThat(alone.conductors().get(0).position()).isZero();
    assertThat(alone.conductors().get(2).position()).isEqualTo(5);
    SurveyResult both = result(coded, star(false, 0, 1, 2, 3));
    assertThat(both.conductors().get(0).position()).isEqualTo(3);
    ohms[1] = 0.9;
    SurveyResult jointed = result(star(true, 0, 1, 2, 3), star(false, 0, 1, 2, 3));
    assertThat(jointed.conductors().get(3).position()).isEqualTo(4);
  }
}
