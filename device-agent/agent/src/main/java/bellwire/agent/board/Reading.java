package bellwire.agent.board;

/**
 * One conversion with all that is needed to interpret it; the fields are those of {@link
 * bellwire.link.Message.Samples}.
 *
 * @param code signed 24 bit
 * @param deviceMicros when the conversion ended
 * @param chain crosspoint word in force
 * @param setup positive input << 24 | negative input << 16 | gain code << 8 | rate code
 * @param flags of {@link bellwire.link.Message.Samples}
 */
public record Reading(int code, long deviceMicros, long chain, int setup, int flags) {}
