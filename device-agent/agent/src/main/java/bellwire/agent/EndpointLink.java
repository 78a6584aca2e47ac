package bellwire.agent;

import bellwire.agent.record.FrameLog;
import bellwire.link.AgentEndpoint;
import bellwire.link.AgentEndpoint.Identity;
import bellwire.link.ByteChannel;
import bellwire.link.DataRing;
import bellwire.link.Message;
import org.jspecify.annotations.Nullable;

/** The serial protocol's agent end as the agent sees it. */
public final class EndpointLink implements HostLink, AutoCloseable {
  /** Of an earlier boot's frames, so many go ahead of what has arrived: new ones wait no longer. */
  private static final int EARLIER_AHEAD = 64;

  private final AgentEndpoint endpoint;
  private final @Nullable FrameLog log;
  private Identity identity;

  private EndpointLink(AgentEndpoint endpoint, @Nullable FrameLog log, Identity identity) {
    this.endpoint = endpoint;
    this.log = log;
    this.identity = identity;
  }

  /**
   * @param bootId drawn at random at this start, above 0
   * @param revision of the sensing board
   * @param baud what the line carries
   */
  public static EndpointLink open(
      ByteChannel channel, long bootId, String agentVersion, String revision, int baud) {
    Identity identity = new Identity(agentVersion, revision, SelfCheck.NOT_YET, baud);
    AgentEndpoint.Limits limits = AgentEndpoint.Limits.forBaud(baud);
    return new EndpointLink(new AgentEndpoint(channel, bootId, identity, limits), null, identity);
  }

  /** The same with a disk of its own, whose memory is {@link #memory}. */
  public static EndpointLink open(
      ByteChannel channel,
      long bootId,
      String agentVersion,
      String revision,
      int baud,
      FrameLog log) {
    Identity identity = new Identity(agentVersion, revision, SelfCheck.NOT_YET, baud);
    AgentEndpoint.Limits limits = AgentEndpoint.Limits.forBaud(baud);
    return new EndpointLink(
        new AgentEndpoint(channel, bootId, identity, limits, log), log, identity);
  }

  /** What the link keeps in memory at this rate: over 60 s of streaming. */
  public static DataRing memory(int baud) {
    return AgentEndpoint.Limits.forBaud(baud).ring();
  }

  /** Writes down what is recorded; the last thing before the agent ends. */
  @Override
  public void close() {
    if (log != null) {
      log.close();
    }
  }

  /** Goes on with another channel after the device was lost. */
  public void attach(ByteChannel channel) {
    endpoint.attach(channel);
  }

  /** What was lost, resent, refused. */
  public AgentEndpoint.Counts counts() {
    return endpoint.counts();
  }

  @Override
  public void step(long nowMicros) {
    if (log != null) {
      stepLog(log, nowMicros);
    }
    endpoint.step(nowMicros);
  }

  @Override
  public Message.@Nullable FromHost poll() {
    return endpoint.poll();
  }

  @Override
  public void send(Message.Data message, long nowMicros) {
    endpoint.send(message, nowMicros);
  }

  @Override
  public void reply(Message.FromAgent answer) {
    endpoint.reply(answer);
  }

  @Override
  public boolean hostPresent() {
    return endpoint.hostPresent();
  }

  @Override
  public void recording(boolean on) {
    if (log != null) {
      log.recording(on);
    }
  }

  @Override
  public long diskBytes() {
    return log == null ? 0 : log.diskBytes();
  }

  @Override
  public void selfCheck(String state) {
    identity = new Identity(identity.agentVersion(), identity.revision(), state, identity.baud());
    endpoint.identify(identity);
  }

  private void stepLog(FrameLog from, long nowMicros) {
    from.step(nowMicros);
    for (String words = from.pollTrouble(); words != null; words = from.pollTrouble()) {
      endpoint.send(new Message.Trouble(Message.Trouble.RECORD, words), nowMicros);
    }
    while (endpoint.hostPresent()
        && endpoint.hostStores()
        && endpoint.nextSequence() - endpoint.receivedSequence() < EARLIER_AHEAD) {
      Message.Recorded earlier = from.pollEarlier();
      if (earlier == null) {
        return;
      }
      endpoint.send(earlier, nowMicros);
    }
  }
}
