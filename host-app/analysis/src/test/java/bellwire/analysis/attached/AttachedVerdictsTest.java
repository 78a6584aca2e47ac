package bellwire.analysis.attached;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.fault.Explanation;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.Finding;
import bellwire.analysis.survey.OpenFindings;
import bellwire.analysis.survey.Standing;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.survey.SurveyResult.PairResult;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.junit.jupiter.api.Test;

/** A coil from P1 to P2, of a cable on P1 to P5. */
class AttachedVerdictsTest {
  private static final Attachment COIL = new Attachment(1, 0, LoadKind.COIL, 0.999, 16, 0.25);
  private static final Attachment COPPER = new Attachment(0, 1, LoadKind.RESISTANCE, 0.999, 16, 16);

  private static OpenFindings cable() {
    return new OpenFindings(0, 1, 2, 3, 4).joined(0, 1, 16);
  }

  private static SurveyResult survey(List<Finding> findings, List<Explanation> explanations) {
    Quantity ohms = Quantity.ohms(16, 0.1);
    return new SurveyResult(
        List.of(
            new ConductorResult(0, 3, 1e9, null, Standing.FAULTY, "touches P2; far position 3"),
            new ConductorResult(1, 0, 1, null, Standing.FAULTY, "broken, and touches P1"),
            new ConductorResult(2, 4, 1e9, null, Standing.SOUND, "sound")),
        List.of(
            new PairResult(0, 1, ohms, 0, Standing.FAULTY, "touching"),
            new PairResult(0, 2, null, 1e9, Standing.SOUND, "above 1 Gohm")),
        findings,
        true,
        null,
        null,
        List.of("open"),
        explanations,
        null);
  }

  private static SurveyResult in(SurveyResult result, OpenFindings open, Attachment... attached) {
    return new AttachedVerdicts(open.result(), List.of(attached)).in(result);
  }

  private static Finding finding(CableFinding kind, Integer... ports) {
    return new Finding(kind, List.of(ports), "seen");
  }

  @Test
  void withNothingAttachedTheResultIsTheSame() {
    SurveyResult result = survey(List.of(), List.of());
    assertThat(in(result, cable(), COPPER)).isSameAs(result);
  }

  @Test
  void aLoadIsSaidInPlaceOfTheTouchThatItLookedLike() {
    SurveyResult result =
        in(
            survey(
                List.of(
                    finding(CableFinding.TOUCHING, 0, 1),
                    finding(CableFinding.LEAKAGE, 0, 2),
                    finding(CableFinding.UNEXPLAINED, 0, 1),
                    finding(CableFinding.UNEXPLAINED)),
                List.of()),
            cable(),
            COIL);
    assertThat(result.findings())
        .extracting(Finding::kind)
        .containsExactlyInAnyOrder(
            CableFinding.ATTACHED_COIL, CableFinding.LEAKAGE, CableFinding.UNEXPLAINED);
    assertThat(result.findings().stream().map(Finding::words))
        .contains("P1 and P2: a coil (relay, contactor or valve), 16.0 ohm, 0.25 H");
  }

  @Test
  void whatOnlyALoadJoinsIsUndecidedAndWhatIsBrokenStaysFaulty() {
    SurveyResult result = in(survey(List.of(), List.of()), cable(), COIL);
    assertThat(result.conductors())
        .extracting(ConductorResult::standing)
        .containsExactly(Standing.UNDECIDED, Standing.FAULTY, Standing.SOUND);
    assertThat(result.conductors().get(0).reason())
        .isEqualTo("joined to P2 by what is attached; far position 3");
    assertThat(result.pairs())
        .extracting(PairResult::standing)
        .containsExactly(Standing.UNDECIDED, Standing.SOUND);
    assertThat(result.pairs().get(0).reason()).endsWith("0.25 H: lift it, measure again");
  }

  /** Copper beside the coil: the touch is one. */
  @Test
  void copperBesideALoadStaysATouch() {
    SurveyResult result =
        in(survey(List.of(finding(CableFinding.TOUCHING, 0, 1)), List.of()), cable(), COIL, COPPER);
    assertThat(result.findings())
        .extracting(Finding::kind)
        .containsExactly(CableFinding.TOUCHING, CableFinding.ATTACHED_COIL);
    assertThat(result.conductors().get(0).standing()).isEqualTo(Standing.FAULTY);
  }

