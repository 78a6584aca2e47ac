package bellwire.fuzz;

import bellwire.link.FrameReader;

/** Bytes as they come from the line, each end's reader of them, and what its items hold. */
final class RawFrames implements Target {

  @Override
  public void take(byte[] input) {
    FrameReader reader = new FrameReader();
    long[] items = new long[1];
    // Cut in two, for a device hands over what it has.
    int cut = input.length / 3;
    reader.feed(input, 0, cut, item -> items[0] += Items.check(item));
    reader.feed(input, cut, input.length - cut, item -> items[0] += Items.check(item));
    FrameReader.Counts counts = reader.counts();
    Finding.unless(counts.frames() == items[0], "frames counted=%s", counts);
  }
}
