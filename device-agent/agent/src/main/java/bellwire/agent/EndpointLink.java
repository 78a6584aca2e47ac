package bellwire.agent;

import bellwire.link.AgentEndpoint;
import bellwire.link.AgentEndpoint.Identity;
import bellwire.link.ByteChannel;
import bellwire.link.Message;
import org.jspecify.annotations.Nullable;

/** The serial protocol's agent end as the agent sees it. */
public final class EndpointLink implements HostLink {
  private final AgentEndpoint endpoint;
  private Identity identity;

  private EndpointLink(AgentEndpoint endpoint, Identity identity) {
    this.endpoint = endpoint;
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
    return new EndpointLink(new AgentEndpoint(channel, bootId, identity, limits), identity);
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
  public void recording(boolean on) {}

  @Override
  public long diskBytes() {
    return 0;
  }

  @Override
  public void selfCheck(String state) {
    identity = new Identity(identity.agentVersion(), identity.revision(), state, identity.baud());
    endpoint.identify(identity);
  }
}