  /** A coil from P1 to P2 and one from P2 to P3: P1 and P3 are joined through both. */
  @Test
  void portsJoinedThroughTwoLoadsAreExplained() {
    SurveyResult result =
        in(
            survey(List.of(finding(CableFinding.TOUCHING, 0, 2)), List.of()),
            cable().joined(1, 2, 16).joined(0, 2, 32),
            COIL,
            new Attachment(1, 2, LoadKind.COIL, 0.999, 16, 0.25));
    assertThat(result.findings())
        .extracting(Finding::kind)
        .containsOnly(CableFinding.ATTACHED_COIL);
    assertThat(result.pairs().get(1).reason())
        .isEqualTo("joined by what is attached: lift it, measure again");
  }

  @Test
  void wordsAreThoseOfTheLoad() {
    SurveyResult result =
        in(
            survey(
                List.of(finding(CableFinding.BROKEN_BESIDE, 1), finding(CableFinding.HIDDEN, 0)),
                List.of()),
            cable(),
            COIL);
    assertThat(result.findings().stream().map(Finding::words))
        .contains(
            "P2 has no path to the far end beyond what is attached",
            "P1: which is which can't be told until what is attached is lifted");
    assertThat(result.findings()).extracting(Finding::kind).contains(CableFinding.OPEN);
  }

  @Test
  void explanationsLoseTheBridgeThatIsNoCopperAndAgreeingOnesAreOne() {
    Fault bridge =
        new Fault(Fault.Kind.BRIDGE, List.of(0), List.of(1), null, Quantity.ohms(16, 0.1));
    Fault joint = new Fault(Fault.Kind.JOINT, List.of(2), List.of(), null, Quantity.ohms(1, 0.1));
    SurveyResult result =
        in(
            survey(
                List.of(),
                List.of(
                    new Explanation(List.of(joint), 0.4, true),
                    new Explanation(List.of(bridge), 0.35, true),
                    new Explanation(List.of(), 0.25, true))),
            cable(),
            COIL);
    assertThat(result.explanations())
        .containsExactly(
            new Explanation(List.of(), 0.6, true), new Explanation(List.of(joint), 0.4, true));
    SurveyResult unexplained =
        in(survey(List.of(), List.of(new Explanation(List.of(), 1, false))), cable(), COIL);
    assertThat(unexplained.explanations().get(0).explained()).isTrue();
  }

  @Test
  void everyLoadHasItsFindingAndFigures() {
    Object[][] loads = {
      {LoadKind.SECONDARY, 0.8, 0.05, CableFinding.ATTACHED_SECONDARY, ", 0.800 ohm, 0.050 H"},
      {LoadKind.CAPACITOR, 0.0, 4.7e-6, CableFinding.ATTACHED_CAPACITOR, ", 4.7 uF"},
      {
        LoadKind.DIODE,
        0.0,
        0.62,
        CableFinding.ATTACHED_DIODE,
        " that conducts from P2 to P1, 0.62 V"
      },
      {LoadKind.UNKNOWN, 0.0, 0.0, CableFinding.ATTACHED_UNKNOWN, "plain resistance"},
    };
    for (Object[] each : loads) {
      Attachment load =
          new Attachment(1, 0, (LoadKind) each[0], 0.9, (double) each[1], (double) each[2]);
      Finding finding = in(survey(List.of(), List.of()), cable(), load).findings().get(0);
      assertThat(finding.kind()).isEqualTo(each[3]);
      assertThat(finding.ports()).containsExactly(0, 1);
      assertThat(finding.words()).endsWith(each[4] + " (probability 90 %)");
    }
  }

