package bellwire.link;

/** What {@link HostEndpoint#step} tells the host, on the thread that steps it. */
public interface HostListener {

  /** A conversation with the agent is open: requests go out, data come in. */
  void linkUp(Message.Welcome welcome);

  /** Silence, or the device is gone. Requests wait; greeting goes on by itself. */
  void linkLost(String reason);

  /** The agent speaks another version; no conversation is possible. */
  void otherProtocol(Message.Welcome welcome);

  /** The agent is another than before the last {@link #linkUp}; its program and frames are gone. */
  void agentRestarted(long oldBootId, long newBootId);

  /**
   * Every data message once, in order. A {@link Message.Recorded} comes once too, whichever boot
   * hands it over.
   */
  void data(DataFrame frame);

  /**
   * Data frames that won't come: what the agent keeps was full before they were acknowledged.
   *
   * @param fromSequence first lost
   * @param toSequence first not lost
   */
  void lost(long fromSequence, long toSequence);

  /**
   * Frames of an earlier boot that were recorded and won't come: the agent's disk was full, or they
   * could not be read back. What that boot had not recorded when it ended is not told.
   *
   * @param fromSequence first lost
   * @param toSequence first not lost
   */
  void lostOfEarlier(long bootId, long fromSequence, long toSequence);

  /** A frame whose recorded content came before, from this boot or another. */
  default void repeated(long sequence) {}

  /** A data frame that arrived whole but can't be understood, and why. */
  void unreadable(long sequence, String reason);

  void replied(Message.Reply reply);

  void alive(Message.Alive alive);

  /** A request without an answer: whether it was done is not known. */
  void unanswered(long request, String reason);

  /** The agent does not know this kind of message. */
  void notUnderstood(int type);
}
