package bellwire.link;

import java.util.List;
import java.util.OptionalLong;
import java.util.function.LongFunction;

/**
 * The host's end of the link: a state machine stepped with the time, which never waits. Not safe
 * for use by several threads.
 *
 * <p>Greets until the agent welcomes it under the boot identifier it greeted; delivers that boot's
 * data once and in order; repeats requests until they are answered. After an agent's restart it
 * greets the new boot and takes nothing from it before the agent has confirmed, so that no frame of
 * one boot counts as another's. docs/protocol.md tells the whole.
 */
public final class HostEndpoint {

  /** Requests waiting for their answer at a time. */
  public static final int MAX_PENDING = 16;

  /** The newest request's identifier stays within this of the oldest unanswered one's. */
  public static final int REQUEST_WINDOW = 128;

  /**
   * @param acknowledgeFrames data frames after which to acknowledge at the latest
   * @param acknowledgeMicros time after which to acknowledge at the latest
   * @param greetMicros between greetings without an answer
   * @param pingMicros between pings
   * @param silenceMicros without a frame before the link counts as dead
   * @param retryMicros from when the line has carried a request until it goes again
   * @param requestMicros until a request counts as unanswered
   * @param lineBytesPerSecond what the line carries
   */
  public record Timing(
      int acknowledgeFrames,
      long acknowledgeMicros,
      long greetMicros,
      long pingMicros,
      long silenceMicros,
      long retryMicros,
      long requestMicros,
      long lineBytesPerSecond) {

    public static Timing forBaud(int baud) {
      return new Timing(
          8, 50_000, 500_000, 1_000_000, 3_000_000, 500_000, 10_000_000, Math.max(1, baud / 10));
    }

    /** The same but for how long an answer is waited for. */
    public Timing withRequestMicros(long micros) {
      return new Timing(
          acknowledgeFrames,
          acknowledgeMicros,
          greetMicros,
          pingMicros,
          silenceMicros,
          retryMicros,
          micros,
          lineBytesPerSecond);
    }
  }

  /**
   * @param delivered data frames handed to the listener
   * @param duplicates data frames that had come before, or whose recorded content had
   * @param ahead data frames behind a gap, asked for again
   * @param unexpected messages that have no place here, or came before the agent's confirmation
   * @param unreadable frames with a good checksum that hold no message
   */
  public record Counts(
      long delivered,
      long duplicates,
      long ahead,
      long unexpected,
      long unreadable,
      FrameReader.Counts frames) {}

  private final FramePort port;
  private final HostListener listener;
  private final Timing timing;
  private final PendingRequests pending = new PendingRequests();
  private final RecordedOrder recorded = new RecordedOrder();
  private long nextRequest;
  private long nextPing = 1;
  private long bootId;
  private long nextSequence;
  private long greetedBootId;
  private boolean attached;
  private boolean established;
  private boolean awaitingWelcome;
  private boolean told;
  private boolean begun;
  private boolean deferred;
  private long storedBelow;
  private boolean handedOver;
  private int unacknowledged;
  private boolean acknowledgeDue;
  private long now;
  private long greetSentMicros;
  private long pingSentMicros;
  private long acknowledgedMicros;
  private long heardMicros;
  private long carriedWhenHeardMicros;
  private long conversedMicros;
  private long delivered;
  private long duplicates;
  private long ahead;
  private long unexpected;
  private long unreadable;

  /**
   * @param firstRequest identifier of the first request, from 0 to 2⁶²; drawn at random by the
   *     caller, so that the agent does not take a second host's requests for repeats of the first's
   */
  public HostEndpoint(
      ByteChannel channel, HostListener listener, Timing timing, long firstRequest) {
    if (firstRequest < 0 || firstRequest > 1L << 62) {
      throw new IllegalArgumentException("firstRequest=" + firstRequest);
    }
    this.port = new FramePort(channel, timing.lineBytesPerSecond());
    this.listener = listener;
    this.timing = timing;
    this.nextRequest = firstRequest;
  }

