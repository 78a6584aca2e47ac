package bellwire.link;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;

import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;

class AgentEndpointTest {
  private static final long BOOT = 77;
  private static final AgentEndpoint.Limits LIMITS =
      new AgentEndpoint.Limits(100, 1 << 20, 10, 8192, 400_000, 3_000_000, 1_000_000);

  private final Wire wire = new Wire();
  private final AgentEndpoint agent = agent(LIMITS);
  private long now;

  private AgentEndpoint agent(AgentEndpoint.Limits limits) {
    return new AgentEndpoint(
        wire,
        BOOT,
        new AgentEndpoint.Identity("0.1", "A", "reference out of range", 921_600),
        limits);
  }

  @Test
  void welcomesAtStartAndSendsNothingElseUntilItIsGreeted() {
    send(3);
    step();
    assertThat(wire.taken())
        .containsExactly(
            new Incoming.Plain(
                new Message.Welcome(
                    1, "0.1", "A", BOOT, 0, 3, "reference out of range", 921_600, 1000)));
    step();
    assertThat(wire.taken()).isEmpty();
    greet(BOOT, 0);
    assertThat(wire.takenSequences()).containsExactly(0L, 1L, 2L);
  }

  @Test
  void aGreetingOfAnotherBootOrProtocolGetsAWelcomeAndNoData() {
    send(1);
    step();
    wire.taken();
    greet(BOOT + 1, 0);
    assertThat(wire.taken()).hasSize(1);
    wire.put(new Message.Greet(2, BOOT, 0, false));
    step();
    assertThat(wire.taken()).hasSize(1);
    assertThat(agent.hostPresent()).isFalse();
  }

  /** A Run left on the line from before a restart would otherwise be done a second time. */
  @Test
  void aRequestBeforeTheGreetingIsNotDone() {
    step();
    wire.taken();
    wire.put(new Message.Arm(5));
    step();
    assertThat(agent.poll()).isNull();
    assertThat(wire.taken(Message.Welcome.class)).hasSize(1);
  }

  @Test
  void sendsNoMoreThanTheWindowAheadOfTheAcknowledgement() {
    greet(BOOT, 0);
    wire.taken();
    send(30);
    step();
    assertThat(wire.takenSequences()).isEqualTo(sequences(0, 10));
    wire.put(new Message.Acknowledge(4, 4));
    step();
    assertThat(wire.takenSequences()).isEqualTo(sequences(10, 14));
    assertThat(agent.oldestSequence()).isEqualTo(4);
  }

  @Test
  void oneFrameGoesEvenIfItIsLargerThanTheWindow() {
    AgentEndpoint narrow =
        agent(new AgentEndpoint.Limits(100, 1 << 20, 10, 1, 400_000, 3_000_000, 1_000_000));
    wire.put(new Message.Greet(1, BOOT, 0, false));
    narrow.send(new Message.Trouble("converter", "a"), 1);
    narrow.send(new Message.Trouble("converter", "b"), 2);
    narrow.step(0);
    assertThat(wire.takenSequences()).containsExactly(0L);
  }

  @Test
  void goesBackAfterATimeWithoutProgressAndNotBefore() {
    greet(BOOT, 0);
    send(5);
    step();
    wire.taken();
    wire.put(new Message.Acknowledge(2, 2));
    step();
    now += 395_000;
    agent.step(now);
    assertThat(wire.takenSequences()).isEmpty();
    now += 5_000;
    agent.step(now);
    assertThat(wire.takenSequences()).isEqualTo(sequences(2, 5));
    assertThat(agent.counts().resent()).isEqualTo(3);
  }

  /** 27.7 kB at 11520 bytes a second take 2.4 s: repeating them meanwhile would double it. */
  @Test
  void doesNotGoBackWhileTheLineStillCarriesTheFrames() {
    AgentEndpoint slow =
        agent(new AgentEndpoint.Limits(100, 1 << 20, 10, 65_536, 400_000, 9_000_000, 11_520));
    wire.put(new Message.Greet(1, BOOT, 0, false));
    slow.send(TestMessages.samples(new Random(1), 1024), 0);
    slow.step(0);
    assertThat(wire.takenSequences()).containsExactly(0L);
    slow.step(2_000_000);
    assertThat(wire.takenSequences()).isEmpty();
    slow.step(2_900_000); // 27.7 kB: 2.4 s and the 0.4 s
    assertThat(wire.takenSequences()).containsExactly(0L);
  }

