package bellwire.agent;

import bellwire.link.Message;
import org.jspecify.annotations.Nullable;

/** The agent's end of the link, as far as the agent needs it. Nothing here may wait. */
public interface HostLink {

  /** Moves bytes. */
  void step(long nowMicros);

  /** The next request not yet answered, or null. */
  Message.@Nullable FromHost poll();

  /** Hands over a data message, to be kept until the host has acknowledged it. */
  void send(Message.Data message, long nowMicros);

  /** Answers a request, at once or later: each is answered once. */
  void reply(Message.FromAgent answer);

  /** Whether a host has been heard of late. */
  boolean hostPresent();

  /**
   * Data handed over from now on go to the agent's own disk too, if it has one, until the host has
   * them; off, no longer, once the host has all that are there.
   */
  void recording(boolean on);

  /** Bytes that the agent's own disk may still take, 0 where it has none. */
  long diskBytes();

  /** What a greeting is told of the self-check from now on; empty when passed. */
  void selfCheck(String state);
}
