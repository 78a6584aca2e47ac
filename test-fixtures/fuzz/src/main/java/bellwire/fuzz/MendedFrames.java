package bellwire.fuzz;

import bellwire.link.FrameCodec;
import bellwire.link.FrameReader;
import java.util.Arrays;

/** An item in a good frame, which no chance would give a checksum that is right. */
final class MendedFrames implements Target {

  @Override
  public void take(byte[] input) {
    if (input.length == 0) {
      return;
    }
    byte[] frame = FrameCodec.encode(input);
    FrameReader reader = new FrameReader();
    long[] items = new long[1];
    reader.feed(
        frame,
        0,
        frame.length,
        item -> {
          Finding.unless(Arrays.equals(item, input), "the frame has changed its item");
          items[0] += Items.check(item);
        });
    Finding.unless(items[0] == 1, "items=%s", items[0]);
  }
}
