package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.HexFormat;
import org.junit.jupiter.api.Test;

class HostEndpointTest {
  private static final HostEndpoint.Timing TIMING =
      new HostEndpoint.Timing(
          8, 50_000, 500_000, 1_000_000, 3_000_000, 400_000, 8_000_000, 1_000_000);

  private final Wire wire = new Wire();
  // Only what it was told is looked at; its own ends are never stepped here.
  private final TestBench heard = new TestBench(1, TestLine.Harm.NONE, TestBench.LIMITS);
  private final HostEndpoint host = new HostEndpoint(wire, heard, TIMING, 500);
  private long now;

  @Test
  void greetsAtOnceThenUntilItIsWelcomed() {
    step(1000);
    assertThat(wire.taken(Message.Greet.class)).containsExactly(new Message.Greet(1, 0, 0, false));
    step(499_000);
    assertThat(wire.taken()).isEmpty();
    step(1000);
    assertThat(wire.taken(Message.Greet.class)).hasSize(1);
  }

  @Test
  void isUpOnlyWhenTheBootItGreetedAnswers() {
    step(1000);
    wire.taken();
    welcome(70, 5, 9);
    assertThat(wire.taken(Message.Greet.class)).containsExactly(new Message.Greet(1, 70, 0, false));
    wire.put(frame(5)); // not confirmed yet
    step(1000);
    assertThat(heard.got).isEmpty();
    welcome(70, 5, 9);
    assertThat(heard.events).containsExactly("up 70");
    wire.put(frame(5));
    step(1000);
    assertThat(heard.got).hasSize(1);
    assertThat(heard.gaps).isEmpty(); // what went before was another host's
  }

  @Test
  void deliversInOrderAndAsksForWhatIsMissing() {
    up(70);
    wire.put(frame(0));
    wire.put(frame(0));
    wire.put(frame(3));
    wire.put(frame(4));
    wire.put(frame(1));
    step(1000);
    assertThat(heard.got).extracting(DataFrame::sequence).containsExactly(0L, 1L);
    assertThat(wire.taken(Message.Greet.class)).containsExactly(new Message.Greet(1, 70, 1, false));
    assertThat(host.counts().duplicates()).isEqualTo(1);
    assertThat(host.counts().ahead()).isEqualTo(2);
  }

  @Test
  void saysWhichFramesAreLost() {
    up(70);
    wire.put(frame(3));
    step(1000);
    welcome(70, 3, 9);
    assertThat(heard.gaps).hasSize(1);
    assertThat(heard.gaps.get(0)).containsExactly(0, 3);
    wire.put(frame(3));
    step(1000);
    assertThat(heard.got).hasSize(1);
  }

  @Test
  void acknowledgesAfterSoManyFramesOrSoMuchTime() {
    up(70);
    step(60_000);
    wire.taken();
    for (int i = 0; i < 7; i++) {
      wire.put(frame(i));
    }
    step(1000);
    assertThat(wire.taken(Message.Acknowledge.class)).isEmpty();
    wire.put(frame(7));
    step(1000);
    assertThat(wire.taken(Message.Acknowledge.class))
        .containsExactly(new Message.Acknowledge(8, 8));
    wire.put(frame(8));
    step(1000);
    assertThat(wire.taken(Message.Acknowledge.class)).isEmpty();
    step(50_000);
    assertThat(wire.taken(Message.Acknowledge.class))
        .containsExactly(new Message.Acknowledge(9, 9));
    step(500_000);
    assertThat(wire.taken(Message.Acknowledge.class)).isEmpty();
  }

