package bellwire.fuzz;

import bellwire.link.DataFrame;
import bellwire.link.Incoming;
import bellwire.link.LinkFormatException;
import bellwire.link.MessageCodec;
import java.util.Arrays;

/** What must hold of any item: it is refused in words, or written again as it was understood. */
final class Items {
  private Items() {}

  /** One. */
  static int check(byte[] item) {
    Incoming incoming;
    try {
      incoming = MessageCodec.decode(item);
    } catch (LinkFormatException e) {
      Sentences.check(e.getMessage());
      return 1;
    }
    byte[] once = encoded(incoming);
    if (once.length > 0) {
      try {
        byte[] twice = encoded(MessageCodec.decode(once));
        Finding.unless(Arrays.equals(once, twice), "written differently: %s", incoming);
      } catch (LinkFormatException e) {
        throw new AssertionError("cannot read what was written: " + incoming, e);
      }
    }
    return 1;
  }

  /** Empty for a message that this version does not know. */
  private static byte[] encoded(Incoming incoming) {
    if (incoming instanceof DataFrame frame) {
      return MessageCodec.encode(frame);
    }
    return incoming instanceof Incoming.Plain plain
        ? MessageCodec.encode(plain.message())
        : new byte[0];
  }
}
