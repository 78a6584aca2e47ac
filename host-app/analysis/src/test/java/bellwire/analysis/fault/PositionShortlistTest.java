package bellwire.analysis.fault;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.fault.Supposition.Pair;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Assignments of two that touch to the free positions of the plug, before anything is fitted. */
class PositionShortlistTest {
  private static final Supposition BRIDGED = Supposition.bridges(List.of(new Pair(0, 1)));

  private static PositionShortlist shortlist(Evidence evidence) {
    int ports = evidence.setting().ports();
    return new PositionShortlist(evidence, List.of(0, 1), List.of(0, 1), new double[ports][ports]);
  }

  private static boolean coded(Evidence evidence, Ratio ratio) {
    return evidence.stages().get(ratio.stage()).kind() == Stage.Kind.CODED;
  }

  /** Three are free for two, in six ways; with 200 ohm between them only one comes near. */
  @Test
  void theTrueAssignmentComesFirst() {
    for (double ohms : new double[] {0.5, 20, 200}) {
      SyntheticCable cable = NominalCable.of(5, 6).bridge(0, 1, 0.5, ohms);
      PositionShortlist.Listing listing = shortlist(cable.evidence()).of(BRIDGED);
      assertThat(listing.assignments().get(0))
          .isEqualTo(Map.of(0, cable.position(0), 1, cable.position(1)));
      assertThat(listing.assignments()).doesNotHaveDuplicates();
      assertThat(listing.complete()).isTrue();
      if (ohms > 100) {
        assertThat(listing.assignments()).hasSize(1);
      } else {
        assertThat(listing.assignments())
            .as("which is which hardly shows")
            .hasSize(2)
            .contains(Map.of(0, cable.position(1), 1, cable.position(0)));
      }
    }
  }

  @Test
  void aPositionThatIsKnownIsInEveryAssignment() {
    SyntheticCable cable = NominalCable.of(5, 6).bridge(0, 1, 0.5, 20);
    PositionShortlist.Listing listing = shortlist(NominalCable.located(cable)).of(BRIDGED);
    assertThat(listing.assignments())
        .containsExactly(Map.of(0, cable.position(0), 1, cable.position(1)));
    assertThat(listing.complete()).isTrue();
  }

  /** It does not reach the plug, or what it has there is not its own. */
  @Test
  void aBrokenOrLentConductorHasNoPosition() {
    SyntheticCable cable = NominalCable.of(5, 6).bridge(0, 1, 0.5, 20).broken(1, 0.7);
    PositionShortlist shortlist = shortlist(cable.evidence());
    assertThat(shortlist.of(BRIDGED.alsoBroken(1)).assignments())
        .containsExactly(Map.of(0, cable.position(0)));
    assertThat(shortlist.of(BRIDGED.lentTo(1)).assignments())
        .allSatisfy(each -> assertThat(each).containsOnlyKeys(0));
    PositionShortlist.Listing none = shortlist.of(BRIDGED.alsoBroken(0).alsoBroken(1));
    assertThat(none.assignments()).containsExactly(Map.of());
    assertThat(none.complete()).isTrue();
  }

  /** Twelve are free: 132 ways, of which many have the two in parallel alike. */
  @Test
  void noMoreThanEightAreListed() {
    Evidence evidence = NominalCable.of(6, 16).bridge(0, 1, 0.5, 0.05).evidence();
    PositionShortlist.Listing listing = shortlist(evidence).of(BRIDGED);
    assertThat(listing.assignments()).hasSize(8).doesNotHaveDuplicates();
    assertThat(listing.complete()).isFalse();
  }

  /** Two may take 16 free positions in 240 ways, 17 in 272; more than 250 are not tried. */
  @Test
  void withSeventeenFreePositionsTheCodedPlugTellsNothing() {
    Evidence few = NominalCable.of(5, 19).bridge(0, 1, 0.5, 20).evidence();
    assertThat(few.positions()).hasSize(3);
    assertThat(shortlist(few).usable()).anyMatch(r -> coded(few, r));
    Evidence many = NominalCable.of(5, 20).bridge(0, 1, 0.5, 20).evidence();
    assertThat(shortlist(many).usable()).isNotEmpty().noneMatch(r -> coded(many, r));
    PositionShortlist.Listing listing = shortlist(many).of(BRIDGED);
    assertThat(listing.assignments()).containsExactly(Map.of());
    assertThat(listing.complete()).as("any position may be right").isFalse();
    Diagnosis.Outcome outcome = Diagnosis.of(many);
    assertThat(outcome.positions()).isEmpty();
    assertThat(outcome.explanations().get(0).explained()).isTrue();
    assertThat(outcome.explanations().get(0).faults()).hasSize(1);
  }

  @Test
  void readingsOnTheCodedPlugCanBeLeftOut() {
    Evidence evidence = NominalCable.of(5, 6).bridge(0, 1, 0.5, 20).evidence();
    PositionShortlist shortlist = shortlist(evidence);
    assertThat(shortlist.usable())
        .isNotEmpty()
        .allMatch(r -> r.p() < 2)
        .anyMatch(r -> coded(evidence, r));
    List<Ratio> rest = shortlist.usable().stream().filter(r -> !coded(evidence, r)).toList();
    assertThat(shortlist.withoutCoded()).isEqualTo(rest);
    assertThat(shortlist.usable()).isEqualTo(rest);
    assertThat(shortlist.of(BRIDGED).assignments()).containsExactly(Map.of());
  }

  /**
   * Whatever is lent to one conductor, the other's position shows; two free positions near the true
   * one may be as near before the fit. The first guess at the arm, 350 ohm, once ruled it out.
   */
  @Test
  void whicheverArmIsLentTheOtherConductorsPositionIsListed() {
    SyntheticCable cable = NominalCable.of(6, 7).bridge(0, 1, 0.5, 1).broken(4, 0.7);
    PositionShortlist shortlist = shortlist(cable.evidence());
    for (int lent : new int[] {0, 1}) {
      PositionShortlist.Listing listing = shortlist.of(BRIDGED.lentTo(lent));
      assertThat(listing.complete()).isTrue();
      assertThat(listing.assignments().get(0))
          .isEqualTo(Map.of(1 - lent, cable.position(1 - lent)));
    }
  }
}