  @Test
  void resumesWhereTheHostSaysAfterAGreeting() {
    greet(BOOT, 0);
    send(6);
    step();
    wire.taken();
    greet(BOOT, 4);
    assertThat(wire.takenSequences()).containsExactly(4L, 5L);
    greet(BOOT, 99); // beyond what there is: believed in nothing
    assertThat(wire.takenSequences()).containsExactly(4L, 5L);
    // What has arrived is not yet safe: a host that is started anew may ask for it once more.
    assertThat(agent.oldestSequence()).isZero();
    greet(BOOT, 2);
    assertThat(wire.takenSequences()).isEqualTo(sequences(2, 6));
    wire.put(new Message.Acknowledge(3, 6));
    step();
    greet(BOOT, 0);
    assertThat(wire.takenSequences()).isEqualTo(sequences(3, 6));
  }

  /** A host that stores once a second still gets as fast as the line can. */
  @Test
  void theWindowMovesWithWhatHasArrived() {
    greet(BOOT, 0);
    wire.taken();
    send(30);
    step();
    wire.put(new Message.Acknowledge(0, 8));
    step();
    assertThat(wire.takenSequences()).isEqualTo(sequences(0, 18));
    now += 395_000;
    agent.step(now);
    wire.put(new Message.Acknowledge(0, 18));
    step();
    assertThat(wire.takenSequences()).isEqualTo(sequences(18, 28));
    now += 400_000;
    step(); // and what the line took to carry the frames
    assertThat(wire.takenSequences()).isEqualTo(sequences(18, 28));
    assertThat(agent.oldestSequence()).isZero();
  }

  @Test
  void fallsSilentWithoutAHostAndGoesOnWhenItIsHeardAgain() {
    greet(BOOT, 0);
    send(1);
    step();
    now += 3_000_000;
    wire.taken();
    agent.step(now);
    assertThat(wire.taken()).isEmpty();
    assertThat(agent.hostPresent()).isFalse();
    wire.put(new Message.Ping(1));
    step();
    assertThat(wire.takenSequences()).containsExactly(0L);
  }

  @Test
  void theOldestFramesMakeRoomAndAreCounted() {
    send(130);
    assertThat(agent.oldestSequence()).isEqualTo(30);
    assertThat(agent.counts().dropped()).isEqualTo(30);
    greet(BOOT, 0);
    Message.Welcome welcome = (Message.Welcome) ((Incoming.Plain) wire.taken().get(0)).message();
    assertThat(welcome.oldestSequence()).isEqualTo(30);
    assertThat(welcome.nextSequence()).isEqualTo(130);
  }

  @Test
  void theRingIsBoundedInBytesToo() {
    DataRing ring = new DataRing(1000, FrameCodec.MAX_FRAME_BYTES);
    for (int i = 0; i < 100; i++) {
      ring.add(new byte[1000]);
      assertThat(ring.bytes()).isLessThanOrEqualTo(FrameCodec.MAX_FRAME_BYTES);
    }
    assertThat(ring.next() - ring.oldest()).isEqualTo(65);
    assertThat(ring.dropped()).isEqualTo(35);
    ring.releaseBelow(1000);
    assertThat(ring.bytes()).isZero();
    assertThat(ring.oldest()).isEqualTo(100);
  }