  @Test
  void pingsEachSecondAndTakesThreeSecondsOfSilenceForDeath() {
    up(70);
    int pings = 0;
    for (int i = 0; i < 299; i++) {
      step(10_000);
      pings += wire.taken(Message.Ping.class).size();
    }
    assertThat(pings).isEqualTo(2); // the first went with the link's coming up
    assertThat(host.isUp()).isTrue();
    step(10_000);
    step(10_000); // and what the line took to carry the pings
    assertThat(heard.events).containsExactly("up 70", "lost");
    wire.taken();
    step(500_000);
    assertThat(wire.taken(Message.Greet.class)).containsExactly(new Message.Greet(1, 70, 0, false));
    welcome(70, 0, 0);
    assertThat(heard.events).containsExactly("up 70", "lost", "up 70");
  }

  @Test
  void aNewBootIsReportedAndItsRequestsAreGivenUp() {
    up(70);
    long request = host.arm(now);
    wire.put(frame(0));
    step(1000);
    wire.taken();
    welcome(71, 0, 0);
    assertThat(wire.taken(Message.Greet.class)).containsExactly(new Message.Greet(1, 71, 0, false));
    assertThat(host.isUp()).isFalse();
    welcome(71, 0, 0);
    assertThat(heard.events).containsExactly("up 70", "restart 70 71", "up 71");
    assertThat(heard.unanswered).containsExactly(request);
    wire.put(frame(0));
    step(1000);
    assertThat(heard.got).hasSize(2);
  }

  /** A Welcome late on the line must not make the host go back to a boot that is no more. */
  @Test
  void aLateWelcomeOfAnOldBootChangesNothing() {
    up(71);
    welcome(70, 0, 0);
    welcome(71, 0, 0);
    assertThat(wire.taken(Message.Greet.class))
        .endsWith(new Message.Greet(1, 70, 0, false), new Message.Greet(1, 71, 0, false));
    welcome(71, 0, 0);
    assertThat(host.bootId()).isEqualTo(71);
    assertThat(host.isUp()).isTrue();
    assertThat(heard.events).doesNotContain("restart 71 70");
  }

  /** The agent welcomed twice, our greeting of its boot got lost: it answers with nothing else. */
  @Test
  void greetsAgainWhenTheAgentOnlyWelcomes() {
    up(70);
    step(1_500_000);
    wire.taken();
    welcome(70, 0, 0);
    assertThat(wire.taken(Message.Greet.class)).hasSize(1);
    assertThat(host.isUp()).isTrue();
  }

  @Test
  void aRequestIsRepeatedUntilItIsAnswered() {
    up(70);
    long request = host.stop(now);
    step(1000);
    assertThat(wire.taken(Message.Stop.class)).containsExactly(new Message.Stop(500));
    step(399_000);
    assertThat(wire.taken(Message.Stop.class)).isEmpty();
    step(2000);
    assertThat(wire.taken(Message.Stop.class)).hasSize(1);
    wire.put(new Message.Reply(request, true, ""));
    wire.put(new Message.Reply(request, true, ""));
    step(900_000);
    assertThat(wire.taken(Message.Stop.class)).isEmpty();
    assertThat(heard.replies).containsOnlyKeys(request);
    assertThat(host.stop(now)).isEqualTo(501);
  }

  @Test
  void aRequestWithoutAnAnswerIsGivenUpAndSaid() {
    up(70);
    long request = host.arm(now);
    for (int i = 0; i < 8; i++) {
      step(1_000_000);
      wire.put(new Message.Alive(1, new Message.Interlock(true, false, 4), 0, 0));
    }
    assertThat(heard.unanswered).containsExactly(request);
    assertThat(heard.alive).isNotEmpty();
  }

  @Test
  void tooManyRequestsAreTheCallersMistake() {
    for (int i = 0; i < HostEndpoint.MAX_PENDING; i++) {
      host.arm(0);
    }
    assertThatThrownBy(() -> host.arm(0))
        .isInstanceOf(IllegalStateException.class)
        .hasMessageEndingWith("pending=16");
  }

  @Test
  void requestsStayWithinTheWindowTheAgentRemembers() {
    up(70);
    host.arm(now); // never answered
    for (int i = 1; i < HostEndpoint.REQUEST_WINDOW; i++) {
      wire.put(new Message.Reply(host.stop(now), true, ""));
      host.step(now);
    }
    assertThatThrownBy(() -> host.stop(now)).isInstanceOf(IllegalStateException.class);
  }

