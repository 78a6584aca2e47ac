package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import java.util.List;
import org.junit.jupiter.api.Test;

/** A host that stores what it gets before the agent may let go of it, and what a boot recorded. */
class DeferredHostTest {
  private static final HostEndpoint.Timing TIMING =
      new HostEndpoint.Timing(
          8, 50_000, 500_000, 1_000_000, 3_000_000, 400_000, 8_000_000, 1_000_000);

  private final Wire wire = new Wire();
  private final TestBench heard = new TestBench(1, TestLine.Harm.NONE, TestBench.LIMITS);
  private final HostEndpoint host = new HostEndpoint(wire, heard, TIMING, 500);
  private long now;

  @Test
  void whatHasComeIsReceivedAndWhatIsStoredIsSafe() {
    host.deferAcknowledgement();
    up(70);
    for (int i = 0; i < 3; i++) {
      wire.put(frame(i));
    }
    step(60_000);
    assertThat(wire.taken(Message.Acknowledge.class))
        .containsExactly(new Message.Acknowledge(0, 3));
    host.stored(70, 2);
    step(60_000);
    assertThat(wire.taken(Message.Acknowledge.class))
        .containsExactly(new Message.Acknowledge(2, 3));
    host.stored(70, 1); // less than before: nothing new
    host.stored(69, 3); // of another boot
    step(60_000);
    assertThat(wire.taken(Message.Acknowledge.class)).isEmpty();
    host.stored(70, 99); // more than has come
    step(60_000);
    assertThat(wire.taken(Message.Acknowledge.class))
        .containsExactly(new Message.Acknowledge(3, 3));
  }

  @Test
  void theGreetingSaysThatItStores() {
    host.deferAcknowledgement();
    step(1000);
    assertThat(wire.taken(Message.Greet.class)).containsExactly(new Message.Greet(1, 0, 0, true));
  }

  @Test
  void aHostStartedAnewGoesOnWhereItsPredecessorEnded() {
    host.resume(70, 5);
    step(1000);
    assertThat(wire.taken(Message.Greet.class)).containsExactly(new Message.Greet(1, 70, 5, false));
    welcome(70, 3);
    wire.put(frame(4));
    wire.put(frame(5));
    step(1000);
    assertThat(heard.got).extracting(DataFrame::sequence).containsExactly(5L);
    assertThat(host.nextSequence()).isEqualTo(6);
    assertThat(heard.events).containsExactly("up 70");
  }

  @Test
  void whatAnEarlierBootRecordedComesOnceAndItsGapsAreTold() {
    host.resume(60, 4);
    host.resume(70, 0);
    step(1000);
    welcome(70, 0);
    wire.put(recorded(0, 60, 3, 0)); // had it
    wire.put(recorded(1, 60, 4, 0));
    wire.put(recorded(2, 60, 8, 3)); // 5 to 7 are lost
    wire.put(recorded(3, 60, 8, 0)); // again
    wire.put(recorded(4, 61, 2, 2)); // another boot's first two are lost
    step(1000);
    assertThat(heard.got).extracting(DataFrame::sequence).containsExactly(1L, 2L, 4L);
    assertThat(heard.events)
        .containsExactly("up 70", "repeated 0", "lost of 60 5 8", "repeated 3", "lost of 61 0 2");
    assertThat(host.counts().delivered()).isEqualTo(3);
    assertThat(host.counts().duplicates()).isEqualTo(2);
  }

  /** The last acknowledgement may be lost, and nothing would come after it. */
  @Test
  void whetherTheAgentHasLetGoIsAskedAndTold() {
    host.deferAcknowledgement();
    up(70);
    assertThat(host.handedOver()).isTrue();
    wire.put(frame(0));
    step(1000);
    host.stored(70, 1);
    step(60_000);
    wire.taken();
    assertThat(host.handedOver()).isFalse();
    host.askKept(now);
    assertThat(wire.taken())
        .containsExactly(
            new Incoming.Plain(new Message.Acknowledge(1, 1)),
            new Incoming.Plain(new Message.Greet(1, 70, 1, true)));
    welcome(70, 0);
    assertThat(host.handedOver()).isFalse();
    host.askKept(now);
    welcome(70, 1);
    assertThat(host.handedOver()).isTrue();
  }

  /** The disk lost 0 to 9; the first four of them this host had from the boot itself. */
  @Test
  void whatTheHostHadIsNotLost() {
    host.resume(60, 4);
    host.resume(70, 0);
    step(1000);
    welcome(70, 0);
    wire.put(recorded(0, 60, 10, 10));
    step(1000);
    assertThat(heard.events).containsExactly("up 70", "lost of 60 4 10");
  }