  /**
   * Takes up what a host before this one has got, before the first step. Where the agent still is
   * at that boot, its frames come from nextSequence on; where it has restarted, the new boot's from
   * 0 on and what it recorded of that boot, from nextSequence on too. Called for several boots, the
   * last one is the one to go on with.
   *
   * @param boot as {@link #bootId} was
   * @param next frames below it are the host's
   */
  public void resume(long boot, long next) {
    if (begun || boot <= 0 || next < 0 || next > DataFrame.MAX_SEQUENCE + 1) {
      throw new IllegalArgumentException("begun=" + begun + " boot=" + boot + " next=" + next);
    }
    recorded.has(bootId, nextSequence);
    bootId = boot;
    greetedBootId = boot;
    nextSequence = next;
    storedBelow = next;
  }

  /**
   * From now on the agent keeps all frames until {@link #stored} is told of them: for a host that
   * must not lose them when it is killed. They come no slower for that. Only to such a host the
   * agent hands over what it has recorded. Before the first step.
   */
  public void deferAcknowledgement() {
    if (begun) {
      throw new IllegalStateException("already begun: boot=" + bootId);
    }
    deferred = true;
    storedBelow = nextSequence;
  }

  /**
   * Frames of a boot below this number are safe: the agent may let them go.
   *
   * @param boot whose; where the agent has restarted since, nothing is acknowledged
   */
  public void stored(long boot, long next) {
    if (!deferred || next < 0) {
      throw new IllegalArgumentException("deferred=" + deferred + " next=" + next);
    }
    if (boot == bootId && next > storedBelow) {
      storedBelow = Math.min(next, nextSequence);
      acknowledgeDue = true;
    }
  }

  /**
   * Asks what the agent still keeps, which {@link #handedOver} then tells: after the last {@link
   * #stored}, whose acknowledgement may have been lost.
   */
  public void askKept(long nowMicros) {
    now = nowMicros;
    if (established) {
      acknowledge();
      greet(bootId);
    }
  }

  /** Whether the agent, last greeted, kept nothing that this end has; false once more has come. */
  public boolean handedOver() {
    return established && handedOver;
  }

  /** Goes on with another channel after the device was lost. */
  public void attach(ByteChannel channel) {
    port.attach(channel);
    attached = false;
    established = false;
  }

  /** Reads, delivers, answers, sends. Call it every few milliseconds. */
  public void step(long nowMicros) {
    now = nowMicros;
    begun = true;
    port.read(now, this::take);
    if (!attached) {
      attached = true;
      port.writeDelimiter();
      greet(greetedBootId);
    }
    watch();
    if (established) {
      converse();
    } else if (now - greetSentMicros >= timing.greetMicros()) {
      greet(greetedBootId);
    }
    for (long request : pending.expire(now)) {
      listener.unanswered(request, "no answer in time: request=" + request);
    }
  }

  /** Asks for the interlock's latch to be cleared. Returns the request's identifier. */
  public long arm(long nowMicros) {
    return request(Message.Arm::new, nowMicros);
  }

  /** Asks for a program to be carried out. Returns the request's identifier. */
  public long run(long program, List<ScanStep> steps, long nowMicros) {
    return request(request -> new Message.Run(request, program, steps), nowMicros);
  }

  /**
   * Asks for the call-sense connector to be watched. Returns the request's identifier.
   *
   * @param watch number of the watch, from those of the programs
   * @param loads leads whose dummy load is switched on, bit 0 for X1
   */
  public long senseCalls(long watch, boolean wetting, int loads, long nowMicros) {
    return request(request -> new Message.SenseCalls(request, watch, wetting, loads), nowMicros);
  }