  @Test
  void aRepeatedRequestIsDoneOnceAndAnsweredAgain() {
    greet(BOOT, 0);
    wire.put(new Message.Arm(5));
    wire.put(new Message.Arm(5));
    step();
    assertThat(agent.poll()).isEqualTo(new Message.Arm(5));
    assertThat(agent.poll()).isNull();
    wire.put(new Message.Arm(5)); // under way: no answer yet
    step();
    assertThat(agent.poll()).isNull();
    wire.taken();
    Message.Reply reply = new Message.Reply(5, false, "P3 at 26 V");
    agent.reply(reply);
    wire.put(new Message.Arm(5));
    step();
    assertThat(agent.poll()).isNull();
    assertThat(wire.taken(Message.Reply.class)).containsExactly(reply, reply);
    assertThat(agent.counts().repeated()).isEqualTo(3);
  }

  @Test
  void requestsAreRememberedForTwiceTheHostsWindow() {
    greet(BOOT, 0);
    for (long request = 0; request < 2 * HostEndpoint.REQUEST_WINDOW; request++) {
      wire.put(new Message.Stop(request));
      step();
      agent.reply(new Message.Reply(((Message.Stop) agent.poll()).request(), true, ""));
    }
    wire.put(new Message.Stop(0));
    step();
    assertThat(agent.poll()).isNull();
  }

  @Test
  void everyKindOfRequestIsHandedOnOnce() {
    greet(BOOT, 0);
    List<Message.FromHost> requests =
        List.of(
            new Message.Arm(1),
            new Message.Run(2, 6, TestMessages.largestRun().steps().subList(0, 1)),
            new Message.Stop(3),
            new Message.SenseCalls(4, 7, true, 1),
            new Message.KeepVigil(
                5, 8, Message.KeepVigil.Kind.TOUCH, 3, 0, false, 0, 1_000_000, List.of()));
    for (int round = 0; round < 2; round++) {
      requests.forEach(wire::put);
      step();
    }
    requests.forEach(each -> assertThat(agent.poll()).isEqualTo(each));
    assertThat(agent.poll()).isNull();
    wire.taken();
    agent.reply(new Message.Reply(4, true, ""));
    assertThat(wire.taken(Message.Reply.class)).containsExactly(new Message.Reply(4, true, ""));
  }

  @Test
  void aPingPushesNoRequestOut() {
    greet(BOOT, 0);
    wire.put(new Message.Stop(1));
    wire.put(new Message.Ping(2));
    step();
    assertThat(agent.poll()).isEqualTo(new Message.Stop(1));
    assertThat(agent.poll()).isEqualTo(new Message.Ping(2));
  }

  @Test
  void onlyTheLatestPingWaits() {
    greet(BOOT, 0);
    wire.put(new Message.Ping(1));
    wire.put(new Message.Ping(2));
    step();
    assertThat(agent.poll()).isEqualTo(new Message.Ping(2));
    assertThat(agent.poll()).isNull();
  }

  @Test
  void aFloodOfRequestsIsBounded() {
    greet(BOOT, 0);
    for (long request = 0; request < 200; request++) {
      wire.put(new Message.Stop(request));
    }
    step();
    List<Message.FromHost> waiting = new ArrayList<>();
    for (Message.FromHost next = agent.poll(); next != null; next = agent.poll()) {
      waiting.add(next);
    }
    assertThat(waiting).hasSize(AgentEndpoint.MAX_WAITING);
    assertThat(agent.counts().refused()).isEqualTo(200 - AgentEndpoint.MAX_WAITING);
    wire.put(new Message.Stop(150)); // refused before, so not remembered
    step();
    assertThat(agent.poll()).isEqualTo(new Message.Stop(150));
  }

  @Test
  void whatItDoesNotKnowIsAnsweredAndAnAnswerIsNot() {
    greet(BOOT, 0);
    wire.taken();
    wire.putItem(HexFormat.of().parseHex("82186305"));
    wire.put(new Message.NotUnderstood(98));
    wire.put(new Message.Alive(1, new Message.Interlock(false, false, 0), 0, 0));
    step();
    assertThat(wire.taken()).containsExactly(new Incoming.Plain(new Message.NotUnderstood(99)));
    assertThat(agent.counts().unexpected()).isEqualTo(2);
  }

