package bellwire.agent.record;

import bellwire.link.DataFrame;
import bellwire.link.Incoming;
import bellwire.link.LinkFormatException;
import bellwire.link.Message;
import bellwire.link.MessageCodec;
import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * The frames of earlier boots that the host does not have, in their order. First all segments are
 * counted, one a call, then they are read, a block at a time.
 */
final class Handover {
  private static final String GONE =
      "the record was full: this frame and those before it were dropped";

  private final Released released;
  private final Deque<Segment> uncounted = new ArrayDeque<>();
  private final Deque<Segment> unread = new ArrayDeque<>();
  private final Map<Segment, Long> frames = new HashMap<>();
  private final Map<Long, Long> expected = new HashMap<>();

  /** Boots whose last segment has been read, or that have none left. */
  private final Deque<Long> passed = new ArrayDeque<>();

  private @Nullable Segment reading;
  private Segment.@Nullable Reader reader;
  private @Nullable Block block;
  private int index;
  private long lost;
  private Message.@Nullable Recorded ahead;
  private boolean begun;
  private long left;
  private int damaged;

  Handover(Released released) {
    this.released = released;
  }

  void add(Segment segment) {
    uncounted.add(segment);
  }

  /**
   * Counts one more segment.
   *
   * @return whether there was one
   */
  boolean count() {
    Segment segment = uncounted.poll();
    if (segment == null) {
      return false;
    }
    unread.add(segment);
    count(segment);
    return true;
  }

  private void count(Segment segment) {
    long below = released.below(segment.boot);
    long waiting = 0;
    try {
      Segment.Reader blocks = segment.reader();
      for (Block each = blocks.next(); each != null; each = blocks.next()) {
        segment.first = segment.first < 0 ? each.first() : segment.first;
        segment.end = each.end();
        for (int i = 0; i < each.items().size(); i++) {
          if (each.items().get(i).length > 0) {
            segment.endOfFrames = each.first() + i + 1;
            waiting += segment.endOfFrames > below ? 1 : 0;
          }
        }
      }
      damaged += blocks.damaged();
    } catch (IOException e) {
      damaged++;
      segment.unreadable = true;
    }
    frames.put(segment, waiting);
    left += waiting;
  }

  /** Places in the segments counted that can't be read. */
  int damaged() {
    return damaged;
  }

  /** A segment that is no longer there; what it still had is missing from now on. */
  void drop(Segment segment) {
    if (uncounted.remove(segment)) {
      count(segment); // so that it is known what went
      left -= frames.getOrDefault(segment, 0L);
    } else if (unread.remove(segment)) {
      left -= frames.getOrDefault(segment, 0L);
    }
    frames.remove(segment);
  }

  /** All segments are read. */
  boolean finished() {
    return begun && ahead == null;
  }

  /** The next frame, null behind the last or while segments are being counted. */
  Message.@Nullable Recorded next() {
    if (!uncounted.isEmpty()) {
      return null;
    }
    if (!begun) {
      begun = true;
      noSegmentLeft();
      ahead = read();
    }
    Message.Recorded frame = ahead;
    if (frame == null) {
      return null;
    }
    ahead = read();
    left = ahead == null ? 0 : Math.max(1, left - 1);
    return new Message.Recorded(
        frame.boot(), frame.sequence(), frame.deviceMicros(), frame.message(), frame.lost(), left);
  }

  /** Boots of which everything that waited was dropped: the oldest of all. */
  private void noSegmentLeft() {
    for (long boot : released.untold()) {
      if (unread.stream().noneMatch(segment -> segment.boot == boot)) {
        passed.add(boot);
      }
    }
  }

  /** What was dropped behind a boot's last frame: one in place of the last, which says so. */
  private Message.@Nullable Recorded dropped(long boot) {
    long next = Math.max(0, expected.getOrDefault(boot, released.below(boot)));
    long last = released.dropped(boot) - 1;
    lost = 0;
    return last < next
        ? null
        : new Message.Recorded(
            boot, last, 0, new Message.Trouble(Message.Trouble.RECORD, GONE), last - next, 0);
  }

  private Message.@Nullable Recorded read() {
    while (true) {
      if (!passed.isEmpty()) {
        Message.Recorded gone = dropped(passed.remove());
        if (gone != null) {
          return gone;
        }
        continue;
      }
      Block from = block;
      Segment segment = reading;
      if (from == null || segment == null || index == from.items().size()) {
        if (!nextBlock() && passed.isEmpty()) {
          return null;
        }
        continue;
      }
      long sequence = from.first() + index;
      byte[] item = from.items().get(index);
      index++;
      Message.Recorded frame = take(segment.boot, sequence, item);
      if (frame != null) {
        return frame;
      }
    }
  }

  /** Null for a frame that the host has, that was carried, or that can't be understood. */
  private Message.@Nullable Recorded take(long boot, long sequence, byte[] item) {
    long next = expected.getOrDefault(boot, -1L);
    if (sequence < next) {
      return null;
    }
    expected.put(boot, sequence + 1);
    lost += next < 0 ? 0 : sequence - next;
    if (item.length == 0) {
      return null;
    }
    try {
      Incoming incoming = MessageCodec.decode(item);
      if (incoming instanceof DataFrame frame
          && frame.sequence() == sequence
          && !(frame.message() instanceof Message.Recorded)) {
        long missing = lost;
        lost = 0;
        return new Message.Recorded(
            boot, sequence, frame.deviceMicros(), frame.message(), missing, 0);
      }
    } catch (LinkFormatException e) {
      // of another version of the agent: lost, as is counted below
    }
    lost++;
    return null;
  }

  private boolean nextBlock() {
    block = reader == null ? null : reader.next();
    index = 0;
    while (block == null) {
      Segment before = reading;
      Segment segment = unread.poll();
      if (segment == null) {
        if (before != null) {
          passed.add(before.boot);
        }
        reader = null;
        reading = null;
        return false;
      }
      reading = segment;
      if (before != null && before.boot != segment.boot) {
        passed.add(before.boot);
      }
      if (before == null || before.boot != segment.boot) {
        expected.putIfAbsent(segment.boot, released.below(segment.boot));
      }
      try {
        reader = segment.reader();
        block = reader.next();
      } catch (IOException e) {
        reader = null; // counted as damaged before, or deleted: what follows tells how many
      }
    }
    if (block.begins() && reading != null) {
      expected.merge(reading.boot, block.first(), Math::max);
    }
    return true;
  }
}
