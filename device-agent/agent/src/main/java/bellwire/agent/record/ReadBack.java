package bellwire.agent.record;

import bellwire.agent.record.Exchange.Fetched;
import bellwire.agent.record.Exchange.Gone;
import bellwire.link.FrameCodec;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Reads this boot's frames back, some 256 kB at a time, for a host that was away for long. */
final class ReadBack {
  private static final int ENOUGH_BYTES = 1 << 18;

  private final long boot;
  private final Exchange exchange;
  private @Nullable Segment from;
  private Segment.@Nullable Reader reader;

  /** What the reader has given is below it. */
  private long readBelow;

  ReadBack(long boot, Exchange exchange) {
    this.boot = boot;
    this.exchange = exchange;
  }

  /** Answers with the frames from a number on, or says that they are gone. */
  void answer(long sequence, List<Segment> segments) {
    long next = sequence + 1; // where nothing is left
    Segment in = null;
    for (Segment segment : segments) {
      if (segment.boot == boot && segment.end > sequence) {
        in = segment.first <= sequence ? segment : null;
        next = Math.max(next, segment.first);
        break;
      }
    }
    try {
      List<byte[]> frames = in == null ? List.of() : read(in, sequence);
      if (frames.isEmpty()) {
        exchange.gone.add(new Gone(sequence, in == null ? next : Math.max(next, found), false));
      }
      exchange.answer(sequence, new Fetched(sequence, frames));
    } catch (IOException e) {
      reader = null;
      exchange.troubles.add("it can't be read: " + e);
      exchange.gone.add(new Gone(sequence, in == null ? next : in.end, false));
      exchange.answer(sequence, new Fetched(sequence, List.of()));
    }
  }

  /** The first number behind the one asked for that was there; only where that was not. */
  private long found;

  /** Frames from the number on, as on the wire; none where that one is not there. */
  private List<byte[]> read(Segment segment, long sequence) throws IOException {
    if (segment != from || reader == null || sequence < readBelow) {
      from = segment;
      reader = segment.reader();
      readBelow = 0;
    }
    found = segment.end;
    List<byte[]> frames = new ArrayList<>();
    long bytes = 0;
    while (bytes < ENOUGH_BYTES) {
      Block block = reader.next();
      if (block == null) {
        reader = null; // more may have been written since
        break;
      }
      readBelow = block.end();
      long next = sequence + frames.size();
      if (block.end() <= next) {
        continue;
      }
      if (block.first() > next) {
        found = frames.isEmpty() ? block.first() : found;
        reader = null;
        break;
      }
      for (int i = (int) (next - block.first()); i < block.items().size(); i++) {
        byte[] item = block.items().get(i);
        byte[] frame = item.length == 0 ? item : FrameCodec.encode(item);
        frames.add(frame);
        bytes += frame.length;
      }
    }
    return frames;
  }
}
