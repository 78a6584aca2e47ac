package bellwire.analysis.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.fault.Explanation;
import bellwire.analysis.fault.Fault;
import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import org.junit.jupiter.api.Test;

class FaultFindingsTest {
  private static final Quantity HALF = new Quantity(0.5, 0.01, "");
  private static final Fault BRIDGE =
      new Fault(Fault.Kind.BRIDGE, List.of(0), List.of(1), HALF, Quantity.ohms(0.1, 0.01));
  private static final Fault OPEN = new Fault(Fault.Kind.OPEN, List.of(1), List.of(), HALF, null);
  private static final Fault JOINT =
      new Fault(Fault.Kind.JOINT, List.of(0), List.of(), HALF, Quantity.ohms(2.0, 0.1));

  private final OpenResult touching = new OpenFindings(0, 1, 2).joined(0, 1, 0.5).result();

  private List<Finding> of(boolean explained, Fault... faults) {
    return FaultFindings.of(
        touching, List.of(new Explanation(List.of(faults), 0.9, explained)), null);
  }

  @Test
  void brokenAndTouchingNamesTheOther() {
    assertThat(of(true, BRIDGE, OPEN))
        .singleElement()
        .satisfies(
            f -> {
              assertThat(f.kind()).isEqualTo(CableFinding.BROKEN_BESIDE);
              assertThat(f.words()).isEqualTo("P2 is broken and touches P1");
              assertThat(f.at()).isNotNull();
            });
    Fault other = new Fault(Fault.Kind.OPEN, List.of(0), List.of(), HALF, null);
    assertThat(of(true, BRIDGE, other).get(0).words()).isEqualTo("P1 is broken and touches P2");
  }

  @Test
  void aBreakBesideNoTouchHasItsOwnFinding() {
    Fault far = new Fault(Fault.Kind.OPEN, List.of(2), List.of(), HALF, null);
    assertThat(of(true, BRIDGE, far)).isEmpty();
  }

  @Test
  void whereItTouchesUnsurelyItTouchesAnother() {
    List<Finding> findings =
        FaultFindings.of(
            touching, List.of(new Explanation(List.of(BRIDGE, OPEN), 0.3, true)), null);
    assertThat(findings.get(0).words()).isEqualTo("P2 is broken and touches another");
    assertThat(findings.get(0).at()).isNull();
  }

  @Test
  void aJointBesidesIsToldWhereItsConductorTouches() {
    assertThat(of(true, BRIDGE, JOINT))
        .singleElement()
        .satisfies(
            f -> {
              assertThat(f.kind()).isEqualTo(CableFinding.JOINT);
              assertThat(f.words()).isEqualTo("P1 has a joint of about 2.00 ± 0.10 ohm besides");
              assertThat(f.at()).isNotNull();
            });
    Fault alone = new Fault(Fault.Kind.JOINT, List.of(2), List.of(), null, Quantity.ohms(2.0, 0.1));
    assertThat(of(true, alone)).isEmpty(); // the fellows' comparison tells it
  }

  @Test
  void whatNothingExplainsIsSaidOfWhatTouches() {
    assertThat(of(false, BRIDGE, OPEN, JOINT))
        .singleElement()
        .satisfies(
            f -> {
              assertThat(f.kind()).isEqualTo(CableFinding.UNEXPLAINED);
              assertThat(f.ports()).containsExactly(0, 1);
              assertThat(f.words()).startsWith("what was read of P1 and P2 fits no fault");
            });
    List<Finding> apart =
        FaultFindings.of(
            new OpenFindings(0, 1).result(), List.of(new Explanation(List.of(), 1, false)), null);
    assertThat(apart.get(0).words()).startsWith("what was read fits no fault");
    assertThat(FaultFindings.of(touching, List.of(), null)).isEmpty();
  }

  @Test
  void brokenBesideIsByAnExplanationThatExplains() {
    Explanation good = new Explanation(List.of(BRIDGE, OPEN, JOINT), 0.9, true);
    assertThat(FaultFindings.brokenBeside(List.of(good))).containsExactly(1);
    assertThat(FaultFindings.brokenBeside(List.of(new Explanation(good.faults(), 0.9, false))))
        .isEmpty();
    assertThat(FaultFindings.brokenBeside(List.of())).isEmpty();
    assertThat(FaultFindings.brokenBeside(List.of(new Explanation(List.of(OPEN), 0.9, true))))
        .isEmpty();
  }
}
