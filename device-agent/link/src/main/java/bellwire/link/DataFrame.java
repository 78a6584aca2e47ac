package bellwire.link;

/**
 * A data message as it crosses the link.
 *
 * @param sequence 0 for the first of a boot, then one more each; never wraps, see {@link
 *     #MAX_SEQUENCE}
 * @param deviceMicros agent's clock when the message was made, since an origin of its own
 * @param message what it carries
 */
public record DataFrame(long sequence, long deviceMicros, Message.Data message)
    implements Incoming {
  /**
   * Numbers are 32 bit and end here, 497 days at a hundred a second; an agent that gets there must
   * start anew, with a new boot identifier.
   */
  public static final long MAX_SEQUENCE = 0xFFFF_FFFFL;

  public DataFrame {
    if (sequence < 0 || sequence > MAX_SEQUENCE) {
      throw new IllegalArgumentException("sequence=" + sequence);
    }
    if (deviceMicros < 0) {
      throw new IllegalArgumentException("deviceMicros=" + deviceMicros);
    }
  }
}