  /**
   * Asks for a vigil. Returns the request's identifier.
   *
   * @param vigil as asked for; its own request's number is replaced
   */
  public long keepVigil(Message.KeepVigil vigil, long nowMicros) {
    return request(
        request ->
            new Message.KeepVigil(
                request,
                vigil.vigil(),
                vigil.kind(),
                vigil.ports(),
                vigil.returned(),
                vigil.wetting(),
                vigil.loads(),
                vigil.lengthMicros(),
                vigil.steps()),
        nowMicros);
  }

  /** Asks for the program or watch to be stopped. Returns the request's identifier. */
  public long stop(long nowMicros) {
    return request(Message.Stop::new, nowMicros);
  }

  public boolean isUp() {
    return established;
  }

  /** Identifier of the boot in conversation, 0 before the first. */
  public long bootId() {
    return bootId;
  }

  /** The first data frame not yet delivered. */
  public long nextSequence() {
    return nextSequence;
  }

  public Counts counts() {
    return new Counts(delivered, duplicates, ahead, unexpected, unreadable, port.counts());
  }

  /** Requests made before the link is up wait for it, within their time. */
  private long request(LongFunction<Message.FromHost> make, long nowMicros) {
    if (pending.size() >= MAX_PENDING
        || nextRequest - pending.oldest(nextRequest) >= REQUEST_WINDOW) {
      throw new IllegalStateException("too many requests unanswered: pending=" + pending.size());
    }
    long request = nextRequest++;
    byte[] item = MessageCodec.encode(make.apply(request));
    pending.add(request, item, nowMicros + timing.requestMicros());
    return request;
  }

  private void watch() {
    long since = now - heardMicros;
    // An answer can't come before the question is out: what the line carried meanwhile is excused.
    long excused = port.carriedMicros() - carriedWhenHeardMicros;
    if (established && (port.gone() || since - excused >= timing.silenceMicros())) {
      established = false;
      greetedBootId = bootId;
      listener.linkLost(
          port.gone() ? "the serial device is gone" : "nothing heard: silentMicros=" + since);
    }
  }

  private void converse() {
    if (now - pingSentMicros >= timing.pingMicros()) {
      pingSentMicros = now;
      write(new Message.Ping(nextPing++));
    }
    boolean late = now - acknowledgedMicros >= timing.acknowledgeMicros();
    if (unacknowledged >= timing.acknowledgeFrames() || (acknowledgeDue && late)) {
      acknowledge();
    }
    pending.sendDue(now, timing.retryMicros(), port);
  }

  private void acknowledge() {
    write(new Message.Acknowledge(deferred ? storedBelow : nextSequence, nextSequence));
    acknowledgedMicros = now;
    unacknowledged = 0;
    acknowledgeDue = false;
  }

  private void take(byte[] item) {
    heardMicros = now;
    carriedWhenHeardMicros = port.carriedMicros();
    Incoming incoming;
    try {
      incoming = MessageCodec.decode(item);
    } catch (LinkFormatException e) {
      unreadable++;
      OptionalLong sequence = e.sequence();
      if (sequence.isPresent() && inOrder(sequence.getAsLong())) {
        listener.unreadable(sequence.getAsLong(), String.valueOf(e.getMessage()));
      }
      return;
    }
    if (incoming instanceof DataFrame frame) {
      if (inOrder(frame.sequence())) {
        deliver(frame);
      }
    } else if (incoming instanceof Incoming.UnknownData data) {
      if (inOrder(data.sequence())) {
        listener.unreadable(data.sequence(), "message of a later protocol: type=" + data.type());
      }
    } else if (incoming instanceof Incoming.Unknown unknown) {
      write(new Message.NotUnderstood(unknown.type()));
    } else if (incoming instanceof Incoming.Plain plain) {
      take(plain.message());
    }
  }

