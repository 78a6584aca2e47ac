package bellwire.agent.record;

import bellwire.agent.record.Exchange.Gone;
import bellwire.agent.record.Exchange.Mark;
import bellwire.agent.record.Exchange.Pending;
import bellwire.link.FrameCodec;
import bellwire.link.LinkFormatException;
import bellwire.link.Message;
import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** The disk's side of the record: does what there is to do, and may wait for the disk. */
final class Recorder {

  /** A frame is on the disk at the latest this long after it came, and what the disk then takes. */
  static final long COMMIT_MICROS = 1_000_000;

  private static final long RETRY_MICROS = 30_000_000;
  private static final long NOTE_MICROS = 10_000_000;
  private static final long NEVER = Long.MIN_VALUE / 2;

  private final RecordSettings settings;
  private final long boot;
  private final Exchange exchange;
  private final Released released;
  private final Handover handover;
  private @Nullable Disk disk;
  private @Nullable ReadBack readBack;
  private boolean counted;
  private boolean abandoned;
  private boolean failed;
  private String told = "";
  private long failedMicros = NEVER;
  private long commitMicros = NEVER;
  private long noteMicros = NEVER;
  private long droppedBytes;
  private Message.@Nullable Recorded unplaced;
  private @Nullable Mark lastHanded;

  Recorder(RecordSettings settings, long boot, Exchange exchange) {
    this.settings = settings;
    this.boot = boot;
    this.exchange = exchange;
    released = new Released(settings.directory());
    handover = new Handover(released);
  }

  /** What is due at this time. */
  void work(long nowMicros) {
    if (abandoned) {
      return;
    }
    if (!failed || nowMicros - failedMicros >= RETRY_MICROS) {
      write(nowMicros, false);
    }
    if (disk != null) {
      handOver();
      read(disk);
    }
  }

  /** Writes down all that there is and lets the disk go. */
  void close(long nowMicros) {
    if (abandoned) {
      return;
    }
    write(nowMicros, true);
    Disk open = disk;
    disk = null;
    if (open != null) {
      try (open) {
        released.write();
      } catch (IOException e) {
        tell(e);
      }
    }
  }

  /** Lets the disk go as it is; nothing more is done. */
  void abandon() {
    abandoned = true;
    try {
      if (disk != null) {
        disk.close();
      }
    } catch (IOException e) {
      tell(e);
    }
  }

  private void write(long nowMicros, boolean all) {
    try {
      Disk open = disk == null ? open() : disk;
      if (failed) {
        failed = false;
        exchange.refuse(false);
      }
      if (all || commitDue(nowMicros)) {
        commit(open, nowMicros);
      }
      letGo(open);
      if (all || nowMicros - noteMicros >= NOTE_MICROS) {
        noteMicros = nowMicros;
        released.write();
        exchange.leftBytes = open.leftBytes();
      }
    } catch (IOException e) {
      failed = true;
      failedMicros = nowMicros;
      exchange.leftBytes = 0;
      exchange.refuse(true);
      giveUpSegment();
      tell(e);
    }
  }

  private Disk open() throws IOException {
    Disk open = Disk.open(settings, boot);
    if (!released.read()) {
      exchange.troubles.add(
          "the note of what the host has is damaged: frames may be handed over once more");
    }
    if (open.unreadable() > 0) {
      exchange.troubles.add("nothing could be read of files: " + open.unreadable());
    }
    released.keepOnly(open.segments().stream().map(segment -> segment.boot).toList());
    open.segments().forEach(handover::add);
    readBack = new ReadBack(boot, exchange);
    disk = open;
    return open;
  }

  /** What stands in it is kept, and what follows goes into another. */
  private void giveUpSegment() {
    try {
      if (disk != null) {
        disk.closeCurrent();
      }
    } catch (IOException e) {
      tell(e); // it is closed all the same
    }
  }

  /** Once in words, until something could be written again. */
  private void tell(IOException cause) {
    String words =
        "nothing can be written to "
            + settings.directory()
            + ", what comes is kept in memory only: "
            + cause;
    if (!words.equals(told)) {
      told = words;
      exchange.troubles.add(words);
    }
  }

  private boolean commitDue(long nowMicros) {
    long first = exchange.firstQueued();
    boolean due = nowMicros - commitMicros >= COMMIT_MICROS;
    return first >= 0 && (due || exchange.urgent() || exchange.wanted() >= first);
  }