  @Test
  void anUnreadableProgramIsRefusedInASentence() {
    greet(BOOT, 0);
    wire.taken();
    wire.putItem(HexFormat.of().parseHex("840409018180")); // request 9, one step without fields
    step();
    assertThat(wire.taken(Message.Reply.class))
        .singleElement()
        .satisfies(
            reply -> {
              assertThat(reply.request()).isEqualTo(9);
              assertThat(reply.accepted()).isFalse();
              assertThat(reply.reason()).contains("field=drive");
            });
    assertThat(agent.poll()).isNull();
  }

  @Test
  void aPulledPlugLosesNothing() {
    greet(BOOT, 0);
    send(3);
    step();
    wire.gone = true;
    send(3);
    step();
    Wire other = new Wire();
    agent.attach(other);
    other.put(new Message.Greet(1, BOOT, 2, false));
    step();
    assertThat(other.takenSequences()).isEqualTo(sequences(2, 6));
  }

  /**
   * What the ring dropped before it was sent is a gap that the host sees, and nothing older goes.
   */
  @Test
  void goesOnBehindWhatWasDroppedUnsent() {
    greet(BOOT, 0);
    send(12);
    step();
    assertThat(wire.takenSequences()).isEqualTo(sequences(0, 10));
    send(120); // the ring holds 100: 32 are gone
    wire.put(new Message.Acknowledge(0, 2));
    step();
    assertThat(wire.takenSequences()).isEqualTo(sequences(32, 42));
    assertThat(agent.receivedSequence()).isEqualTo(32);
    assertThat(agent.nextSequence()).isEqualTo(132);
  }

  @Test
  void anAcknowledgementOfWhatWasNeverSentIsNotBelieved() {
    greet(BOOT, 0);
    send(3);
    step();
    wire.put(new Message.Acknowledge(4, 4));
    step();
    assertThat(agent.oldestSequence()).isZero();
    assertThat(agent.receivedSequence()).isZero();
    assertThat(agent.counts().unexpected()).isEqualTo(1);
    wire.put(new Message.Acknowledge(3, 3)); // all there is
    step();
    assertThat(agent.oldestSequence()).isEqualTo(3);
    assertThat(agent.counts().unexpected()).isEqualTo(1);
  }

  @Test
  void aGreetingForAllThereIsIsBelieved() {
    greet(BOOT, 0);
    send(3);
    step();
    wire.taken();
    greet(BOOT, 3);
    assertThat(wire.takenSequences()).isEmpty();
    assertThat(agent.receivedSequence()).isEqualTo(3);
  }

  @Test
  void theWindowsBytesAreFreedByWhatHasArrived() {
    AgentEndpoint narrow =
        agent(new AgentEndpoint.Limits(100, 1 << 20, 50, 100, 400_000, 3_000_000, 1_000_000));
    wire.put(new Message.Greet(1, BOOT, 0, false));
    for (int i = 0; i < 12; i++) {
      narrow.send(new Message.Trouble("converter", "x"), 1); // 24 bytes on the line
    }
    narrow.step(0);
    assertThat(wire.takenSequences()).isEqualTo(sequences(0, 4));
    for (int round = 1; round < 3; round++) {
      wire.put(new Message.Acknowledge(4 * round, 4 * round));
      narrow.step(round * 1000L);
      assertThat(wire.takenSequences()).isEqualTo(sequences(4 * round, 4 * round + 4));
    }
  }

  @Test
  void anUnreadableFrameIsCountedAndBeforeAGreetingNotAnswered() {
    byte[] oneStepWithoutFields = HexFormat.of().parseHex("840409018180");
    step();
    wire.taken();
    wire.putItem(oneStepWithoutFields);
    step();
    assertThat(wire.taken()).isEmpty();
    assertThat(agent.counts().unreadable()).isEqualTo(1);
    assertThat(agent.counts().refused()).isZero();
    greet(BOOT, 0);
    wire.putItem(oneStepWithoutFields);
    step();
    assertThat(agent.counts().unreadable()).isEqualTo(2);
    assertThat(agent.counts().refused()).isEqualTo(1);
  }

