package bellwire.fuzz;

import java.io.ByteArrayOutputStream;
import java.util.ArrayList;
import java.util.List;

/** Scripts of either end's deeds, with each message in them. */
final class LinkScripts {
  /** The deed that says an item. */
  private static final int SAY = 1;

  private LinkScripts() {}

  static List<byte[]> seeds() {
    List<byte[]> seeds = new ArrayList<>();
    for (byte[] item : MessageSeeds.items()) {
      ByteArrayOutputStream script = new ByteArrayOutputStream();
      script.write(0);
      script.writeBytes(new byte[] {4, 77, 0, 0, 4, 77, 0, 0});
      script.write(SAY);
      script.write(item.length);
      script.write(item.length >> 8);
      script.writeBytes(item);
      script.writeBytes(new byte[] {5, 0, 0, 0, 3, 1, 2, 50, 100, 9, 1});
      seeds.add(script.toByteArray());
    }
    return seeds;
  }
}
