package bellwire.link;

import bellwire.link.LinkFormatException.Problem;

/**
 * Messages to and from CBOR (RFC 8949): an array of the message's number and its fields in the
 * record's order, as docs/link.cddl states. Fields that a later protocol appends are passed over; a
 * message that a later protocol adds comes out as {@link Incoming.Unknown}.
 */
public final class MessageCodec {
  /** Version of the messages that this codec writes; the greeting states it. */
  public static final int PROTOCOL = 1;

  /** Conversions in one {@link Message.Samples}. */
  public static final int MAX_SAMPLES = 1024;

  /** UTF-16 units in a text; a longer one is cut when sent, refused when received. */
  public static final int MAX_TEXT = 1000;

  private MessageCodec() {}

  /**
   * A message outside the numbered stream.
   *
   * @throws IllegalArgumentException for a {@link Message.Data}, which needs a data frame, or a
   *     field out of range
   */
  public static byte[] encode(Message message) {
    if (message instanceof Message.Data) {
      throw new IllegalArgumentException(
          "data without a frame: message=" + message.getClass().getSimpleName());
    }
    return CborItem.write(MessageWriter.message(message));
  }

  /**
   * @throws IllegalArgumentException for a field out of range
   */
  public static byte[] encode(DataFrame frame) {
    return CborItem.write(MessageWriter.dataFrame(frame));
  }

  public static Incoming decode(byte[] item) throws LinkFormatException {
    Fields fields = Fields.of("message", CborItem.read(item));
    int number = fields.small("type", 0, Integer.MAX_VALUE);
    MessageType type = MessageType.of(number);
    if (type == null) {
      return new Incoming.Unknown(number);
    }
    if (type.isData()) {
      throw new LinkFormatException(Problem.SHAPE, "data outside a data frame: type=" + number);
    }
    return type == MessageType.DATA_FRAME
        ? dataFrame(fields)
        : new Incoming.Plain(MessageReader.message(type, fields));
  }

  private static Incoming dataFrame(Fields fields) throws LinkFormatException {
    long sequence = fields.whole("sequence", 0, DataFrame.MAX_SEQUENCE);
    long deviceMicros = fields.count("device-micros");
    try {
      Fields inner = fields.nested("message");
      int number = inner.small("type", 0, Integer.MAX_VALUE);
      MessageType type = MessageType.of(number);
      if (type == null) {
        return new Incoming.UnknownData(sequence, deviceMicros, number);
      }
      return new DataFrame(sequence, deviceMicros, MessageReader.data(type, inner));
    } catch (LinkFormatException e) {
      throw e.inSequence(sequence);
    }
  }
}
