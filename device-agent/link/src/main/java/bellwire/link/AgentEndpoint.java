package bellwire.link;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * The agent's end of the link: a state machine stepped with the time, which never waits. Not safe
 * for use by several threads.
 *
 * <p>Data are kept until the host acknowledges them, and sent again from the oldest (go back) after
 * a greeting or a time without progress. Nothing is sent and no request is taken before a host has
 * greeted this very boot: until then every frame is answered with {@link Message.Welcome}, so that
 * a request left over from an earlier boot is not done. docs/protocol.md tells the whole.
 */
public final class AgentEndpoint {

  /**
   * @param ringFrames data frames kept at most
   * @param ringBytes their bytes at most
   * @param windowFrames data frames sent ahead of the host's acknowledgement
   * @param windowBytes their bytes at most; one frame may always go
   * @param retransmitMicros without progress before all unacknowledged frames go again, counted
   *     from when the line has carried what was written
   * @param silenceMicros without a byte from the host before streaming pauses
   * @param lineBytesPerSecond what the line carries
   */
  public record Limits(
      int ringFrames,
      long ringBytes,
      int windowFrames,
      int windowBytes,
      long retransmitMicros,
      long silenceMicros,
      long lineBytesPerSecond) {

    public Limits {
      if (windowFrames < 1 || windowBytes < 1 || retransmitMicros < 1 || silenceMicros < 1) {
        throw new IllegalArgumentException(
            "windowFrames="
                + windowFrames
                + " windowBytes="
                + windowBytes
                + " retransmitMicros="
                + retransmitMicros
                + " silenceMicros="
                + silenceMicros);
      }
    }

    /**
     * Keeps over 60 s of 4000 conversions a second, and lets half a second of the line be on its
     * way.
     */
    public static Limits forBaud(int baud) {
      int bytesPerSecond = Math.max(1, baud / 10);
      int window = Math.min(1 << 20, Math.max(4096, bytesPerSecond / 2));
      return new Limits(32_768, 16 << 20, 64, window, 1_000_000, 3_000_000, bytesPerSecond);
    }

    /** An empty ring of this size. */
    public DataRing ring() {
      return new DataRing(ringFrames, ringBytes);
    }
  }

  /** What {@link Message.Welcome} tells about this agent. */
  public record Identity(String agentVersion, String revision, String selfCheck, int baud) {}

  /**
   * @param dropped data frames lost unacknowledged, the ring being full
   * @param resent data frames sent more than once
   * @param repeated requests that came again and were not done again
   * @param refused requests not taken: unreadable, or too many waiting
   * @param unexpected well-formed messages that have no place here
   * @param unreadable frames with a good checksum that hold no message
   */
  public record Counts(
      long dropped,
      long resent,
      long repeated,
      long refused,
      long unexpected,
      long unreadable,
      FrameReader.Counts frames) {}

  static final int MAX_WAITING = 64;

  private final FramePort port;
  private final long bootId;
  private final Limits limits;
  private final FrameKeep keep;
  private final RequestLedger ledger = new RequestLedger();
  private final Deque<Message.FromHost> waiting = new ArrayDeque<>();
  private Identity identity;
  private boolean announced;
  private boolean greeted;
  private long now;
  private long heardMicros;
  private long progressMicros;
  private long dataOutMicros;
  private long sendNext;
  private long sentBelow;
  private long receivedBelow;
  private boolean hostStores;

  /** Recorded for a host that stores it: the present one, which does not, is not given it. */
  private long hiddenBelow;

  private final Deque<Integer> underWay = new ArrayDeque<>();
  private long underWayBytes;
  private long resent;
  private long repeated;
  private long refused;
  private long unexpected;
  private long unreadable;

  /**
   * Keeps data in memory only.
   *
   * @param bootId drawn at random at the agent's start, above 0
   */
  public AgentEndpoint(ByteChannel channel, long bootId, Identity identity, Limits limits) {
    this(channel, bootId, identity, limits, limits.ring());
  }

