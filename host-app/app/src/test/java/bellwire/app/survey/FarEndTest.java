package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.Finding;
import bellwire.analysis.survey.Standing;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * What one person at the far end does: fingers on bare ends, a plug half on, one too early, one
 * seated afresh.
 */
class FarEndTest {
  private static final String CABLE =
      """
      bellwire-bench: 1
      seed: 21
      cable:
        gauge: 18 AWG
        length: 20 m
        temperature: 22 C
        conductors:
          - {port: P1, colour: red, far: 3}
          - {port: P2, colour: white, far: 1}
          - {port: P3, colour: green, far: 5}
          - {port: P7, colour: blue, far: 2}
          - {port: P8, colour: yellow, far: 4}
      """;

  private static SurveyOptions options(Set<FarEndKind> plugs, int declared, double reseatSeconds) {
    SurveyOptions o = SimulatedSurvey.options(plugs, 60);
    return new SurveyOptions(
        declared,
        o.plugs(),
        2_000_000,
        o.waitMicros(),
        0,
        (long) (reseatSeconds * 1e6),
        o.plug(),
        o.facts(),
        o.criteria());
  }

  private static SurveyOutcome survey(String rest, SurveyOptions options) throws Exception {
    return SimulatedSurvey.run(CABLE + rest, options).outcome;
  }

  private static SurveyResult result(SurveyOutcome outcome) {
    SurveyResult result = outcome.result();
    assertThat(result).as("stopped at %s", outcome.trippedFlags()).isNotNull();
    return result;
  }

  private static final Set<FarEndKind> BOTH = EnumSet.of(FarEndKind.CODED, FarEndKind.TIE);

  private static void assertAllFound(SurveyResult result) {
    assertThat(result.conductors().stream().map(ConductorResult::position))
        .containsExactly(3, 1, 5, 2, 4);
    assertThat(result.allSound()).as(result.toString()).isTrue();
  }

  @Test
  void fingersAndAPlugHalfOnAreWaitedFor() throws Exception {
    SurveyOutcome outcome =
        survey(
            """
            far-end:
              - {from: 0 s, plug: open}
              - {from: 14 s, plug: open, fingers: {positions: [1, 2, 3], ohm: 200 kohm}}
              - {from: 18 s, plug: coded, seated: [1, 2]}
              - {from: 19.5 s, plug: coded}
              - {from: 35 s, plug: open, fingers: {positions: [4, 5], ohm: 500 kohm}}
              - {from: 38 s, plug: tie, seated: [1, 2, 3]}
              - {from: 39 s, plug: tie}
            """,
            options(BOTH, 0, 0));
    assertAllFound(result(outcome));
  }

  @Test
  void aPlugPutOnTooEarlyRestartsThePhase() throws Exception {
    SurveyOutcome outcome =
        survey(
            "far-end: [{from: 0 s, plug: open}, {from: 4 s, plug: coded}, {from: 12 s, plug: open}, {from: 30 s, plug: coded}, {from: 50 s, plug: tie}]\n",
            options(BOTH, 0, 0));
    assertAllFound(result(outcome));
  }

  @Test
  void aPlugOnFromTheStartIsTakenOffFirst() throws Exception {
    SurveyOutcome outcome =
        survey(
            "far-end: [{from: 0 s, plug: tie}, {from: 20 s, plug: open}, {from: 40 s, plug: coded}, {from: 60 s, plug: tie}]\n",
            options(BOTH, 0, 0));
    assertAllFound(result(outcome));
  }

  /** What is gone after the phase was no fault: a plug taken off, a hand on the bare ends. */
  @Test
  void whatCameOffDuringThePhaseIsNoFault() throws Exception {
    String plugs = "{from: 40 s, plug: coded}, {from: 60 s, plug: tie}]\n";
    String plugOn = "far-end: [{from: 0 s, plug: coded}, {from: 5 s, plug: open}, ";
    assertAllFound(result(survey(plugOn + plugs, options(BOTH, 0, 0))));
    String hand =
        "far-end: [{from: 0 s, plug: open}, "
            + "{from: 2 s, plug: open, fingers: {positions: [1, 2], ohm: 300 kohm}}, "
            + "{from: 4 s, plug: open}, ";
    assertAllFound(result(survey(hand + plugs, options(BOTH, 0, 0))));
  }

