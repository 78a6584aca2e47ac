package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.board.BoardDescription;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Ended.Outcome;
import bellwire.link.Rate;
import bellwire.simbench.RandomBenches;
import bellwire.simbench.cable.SimulatedCopper;
import bellwire.simbench.chip.ConverterErrors;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/** The agent on the circuit itself, with boards and converters drawn from their tolerances. */
class AgentOnCircuitTest {

  private static Rig rig(SimulatedCopper copper, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    ConverterErrors errors =
        ConverterErrors.draw(BoardDescription.revisionA(), 1.0, random.split());
    return new Rig(copper, errors, random);
  }

  /** A board within its tolerances passes, whatever hangs on it: its relays are open. */
  @Test
  void soundBoardsPassTheSelfCheck() {
    for (long seed = 1; seed <= 40; seed++) {
      SimulatedCopper copper = new SimulatedCopper(RandomBenches.of(seed, 5, ""), seed);
      try (Rig rig = rig(copper, seed).ready()) {
        assertThat(rig.selfCheck).as("seed=%d", seed).isEmpty();
      }
    }
  }

  @Test
  void foreignVoltageEndsAProgramAndTheBoardIsNotArmedAgain() {
    String foreign =
        "surroundings: {foreign: [{between: [P1, P2], volts: 26, hz: 60, ohm: 2, from: 1.2 s}]}";
    SimulatedCopper copper = new SimulatedCopper(RandomBenches.of(1, 3, foreign));
    try (Rig rig = rig(copper, 1).ready()) {
      rig.program(Rig.driving(Rate.SPS_20, 100));
      rig.run(200);
      assertThat(copper.connected(rig.clock.nanos())).isTrue();
      rig.run(300);
      assertThat(rig.data(Ended.class))
          .extracting(Ended::outcome)
          .containsExactly(Outcome.INTERLOCK);
      assertThat(copper.connected(rig.clock.nanos())).isFalse();
      long arm = rig.arm();
      rig.run(200);
      assertThat(rig.reply(arm)).hasValueSatisfying(r -> assertThat(r.accepted()).isFalse());
      assertThat(copper.tripped(rig.clock.nanos())).isTrue();
    }
  }

  /** The watchdog lets go of driven conductors, and their charge takes the others along. */
  @Test
  void aProgramThatWasHeldUpIsNoVoltage() {
    int trips = 0;
    for (long seed = 1; seed <= 24; seed++) {
      SimulatedCopper copper = new SimulatedCopper(RandomBenches.of(seed, 5, ""), seed);
      try (Rig rig = rig(copper, seed).ready()) {
        heldUp(rig);
        if (copper.tripped(rig.clock.nanos())) {
          trips++;
          assertThat(rig.data(Ended.class))
              .as("seed=%d", seed)
              .extracting(Ended::outcome)
              .containsExactly(Outcome.HELD_UP);
          assertThat(armed(rig)).as("seed=%d", seed).isTrue();
          rig.program(Rig.driving(Rate.SPS_20, 1));
          rig.run(200);
        } else {
          rig.run(5000);
        }
        assertThat(rig.data(Ended.class))
            .as("seed=%d", seed)
            .extracting(Ended::outcome)
            .endsWith(Outcome.DONE);
      }
    }
    assertThat(trips).isPositive();
  }

  @Test
  void aVoltageThatComesWhileTheAgentIsHeldUpKeepsTheBoardFromBeingArmed() {
    String foreign =
        "surroundings: {foreign: [{between: [P1, M], volts: 26, hz: 60, ohm: 2, from: 1.38 s}]}";
    SimulatedCopper copper = new SimulatedCopper(RandomBenches.of(1, 3, foreign));
    try (Rig rig = rig(copper, 1).ready()) {
      heldUp(rig);
      assertThat(copper.tripped(rig.clock.nanos())).isTrue();
      assertThat(rig.data(Ended.class)).extracting(Ended::outcome).containsExactly(Outcome.HELD_UP);
      assertThat(armed(rig)).isFalse();
      assertThat(copper.connected(rig.clock.nanos())).isFalse();
    }
  }

  private static void heldUp(Rig rig) {
    rig.program(Rig.driving(Rate.SPS_20, 100));
    rig.run(500);
    rig.tick(80_000);
    rig.run(300);
  }

  private static boolean armed(Rig rig) {
    long arm = rig.arm();
    rig.run(300);
    return rig.reply(arm).orElseThrow().accepted();
  }
}