  /**
   * @param bootId drawn at random at the agent's start, above 0
   * @param keep of this boot's data, empty
   */
  public AgentEndpoint(
      ByteChannel channel, long bootId, Identity identity, Limits limits, FrameKeep keep) {
    if (bootId <= 0) {
      throw new IllegalArgumentException("bootId=" + bootId);
    }
    this.port = new FramePort(channel, limits.lineBytesPerSecond());
    this.bootId = bootId;
    this.identity = identity;
    this.limits = limits;
    this.keep = keep;
  }

  /** Goes on with another channel after the device was lost; what was unacknowledged goes again. */
  public void attach(ByteChannel channel) {
    port.attach(channel);
    announced = false;
    sendFrom(receivedBelow);
  }

  /** What a greeting is answered with from now on. */
  public void identify(Identity current) {
    identity = current;
  }

  /** Reads, answers, sends. Call it at least every few milliseconds while streaming. */
  public void step(long nowMicros) {
    now = nowMicros;
    if (port.read(now, this::take) > 0) {
      heardMicros = now;
    }
    if (!announced) {
      announced = true;
      port.writeDelimiter();
      welcome();
    }
    if (!hostPresent()) {
      return;
    }
    boolean late = now - Math.max(progressMicros, dataOutMicros) >= limits.retransmitMicros();
    if (!underWay.isEmpty() && late) {
      sendFrom(receivedBelow);
    }
    pump();
  }

  /**
   * The next request of the host: Arm, Run, SenseCalls, KeepVigil, Stop or Ping. Each is to be
   * answered by reply.
   */
  public Message.@Nullable FromHost poll() {
    return waiting.poll();
  }

  /**
   * Queues a data message for sending.
   *
   * @return its sequence number
   * @throws IllegalStateException when this boot's numbers are used up
   */
  public long send(Message.Data message, long deviceMicros) {
    long sequence = keep.next();
    if (sequence > DataFrame.MAX_SEQUENCE) {
      throw new IllegalStateException(
          "numbers used up, start the agent anew: sequence=" + sequence);
    }
    DataFrame frame = new DataFrame(sequence, deviceMicros, message);
    keep.add(FrameCodec.encode(MessageCodec.encode(frame)));
    return sequence;
  }

  /**
   * Answers a request: {@link Message.Reply} to Arm, Run, SenseCalls, KeepVigil and Stop, {@link
   * Message.Alive} to Ping.
   */
  public void reply(Message.FromAgent answer) {
    if (answer instanceof Message.Reply reply) {
      ledger.finish(reply);
    } else if (!(answer instanceof Message.Alive)) {
      throw new IllegalArgumentException("answer=" + answer);
    }
    write(answer);
  }

  /** A host has greeted this boot and was heard of late. */
  public boolean hostPresent() {
    return greeted && now - heardMicros < limits.silenceMicros();
  }

  /** The present host acknowledges what it has stored. */
  public boolean hostStores() {
    return hostStores;
  }

  public long oldestSequence() {
    return keep.oldest();
  }

  /** All data frames below it have arrived at the host. */
  public long receivedSequence() {
    return Math.max(receivedBelow, keep.oldest());
  }

  public long nextSequence() {
    return keep.next();
  }

  public Counts counts() {
    return new Counts(
        keep.dropped(), resent, repeated, refused, unexpected, unreadable, port.counts());
  }

  private void take(byte[] item) {
    Incoming incoming;
    try {
      incoming = MessageCodec.decode(item);
    } catch (LinkFormatException e) {
      unreadable++;
      if (greeted && e.request().isPresent()) {
        refused++;
        write(new Message.Reply(e.request().getAsLong(), false, String.valueOf(e.getMessage())));
      }
      return;
    }
    if (incoming instanceof Incoming.Unknown unknown) {
      write(new Message.NotUnderstood(unknown.type()));
    } else if (incoming instanceof Incoming.Plain plain
        && plain.message() instanceof Message.FromHost message) {
      take(message);
    } else {
      unexpected++;
    }
  }