  /** Two of five with a second cable's 300 pF more; theory (45). */
  @Test
  void aSecondCableUnderTheSameClampsIsSeenByItsCapacitance() {
    OpenFindings two = new OpenFindings(0, 1, 2, 3, 4).farads(2, 1.8e-9).farads(4, 1.82e-9);
    SurveyResult result = in(survey(List.of(), List.of()), two);
    assertThat(result.findings())
        .singleElement()
        .satisfies(
            f -> {
              assertThat(f.kind()).isEqualTo(CableFinding.ATTACHED_CABLE);
              assertThat(f.ports()).containsExactly(2, 4);
            });
    SurveyResult same = survey(List.of(), List.of());
    List<OpenFindings> none =
        List.of(
            new OpenFindings(0, 1, 2, 3, 4).farads(2, 1.8e-9), // one alone
            new OpenFindings(0, 1, 2, 3, 4).farads(2, 1.67e-9).farads(4, 1.67e-9), // 11 %
            new OpenFindings(0, 1, 2, 3, 4).farads(2, 1.8e-9).farads(4, 2.1e-9), // not alike
            new OpenFindings(0, 1, 2).farads(0, 1.8e-9).farads(1, 1.8e-9), // too few
            new OpenFindings(0, 1, 2, 3, 4)
                .farads(1, 1.8e-9)
                .farads(2, 1.8e-9)
                .farads(4, 1.8e-9)); // more than half: they are the fellows
    for (OpenFindings each : none) {
      assertThat(in(same, each)).isSameAs(same);
    }
    // One broken conductor moves the middle down by none.
    OpenFindings broken =
        new OpenFindings(0, 1, 2, 3, 4).farads(0, 0.3e-9).farads(2, 1.8e-9).farads(4, 1.82e-9);
    assertThat(in(same, broken).findings()).hasSize(1);
  }

  @Test
  void whatIsAttachedIsNoFellow() {
    OpenFindings open =
        new OpenFindings(0, 1, 2, 3, 4, 5).joined(0, 1, 16).farads(2, 1.8e-9).farads(4, 1.82e-9);
    assertThat(in(survey(List.of(), List.of()), open, COIL).findings())
        .extracting(Finding::kind)
        .contains(CableFinding.ATTACHED_CABLE);
  }

  @Test
  void aLeakageThroughALoadIsSaidByTheLoad() {
    SurveyResult result =
        in(survey(List.of(finding(CableFinding.LEAKAGE, 0, 1)), List.of()), cable(), COIL);
    assertThat(result.findings())
        .extracting(Finding::kind)
        .containsExactly(CableFinding.ATTACHED_COIL);
  }

  /** P3 and P5 touch, and what is attached lies elsewhere or at one of them only. */
  @Test
  void aTouchThatNoLoadExplainsStays() {
    for (Attachment load : List.of(COIL, new Attachment(4, 3, LoadKind.COIL, 1, 16, 0.25))) {
      SurveyResult result =
          in(
              survey(List.of(finding(CableFinding.TOUCHING, 2, 4)), List.of()),
              cable().joined(2, 4, 0.1).joined(3, 4, 16),
              load);
      assertThat(result.findings()).extracting(Finding::kind).contains(CableFinding.TOUCHING);
    }
  }

  /** A joint of a conductor with a load on it, and a bridge of copper beside it. */
  @Test
  void faultsThatNoLoadExplainsStayInTheExplanation() {
    Fault joint = new Fault(Fault.Kind.JOINT, List.of(0), List.of(), null, Quantity.ohms(1, 0.1));
    Fault bridge =
        new Fault(Fault.Kind.BRIDGE, List.of(2), List.of(4), null, Quantity.ohms(0.1, 0.01));
    Explanation whole = new Explanation(List.of(joint, bridge), 0.9, true);
    SurveyResult result =
        in(
            survey(List.of(), List.of(whole, new Explanation(List.of(), 0.1, false))),
            cable().joined(2, 4, 0.1),
            COIL);
    assertThat(result.explanations())
        .containsExactly(whole, new Explanation(List.of(), 0.1, false));
  }

  /** A coil from P3 to P4 and one from P1 to P5 make no way from P3 to P5. */
  @Test
  void loadsThatDoNotMeetExplainNoTouch() {
    SurveyResult result =
        in(
            survey(List.of(finding(CableFinding.TOUCHING, 2, 4)), List.of()),
            cable().joined(2, 4, 0.1).joined(2, 3, 16).joined(0, 4, 16),
            new Attachment(2, 3, LoadKind.COIL, 1, 16, 0.25),
            new Attachment(0, 4, LoadKind.COIL, 1, 16, 0.25));
    assertThat(result.findings()).extracting(Finding::kind).contains(CableFinding.TOUCHING);
  }
}
