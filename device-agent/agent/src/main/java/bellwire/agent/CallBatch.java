package bellwire.agent;

import bellwire.link.Message.CallSamples;
import java.util.Arrays;

/** Words of one watch on their way to the host, handed over 100 at a time or every 100 ms. */
final class CallBatch {
  static final int MOST = 100;
  static final long LONGEST_MICROS = 100_000;

  private final long watch;
  private final HostLink link;
  private final int[] deltaMicros = new int[MOST];
  private final int[] lateMicros = new int[MOST];
  private final int[] tookMicros = new int[MOST];
  private final int[] word = new int[MOST];
  private int count;
  private long firstMicros;
  private long lastMicros;

  CallBatch(long watch, HostLink link) {
    this.watch = watch;
    this.link = link;
  }

  long watch() {
    return watch;
  }

  /**
   * @param beginMicros of the step
   * @param late after it was due
   * @param took until the word had been read
   */
  void take(long beginMicros, long late, long took, int leads) {
    if (count == MOST
        || (count > 0
            && (beginMicros - lastMicros > CallSamples.SATURATED
                || beginMicros - firstMicros >= LONGEST_MICROS))) {
      flush(beginMicros); // a longer time than a delta holds stands in the next one's first time
    }
    if (count == 0) {
      firstMicros = beginMicros;
      lastMicros = beginMicros;
    }
    deltaMicros[count] = (int) (beginMicros - lastMicros);
    lateMicros[count] = saturated(late);
    tookMicros[count] = saturated(took);
    word[count] = leads;
    lastMicros = beginMicros;
    count++;
  }

  void flush(long nowMicros) {
    if (count == 0) {
      return;
    }
    link.send(
        new CallSamples(
            watch,
            firstMicros,
            Arrays.copyOf(deltaMicros, count),
            Arrays.copyOf(lateMicros, count),
            Arrays.copyOf(tookMicros, count),
            Arrays.copyOf(word, count)),
        nowMicros);
    count = 0;
  }

  private static int saturated(long micros) {
    return (int) Math.max(0, Math.min(CallSamples.SATURATED, micros));
  }
}
