package bellwire.link;

import org.jspecify.annotations.Nullable;

/**
 * The data frames of this boot that the host has not acknowledged, by number, as bytes ready to
 * send. Bounded: the oldest makes room for the newest. Nothing here may wait.
 */
public interface FrameKeep {

  /** Number of the oldest frame kept, {@link #next} where none is. All below it are gone. */
  long oldest();

  /** Number of the next new frame. */
  long next();

  /** Frames lost unacknowledged: there was no room for them. */
  long dropped();

  /** Takes the frame whose number is {@link #next}. */
  void add(byte[] frame);

  /**
   * A frame from {@link #oldest} up and below {@link #next}.
   *
   * @return null where it is not at hand: it is being fetched, or it is lost and older ones are
   *     still kept. Ask again later; {@link #oldest} passes over what is lost once all below it has
   *     been let go.
   * @throws IllegalArgumentException for another number
   */
  byte @Nullable [] get(long sequence);

  /** Something recorded waits for a host that stores it. */
  default boolean holdsRecord() {
    return false;
  }

  /** Lets go of what the host has made safe. */
  void releaseBelow(long sequence);
}
