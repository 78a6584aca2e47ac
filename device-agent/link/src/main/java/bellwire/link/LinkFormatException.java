package bellwire.link;

import java.util.OptionalLong;

/** Bytes from the other end that are not what docs/protocol.md says. Always a single frame's. */
public final class LinkFormatException extends Exception {

  /** The kinds of damage, from the outer layer to the inner. */
  public enum Problem {
    /** COBS: a zero inside a frame, or a block longer than the frame. */
    STUFFING,
    /** Too short to hold a checksum, or over a limit of the protocol. */
    SIZE,
    CHECKSUM,
    /** Not one well-formed CBOR item. */
    CBOR,
    /** CBOR of another form than the message has: a field missing or of another kind. */
    SHAPE,
    /** A field's value is outside its range. */
    RANGE
  }

  private static final long serialVersionUID = 1;

  private final Problem problem;
  private final long request;
  private final long sequence;

  LinkFormatException(Problem problem, String message) {
    super(message);
    this.problem = problem;
    this.request = -1;
    this.sequence = -1;
  }

  private LinkFormatException(LinkFormatException cause, long request, long sequence) {
    super(cause.getMessage(), cause);
    this.problem = cause.problem;
    this.request = request;
    this.sequence = sequence;
  }

  public Problem problem() {
    return problem;
  }

  /**
   * The request that the damaged message makes, where that much could be read: it gets a refusal.
   */
  public OptionalLong request() {
    return request < 0 ? OptionalLong.empty() : OptionalLong.of(request);
  }

  /** The data frame's number, where that much could be read: sent again it would be no better. */
  public OptionalLong sequence() {
    return sequence < 0 ? OptionalLong.empty() : OptionalLong.of(sequence);
  }

  LinkFormatException inRequest(long identifier) {
    return new LinkFormatException(this, identifier, sequence);
  }

  LinkFormatException inSequence(long number) {
    return new LinkFormatException(this, request, number);
  }
}
