package bellwire.link;

import java.util.LinkedHashMap;
import java.util.Map;

/**
 * How far the frames of earlier boots have come, whichever boot brought them: an agent hands its
 * record over again from where the acknowledgements that it had written down end.
 */
final class RecordedOrder {
  private static final int BOOTS = 256;

  private final Map<Long, Long> next =
      new LinkedHashMap<>() {
        private static final long serialVersionUID = 1;

        @Override
        protected boolean removeEldestEntry(Map.Entry<Long, Long> eldest) {
          return size() > BOOTS;
        }
      };

  /** The frames of a boot below this number have come; boot 0 is none. */
  void has(long boot, long below) {
    if (boot != 0) {
      next.merge(boot, below, Math::max);
    }
  }

  boolean had(Message.Recorded frame) {
    return frame.sequence() < next.getOrDefault(frame.boot(), 0L);
  }

  /** The first frame lost before this one, its own number for none. */
  long lostFrom(Message.Recorded frame) {
    long lostFrom = frame.sequence() - frame.lost();
    return Math.max(lostFrom, Math.min(next.getOrDefault(frame.boot(), 0L), frame.sequence()));
  }
}
