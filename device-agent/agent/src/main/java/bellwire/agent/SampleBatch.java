package bellwire.agent;

import bellwire.agent.board.Reading;
import bellwire.link.Message.Samples;
import java.util.Arrays;

/** Readings of one program on their way to the host, handed over 64 at a time or after a while. */
final class SampleBatch implements ScanRun.Readings {
  static final int MOST = 64;

  private final long program;
  private final long longestMicros;
  private final HostLink link;
  private final int[] step = new int[MOST];
  private final int[] code = new int[MOST];
  private final long[] deviceMicros = new long[MOST];
  private final long[] chain = new long[MOST];
  private final int[] setup = new int[MOST];
  private final int[] flags = new int[MOST];
  private int count;
  private long firstMicros;

  /**
   * @param longestMicros that a reading waits
   */
  SampleBatch(long program, long longestMicros, HostLink link) {
    this.program = program;
    this.longestMicros = longestMicros;
    this.link = link;
  }

  long program() {
    return program;
  }

  @Override
  public void take(int stepIndex, Reading reading, long nowMicros) {
    if (count == 0) {
      firstMicros = nowMicros;
    }
    step[count] = stepIndex;
    code[count] = reading.code();
    deviceMicros[count] = reading.deviceMicros();
    chain[count] = reading.chain();
    setup[count] = reading.setup();
    flags[count] = reading.flags();
    count++;
    if (count == MOST) {
      flush(nowMicros);
    }
  }

  void flushIfOld(long nowMicros) {
    if (count > 0 && nowMicros - firstMicros >= longestMicros) {
      flush(nowMicros);
    }
  }

  void flush(long nowMicros) {
    if (count == 0) {
      return;
    }
    link.send(
        new Samples(
            program,
            Arrays.copyOf(step, count),
            Arrays.copyOf(code, count),
            Arrays.copyOf(deviceMicros, count),
            Arrays.copyOf(chain, count),
            Arrays.copyOf(setup, count),
            Arrays.copyOf(flags, count)),
        nowMicros);
    count = 0;
  }
}
