package bellwire.agent.record;

import bellwire.link.Message;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.jspecify.annotations.Nullable;

/** What the agent's thread and the disk's hand one another. Nothing here waits for the disk. */
final class Exchange {
  private static final int MOST_QUEUED = 4096;
  private static final long MOST_QUEUED_BYTES = 2 << 20;
  private static final int EARLIER_AHEAD = 64;

  /**
   * A frame to be written.
   *
   * @param frame as on the wire; empty: carried
   * @param begins nothing is missing before it
   */
  record Pending(long sequence, byte[] frame, boolean begins) {}

  /**
   * Frames from one number up to another that were accepted and are not on the disk, or no more.
   *
   * @param again they may be offered again
   */
  record Gone(long from, long to, boolean again) {}

  /** Frames read back, as on the wire. */
  record Fetched(long first, List<byte[]> frames) {}

  /** The host has a boot's frames below a number. */
  record Mark(long boot, long next) {}

  final Queue<Gone> gone = new ConcurrentLinkedQueue<>();
  final Queue<String> troubles = new ConcurrentLinkedQueue<>();
  final BlockingQueue<Message.Recorded> earlier = new ArrayBlockingQueue<>(EARLIER_AHEAD);
  final Queue<Mark> earlierReleased = new ConcurrentLinkedQueue<>();

  /** Frames of this boot below it are the host's. */
  volatile long releasedBelow;

  /** No frame on the disk is still to be handed over, and none will follow soon. */
  volatile boolean resting = true;

  /** Frames of this boot accepted below it survive a power cut. */
  volatile long safeBelow;

  /** What may still be written, bytes. */
  volatile long leftBytes;

  private volatile long wanted = -1;
  private volatile Fetched fetched = new Fetched(0, List.of());

  private final Deque<Pending> queue = new ArrayDeque<>();
  private long queuedBytes;
  private boolean refusing;

  /** Whether the frame was taken; if not, it may be offered again. */
  synchronized boolean offer(Pending pending) {
    boolean room =
        queue.size() < MOST_QUEUED && queuedBytes + pending.frame().length <= MOST_QUEUED_BYTES;
    if (refusing || !room) {
      return false;
    }
    queue.add(pending);
    queuedBytes += pending.frame().length;
    if (urgent()) {
      notifyAll();
    }
    return true;
  }

  /** Number of the first frame that waits to be written, -1 for none. */
  synchronized long firstQueued() {
    Pending first = queue.peek();
    return first == null ? -1 : first.sequence();
  }

  synchronized boolean urgent() {
    return queuedBytes >= Block.FULL_BYTES || queue.size() >= MOST_QUEUED / 2;
  }

  synchronized List<Pending> takeAll() {
    List<Pending> all = new ArrayList<>(queue);
    queue.clear();
    queuedBytes = 0;
    return all;
  }

  /** From now on nothing is taken, or is again; what waited is gone. */
  synchronized void refuse(boolean now) {
    refusing = now;
    if (now) {
      giveUp(takeAll());
    }
  }

  /** These did not reach the disk. */
  void giveUp(List<Pending> batch) {
    if (!batch.isEmpty()) {
      gone.add(new Gone(batch.get(0).sequence(), batch.get(batch.size() - 1).sequence() + 1, true));
    }
  }

  /** A frame that was accepted, read back; null while that is being done. */
  byte @Nullable [] fetch(long sequence) {
    Fetched have = fetched;
    long index = sequence - have.first();
    if (index >= 0 && index < have.frames().size()) {
      return have.frames().get((int) index);
    }
    if (wanted != sequence) {
      wanted = sequence;
      synchronized (this) {
        notifyAll();
      }
    }
    return null;
  }

  /** Number of the frame that is to be read back, -1 for none. */
  long wanted() {
    return wanted;
  }

  void answer(long sequence, Fetched frames) {
    fetched = frames;
    if (wanted == sequence) {
      wanted = -1; // where another has just been asked for, it is asked for again
    }
  }

  /** Something should be done at once. */
  synchronized boolean pressing() {
    return wanted >= 0 || urgent();
  }

  /** Waits until there may be something to do. */
  synchronized void await(long millis) throws InterruptedException {
    if (!pressing()) {
      wait(millis);
    }
  }
}
