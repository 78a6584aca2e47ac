package bellwire.fuzz;

import bellwire.link.AgentEndpoint;
import bellwire.link.DataFrame;
import bellwire.link.FrameCodec;
import bellwire.link.FrameReader;
import bellwire.link.Incoming;
import bellwire.link.LinkFormatException;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import java.util.List;

/**
 * An agent's end of the link with a host that says whatever it likes, in virtual time. No request
 * comes through before this boot was greeted, numbers sent stay within what there is, and nothing
 * is written but whole messages of an agent's, in proportion to what came.
 */
final class HostileHost implements Target {
  private static final long BOOT = 77;
  private static final int MOST_DEEDS = 400;
  private static final long STEP_MICROS = 5_000;

  /** A welcome and a refusal, the longest answers to the shortest frames, on each frame's bytes. */
  private static final long WRITTEN_PER_BYTE = 60;

  private static final List<byte[]> DATA =
      MessageSeeds.data().stream()
          .map(message -> MessageCodec.encode(new DataFrame(0, 0, message)))
          .toList();

  private AgentEndpoint agent = endpoint(new FedChannel(item -> {}));
  private FedChannel line = new FedChannel(item -> {});
  private FrameReader overheard = new FrameReader();
  private boolean greeted;
  private long fedBytes;
  private long sentBytes;
  private long now;

  private static AgentEndpoint endpoint(FedChannel line) {
    return new AgentEndpoint(
        line,
        BOOT,
        new AgentEndpoint.Identity("0.1", "A", "", 921_600),
        new AgentEndpoint.Limits(64, 1 << 16, 8, 4096, 1_000_000, 3_000_000, 92_160));
  }

  @Override
  public void take(byte[] input) {
    line = new FedChannel(this::written);
    agent = endpoint(line);
    overheard = new FrameReader();
    greeted = false;
    fedBytes = 0;
    sentBytes = 0;
    now = 0;
    Script script = new Script(input);
    for (int i = 0; i < MOST_DEEDS && !script.atEnd(); i++) {
      deed(script);
      step();
    }
    // Nothing it was told keeps it from a host that behaves, which ends another's half frame.
    feed(new byte[] {0});
    item(MessageCodec.encode(new Message.Greet(1, BOOT, agent.receivedSequence(), true)));
    step();
    Finding.unless(agent.hostPresent(), "does not hear a greeting any more");
  }

  private void deed(Script script) {
    switch (script.octet() % 10) {
      case 0 -> feed(script.bytes(script.octet()));
      case 1 -> item(script.bytes(script.pair() % 4096));
      case 2 -> now += script.pair() * 100L;
      case 3 -> data(script.octet());
      case 4 -> item(MessageCodec.encode(greeting(script)));
      case 5 -> item(MessageCodec.encode(acknowledgement(script)));
      case 6 -> item(MessageCodec.encode(request(script)));
      case 7 -> {
        line.cut();
        line = new FedChannel(this::written);
        overheard.reset();
        agent.attach(line);
      }
      case 8 -> repeat(script);
      default -> item(DATA.get(script.octet() % DATA.size()));
    }
  }

  private static Message greeting(Script script) {
    long boot = script.octet() % 4 == 0 ? script.number() : BOOT;
    return new Message.Greet(1, boot, script.number(), script.octet() % 2 == 0);
  }

  private static Message acknowledgement(Script script) {
    long stored = script.number();
    return new Message.Acknowledge(stored, Math.max(stored, script.number()));
  }

  private static Message request(Script script) {
    return MessageSeeds.fromHost().get(script.octet() % MessageSeeds.fromHost().size());
  }

  private void repeat(Script script) {
    byte[] item = MessageCodec.encode(new Message.Stop(script.number()));
    for (int i = script.octet(); i > 0; i--) {
      item(item);
    }
  }

  private void data(int which) {
    Message.Data message = MessageSeeds.data().get(which % MessageSeeds.data().size());
    agent.send(message, now);
    sentBytes += 4096;
  }

  private void item(byte[] item) {
    if (item.length > 0) {
      feed(FrameCodec.encode(item));
    }
  }

  private void feed(byte[] bytes) {
    fedBytes += bytes.length;
    overheard.feed(bytes, 0, bytes.length, this::overhear);
    line.feed(bytes);
  }

  private void overhear(byte[] item) {
    try {
      greeted |=
          MessageCodec.decode(item) instanceof Incoming.Plain plain
              && plain.message() instanceof Message.Greet greet
              && greet.bootId() == BOOT;
    } catch (LinkFormatException e) {
      // No greeting.
    }
  }

  private void step() {
    now += STEP_MICROS;
    agent.step(now);
    for (Message.FromHost request = agent.poll(); request != null; request = agent.poll()) {
      Finding.unless(greeted, "a request before a greeting: %s", request);
      answer(request);
    }
    Finding.unless(
        agent.receivedSequence() <= agent.nextSequence()
            && agent.oldestSequence() <= agent.nextSequence(),
        "numbers beyond what there is: received=%s next=%s",
        agent.receivedSequence(),
        agent.nextSequence());
  }

  private void answer(Message.FromHost request) {
    if (request instanceof Message.Ping ping) {
      Message.Interlock clear = new Message.Interlock(false, false, 0);
      agent.reply(new Message.Alive(ping.request(), clear, 0, 0));
    } else if (request instanceof Message.Stop stop) {
      agent.reply(new Message.Reply(stop.request(), true, ""));
    }
  }

  private void written(byte[] item) {
    try {
      Incoming told = MessageCodec.decode(item);
      Finding.unless(
          told instanceof DataFrame
              || (told instanceof Incoming.Plain plain
                  && plain.message() instanceof Message.FromAgent),
          "an agent does not say this: %s",
          told);
    } catch (LinkFormatException e) {
      throw new AssertionError("wrote what cannot be read", e);
    }
    long most = 4096 + WRITTEN_PER_BYTE * fedBytes + sentBytes * (2 + now / 500_000);
    Finding.unless(line.writtenBytes() <= most, "written=%s most=%s", line.writtenBytes(), most);
  }
}
