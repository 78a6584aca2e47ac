package bellwire.link;

/** What a well-formed frame can hold. */
public sealed interface Incoming
    permits Incoming.Plain, Incoming.Unknown, DataFrame, Incoming.UnknownData {

  /** A message outside the numbered stream. */
  record Plain(Message message) implements Incoming {}

  /**
   * A message of a later protocol; answered with {@link Message.NotUnderstood}, which is itself
   * never answered.
   */
  record Unknown(int type) implements Incoming {}

  /** A data frame of a kind this end does not know: takes its place in the sequence, no more. */
  record UnknownData(long sequence, long deviceMicros, int type) implements Incoming {}
}