  /**
   * At 115200 baud the largest program takes nearly three seconds to send: neither retry nor death.
   */
  @Test
  void aLargeProgramOnASlowLineIsNeitherRepeatedNorTakenForSilence() {
    Wire slowWire = new Wire();
    HostEndpoint slow = new HostEndpoint(slowWire, heard, HostEndpoint.Timing.forBaud(115_200), 1);
    slow.step(0);
    slowWire.put(welcomeOf(70, 0, 0));
    slow.step(1000);
    slowWire.put(welcomeOf(70, 0, 0));
    slow.run(1, TestMessages.largestRun().steps(), 2000);
    slow.step(2000);
    assertThat(slowWire.taken(Message.Run.class).size()).isEqualTo(1);
    slow.step(3_200_000); // 31.8 kB: 2.8 s and the 0.5 s
    assertThat(slow.isUp()).isTrue();
    assertThat(slowWire.taken(Message.Run.class).size()).isZero();
    slow.step(3_400_000);
    assertThat(slowWire.taken(Message.Run.class).size()).isEqualTo(1);
  }

  @Test
  void aGoneDeviceIsNoticedAtOnceAndAnotherChannelGoesOn() {
    up(70);
    wire.put(frame(0));
    step(1000);
    wire.gone = true;
    step(1000);
    assertThat(heard.events).containsExactly("up 70", "lost");
    Wire other = new Wire();
    host.attach(other);
    step(1000);
    assertThat(other.taken(Message.Greet.class))
        .containsExactly(new Message.Greet(1, 70, 1, false));
  }

  @Test
  void anotherProtocolIsSaidOnce() {
    step(1000);
    for (int i = 0; i < 3; i++) {
      wire.put(new Message.Welcome(2, "9", "B", 70, 0, 0, "", 115_200, 0));
      step(1000);
    }
    assertThat(heard.events).containsExactly("protocol 2");
    assertThat(host.isUp()).isFalse();
  }

  @Test
  void whatItDoesNotKnowIsAnsweredAndAnAnswerIsNot() {
    up(70);
    wire.putItem(HexFormat.of().parseHex("82186305"));
    wire.put(new Message.NotUnderstood(4));
    step(1000);
    assertThat(wire.taken(Message.NotUnderstood.class))
        .containsExactly(new Message.NotUnderstood(99));
    assertThat(heard.events).contains("not understood 4");
  }

  /** Sent again they would be no better, and the stream would stand still. */
  @Test
  void dataItCannotReadTakeTheirPlaceInTheOrder() {
    up(70);
    wire.putItem(HexFormat.of().parseHex("840c000882186305")); // 0: a later protocol's
    wire.putItem(HexFormat.of().parseHex("840c01088111")); // 1: Ended without fields
    wire.put(frame(2));
    step(1000);
    assertThat(heard.events).contains("unreadable 0", "unreadable 1");
    assertThat(heard.got).extracting(DataFrame::sequence).containsExactly(2L);
  }

  private void up(long bootId) {
    step(1000);
    welcome(bootId, 0, 0);
    welcome(bootId, 0, 0);
    assertThat(host.isUp()).isTrue();
    wire.taken();
  }

  private void welcome(long bootId, long oldest, long next) {
    wire.put(welcomeOf(bootId, oldest, next));
    step(1000);
  }

  private static Message.Welcome welcomeOf(long bootId, long oldest, long next) {
    return new Message.Welcome(1, "0.1", "A", bootId, oldest, next, "", 115_200, 0);
  }

  private void step(long micros) {
    now += micros;
    host.step(now);
  }

  private static DataFrame frame(long sequence) {
    return new DataFrame(sequence, 1, new Message.Trouble("converter", "x"));
  }
}
