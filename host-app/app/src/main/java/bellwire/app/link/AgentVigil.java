package bellwire.app.link;

import bellwire.app.job.Source;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.vigil.VigilBoard;
import bellwire.app.vigil.VigilFeed;
import bellwire.link.DataFrame;
import bellwire.link.HostEndpoint;
import bellwire.link.Message;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;

/**
 * A board that keeps a vigil, reached through the link. A link that is lost is waited for without
 * end, for the agent goes on alone; nothing is acknowledged before it is told to be stored.
 */
public final class AgentVigil implements VigilBoard {
  /** Where nothing arrives; a bench runs on for so long at a time. */
  private static final long STEP_MICROS = 20_000;

  private static final long ALIVE_MICROS = 5_000_000;

  private final Transport transport;
  private final Conversation conversation;
  private final VigilFeed feed;
  private long vigil;
  private long aliveVigil;
  private long aliveMicros = Long.MIN_VALUE;
  private long diskBytes;
  private boolean on;
  private boolean ended;
  private boolean restarted;

  /**
   * @param feed takes what comes
   * @param cancelled asked often; true ends whatever waits
   * @param firstRequest see {@link HostEndpoint}
   * @param notes told in words of a link that is lost, and back
   */
  public AgentVigil(
      Transport transport,
      HostEndpoint.Timing timing,
      VigilFeed feed,
      BooleanSupplier cancelled,
      long firstRequest,
      Consumer<String> notes) {
    this.transport = transport;
    this.feed = feed;
    conversation =
        new Conversation(
            transport,
            timing,
            new Watching(),
            cancelled,
            firstRequest,
            notes,
            "start the vigil again");
    conversation.endpoint().deferAcknowledgement();
  }

  @Override
  public Message.Welcome open(List<Source> known) throws InstrumentTrouble {
    for (int i = known.size() - 1; i >= 0; i--) {
      conversation.endpoint().resume(known.get(i).boot(), known.get(i).nextSequence());
    }
    return conversation.open();
  }

  @Override
  public OptionalLong underWay() throws InstrumentTrouble {
    long asked = transport.nowMicros();
    conversation.pump(() -> aliveMicros >= asked, ALIVE_MICROS, "the agent does not answer");
    return aliveVigil == 0 ? OptionalLong.empty() : OptionalLong.of(aliveVigil);
  }

  @Override
  public void arm() throws InstrumentTrouble {
    Message.Reply answer = conversation.ask(endpoint -> endpoint.arm(transport.nowMicros()));
    if (!answer.accepted()) {
      throw new InstrumentTrouble(
          "the board could not be armed: "
              + answer.reason()
              + "; where that is voltage, find what feeds the cable, switch it off, and prove the"
              + " cable dead again");
    }
  }

  @Override
  public void keep(Message.KeepVigil asked) throws InstrumentTrouble {
    follow(asked.vigil());
    Message.Reply answer =
        conversation.askChecked(endpoint -> endpoint.keepVigil(asked, transport.nowMicros()));
    if (!answer.accepted()) {
      on = false;
      throw new InstrumentTrouble("the agent refused the vigil: " + answer.reason());
    }
  }

  @Override
  public void follow(long number) {
    vigil = number;
    on = true;
    ended = false;
    restarted = false;
  }

  @Override
  public void await(long micros) throws InstrumentTrouble {
    long until = transport.nowMicros() + micros;
    conversation.pumped(() -> transport.nowMicros() >= until || ended || restarted, micros);
  }

  @Override
  public void linger(long micros) throws InstrumentTrouble {
    conversation.pumped(() -> false, micros);
  }

  @Override
  public boolean part() {
    return conversation.part();
  }

  @Override
  public void stored(long boot, long nextSequence) {
    conversation.endpoint().stored(boot, nextSequence);
  }

  @Override
  public long boot() {
    return conversation.endpoint().bootId();
  }

  @Override
  public boolean ended() {
    return ended;
  }

  @Override
  public boolean restarted() {
    return restarted;
  }

  @Override
  public boolean up() {
    return conversation.up();
  }

  @Override
  public long diskBytes() {
    return diskBytes;
  }

  @Override
  public long nowMicros() {
    return transport.nowMicros();
  }

  @Override
  public void stop() {
    if (on && !ended) {
      long asked = transport.nowMicros();
      conversation.stop(() -> ended || (aliveMicros > asked && aliveVigil == 0));
      ended |= aliveMicros > asked && aliveVigil == 0;
    }
  }

  @Override
  public boolean letGo() {
    return !on || ended || restarted;
  }

  @Override
  public void close() {
    transport.close();
  }

  private final class Watching implements Conversation.Client {
    @Override
    public void data(DataFrame frame) throws InstrumentTrouble {
      long now = conversation.endpoint().bootId();
      if (frame.message() instanceof Message.Recorded old) {
        feed.data(false, old.boot(), old.sequence(), old.deviceMicros(), old.message());
      } else {
        feed.data(true, now, frame.sequence(), frame.deviceMicros(), frame.message());
        if (frame.message() instanceof Message.Ended end && end.program() == vigil) {
          ended = true;
        }
      }
      feed.arrived(now, frame.sequence() + 1);
    }

    @Override
    public void repeated(long sequence) throws InstrumentTrouble {
      feed.arrived(conversation.endpoint().bootId(), sequence + 1);
    }

    @Override
    public void welcomed(Message.Welcome up) {
      feed.welcomed(up.bootId(), up.deviceMicros());
    }

    @Override
    public boolean busy() {
      return on && !ended;
    }

    @Override
    public boolean goesOnRestarted() {
      restarted = on && !ended;
      return true;
    }

    @Override
    public void lost(long frames) {
      feed.lost(frames);
    }

    @Override
    public void alive(Message.Alive alive) {
      aliveVigil = alive.vigil();
      diskBytes = alive.diskBytes();
      aliveMicros = transport.nowMicros();
    }

    @Override
    public long stepMicros() {
      return STEP_MICROS;
    }

    @Override
    public long patienceMicros() {
      return Long.MAX_VALUE;
    }
  }
}
