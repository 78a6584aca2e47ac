package bellwire.link;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;

/**
 * An agent's end and a host's end joined by two lines, in virtual time, with an application on both
 * sides that keeps account of all that it is told.
 */
final class TestBench implements HostListener {
  static final long STEP_MICROS = 5_000;
  static final AgentEndpoint.Limits LIMITS =
      new AgentEndpoint.Limits(4000, 1 << 20, 16, 8192, 400_000, 3_000_000, 100_000);
  static final HostEndpoint.Timing TIMING =
      new HostEndpoint.Timing(
          8, 50_000, 300_000, 1_000_000, 3_000_000, 400_000, 8_000_000, 100_000);

  final Random random;
  final TestLine toHost;
  final TestLine toAgent;
  final HostEndpoint host;
  AgentEndpoint agent;
  long now;
  long bootId = 1000;
  boolean answers = true;

  final List<String> events = new ArrayList<>();
  final List<DataFrame> got = new ArrayList<>();
  final List<long[]> gaps = new ArrayList<>();
  final Map<Long, Integer> done = new HashMap<>();
  final Set<Long> asked = new HashSet<>();
  final Map<Long, Message.Reply> replies = new HashMap<>();
  final Set<Long> unanswered = new HashSet<>();
  final List<Message.Interlock> alive = new ArrayList<>();

  TestBench(long seed, TestLine.Harm harm, AgentEndpoint.Limits limits) {
    random = new Random(seed);
    toHost = new TestLine(random, harm, 600);
    toAgent = new TestLine(random, harm, 600);
    host = new HostEndpoint(TestLine.channel(toHost, toAgent), this, TIMING, 1 << 20);
    restartAgent(limits);
  }

  /** A new boot: the old one's memory is gone, what it wrote may still be on its way. */
  void restartAgent(AgentEndpoint.Limits limits) {
    bootId++;
    agent =
        new AgentEndpoint(
            TestLine.channel(toAgent, toHost),
            bootId,
            new AgentEndpoint.Identity("test", "A", "", 115_200),
            limits);
  }

  void step() {
    now += STEP_MICROS;
    toHost.move();
    toAgent.move();
    agent.step(now);
    serve();
    host.step(now);
  }

  void run(long micros) {
    for (long end = now + micros; now < end; ) {
      step();
    }
  }

  /** Runs until all of the agent's data are acknowledged. */
  void drain(long atMostMicros) {
    for (long end = now + atMostMicros; now < end; ) {
      step();
      if (agent.oldestSequence() == agent.nextSequence() && host.isUp()) {
        return;
      }
    }
    throw new AssertionError(
        "not drained: oldest="
            + agent.oldestSequence()
            + " next="
            + agent.nextSequence()
            + " host="
            + host.nextSequence()
            + " "
            + agent.counts()
            + " "
            + host.counts());
  }

  private void serve() {
    Message.FromHost request;
    while (answers && (request = agent.poll()) != null) {
      if (request instanceof Message.Ping ping) {
        agent.reply(
            new Message.Alive(ping.request(), new Message.Interlock(false, false, 0), 0, 0));
      } else if (request instanceof Message.Arm arm) {
        done.merge(arm.request(), 1, Integer::sum);
        agent.reply(new Message.Reply(arm.request(), true, ""));
      } else if (request instanceof Message.Run run) {
        done.merge(run.request(), 1, Integer::sum);
        agent.reply(new Message.Reply(run.request(), false, "program " + run.program()));
      } else if (request instanceof Message.Stop stop) {
        done.merge(stop.request(), 1, Integer::sum);
        agent.reply(new Message.Reply(stop.request(), true, ""));
      }
    }
  }

  @Override
  public void linkUp(Message.Welcome welcome) {
    events.add("up " + welcome.bootId());
  }

  @Override
  public void linkLost(String reason) {
    events.add("lost");
  }

  @Override
  public void otherProtocol(Message.Welcome welcome) {
    events.add("protocol " + welcome.protocol());
  }

  @Override
  public void agentRestarted(long oldBootId, long newBootId) {
    events.add("restart " + oldBootId + " " + newBootId);
  }

  @Override
  public void data(DataFrame frame) {
    got.add(frame);
  }

  @Override
  public void lost(long fromSequence, long toSequence) {
    gaps.add(new long[] {fromSequence, toSequence});
  }

  @Override
  public void lostOfEarlier(long boot, long fromSequence, long toSequence) {
    events.add("lost of " + boot + " " + fromSequence + " " + toSequence);
  }

  @Override
  public void repeated(long sequence) {
    events.add("repeated " + sequence);
  }

  @Override
  public void unreadable(long sequence, String reason) {
    events.add("unreadable " + sequence);
  }

  @Override
  public void replied(Message.Reply reply) {
    if (replies.put(reply.request(), reply) != null) {
      throw new AssertionError("answered twice: request=" + reply.request());
    }
  }

  @Override
  public void alive(Message.Alive answer) {
    alive.add(answer.interlock());
  }

  @Override
  public void unanswered(long request, String reason) {
    unanswered.add(request);
  }

  @Override
  public void notUnderstood(int type) {
    events.add("not understood " + type);
  }
}
