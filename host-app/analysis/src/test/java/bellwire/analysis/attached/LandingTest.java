package bellwire.analysis.attached;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import bellwire.analysis.attached.Landing.Joined;
import bellwire.analysis.survey.OpenFindings;
import bellwire.analysis.survey.OpenResult;
import bellwire.analysis.survey.Ports;
import bellwire.analysis.survey.StarResult;
import bellwire.analysis.uncertainty.Quantity;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What is kept of a survey in place, for a comparison later. */
class LandingTest {
  private static final Attachment COIL = new Attachment(0, 1, LoadKind.COIL, 0.999, 16, 0.25);

  private static OpenResult open() {
    return new OpenFindings(0, 1, 2, 3, 16).joined(0, 1, 16).farads(2, 1.8e-9).result();
  }

  @Test
  void whatIsJoinedIsKeptOnceTheLowerPortFirst() {
    Landing landing = Landing.of(open(), List.of(COIL), null);
    assertThat(landing.ports()).containsExactly(0, 1, 2, 3, 16);
    assertThat(landing.joined()).containsExactly(new Joined(0, 1, 16, 0.016));
    assertThat(landing.attached()).containsExactly(COIL);
    assertThat(landing.arms()).isEmpty();
  }

  /** What touches another has no capacitance of its own, and metal none that is read. */
  @Test
  void capacitancesAreThoseOfSingleConductors() {
    Landing landing = Landing.of(open(), List.of(), null);
    assertThat(landing.farads()).isEqualTo(Map.of(2, 1.8e-9, 3, 1.5e-9));
  }

  /** A fit that says 3 kohm and more has not told the arm: it says nothing of its size. */
  @Test
  void anArmThatWasNotToldIsKeptAsAnyArm() {
    StarResult tie =
        new StarResult(
            List.of(2, 3),
            Map.of(2, Quantity.ohms(0.9, 0.01), 3, Quantity.ohms(3001, 5)),
            Map.of(),
            null,
            List.of(),
            0,
            new double[Ports.COUNT]);
    Landing landing = Landing.of(open(), List.of(), tie);
    assertThat(landing.arms())
        .isEqualTo(Map.of(2, Quantity.ohms(0.9, 0.01), 3, Quantity.ohms(1, 3000)));
  }

  @Test
  void anAttachmentJoinsItsTwoPortsEitherWay() {
    assertThat(COIL.joins(0, 1) && COIL.joins(1, 0)).isTrue();
    assertThat(COIL.joins(0, 2) || COIL.joins(2, 1) || COIL.joins(1, 2) || COIL.joins(2, 0))
        .isFalse();
    assertThat(COIL.joins(0, 0) || COIL.joins(1, 1)).isFalse();
  }

  @Test
  void aCoilAndASecondaryAreWindings() {
    for (LoadKind kind : LoadKind.values()) {
      assertThat(new Attachment(0, 1, kind, 1, 16, 0.25).winding())
          .as(kind.name())
          .isEqualTo(kind == LoadKind.COIL || kind == LoadKind.SECONDARY);
    }
  }

  /** The junction of a diode adds to both its conductors; no second cable does. */
  @Test
  void whatIsAttachedIsNoSecondCable() {
    OpenResult open =
        new OpenFindings(0, 1, 2, 3, 4, 5).farads(2, 1.8e-9).farads(4, 1.82e-9).result();
    assertThat(SecondCable.ports(open, List.of())).containsExactly(2, 4);
    Attachment diode = new Attachment(2, 4, LoadKind.DIODE, 1, Double.NaN, 0.62);
    assertThat(SecondCable.ports(open, List.of(diode))).isEmpty();
    Attachment turned = new Attachment(5, 4, LoadKind.DIODE, 1, Double.NaN, 0.62);
    assertThat(SecondCable.ports(open, List.of(turned))).isEmpty();
    assertThat(SecondCable.ports(new OpenFindings().result(), List.of())).isEmpty();
  }

  /** Five standard uncertainties of a vague reading are more than an eighth of it. */
  @Test
  void aVagueCapacitanceIsNoSecondCables() {
    OpenResult open = new OpenFindings(0, 1, 2, 3, 4).farads(2, 1.8e-9).farads(4, 1.82e-9).result();
    open.clusterFarads().set(4, new Quantity(1.82e-9, 0.065e-9, "F"));
    assertThat(SecondCable.ports(open, List.of())).isEmpty();
    open.clusterFarads().set(4, new Quantity(1.82e-9, 0.063e-9, "F"));
    assertThat(SecondCable.ports(open, List.of())).containsExactly(2, 4);
    assertThat(open.farads(4).u()).isCloseTo(0.063e-9, within(1e-15));
  }
}
