package bellwire.app.desk.landing;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.LoopFinding;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import java.util.List;
import org.junit.jupiter.api.Test;

class FindingWayTest {
  private static final String LANDING =
      """
      bellwire-landing: 1
      title: Two conductors under one terminal
      equipment: furnace-cooling
      control: one-stage
      cable:
        gauge: 18 AWG
        length: 20 m
        conductors: [red, white, brown, green, blue]
      as-planned:
        landed:
          red: [R, RC]
          white: [W, Y1]
          brown: [Y, Y1]
          green: [G, G]
          blue: [C, C]
        jumpers: [[RC, RH]]
      """;

  /**
   * Followed by hand: cooling closes Y1 to RC; white leads from there to W, whose input closes the
   * burner relay; brown leads to the contactor; both come back by C within the equipment.
   */
  @Test
  void aRelaysOwnCurrentIsFollowedAlongTheCable() throws Exception {
    LandingDraft draft = LandingDraft.read("two-under-one.yaml", LANDING);
    Checked checked =
        Checker.checked(draft, Which.AS_PLANNED, draft.installation(Which.AS_PLANNED));
    List<LoopFinding> kinds = checked.found().stream().map(f -> f.kind()).toList();
    int at = kinds.indexOf(LoopFinding.HEAT_AND_COOL);
    assertThat(at).as(kinds.toString()).isNotNegative();
    FindingWay way = checked.ways().get(at);
    assertThat(way.keys())
        .containsExactlyInAnyOrder(
            "near:R",
            "conductor:red",
            "far:RC",
            "far:Y1",
            "conductor:white",
            "near:W",
            "conductor:brown",
            "near:Y",
            "near:C");
    assertThat(way.words())
        .singleElement()
        .asString()
        .startsWith("burner relay is closed by: transformer")
        .containsSubsequence("red", "Y1 at the control", "white", "heat input");
  }
}
