package bellwire.fuzz;

import bellwire.link.DataFrame;
import bellwire.link.FrameCodec;
import bellwire.link.HostEndpoint;
import bellwire.link.HostListener;
import bellwire.link.Incoming;
import bellwire.link.LinkFormatException;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import java.util.ArrayList;
import java.util.List;

/**
 * A host's end of the link with a device that says whatever it likes, in virtual time: forged boots
 * and numbers, floods, clocks that run backwards. Data come in the order of their numbers and once,
 * nothing is told as lost that has come, and what is kept and written stays in proportion.
 */
final class HostileDevice implements Target {
  private static final int MOST_DEEDS = 400;
  private static final long STEP_MICROS = 5_000;
  private static final long WRITTEN_PER_BYTE = 60;

  private final Listener listener = new Listener();
  private FedChannel line = new FedChannel(item -> {});
  private HostEndpoint host = endpoint(line);
  private long fedBytes;
  private long now;

  private HostEndpoint endpoint(FedChannel channel) {
    return new HostEndpoint(channel, listener, HostEndpoint.Timing.forBaud(921_600), 1000);
  }

  @Override
  public void take(byte[] input) {
    listener.begin();
    line = new FedChannel(this::written);
    host = endpoint(line);
    fedBytes = 0;
    now = 0;
    Script script = new Script(input);
    int how = script.octet();
    if (how % 4 == 1) {
      host.deferAcknowledgement();
    } else if (how % 4 == 2) {
      host.resume(77, script.pair());
    }
    for (int i = 0; i < MOST_DEEDS && !script.atEnd(); i++) {
      deed(script);
      step();
    }
    // What a host keeps of where it was has to be what a later one may be given.
    if (host.bootId() > 0) {
      HostEndpoint later = endpoint(new FedChannel(item -> {}));
      later.resume(host.bootId(), host.nextSequence());
    }
  }

  private void deed(Script script) {
    switch (script.octet() % 10) {
      case 0 -> feed(script.bytes(script.octet()));
      case 1 -> item(script.bytes(script.pair() % 4096));
      case 2 -> now += script.pair() * 100L;
      case 3 -> ask(script.octet());
      case 4 -> item(MessageCodec.encode(welcome(script)));
      case 5 -> item(MessageCodec.encode(data(script)));
      case 6 -> item(MessageCodec.encode(recorded(script)));
      case 7 -> {
        line.cut();
        line = new FedChannel(this::written);
        host.attach(line);
      }
      case 8 -> repeat(script);
      default -> item(MessageCodec.encode(new Message.Reply(script.number(), true, "")));
    }
  }

  private static Message welcome(Script script) {
    long boot = script.number();
    long oldest = script.number();
    return new Message.Welcome(1, "0.1", "A", boot, oldest, script.number(), "", 921_600, 0);
  }

  private static DataFrame data(Script script) {
    Message.Data message = MessageSeeds.data().get(script.octet() % MessageSeeds.data().size());
    return new DataFrame(script.number() & DataFrame.MAX_SEQUENCE, script.number(), message);
  }

  private static DataFrame recorded(Script script) {
    long sequence = script.number() & DataFrame.MAX_SEQUENCE;
    Message.Data inner = new Message.Trouble("record", "damaged");
    long lost = Math.min(sequence, script.number());
    return new DataFrame(
        script.octet(),
        script.number(),
        new Message.Recorded(
            script.number(), sequence, script.number(), inner, lost, script.number()));
  }

  private void repeat(Script script) {
    byte[] item = MessageCodec.encode(data(script));
    for (int i = script.octet(); i > 0; i--) {
      item(item);
    }
  }

  private void ask(int what) {
    try {
      switch (what % 4) {
        case 0 -> host.arm(now);
        case 1 -> host.stop(now);
        case 2 -> host.senseCalls(1, false, 0, now);
        default -> host.stored(host.bootId(), what);
      }
    } catch (IllegalStateException | IllegalArgumentException e) {
      // The caller's own bounds: too many requests, or not a host that stores.
      Sentences.check(e.getMessage());
    }
  }

  private void item(byte[] item) {
    if (item.length > 0) {
      feed(FrameCodec.encode(item));
    }
  }

  private void feed(byte[] bytes) {
    fedBytes += bytes.length;
    line.feed(bytes);
  }

  private void step() {
    now += STEP_MICROS;
    host.step(now);
  }

  private void written(byte[] item) {
    try {
      Finding.unless(
          MessageCodec.decode(item) instanceof Incoming.Plain plain
              && plain.message() instanceof Message.FromHost,
          "a host does not say this");
    } catch (LinkFormatException e) {
      throw new AssertionError("wrote what cannot be read", e);
    }
    long most = 4096 + WRITTEN_PER_BYTE * fedBytes + now / 100;
    Finding.unless(line.writtenBytes() <= most, "written=%s most=%s", line.writtenBytes(), most);
  }

  /** Holds what is told against what was told before. */
  private static final class Listener implements HostListener {
    private final List<Long> unanswered = new ArrayList<>();
    private long next;
    private boolean known;

    void begin() {
      unanswered.clear();
      known = false;
    }

    @Override
    public void linkUp(Message.Welcome welcome) {
      Finding.unless(welcome.bootId() > 0, "up with a boot that cannot be: %s", welcome);
    }

    @Override
    public void linkLost(String reason) {
      Sentences.check(reason);
    }

    @Override
    public void otherProtocol(Message.Welcome welcome) {
      Finding.unless(welcome.protocol() != MessageCodec.PROTOCOL, "the same protocol");
    }

    @Override
    public void agentRestarted(long oldBootId, long newBootId) {
      Finding.unless(oldBootId != newBootId, "the same boot");
      known = false;
    }

    @Override
    public void data(DataFrame frame) {
      follows(frame.sequence());
      next = frame.sequence() + 1;
    }

    @Override
    public void lost(long fromSequence, long toSequence) {
      Finding.unless(fromSequence < toSequence, "lost %s to %s", fromSequence, toSequence);
      Finding.unless(
          toSequence <= DataFrame.MAX_SEQUENCE + 1, "more lost than there are: %s", toSequence);
      follows(fromSequence);
      next = toSequence;
    }

    private void follows(long sequence) {
      // Recorded ones that have come before are passed over.
      Finding.unless(!known || sequence >= next, "sequence=%s next=%s", sequence, next);
      known = true;
    }

    @Override
    public void lostOfEarlier(long bootId, long fromSequence, long toSequence) {
      Finding.unless(fromSequence < toSequence, "lost %s to %s", fromSequence, toSequence);
    }

    @Override
    public void unreadable(long sequence, String reason) {
      Sentences.check(reason);
      follows(sequence);
      next = sequence + 1;
    }

    @Override
    public void replied(Message.Reply reply) {
      Finding.unless(!unanswered.contains(reply.request()), "answered twice: %s", reply.request());
    }

    @Override
    public void alive(Message.Alive alive) {}

    @Override
    public void unanswered(long request, String reason) {
      unanswered.add(request);
      Sentences.check(reason);
    }

    @Override
    public void notUnderstood(int type) {}
  }
}