  /** A boot that ended while this host listened hands over its record by the next boot. */
  @Test
  void whatCameByTheBootItselfDoesNotComeAgainByItsRecord() {
    up(70);
    wire.put(frame(0));
    wire.put(frame(1));
    step(1000);
    welcome(71, 0);
    welcome(71, 0);
    wire.put(recorded(0, 70, 1, 0));
    wire.put(recorded(1, 70, 2, 0));
    step(1000);
    assertThat(heard.got).extracting(DataFrame::sequence).containsExactly(0L, 1L, 1L);
    assertThat(host.counts().duplicates()).isEqualTo(1);
  }

  @Test
  void messagesWithoutAPlaceAreCounted() {
    step(1000);
    wire.put(frame(0)); // before any confirmation
    wire.put(new Message.Reply(500, true, ""));
    step(1000);
    assertThat(host.counts().unexpected()).isEqualTo(2);
    assertThat(heard.replies).isEmpty();
    up(70);
    wire.put(new Message.Arm(1)); // a host's
    step(1000);
    assertThat(host.counts().unexpected()).isEqualTo(3);
    wire.putItem(new byte[] {1});
    step(1000);
    assertThat(host.counts().unreadable()).isEqualTo(1);
  }

  @Test
  void aCallersMistakesAreNamed() {
    assertThatIllegalArgumentException().isThrownBy(() -> host.resume(0, 0));
    assertThatIllegalArgumentException().isThrownBy(() -> host.resume(1, -1));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> host.resume(1, DataFrame.MAX_SEQUENCE + 2))
        .withMessage("begun=false boot=1 next=4294967297");
    host.resume(1, DataFrame.MAX_SEQUENCE + 1); // it had them all
    assertThatIllegalArgumentException()
        .isThrownBy(() -> host.stored(1, 0))
        .withMessage("deferred=false next=0");
    step(1000);
    assertThatIllegalArgumentException().isThrownBy(() -> host.resume(1, 0));
    assertThatIllegalStateException().isThrownBy(host::deferAcknowledgement);
    HostEndpoint storing = new HostEndpoint(wire, heard, TIMING, 1L << 62);
    storing.deferAcknowledgement();
    assertThatIllegalArgumentException().isThrownBy(() -> storing.stored(1, -1));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new HostEndpoint(wire, heard, TIMING, -1))
        .withMessage("firstRequest=-1");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new HostEndpoint(wire, heard, TIMING, (1L << 62) + 1));
  }

  @Test
  void everyRequestIsSentUnderTheNumberThatItReturns() {
    up(70);
    long run = host.run(1, TestMessages.largestRun().steps().subList(0, 1), now);
    long sense = host.senseCalls(2, true, 1, now);
    Message.KeepVigil touch =
        new Message.KeepVigil(
            0, 8, Message.KeepVigil.Kind.TOUCH, 3, 0, false, 0, 1_000_000, List.of());
    long vigil = host.keepVigil(touch, now);
    step(1000);
    assertThat(wire.taken())
        .extracting(i -> ((Incoming.Plain) i).message())
        .filteredOn(m -> !(m instanceof Message.Acknowledge || m instanceof Message.Ping))
        .containsExactly(
            new Message.Run(run, 1, TestMessages.largestRun().steps().subList(0, 1)),
            new Message.SenseCalls(sense, 2, true, 1),
            new Message.KeepVigil(
                vigil, 8, Message.KeepVigil.Kind.TOUCH, 3, 0, false, 0, 1_000_000, List.of()));
  }

  /** What waited for its answer when the line was lost goes out at once when it is back. */
  @Test
  void requestsGoAgainAsSoonAsTheLinkIsUp() {
    up(70);
    long request = host.arm(now);
    step(1000);
    assertThat(wire.taken(Message.Arm.class)).hasSize(1);
    Wire other = new Wire();
    host.attach(other);
    step(1000);
    other.put(new Message.Welcome(1, "0.1", "A", 70, 0, 0, "", 115_200, 0));
    step(1000);
    assertThat(other.taken(Message.Arm.class)).containsExactly(new Message.Arm(request));
  }

  private void up(long bootId) {
    step(1000);
    welcome(bootId, 0);
    welcome(bootId, 0);
    assertThat(host.isUp()).isTrue();
    wire.taken();
  }

  private void welcome(long bootId, long oldest) {
    wire.put(new Message.Welcome(1, "0.1", "A", bootId, oldest, 9, "", 115_200, 0));
    step(1000);
  }

  private void step(long micros) {
    now += micros;
    host.step(now);
  }

  private static DataFrame frame(long sequence) {
    return new DataFrame(sequence, 1, new Message.Trouble("converter", "x"));
  }

  private static DataFrame recorded(long sequence, long boot, long of, long lost) {
    Message.Trouble told = new Message.Trouble("crosspoint", "x");
    return new DataFrame(sequence, 1, new Message.Recorded(boot, of, 1, told, lost, 0));
  }
}