  /** Two shorted pairs are two faults, and nobody is asked to take a plug off. */
  @Test
  void shortedPairsAreNotTakenForAPlug() throws Exception {
    SurveyOutcome outcome =
        survey(
            """
            bridges: [{between: [P1, P2], at: 0.3, ohm: 0}, {between: [P7, P8], at: 0.5, ohm: 40}]
            far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 30 s, plug: tie}]
            """,
            options(BOTH, 0, 0));
    SurveyResult result = result(outcome);
    assertThat(result.phases()).containsExactly("open", "coded", "tie");
    assertThat(result.pairs().stream().filter(p -> p.standing() == Standing.FAULTY)).hasSize(2);
  }

  /** Of two conductors the tie plug tells the sum: no word on where a joint in it is. */
  @Test
  void twoConductorsWithTheTiePlugAloneAreNotCalledSound() throws Exception {
    String two =
        CABLE.lines().limit(9).collect(Collectors.joining("\n", "", "\n"))
            + """
            joints: [{conductor: P1, at: 0.5, ohm: 15}]
            far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: tie}]
            """;
    SurveyResult result =
        result(SimulatedSurvey.run(two, options(EnumSet.of(FarEndKind.TIE), 0, 0)).outcome);
    assertThat(result.phases()).containsExactly("open", "tie");
    assertThat(result.conductors())
        .hasSize(2)
        .allMatch(c -> c.standing() == Standing.UNDECIDED, "undecided");
  }

  /** The arm that a bridge keeps in the circuit behind a break has no value; no fit may fail. */
  @Test
  void aBrokenConductorInAClusterOfBridgesIsSurveyed() throws Exception {
    SurveyResult result =
        result(
            survey(
                """
                joints: [{conductor: P3, at: 0.357, ohm: 331}]
                opens: [{conductor: P7, at: 0.428}, {conductor: P8, at: 0.3}]
                bridges: [{between: [P2, P7], at: 0.229, ohm: 191}, {between: [P7, P8], at: 0.1, ohm: 0.02}]
                far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 30 s, plug: tie}]
                """,
                options(BOTH, 0, 0)));
    assertThat(standing(result, 6)).isNotEqualTo(Standing.SOUND);
    assertThat(standing(result, 7)).isNotEqualTo(Standing.SOUND);
  }

  /** A joint ahead of a bridge moves both arms by more than the fit allows for. */
  @Test
  void aJointAheadOfABridgeIdentifiesNobodyWrongly() throws Exception {
    SurveyResult result =
        result(
            survey(
                """
                joints: [{conductor: P2, at: 0.525, ohm: 19.7}]
                bridges: [{between: [P2, P7], at: 0.727, ohm: 26.2}]
                far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 30 s, plug: tie}]
                """,
                options(BOTH, 0, 0)));
    assertThat(result.conductors().stream().map(ConductorResult::position))
        .containsExactly(3, 0, 5, 0, 4);
  }

  /**
   * Behind a break the other half of a conductor still hangs on the plug, bridged to a whole one.
   */
  @Test
  void aStubBehindABreakIdentifiesNobodyWrongly() throws Exception {
    SurveyResult result =
        result(
            survey(
                """
                opens: [{conductor: P2, at: 0.27}]
                bridges: [{between: [P2, P8], at: 0.8, ohm: 40}, {between: [P2, M], at: 0.9, ohm: 45}]
                far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 30 s, plug: tie}]
                """,
                options(BOTH, 0, 0)));
    assertThat(standing(result, 1)).isEqualTo(Standing.FAULTY);
    assertThat(result.conductors().get(4).position()).isIn(0, 4);
    for (int port : new int[] {0, 2, 6}) {
      assertThat(standing(result, port)).isEqualTo(Standing.SOUND);
      assertThat(result.conductors().stream().filter(c -> c.port() == port).findFirst())
          .hasValueSatisfying(c -> assertThat(c.ohms().value()).isBetween(0.38, 0.46));
    }
  }

  @Test
  void aPlugChangedInMidPhaseIsMeasuredAgain() throws Exception {
    SurveyOutcome outcome =
        survey(
            "far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 18.5 s, plug: open}, {from: 25 s, plug: coded}, {from: 45 s, plug: tie}, {from: 48.4 s, plug: coded}, {from: 52 s, plug: tie}]\n",
            options(BOTH, 0, 0));
    assertAllFound(result(outcome));
  }

  /** A clamp of 0.3 ohm that is good at its second seating is a contact; a joint stays. */
  @Test
  void aContactIsToldFromAJointBySeatingItAfresh() throws Exception {
    String schedule =
        """
        far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 30 s, plug: tie}, {from: 45 s, plug: open}, {from: 50 s, plug: tie}]
        contacts: [{conductor: P7, end: far, ohm: 0.3, seating: 2}]
        joints: [{conductor: P2, at: 0.4, ohm: 0.35}]
        """;
    SurveyResult result = result(survey(schedule, options(BOTH, 0, 60)));
    assertThat(result.phases()).containsExactly("open", "coded", "tie", "tie");
    assertThat(kinds(result, 6)).containsExactly(CableFinding.CONTACT);
    assertThat(kinds(result, 1)).containsExactly(CableFinding.JOINT);
    assertThat(standing(result, 6)).isEqualTo(Standing.SOUND);
    assertThat(standing(result, 1)).isEqualTo(Standing.FAULTY);
  }

