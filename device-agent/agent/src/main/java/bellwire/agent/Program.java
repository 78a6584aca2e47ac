package bellwire.agent;

import bellwire.agent.chip.ChipTrouble;
import bellwire.link.Message.Ended;
import bellwire.link.Message.Ended.Outcome;
import bellwire.link.Message.Reply;
import org.jspecify.annotations.Nullable;

/** A host's steps, once or, in a trend vigil, round after round; and their readings. */
final class Program implements Activity {
  private static final End DONE = new End(Outcome.DONE, "");

  private final long request;
  private final ScanRun scan;
  private final SampleBatch batch;
  private final boolean vigil;
  private final HostLink link;
  private End end = DONE;

  Program(long request, ScanRun scan, SampleBatch batch, boolean vigil, HostLink link) {
    this.request = request;
    this.scan = scan;
    this.batch = batch;
    this.vigil = vigil;
    this.link = link;
  }

  @Override
  public String busy() {
    return vigil ? EventWatch.BUSY : "a program is running";
  }

  @Override
  public boolean drives() {
    return vigil || scan.drives();
  }

  @Override
  public void begin(long nowMicros) {
    link.reply(new Reply(request, true, ""));
  }

  @Override
  public void relaysStayed(long untilMicros) {
    scan.relaysStayed(untilMicros);
  }

  @Override
  public void relaysDropped(long nowMicros) {
    scan.relaysDropped();
  }

  @Override
  public @Nullable End advance(long nowMicros, InterlockWatch interlock) throws ChipTrouble {
    if (scan.advance(nowMicros)) {
      return end;
    }
    batch.flushIfOld(nowMicros);
    return null;
  }

  @Override
  public void finish(End end) {
    this.end = end;
    scan.cut();
  }

  @Override
  public void close(End end, long nowMicros) {
    batch.flush(nowMicros);
    link.send(new Ended(batch.program(), end.outcome(), end.reason()), nowMicros);
  }
}