  private void commit(Disk open, long nowMicros) throws IOException {
    List<Pending> batch = exchange.takeAll();
    if (batch.isEmpty()) {
      return;
    }
    commitMicros = nowMicros;
    try {
      for (Block block : blocks(batch)) {
        byte[] bytes = block.encode();
        makeRoom(open, bytes.length);
        released.begin(boot, block.first());
        open.append(block, bytes);
      }
      open.sync();
    } catch (IOException e) {
      exchange.giveUp(batch);
      throw e;
    }
    exchange.safeBelow = batch.get(batch.size() - 1).sequence() + 1;
    told = "";
  }

  private List<Block> blocks(List<Pending> batch) {
    List<Block> blocks = new ArrayList<>();
    List<byte[]> items = new ArrayList<>();
    Pending first = batch.get(0);
    long bytes = 0;
    for (Pending pending : batch) {
      boolean full = bytes >= Block.FULL_BYTES || items.size() == Block.MAX_FRAMES;
      boolean follows = pending.sequence() == first.sequence() + items.size();
      if (!items.isEmpty() && (full || !follows || pending.begins())) {
        blocks.add(new Block(boot, first.sequence(), first.begins(), items));
        items.clear();
        bytes = 0;
        first = pending;
      }
      byte[] item = item(pending.frame());
      items.add(item);
      bytes += item.length;
    }
    blocks.add(new Block(boot, first.sequence(), first.begins(), items));
    return blocks;
  }

  private static byte[] item(byte[] frame) {
    if (frame.length == 0) {
      return frame;
    }
    try {
      return FrameCodec.decode(frame, 0, frame.length - 1);
    } catch (LinkFormatException e) {
      throw new IllegalArgumentException("not a frame: length=" + frame.length, e);
    }
  }

  private void makeRoom(Disk open, long bytes) throws IOException {
    Segment segment = open.inTheWay(bytes);
    while (segment != null) {
      if (open.isOwn(segment)) {
        exchange.gone.add(new Gone(segment.first, segment.end, false));
      } else {
        handover.drop(segment);
      }
      released.drop(segment.boot, segment.end);
      released.write();
      droppedBytes += segment.bytes;
      open.delete(segment);
      exchange.troubles.add("it is full, its oldest was dropped: bytes=" + droppedBytes);
      segment = open.inTheWay(bytes);
    }
  }

  /** Deletes what the host has. */
  private void letGo(Disk open) throws IOException {
    for (Mark mark = exchange.earlierReleased.poll();
        mark != null;
        mark = exchange.earlierReleased.poll()) {
      released.release(mark.boot(), mark.next());
    }
    long below = exchange.releasedBelow;
    boolean resting = exchange.resting && exchange.firstQueued() < 0;
    boolean allHanded = allHanded();
    List<Segment> done = new ArrayList<>();
    boolean own = false;
    for (Segment segment : open.segments()) {
      if (open.isOwn(segment)) {
        own = true;
        if (segment.end <= below && (resting || !open.isCurrent(segment))) {
          done.add(segment);
        }
      } else if (counted && !segment.unreadable) {
        if (allHanded || segment.endOfFrames <= released.below(segment.boot)) {
          done.add(segment);
        }
      }
    }
    if (own) {
      released.release(boot, below);
    }
    delete(open, done);
  }

  private void delete(Disk open, List<Segment> done) throws IOException {
    if (done.isEmpty()) {
      return;
    }
    for (Segment segment : done) {
      released.release(segment.boot, segment.end);
    }
    released.write();
    for (Segment segment : done) {
      handover.drop(segment);
      open.delete(segment);
    }
    Set<Long> present = new HashSet<>(Set.of(boot));
    open.segments().forEach(segment -> present.add(segment.boot));
    released.keepOnly(present);
  }

  /** Every frame of earlier boots that can be read is the host's. */
  private boolean allHanded() {
    Mark last = lastHanded;
    return counted
        && unplaced == null
        && handover.finished()
        && (last == null || released.below(last.boot()) >= last.next());
  }

  private void handOver() {
    if (!counted) {
      counted = !handover.count();
      if (counted && handover.damaged() > 0) {
        exchange.troubles.add(
            "what was recorded before is damaged, what is missing will be told: places="
                + handover.damaged());
      }
      return;
    }
    while (true) {
      unplaced = unplaced == null ? handover.next() : unplaced;
      if (unplaced == null || !exchange.earlier.offer(unplaced)) {
        return;
      }
      lastHanded = new Mark(unplaced.boot(), unplaced.sequence() + 1);
      unplaced = null;
    }
  }

  private void read(Disk open) {
    long wanted = exchange.wanted();
    long queued = exchange.firstQueued();
    if (readBack != null && wanted >= 0 && (queued < 0 || wanted < queued)) {
      readBack.answer(wanted, open.segments());
    }
  }
}
