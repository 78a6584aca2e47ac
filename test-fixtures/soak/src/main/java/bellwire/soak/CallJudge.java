package bellwire.soak;

import bellwire.app.job.JobFileException;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilReader;

/** Holds the words of a vigil of calls to the contacts. */
final class CallJudge {
  private static final long TICK = 1000;

  /** Of 50 Hz. */
  private static final long CYCLE = 20_000;

  private final World world;
  private final BenchTime time;
  private final Tally tally;

  CallJudge(World world, BenchTime time, Tally tally) {
    this.world = world;
    this.time = time;
    this.tally = tally;
  }

  /** Every lead is as its contact is, a cycle or a bounce aside. */
  void judge(VigilReader reader, Stream stream) throws JobFileException {
    int leads = Scenario.LEADS.size();
    long[] lastOn = new long[leads];
    long[] lastMicros = {Long.MIN_VALUE};
    reader.samples(
        stream,
        0,
        Long.MAX_VALUE / 4,
        (first, count, value, latches) -> {
          long from = time.bench(first);
          long to = time.bench(first + (count - 1) * TICK);
          boolean gap = from - lastMicros[0] > CYCLE;
          lastMicros[0] = to;
          for (int lead = 0; lead < leads; lead++) {
            boolean on = (value >>> lead & 1) != 0;
            if (on && !closed(lead, from - CYCLE, to + CYCLE, true)) {
              throw new Broken("a call that is not there: lead=" + lead + " at " + from);
            }
            if (on || gap || !closed(lead, lastOn[lead] - CYCLE, to + CYCLE, false)) {
              lastOn[lead] = to;
            } else if (to - lastOn[lead] > 2 * CYCLE) {
              throw new Broken("a call missed: lead=" + lead + " at " + to);
            }
          }
        });
    tally.count("turns of contacts watched", world.turns().size());
  }

  /**
   * @param ever whether at any time between; else at all times
   */
  private boolean closed(int lead, long from, long to, boolean ever) {
    boolean before = false;
    boolean any = false;
    boolean all = true;
    for (World.Turn turn : world.turns()) {
      if (turn.lead() != lead) {
        continue;
      }
      if (turn.micros() <= from) {
        before = turn.closed();
      } else if (turn.micros() <= to) {
        any |= turn.closed();
        all &= turn.closed();
      }
    }
    return ever ? before || any : before && all;
  }
}
