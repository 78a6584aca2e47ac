package bellwire.app.link;

import bellwire.app.survey.Cancelled;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.link.DataFrame;
import bellwire.link.HostEndpoint;
import bellwire.link.HostListener;
import bellwire.link.Message;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.ToLongFunction;
import org.jspecify.annotations.Nullable;

/**
 * A conversation with an agent: waits by letting time pass on the transport, so that it runs in
 * virtual time too, and turns what goes wrong into words.
 */
final class Conversation implements HostListener {

  /** Who talks with the agent. */
  interface Client {
    void data(DataFrame frame) throws InstrumentTrouble;

    /** A frame with nothing new in it. */
    default void repeated(long sequence) throws InstrumentTrouble {}

    /** The agent has greeted back: at each beginning of a conversation. */
    default void welcomed(Message.Welcome up) {}

    /** Whether a program or a watch of its own is on. */
    boolean busy();

    /** Data frames that won't come while it is busy. */
    void lost(long frames) throws InstrumentTrouble;

    /**
     * The agent is another than before, and has let go of all it did.
     *
     * @return whether the client goes on all the same
     */
    default boolean goesOnRestarted() {
      return !busy();
    }

    /** The agent's answer to a ping. */
    default void alive(Message.Alive alive) {}

    /** How long to let pass at a time, where nothing arrives. */
    default long stepMicros() {
      return STEP_MICROS;
    }

    /** For how long a link once up may be down. */
    default long patienceMicros() {
      return LINK_GAP_MICROS;
    }
  }

  private static final long GREET_MICROS = 8_000_000;
  private static final long ANSWER_MICROS = 10_000_000;

  /** For how long a lost link may take to come back: waiting has ended before 20 s. */
  private static final long LINK_GAP_MICROS = 19_500_000;

  private static final long STOP_MICROS = 1_500_000;
  private static final long STEP_MICROS = 2_000;
  private static final long PARTING_MICROS = 3_000_000;
  private static final long CONFIRM_MICROS = 300_000;

  private final Transport transport;
  private final HostEndpoint endpoint;
  private final Client client;
  private final BooleanSupplier cancelled;
  private final Consumer<String> notes;
  private final String again;
  private final long gapMicros;
  private Message.@Nullable Welcome welcome;
  private Message.@Nullable Reply reply;
  private Message.@Nullable Alive alive;
  private @Nullable String trouble;
  private long awaited = -1;

  /** How long a link once up has been down, over several waits. */
  private long goneMicros;

  /**
   * @param cancelled asked often; true ends whatever waits
   * @param firstRequest see {@link HostEndpoint}
   * @param notes told in words of a link that is lost, and back
   * @param again what to do once a lost link is mended, such as 'survey again'
   */
  Conversation(
      Transport transport,
      HostEndpoint.Timing timing,
      Client client,
      BooleanSupplier cancelled,
      long firstRequest,
      Consumer<String> notes,
      String again) {
    this.transport = transport;
    this.client = client;
    this.cancelled = cancelled;
    this.notes = notes;
    this.again = again;
    // A request made as the link breaks is still wanted when it is back.
    HostEndpoint.Timing patient = timing.withRequestMicros(LINK_GAP_MICROS + ANSWER_MICROS);
    endpoint = new HostEndpoint(transport, this, patient, firstRequest);
    gapMicros = Math.max(0, client.patienceMicros() - timing.silenceMicros());
  }

  /** The link's end, to be told of what only it knows. */
  HostEndpoint endpoint() {
    return endpoint;
  }

  /** Whether the link is up at this moment. */
  boolean up() {
    return endpoint.isUp();
  }

  Message.Welcome open() throws InstrumentTrouble {
    pump(
        () -> welcome != null,
        GREET_MICROS,
        "no answer on " + transport.name() + ": is the agent running, and is this its port?");
    Message.Welcome up = welcome;
    if (up == null) {
      throw new IllegalStateException("linked without a welcome");
    }
    endLeftover();
    return up;
  }

  /**
   * What another host began and did not live to end would go on for a minute, and be in the way.
   * Only a vigil is meant to go on alone.
   */
  private void endLeftover() throws InstrumentTrouble {
    pumped(() -> alive != null, ANSWER_MICROS);
    if (alive != null && alive.vigil() == 0) {
      ask(at -> at.stop(transport.nowMicros()));
    }
  }

  /** Makes a request and waits for its answer. */
  Message.Reply ask(ToLongFunction<HostEndpoint> request) throws InstrumentTrouble {
    awaited = request.applyAsLong(endpoint);
    reply = null;
    pump(() -> reply != null, ANSWER_MICROS, "the agent does not answer");
    Message.Reply answer = reply;
    if (answer == null) {
      throw new IllegalStateException("awaited=" + awaited);
    }
    return answer;
  }

  /**
   * The same, once more where a board that had not passed its self-check refuses it and then
   * passes: a chip may have failed once, and only being armed lets such a board measure again.
   */
  Message.Reply askChecked(ToLongFunction<HostEndpoint> request) throws InstrumentTrouble {
    Message.Reply answer = ask(request);
    Message.Welcome up = welcome;
    if (answer.accepted() || up == null || up.selfCheck().isEmpty()) {
      return answer;
    }
    Message.Reply armed = ask(at -> at.arm(transport.nowMicros()));
    return armed.accepted() ? ask(request) : answer;
  }