  /** A host that was half way through a frame when the agent started takes the Welcome whole. */
  @Test
  void theFirstByteEndsWhateverWasOnTheLine() {
    List<Byte> first = new ArrayList<>();
    ByteChannel line =
        new ByteChannel() {
          @Override
          public int read(byte[] into) {
            return 0;
          }

          @Override
          public void write(byte[] bytes, int off, int len) {
            first.add(bytes[off]);
          }
        };
    new AgentEndpoint(line, BOOT, agentIdentity(), LIMITS).step(0);
    assertThat(first.get(0)).isEqualTo(FrameCodec.DELIMITER);
    first.clear();
    agent.attach(line);
    agent.step(0);
    assertThat(first.get(0)).isEqualTo(FrameCodec.DELIMITER);
  }

  @Test
  void numbersEndAtThirtyTwoBits() {
    long[] next = {DataFrame.MAX_SEQUENCE};
    FrameKeep nearlyFull =
        new FrameKeep() {
          @Override
          public long oldest() {
            return next[0];
          }

          @Override
          public long next() {
            return next[0];
          }

          @Override
          public long dropped() {
            return 0;
          }

          @Override
          public void add(byte[] frame) {
            next[0]++;
          }

          @Override
          public byte[] get(long sequence) {
            throw new IllegalArgumentException("sequence=" + sequence);
          }

          @Override
          public void releaseBelow(long sequence) {}
        };
    AgentEndpoint last = new AgentEndpoint(wire, BOOT, agentIdentity(), LIMITS, nearlyFull);
    Message.Trouble told = new Message.Trouble("converter", "x");
    assertThat(last.send(told, 0)).isEqualTo(0xFFFF_FFFFL);
    assertThatIllegalStateException()
        .isThrownBy(() -> last.send(told, 0))
        .withMessageEndingWith("sequence=4294967296");
  }

  /** The design's figure: 60 s of streaming without a host, at the converter's fastest. */
  @Test
  void keepsSixtySecondsAtFourThousandConversionsASecond() {
    AgentEndpoint streaming = agent(AgentEndpoint.Limits.forBaud(3_000_000));
    Message.Samples block = TestMessages.samples(new Random(1), 40);
    for (int i = 0; i < 60 * 100; i++) {
      streaming.send(block, i);
    }
    assertThat(streaming.counts().dropped()).isZero();
  }

  @Test
  void aCallersMistakesAreNamed() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new AgentEndpoint(wire, 0, agentIdentity(), LIMITS))
        .withMessage("bootId=0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new DataRing(0, 1 << 20))
        .withMessageContaining("frames=0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new DataRing(1, FrameCodec.MAX_FRAME_BYTES - 1));
    DataRing ring = new DataRing(1, FrameCodec.MAX_FRAME_BYTES);
    assertThatIllegalArgumentException().isThrownBy(() -> ring.get(0));
    ring.add(new byte[3]);
    assertThat(ring.get(0)).hasSize(3);
    assertThat(ring.bytes()).isEqualTo(3);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> ring.get(-1))
        .withMessage("sequence=-1 oldest=0 next=1");
    assertThatIllegalArgumentException()
        .isThrownBy(
            () -> new AgentEndpoint.Limits(100, 1 << 20, 0, 8192, 400_000, 3_000_000, 1_000_000));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> agent(new AgentEndpoint.Limits(1, 1 << 20, 1, 1, 1, 1, 0)))
        .withMessage("lineBytesPerSecond=0");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> agent.reply(new Message.NotUnderstood(1)));
  }

  private static AgentEndpoint.Identity agentIdentity() {
    return new AgentEndpoint.Identity("0.1", "A", "", 115_200);
  }

  private void greet(long bootId, long nextSequence) {
    wire.put(new Message.Greet(1, bootId, nextSequence, false));
    step();
  }

  private void send(int frames) {
    for (int i = 0; i < frames; i++) {
      agent.send(new Message.Trouble("converter", "number " + i), i);
    }
  }

  private void step() {
    now += 1000;
    agent.step(now);
  }

  private static List<Long> sequences(long from, long to) {
    return LongStream.range(from, to).boxed().toList();
  }
}