  private void deliver(DataFrame frame) {
    if (frame.message() instanceof Message.Recorded earlier) {
      long lostFrom = recorded.lostFrom(earlier);
      if (recorded.had(earlier)) {
        duplicates++;
        listener.repeated(frame.sequence());
        return;
      }
      recorded.has(earlier.boot(), earlier.sequence() + 1);
      if (lostFrom < earlier.sequence()) {
        listener.lostOfEarlier(earlier.boot(), lostFrom, earlier.sequence());
      }
    }
    delivered++;
    listener.data(frame);
  }

  private void take(Message message) {
    if (message instanceof Message.Welcome welcome) {
      welcome(welcome);
    } else if (message instanceof Message.NotUnderstood notUnderstood) {
      listener.notUnderstood(notUnderstood.type());
    } else if (!established) {
      unexpected++;
    } else if (message instanceof Message.Reply reply) {
      conversedMicros = now;
      if (pending.remove(reply.request())) {
        listener.replied(reply);
      }
    } else if (message instanceof Message.Alive alive) {
      conversedMicros = now;
      listener.alive(alive);
    } else {
      unexpected++;
    }
  }

  /** Whether this data frame is the next one; counts it as got if so, asks for what is missing. */
  private boolean inOrder(long sequence) {
    if (!established) {
      unexpected++;
      return false;
    }
    conversedMicros = now;
    if (sequence == nextSequence) {
      nextSequence++;
      handedOver = false;
      unacknowledged++;
      acknowledgeDue = true;
      return true;
    }
    if (sequence < nextSequence) {
      duplicates++;
      acknowledgeDue = true;
    } else {
      ahead++;
      if (!awaitingWelcome || now - greetSentMicros >= timing.greetMicros()) {
        greet(bootId);
      }
    }
    return false;
  }

  private void greet(long boot) {
    greetedBootId = boot;
    awaitingWelcome = true;
    greetSentMicros = now;
    long next = boot == bootId ? nextSequence : 0;
    write(new Message.Greet(MessageCodec.PROTOCOL, boot, next, deferred));
  }

  private void welcome(Message.Welcome welcome) {
    if (welcome.protocol() != MessageCodec.PROTOCOL) {
      if (!told) {
        told = true;
        listener.otherProtocol(welcome);
      }
      return;
    }
    boolean answer = awaitingWelcome && welcome.bootId() == greetedBootId;
    if (answer) {
      confirmed(welcome);
    } else if (welcome.bootId() != bootId || !established) {
      established = false;
      greet(welcome.bootId());
    } else if (now - Math.max(conversedMicros, greetSentMicros) >= timing.pingMicros()) {
      greet(bootId); // the agent answers with nothing but this: our last greeting was lost
    }
  }

  /** The agent has been greeted by its own identifier: data and requests may pass. */
  private void confirmed(Message.Welcome welcome) {
    awaitingWelcome = false;
    told = false;
    if (welcome.bootId() != bootId) {
      adopt(welcome);
    }
    if (welcome.oldestSequence() > nextSequence) {
      long from = nextSequence;
      nextSequence = welcome.oldestSequence();
      storedBelow = Math.max(storedBelow, nextSequence); // nothing below it is to be kept
      listener.lost(from, nextSequence);
    }
    handedOver = welcome.oldestSequence() >= Math.min(nextSequence, welcome.nextSequence());
    acknowledgeDue = true;
    if (!established) {
      established = true;
      conversedMicros = now;
      pingSentMicros = now - timing.pingMicros();
      pending.dueNow();
      listener.linkUp(welcome);
    }
  }

  private void adopt(Message.Welcome welcome) {
    long before = bootId;
    recorded.has(before, nextSequence);
    bootId = welcome.bootId();
    // A host that knows no boot missed nothing: what went before was another's.
    nextSequence = before == 0 ? welcome.oldestSequence() : 0;
    storedBelow = nextSequence;
    if (before != 0) {
      listener.agentRestarted(before, bootId);
      for (long request : pending.clear()) {
        listener.unanswered(request, "the agent has restarted: request=" + request);
      }
    }
  }

  private void write(Message message) {
    port.writeItem(MessageCodec.encode(message));
  }
}