  private void take(Message.FromHost message) {
    if (message instanceof Message.NotUnderstood) {
      unexpected++;
    } else if (message instanceof Message.Greet greet) {
      greet(greet);
    } else if (!greeted) {
      welcome();
    } else if (message instanceof Message.Acknowledge acknowledge) {
      acknowledge(acknowledge);
    } else if (message instanceof Message.Ping) {
      waiting.removeIf(other -> other instanceof Message.Ping); // the latest is enough
      waiting.add(message);
    } else if (message instanceof Message.Arm arm) {
      request(arm.request(), message);
    } else if (message instanceof Message.Run run) {
      request(run.request(), message);
    } else if (message instanceof Message.Stop stop) {
      request(stop.request(), message);
    } else if (message instanceof Message.SenseCalls sense) {
      request(sense.request(), message);
    } else if (message instanceof Message.KeepVigil vigil) {
      request(vigil.request(), message);
    }
  }

  private void greet(Message.Greet greet) {
    if (greet.protocol() == MessageCodec.PROTOCOL && greet.bootId() == bootId) {
      greeted = true;
      hostStores = greet.stores();
      if (hostStores) {
        hiddenBelow = 0;
      } else if (greet.nextSequence() == 0 && keep.holdsRecord()) {
        hiddenBelow = keep.next();
      }
      boolean known = greet.nextSequence() <= keep.next(); // beyond that, believed in nothing
      sendFrom(known ? greet.nextSequence() : receivedBelow);
    }
    welcome();
  }

  private void acknowledge(Message.Acknowledge acknowledge) {
    if (acknowledge.received() > keep.next()) {
      unexpected++;
      return;
    }
    if (hostStores || !keep.holdsRecord()) {
      keep.releaseBelow(acknowledge.nextSequence());
    }
    while (receivedBelow < acknowledge.received()) {
      receivedBelow++;
      progressMicros = now;
      if (!underWay.isEmpty()) {
        underWayBytes -= underWay.remove();
      }
    }
    sendNext = Math.max(sendNext, receivedBelow);
  }

  private void request(long request, Message.FromHost message) {
    Optional<Message.Reply> answer = ledger.answer(request);
    if (ledger.knows(request)) {
      repeated++;
      answer.ifPresent(this::write);
    } else if (waiting.size() >= MAX_WAITING) {
      refused++; // not remembered: the host will repeat it
    } else {
      ledger.begin(request);
      waiting.add(message);
    }
  }

  /** Everything from this number on goes (again); what is below has arrived. */
  private void sendFrom(long sequence) {
    receivedBelow = Math.max(Math.max(sequence, hiddenBelow), keep.oldest());
    sendNext = receivedBelow;
    underWay.clear();
    underWayBytes = 0;
    progressMicros = now;
  }

  private void pump() {
    if (sendNext < keep.oldest()) {
      sendFrom(keep.oldest()); // dropped unsent: the host will see the gap
    }
    while (sendNext < keep.next() && underWay.size() < limits.windowFrames()) {
      byte[] frame = keep.get(sendNext);
      if (frame == null) {
        return;
      }
      if (underWayBytes + frame.length > limits.windowBytes() && !underWay.isEmpty()) {
        return;
      }
      if (underWay.isEmpty()) {
        progressMicros = now; // nothing was on its way: the time without progress begins here
      }
      port.write(frame);
      dataOutMicros = port.lineFreeMicros();
      underWay.add(frame.length);
      underWayBytes += frame.length;
      resent += sendNext < sentBelow ? 1 : 0;
      sendNext++;
      sentBelow = Math.max(sentBelow, sendNext);
    }
  }

  private void welcome() {
    write(
        new Message.Welcome(
            MessageCodec.PROTOCOL,
            identity.agentVersion(),
            identity.revision(),
            bootId,
            Math.max(keep.oldest(), hiddenBelow),
            keep.next(),
            identity.selfCheck(),
            identity.baud(),
            now));
  }

  private void write(Message message) {
    port.writeItem(MessageCodec.encode(message));
  }
}