  /**
   * One walk: nothing is waited for to settle, the plugs are changed on a timetable agreed
   * beforehand.
   */
  @Test
  void aTimetableServesOneWalk() throws Exception {
    SurveyOptions o = options(BOTH, 0, 0);
    SurveyOptions fixed =
        new SurveyOptions(
            0,
            BOTH,
            o.dwellMicros(),
            o.waitMicros(),
            25_000_000,
            0,
            o.plug(),
            o.facts(),
            o.criteria());
    SurveyOutcome outcome =
        survey(
            "far-end: [{from: 0 s, plug: open}, {from: 20 s, plug: coded}, {from: 45 s, plug: tie}]\n",
            fixed);
    assertAllFound(result(outcome));
    assertThat(result(outcome).phases()).containsExactly("open", "coded", "tie");
  }

  /**
   * A converter six times as noisy as its description is noticed, and its results are as uncertain
   * as it makes them.
   */
  @Test
  void aNoisyConverterWidensTheUncertainty() throws Exception {
    String schedule =
        "far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 30 s, plug: tie}]\n";
    SurveyOutcome outcome = survey(schedule + "board: {noise: 6.0}\n", options(BOTH, 0, 0));
    assertThat(outcome.open().noiseFactor()).isBetween(4.0, 9.0);
    assertThat(survey(schedule, options(BOTH, 0, 0)).open().noiseFactor()).isBetween(1.0, 1.5);
    assertAllFound(result(outcome));
  }

  /**
   * Loose with both plugs on, good after it was seated afresh: the coded reading fits the seating
   * it was taken in.
   */
  @Test
  void aLooseClampKeepsItsPlaceWhenSeatedAfresh() throws Exception {
    String schedule =
        """
        far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 30 s, plug: tie}, {from: 45 s, plug: open}, {from: 50 s, plug: tie}]
        near-seating: [46 s]
        contacts: [{conductor: P8, end: near, ohm: 0.3, seating: 1}]
        """;
    SurveyResult result = result(survey(schedule, options(BOTH, 0, 60)));
    assertThat(kinds(result, 7)).containsExactly(CableFinding.CONTACT);
    assertAllFound(result);
  }

  @Test
  void aDeclaredPortWithNothingOnItIsBroken() throws Exception {
    SurveyResult result =
        result(
            survey(
                "far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 30 s, plug: tie}]\n",
                options(BOTH, 1 << 11, 0)));
    assertThat(standing(result, 11)).isEqualTo(Standing.FAULTY);
    assertThat(standing(result, 0)).isEqualTo(Standing.SOUND);
  }

  @Test
  void withoutTheClipNothingIsSaidOfGround() throws Exception {
    SurveyResult result =
        result(
            survey(
                "metal: {clipped: false}\nfar-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 30 s, plug: tie}]\n",
                options(BOTH, 0, 0)));
    assertThat(result.metalChecked()).isFalse();
    assertThat(result.findings())
        .extracting(Finding::kind)
        .containsExactly(CableFinding.METAL_UNCHECKED);
    assertThat(result.pairs()).hasSize(10);
  }

  @Test
  void eachPlugMayBeSkipped() throws Exception {
    String schedule =
        "far-end: [{from: 0 s, plug: open}, {from: 15 s, plug: coded}, {from: 30 s, plug: tie}]\n";
    SurveyResult coded = result(survey(schedule, options(EnumSet.of(FarEndKind.CODED), 0, 0)));
    assertAllFound(coded);
    SurveyResult tie = result(survey(schedule, options(EnumSet.of(FarEndKind.TIE), 0, 0)));
    assertThat(tie.conductors())
        .allMatch(c -> c.position() == 0 && c.ohms() != null && c.standing() == Standing.SOUND);
  }

  private static List<CableFinding> kinds(SurveyResult result, int port) {
    return result.findings().stream()
        .filter(f -> f.ports().contains(port))
        .map(Finding::kind)
        .toList();
  }

  private static Standing standing(SurveyResult result, int port) {
    return result.conductors().stream()
        .filter(c -> c.port() == port)
        .findFirst()
        .orElseThrow()
        .standing();
  }
}
