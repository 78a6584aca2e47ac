package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.Act;
import bellwire.app.job.Act.Kind;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What counts as made safe: the order live, dead, live, and what switching on again undoes. */
class MadeSafeTest {
  private static long key;

  private static Act act(Kind kind, boolean withdrawn) {
    return new Act(++key, kind, "", "", "", 0, withdrawn);
  }

  private static Act act(Kind kind) {
    return act(kind, false);
  }

  @Test
  void allFourInAnyOrderWarnOfNothing() {
    SafeActs acts =
        new SafeActs(
            List.of(
                act(Kind.CLIPPED_TO_METAL),
                act(Kind.SWITCHED_OFF),
                act(Kind.PROVED_DEAD),
                act(Kind.CAUTIONS_READ)));
    assertThat(acts.missing()).isEmpty();
    assertThat(acts.warning()).isEmpty();
  }

  @Test
  void nothingRecordedIsWarnedOfByName() {
    assertThat(new SafeActs(List.of()).warning())
        .contains("cautions read", "switched off", "proved dead")
        .doesNotContain("metal");
  }

  @Test
  void switchingOnAgainEndsWhatWasProved() {
    SafeActs acts =
        new SafeActs(
            List.of(
                act(Kind.CAUTIONS_READ),
                act(Kind.SWITCHED_OFF),
                act(Kind.PROVED_DEAD),
                act(Kind.CLIPPED_TO_METAL),
                act(Kind.SWITCHED_ON)));
    assertThat(acts.missing()).containsExactly(Kind.SWITCHED_OFF, Kind.PROVED_DEAD);
  }

  @Test
  void whatWasWithdrawnCountsNotEvenAsSwitchedOn() {
    SafeActs acts =
        new SafeActs(
            List.of(
                act(Kind.SWITCHED_OFF), act(Kind.PROVED_DEAD, true), act(Kind.SWITCHED_ON, true)));
    assertThat(acts.standing(Kind.SWITCHED_OFF)).isPresent();
    assertThat(acts.standing(Kind.PROVED_DEAD)).isEmpty();
  }

  @Test
  void threeReadingsProve() {
    LiveDeadLive proof = LiveDeadLive.of("24.6", "-0,1 V", "24.5v");
    assertThat(proof.trouble()).isEmpty();
    assertThat(proof.words()).isEqualTo("live 24.6 V, cable 0.1 V, live 24.5 V");
  }

  @Test
  void voltageOnTheCableIsNoProof() {
    assertThat(LiveDeadLive.of("24", "24", "24").trouble()).startsWith("NOT DEAD");
    assertThat(LiveDeadLive.of("24", "-5", "24").trouble()).startsWith("NOT DEAD");
    assertThat(LiveDeadLive.of("24", "1.0", "24").trouble()).startsWith("NOT DEAD");
  }

  @Test
  void aMeterThatShowedNoLiveSourceProvesNothing() {
    assertThat(LiveDeadLive.of("0", "0", "24").words()).isEmpty();
    assertThat(LiveDeadLive.of("24", "0", "0").words()).isEmpty();
    assertThat(LiveDeadLive.of("24", "0", "12").trouble()).contains("differently");
    assertThat(LiveDeadLive.of("24", "", "24").trouble()).contains("all three");
    assertThat(LiveDeadLive.of("24", "NaN", "24").words()).isEmpty();
  }
}