  /**
   * Steps the link until the condition holds.
   *
   * @param limitMicros until it is too late, the time not counted in which a link once up was down
   */
  void pump(BooleanSupplier until, long limitMicros, String late) throws InstrumentTrouble {
    if (!pumped(until, limitMicros)) {
      throw new InstrumentTrouble(late);
    }
  }

  /** The same; false when it is too late. */
  boolean pumped(BooleanSupplier until, long limitMicros) throws InstrumentTrouble {
    long start = transport.nowMicros();
    long downMicros = 0;
    while (!until.getAsBoolean()) {
      if (cancelled.getAsBoolean()) {
        throw new Cancelled();
      }
      long now = transport.nowMicros();
      endpoint.step(now);
      if (until.getAsBoolean()) {
        return true;
      }
      if (trouble != null) {
        String words = trouble;
        trouble = null;
        throw new InstrumentTrouble(words);
      }
      if (goneMicros > gapMicros) {
        throw new InstrumentTrouble(lostWords());
      }
      if (now - start - downMicros > limitMicros) {
        return false;
      }
      transport.await(client.stepMicros());
      boolean down = welcome != null && !endpoint.isUp();
      long passed = transport.nowMicros() - now;
      downMicros += down ? passed : 0;
      goneMicros = down ? goneMicros + passed : 0;
    }
    return true;
  }

  private String lostWords() {
    return transport.away()
        ? "the serial device "
            + transport.name()
            + " was lost and did not come back: plug its cable in, then "
            + again
        : "the agent on "
            + transport.name()
            + " fell silent: look at its power and its cable, then "
            + again;
  }

  /** Asks the agent to stop, and gives it a moment to say that it has. */
  void stop(BooleanSupplier ended) {
    if (!endpoint.isUp()) {
      return;
    }
    endpoint.stop(transport.nowMicros());
    long until = transport.nowMicros() + STOP_MICROS;
    while (!ended.getAsBoolean() && transport.nowMicros() < until) {
      endpoint.step(transport.nowMicros());
      transport.await(STEP_MICROS);
    }
  }

  /**
   * Lets what was told last go out, also after the operator has interrupted, until the agent
   * confirms that it keeps nothing any more.
   *
   * @return whether it has
   */
  boolean part() {
    long now = transport.nowMicros();
    long until = now + PARTING_MICROS;
    for (long due = now; endpoint.isUp() && now < until; now = transport.nowMicros()) {
      endpoint.step(now);
      if (endpoint.handedOver()) {
        return true;
      }
      if (now >= due) {
        endpoint.askKept(now);
        due = now + CONFIRM_MICROS;
      }
      transport.await(STEP_MICROS);
    }
    return false;
  }

  long nowMicros() {
    return transport.nowMicros();
  }

  @Override
  public void linkUp(Message.Welcome up) {
    if (welcome != null) {
      notes.accept("the link is back");
    }
    welcome = up;
    client.welcomed(up);
  }

  @Override
  public void repeated(long sequence) {
    try {
      client.repeated(sequence);
    } catch (InstrumentTrouble e) {
      trouble = e.getMessage();
    }
  }

  @Override
  public void linkLost(String reason) {
    notes.accept("the link is lost: waiting for it, plug the cable in again");
  }

  @Override
  public void otherProtocol(Message.Welcome up) {
    trouble =
        "the agent speaks another version of the link, protocol="
            + up.protocol()
            + ": update the older of the two";
  }

  @Override
  public void agentRestarted(long oldBootId, long newBootId) {
    if (!client.goesOnRestarted()) {
      trouble = "the agent restarted while it measured: look at its power supply, then start again";
    }
  }

  @Override
  public void data(DataFrame frame) {
    if (frame.message() instanceof Message.Trouble wrong) {
      if (wrong.chip().equals(Message.Trouble.RECORD)) {
        notes.accept("the agent's own record: " + wrong.reason());
      } else if (client.busy()) {
        trouble = "trouble with the board's " + wrong.chip() + ": " + wrong.reason();
      } else {
        // Of something over; what is asked for next is refused where it lasts.
        notes.accept("the board had trouble with its " + wrong.chip() + ": " + wrong.reason());
      }
    }
    try {
      client.data(frame);
    } catch (InstrumentTrouble e) {
      trouble = e.getMessage();
    }
  }

  /** Only a host that stores is handed over what was recorded. */
  @Override
  public void lostOfEarlier(long bootId, long fromSequence, long toSequence) {
    lost(fromSequence, toSequence);
  }

  @Override
  public void lost(long fromSequence, long toSequence) {
    try {
      if (client.busy()) {
        client.lost(toSequence - fromSequence);
      }
    } catch (InstrumentTrouble e) {
      trouble = e.getMessage();
    }
  }

  @Override
  public void unreadable(long sequence, String reason) {
    if (client.busy()) {
      trouble = "the agent sent what this program cannot read: " + reason;
    }
  }

  @Override
  public void replied(Message.Reply answer) {
    if (answer.request() == awaited) {
      reply = answer;
    }
  }

  @Override
  public void alive(Message.Alive answer) {
    alive = answer;
    client.alive(answer);
  }

  @Override
  public void unanswered(long request, String reason) {
    if (request == awaited) {
      trouble = "the agent does not answer: " + reason;
    }
  }

  @Override
  public void notUnderstood(int type) {
    trouble =
        "the agent does not know a message of this program, type=" + type + ": update the agent";
  }
}
