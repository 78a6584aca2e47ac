package bellwire.simbench.pi4j;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.link.Message;
import bellwire.link.Rate;
import bellwire.simbench.chip.FaultyLine.Fault;
import org.junit.jupiter.api.Test;

/** What comes between a host's Arm and its answer. */
class ArmingTest {

  private static String reason(Rig rig, long request) {
    assertThat(rig.reply(request)).as("no answer").isPresent();
    Message.Reply reply = rig.reply(request).get();
    assertThat(reply.accepted()).isFalse();
    return reply.reason();
  }

  private static void untilRearmed(Rig rig) {
    for (int ms = 0; ms < 500 && rig.copper.rearms == 0; ms++) {
      rig.tick();
    }
    assertThat(rig.copper.rearms).isEqualTo(1);
  }

  @Test
  void aTripRightAfterTheRearmIsRefusedAndNothingIsDriven() {
    try (Rig rig = new Rig()) {
      rig.run(150);
      long arm = rig.arm();
      untilRearmed(rig);
      rig.copper.foreignVoltage(rig.clock.nanos() - 500_000, Long.MAX_VALUE);
      rig.run(3);
      assertThat(reason(rig, arm)).isEqualTo("the interlock tripped again at once");
      rig.run(500);
      assertThat(rig.copper.conversions).isZero();
      assertThat(rig.copper.violations()).isEmpty();
    }
  }

  @Test
  void aTripDuringTheSelfCheckIsRefusedAndTheBoardIsAtRest() {
    try (Rig rig = new Rig()) {
      rig.run(150);
      long arm = rig.arm();
      untilRearmed(rig);
      rig.run(100);
      assertThat(rig.copper.lastTestLoad).isTrue();
      rig.copper.foreignVoltage(rig.clock.nanos() + 300_000, Long.MAX_VALUE);
      rig.run(2);
      assertThat(reason(rig, arm)).isEqualTo("the interlock tripped during the self-check");
      assertThat(rig.copper.word()).isZero();
      assertThat(rig.copper.lastTestLoad).isFalse();
      assertThat(rig.selfCheck).contains("not yet run");
      assertThat(rig.copper.violations()).isEmpty();
    }
  }

  @Test
  void afterTheSelfCheckTheTestLoadIsOff() {
    try (Rig rig = new Rig().ready()) {
      assertThat(rig.selfCheck).isEmpty();
      assertThat(rig.copper.lastTestLoad).isFalse();
      assertThat(rig.copper.word()).isZero();
    }
  }

  @Test
  void aFailedSelfCheckIsTheAnswerAndNoLaterOneWithoutAnArm() {
    try (Rig rig = new Rig()) {
      rig.copper.checkLowOhms *= 1.1;
      rig.run(150);
      long arm = rig.arm();
      rig.run(700);
      assertThat(reason(rig, arm)).isEqualTo(rig.selfCheck).contains("low range");
      assertThat(rig.copper.lastTestLoad).isFalse();
      int conversions = rig.copper.conversions;
      rig.run(500);
      assertThat(rig.copper.conversions).isEqualTo(conversions);
    }
  }

  @Test
  void aChipThatFailsMeanwhileIsTheAnswer() {
    try (Rig rig = new Rig()) {
      rig.run(150);
      long arm = rig.arm();
      untilRearmed(rig);
      rig.run(50);
      rig.chips.device("crosspoint").fail(Fault.UNHEARD, 0);
      rig.run(300);
      assertThat(reason(rig, arm)).contains("crosspoint");
      rig.run(300);
      assertThat(rig.replies).hasSize(1);
    }
  }

  /** An answer to an Arm of long ago would be taken for another request's. */
  @Test
  void aChipThatFailsLaterAnswersNoArm() {
    try (Rig rig = new Rig().ready()) {
      rig.program(Rig.driving(Rate.SPS_50, 40));
      rig.run(100);
      int replies = rig.replies.size();
      rig.chips.device("converter").fail(Fault.STUCK_LOW, 0);
      rig.run(300);
      assertThat(rig.data(Message.Trouble.class)).hasSize(1);
      assertThat(rig.replies).hasSize(replies);
    }
  }

  @Test
  void monitorsRunBeforeAnySelfCheckAndDrivingSaysWhyNot() {
    try (Rig rig = new Rig()) {
      rig.run(150);
      rig.copper.rearm(rig.clock.nanos()); // clear, but never checked
      rig.run(2);
      long monitor = rig.program(Rig.monitoring(0, Rate.SPS_200, 1));
      rig.run(30);
      assertThat(rig.reply(monitor)).hasValueSatisfying(r -> assertThat(r.accepted()).isTrue());
      long driving = rig.program(Rig.driving(Rate.SPS_200, 1));
      rig.run(2);
      assertThat(reason(rig, driving)).isEqualTo("self-check " + rig.selfCheck).contains("not yet");
    }
  }

  /** No watchdog stands behind dummy loads: what cannot be switched off is tried again. */
  @Test
  void loadsThatCouldNotBeSwitchedOffAreSwitchedOffAsSoonAsTheyCan() {
    try (Rig rig = new Rig().ready()) {
      rig.watch(false, 0xFF);
      rig.run(20);
      assertThat(rig.chips.loads()).isEqualTo(0xFF);
      rig.chips.device("expanders").fail(Fault.UNHEARD, 0);
      rig.run(1500);
      assertThat(rig.data(Message.Trouble.class)).hasSize(1);
      assertThat(rig.chips.loads()).isEqualTo(0xFF);
      rig.chips.device("expanders").fail(Fault.NONE, 0);
      rig.run(201); // the first try after it may still be called badly heard
      assertThat(rig.chips.loads()).isZero();
    }
  }
}
