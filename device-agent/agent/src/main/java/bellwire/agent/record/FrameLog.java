package bellwire.agent.record;

import bellwire.agent.record.Exchange.Gone;
import bellwire.agent.record.Exchange.Mark;
import bellwire.agent.record.Exchange.Pending;
import bellwire.link.DataRing;
import bellwire.link.FrameKeep;
import bellwire.link.Message;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * A keep of data frames in memory, and while {@link #recording} on disk too: what does not fit into
 * memory any more is read back from there, and what an earlier boot left there is handed over.
 *
 * <p>The disk is another thread's: nothing here waits for it. A frame is offered to it from memory
 * as soon as it takes one; a disk that can't keep up costs nothing until memory is full too. What
 * memory then drops before the disk has taken it is lost, and counted.
 *
 * <p>Once recording, it goes on until the host has all that is on the disk, so that nothing is
 * missing in between.
 */
public final class FrameLog implements FrameKeep, AutoCloseable {
  private static final int MOST_CARRIED = 4096;
  private static final long MOST_CARRIED_BYTES = 2 << 20;
  private static final byte[] CARRIED = {};
  private static final long PAUSE_MICROS = 20_000;

  private record Carried(byte[] frame, Mark earlier) {}

  private final DataRing memory;
  private final Exchange exchange = new Exchange();
  private final Recorder recorder;
  private final @Nullable RecordThread thread;

  /** Earlier boots' frames that this boot has sent, by its own numbers, until acknowledged. */
  private final TreeMap<Long, Carried> carried = new TreeMap<>();

  private long carriedBytes;
  private @Nullable Mark carrying;

  /** Numbers that the disk has accepted, from each key up to its value. */
  private final TreeMap<Long, Long> onDisk = new TreeMap<>();

  private boolean recording;
  private boolean writing;
  private long beginning;
  private long writeNext;
  private long released;
  private long dropped;
  private long workedMicros = Long.MIN_VALUE / 2;

  private FrameLog(RecordSettings settings, long boot, DataRing memory, boolean threaded) {
    this.memory = memory;
    recorder = new Recorder(settings, boot, exchange);
    thread = threaded ? new RecordThread(exchange, recorder) : null;
  }

  /**
   * With the disk's work on a thread of its own.
   *
   * @param boot identifier of this boot
   * @param memory empty
   */
  public static FrameLog open(RecordSettings settings, long boot, DataRing memory) {
    return new FrameLog(settings, boot, memory, true);
  }

  /** With the disk's work done in {@link #step}, for simulations: it waits for the disk. */
  public static FrameLog inStep(RecordSettings settings, long boot, DataRing memory) {
    return new FrameLog(settings, boot, memory, false);
  }

  /** Takes what the disk has to say and gives it what it takes. */
  public void step(long nowMicros) {
    if (thread == null && (exchange.pressing() || nowMicros - workedMicros >= PAUSE_MICROS)) {
      workedMicros = nowMicros;
      recorder.work(nowMicros);
    }
    for (Gone gone = exchange.gone.poll(); gone != null; gone = exchange.gone.poll()) {
      forget(gone);
    }
    offer();
  }

  /** See {@link bellwire.agent.HostLink#recording}. */
  public void recording(boolean on) {
    if (on && !writing) {
      writing = true;
      beginning = memory.next();
      writeNext = beginning;
    }
    recording = on;
    rest();
  }

  /** Bytes that the disk may still take. */
  public long diskBytes() {
    return exchange.leftBytes;
  }

  /** What is wrong with the disk, in words, once each; null for nothing. */
  public @Nullable String pollTrouble() {
    return exchange.troubles.poll();
  }

  /** Frames of this boot accepted below this number survive a power cut. */
  public long safeBelow() {
    return exchange.safeBelow;
  }

  /**
   * An earlier boot's frame that is to be sent, null for none now. It is to be the next one added.
   */
  public Message.@Nullable Recorded pollEarlier() {
    if (carried.size() >= MOST_CARRIED || carriedBytes >= MOST_CARRIED_BYTES) {
      return null;
    }
    Message.Recorded frame = exchange.earlier.poll();
    carrying = frame == null ? null : new Mark(frame.boot(), frame.sequence() + 1);
    return frame;
  }

  @Override
  public long oldest() {
    long oldest = memory.oldest();
    oldest = carried.isEmpty() ? oldest : Math.min(oldest, carried.firstKey());
    return onDisk.isEmpty() ? oldest : Math.min(oldest, onDisk.firstKey());
  }

  @Override
  public long next() {
    return memory.next();
  }

  @Override
  public long dropped() {
    return dropped;
  }

  @Override
  public void add(byte[] frame) {
    long sequence = memory.next();
    if (carrying != null) {
      carried.put(sequence, new Carried(frame, carrying));
      carriedBytes += frame.length;
      carrying = null;
    }
    long before = memory.oldest();
    memory.add(frame);
    for (long each = before; each < memory.oldest(); each++) {
      dropped += carried.containsKey(each) || isOnDisk(each) ? 0 : 1;
    }
    offer();
  }

  @Override
  public byte @Nullable [] get(long sequence) {
    if (sequence < oldest() || sequence >= next()) {
      throw new IllegalArgumentException(
          "sequence=" + sequence + " oldest=" + oldest() + " next=" + next());
    }
    if (sequence >= memory.oldest()) {
      return memory.get(sequence);
    }
    Carried earlier = carried.get(sequence);
    if (earlier != null) {
      return earlier.frame();
    }
    return isOnDisk(sequence) ? exchange.fetch(sequence) : null;
  }

  @Override
  public boolean holdsRecord() {
    return writing;
  }

  @Override
  public void releaseBelow(long sequence) {
    if (sequence <= released) {
      return;
    }
    released = Math.min(sequence, next());
    memory.releaseBelow(released);
    while (!carried.isEmpty() && carried.firstKey() < released) {
      Carried first = carried.pollFirstEntry().getValue();
      carriedBytes -= first.frame().length;
      exchange.earlierReleased.add(first.earlier());
    }
    remove(0, released);
    exchange.releasedBelow = released;
    rest();
  }

  /** Writes down all that is in memory and recorded, and lets the disk go. */
  @Override
  public void close() {
    offer();
    if (thread == null) {
      recorder.close(workedMicros);
    } else {
      thread.close();
    }
  }

  /** Leaves the disk as a kill at this moment would; only where its work is done in step. */
  public void abandon() {
    if (thread != null) {
      throw new IllegalStateException("the disk has a thread: thread=" + thread);
    }
    recorder.abandon();
  }

  private void rest() {
    writing &= recording || !onDisk.isEmpty() || writeNext < next();
    exchange.resting = !writing;
  }

  private void offer() {
    if (!writing) {
      return;
    }
    writeNext = Math.max(writeNext, memory.oldest());
    while (writeNext < memory.next()) {
      byte[] frame = carried.containsKey(writeNext) ? CARRIED : memory.get(writeNext);
      if (!exchange.offer(new Pending(writeNext, frame, writeNext == beginning))) {
        return;
      }
      accept(writeNext++);
    }
    rest();
  }

  private void accept(long sequence) {
    Map.Entry<Long, Long> last = onDisk.lastEntry();
    if (last != null && last.getValue() == sequence) {
      onDisk.put(last.getKey(), sequence + 1);
    } else {
      onDisk.put(sequence, sequence + 1);
    }
  }

  private boolean isOnDisk(long sequence) {
    Map.Entry<Long, Long> range = onDisk.floorEntry(sequence);
    return range != null && sequence < range.getValue();
  }

  private void forget(Gone gone) {
    long to = Math.min(gone.to(), memory.oldest());
    for (long each = Math.max(gone.from(), released); each < to; each++) {
      dropped += isOnDisk(each) && !carried.containsKey(each) ? 1 : 0;
    }
    remove(gone.from(), gone.to());
    if (gone.again()) {
      writeNext = Math.min(writeNext, Math.max(gone.from(), memory.oldest()));
    }
  }

  private void remove(long from, long to) {
    Map.Entry<Long, Long> before = onDisk.lowerEntry(from);
    if (before != null && before.getValue() > from) {
      onDisk.put(before.getKey(), from);
      if (before.getValue() > to) {
        onDisk.put(to, before.getValue());
      }
    }
    Map.Entry<Long, Long> inside = onDisk.ceilingEntry(from);
    while (inside != null && inside.getKey() < to) {
      onDisk.remove(inside.getKey());
      if (inside.getValue() > to) {
        onDisk.put(to, inside.getValue());
      }
      inside = onDisk.ceilingEntry(inside.getKey());
    }
  }
}
