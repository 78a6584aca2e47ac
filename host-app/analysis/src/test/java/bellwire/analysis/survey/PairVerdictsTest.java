package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.SurveyResult.PairResult;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Limits as the criteria come: 100 ohm touches, 1 Mohm leaks, from 10 Mohm on it is sound. */
class PairVerdictsTest {
  private static final Criteria CRITERIA = Criteria.standard();

  private static PairVerdicts verdicts(OpenFindings open, Touch... touches) {
    return new PairVerdicts(open.result(), CRITERIA, List.of(touches));
  }

  private static PairResult only(PairVerdicts verdicts) {
    List<PairResult> pairs = verdicts.pairs();
    assertThat(pairs).hasSize(1);
    return pairs.get(0);
  }

  private static AlongRun at(double fraction, double u) {
    return new AlongRun(new Quantity(fraction, u, ""), null);
  }

  @Test
  void everyTwoPortsOnce() {
    assertThat(verdicts(new OpenFindings(0, 3, 5, 16)).pairs())
        .extracting(p -> p.a() + "-" + p.b())
        .containsExactly("0-3", "0-5", "0-16", "3-5", "3-16", "5-16");
  }

  /** Five standard uncertainties of 2 nS are 100 Mohm, of 25 nS 8 Mohm. */
  @Test
  void apartIsSoundWhereTheReadingReachesTheLimit() {
    PairVerdicts fine = verdicts(new OpenFindings(0, 1).seesDownTo(2e-9));
    assertThat(only(fine).standing()).isEqualTo(Standing.SOUND);
    assertThat(only(fine).reason()).isEqualTo("above 100 Mohm");
    assertThat(fine.findings()).isEmpty();
    PairVerdicts coarse = verdicts(new OpenFindings(0, 1).seesDownTo(2.5e-8));
    assertThat(only(coarse).standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(only(coarse).aboveOhms()).isBetween(7.9e6, 8.1e6);
    assertThat(only(coarse).ohms()).isNull();
  }

  @Test
  void aLeakageIsAFaultOnlyIfItIsSurelyBelowAMegohm() {
    PairVerdicts sure = verdicts(new OpenFindings(0, 1).leaking(0, 1, 0.9e6, 0.04e6));
    assertThat(only(sure).standing()).isEqualTo(Standing.FAULTY);
    assertThat(sure.findings()).extracting(Finding::kind).containsExactly(CableFinding.LEAKAGE);
    PairVerdicts unsure = verdicts(new OpenFindings(0, 1).leaking(0, 1, 0.9e6, 0.06e6));
    assertThat(only(unsure).standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(unsure.findings()).extracting(Finding::kind).containsExactly(CableFinding.DAMP);
  }

  @Test
  void aLeakageIsSoundOnlyIfItIsSurelyAboveTenMegohms() {
    PairVerdicts sure = verdicts(new OpenFindings(0, 1).leaking(0, 1, 11e6, 0.4e6));
    assertThat(only(sure).standing()).isEqualTo(Standing.SOUND);
    assertThat(only(sure).reason()).endsWith("above the limit");
    assertThat(sure.findings()).isEmpty();
    PairVerdicts unsure = verdicts(new OpenFindings(0, 1).leaking(0, 1, 11e6, 0.6e6));
    assertThat(only(unsure).standing()).isEqualTo(Standing.UNDECIDED);
    assertThat(only(unsure).ohms().u()).isBetween(0.59e6, 0.61e6);
  }

  @Test
  void aLeakageOfAClusterIsFoundOnce() {
    PairVerdicts verdicts =
        verdicts(new OpenFindings(0, 1, 2).joined(0, 1, 0.5).leaking(0, 2, 3e5, 1e3));
    assertThat(verdicts.pairs()).extracting(PairResult::standing).containsOnly(Standing.FAULTY);
    assertThat(verdicts.findings()).filteredOn(f -> f.kind() == CableFinding.LEAKAGE).hasSize(1);
  }

  @Test
  void aHundredOhmsPartTouchingFromALowResistance() {
    PairVerdicts touching = verdicts(new OpenFindings(0, 1).joined(0, 1, 99));
    assertThat(only(touching).reason()).isEqualTo("touching");
    assertThat(touching.findings())
        .extracting(Finding::kind)
        .containsExactly(CableFinding.TOUCHING);
    PairVerdicts low = verdicts(new OpenFindings(0, 1).joined(0, 1, 101));
    PairResult result = only(low);
    assertThat(result.reason()).isEqualTo("low resistance between them");
    assertThat(result.standing()).isEqualTo(Standing.FAULTY);
    assertThat(low.findings()).extracting(Finding::kind).containsExactly(CableFinding.LEAKAGE);
    assertThat(low.findings().get(0).words()).startsWith("P1 and P2: 101").endsWith("them");
  }

  @Test
  void whereTheyTouchIsSaidWhereItIsKnown() {
    OpenFindings open = new OpenFindings(0, 1).joined(0, 1, 0.5);
    Quantity ohms = Quantity.ohms(0.1, 0.01);
    Object[][] cases = {
      {at(0.02, 0.01), CableFinding.TOUCHING_AT_THE_NEAR_END},
      {at(0.5, 0.01), CableFinding.TOUCHING_ON_THE_WAY},
      {at(0.99, 0.01), CableFinding.TOUCHING_AT_THE_FAR_END},
      {at(0.5, 0.2), CableFinding.TOUCHING},
      {null, CableFinding.TOUCHING}
    };
    for (Object[] each : cases) {
      PairVerdicts verdicts = verdicts(open, new Touch(0, 1, ohms, (AlongRun) each[0]));
      assertThat(only(verdicts).ohms().value()).isEqualTo(0.5);
      Finding finding = verdicts.findings().get(0);
      assertThat(finding.kind()).isEqualTo(each[1]);
      assertThat(finding.words()).endsWith("where they meet");
      assertThat(finding.at()).isEqualTo(each[0]);
    }
  }

  /** P1 to P2 and P2 to P3 touch: P1 and P3 are joined through P2, which is said once. */
  @Test
  void joinedThroughAnotherIsNoTouchOfItsOwn() {
    OpenFindings open =
        new OpenFindings(0, 1, 2).joined(0, 1, 0.5).joined(1, 2, 0.5).joined(0, 2, 1.0);
    Quantity ohms = Quantity.ohms(0.1, 0.01);
    PairVerdicts verdicts =
        verdicts(open, new Touch(0, 1, ohms, null), new Touch(2, 1, ohms, null));
    assertThat(verdicts.pairs())
        .extracting(PairResult::reason)
        .containsExactly("touching", "joined through others", "touching");
    assertThat(verdicts.findings()).hasSize(2);
  }

  @Test
  void aBundleIsTogetherOneFinding() {
    OpenFindings open = new OpenFindings(0, 1, 2, 3);
    double ohms = 0.4;
    for (int a = 0; a < 4; a++) {
      for (int b = a + 1; b < 4; b++) {
        open.joined(a, b, ohms);
        ohms += 0.1;
      }
    }
    PairVerdicts verdicts = verdicts(open);
    assertThat(verdicts.pairs()).extracting(PairResult::reason).containsOnly("touching");
    assertThat(verdicts.findings())
        .singleElement()
        .satisfies(
            f -> {
              assertThat(f.kind()).isEqualTo(CableFinding.TOUCHING);
              assertThat(f.words())
                  .isEqualTo("P1, P2, P3 and P4 hang together, 0.40 to 0.90 ohm between any two");
            });
  }

  @Test
  void withoutAReadingTheNetworkTells() {
    OpenFindings open = new OpenFindings(0, 1, 2).joined(0, 1, 2).joined(1, 2, 3);
    PairResult through =
        verdicts(open).pairs().stream().filter(p -> p.a() == 0 && p.b() == 2).findFirst().get();
    assertThat(through.ohms().value()).isBetween(4.99, 5.01); // in series
  }

  @Test
  void resistancesAreSaidInThreeFigures() {
    String[][] words = {
      {"1234", "1.23 kohm"},
      {"12345", "12.3 kohm"},
      {"123456", "123 kohm"},
      {"999700", "1.00 Mohm"},
      {"99970", "100 kohm"}, // once 100.0
      {"9997", "10.0 kohm"},
      {"100000", "100 kohm"},
      {"10000", "10.0 kohm"}
    };
    for (String[] each : words) {
      double ohms = Double.parseDouble(each[0]);
      PairVerdicts verdicts = verdicts(new OpenFindings(0, 1).leaking(0, 1, ohms, ohms / 1e5));
      assertThat(only(verdicts).reason()).isEqualTo("leakage of " + each[1]);
      assertThat(verdicts.findings().get(0).words())
          .isEqualTo("P1 and P2: " + each[1] + " between them");
    }
  }

  /** Five standard uncertainties of 0.6 nS are 333.3 Mohm: more is not certain. */
  @Test
  void aboveIsNeverRoundedUp() {
    assertThat(only(verdicts(new OpenFindings(0, 1).seesDownTo(0.6e-9))).reason())
        .isEqualTo("above 333 Mohm");
    assertThat(only(verdicts(new OpenFindings(0, 1).seesDownTo(1.0 / 5 / 47.99e6))).reason())
        .isEqualTo("above 47.9 Mohm");
    assertThat(only(verdicts(new OpenFindings(0, 1).seesDownTo(1.0 / 5 / 2.5e9))).reason())
        .isEqualTo("above 2.50 Gohm");
  }

  @Test
  void theFindingNamesBothPortsAndWhatIsBetweenThem() {
    PairVerdicts touching = verdicts(new OpenFindings(0, 16).joined(0, 16, 0.5));
    assertThat(only(touching).standing()).isEqualTo(Standing.FAULTY);
    assertThat(touching.findings().get(0).words()).matches("P1 and M: 0[.]500.* ohm, touching");
    assertThat(touching.findings().get(0).ports()).containsExactly(0, 16);
  }
}
