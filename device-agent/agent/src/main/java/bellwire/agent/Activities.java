package bellwire.agent;

import bellwire.agent.board.SensingBoard;
import bellwire.board.BoardDescription;
import bellwire.link.Message.KeepVigil;
import bellwire.link.Message.Run;
import bellwire.link.Message.SenseCalls;
import java.util.function.LongSupplier;

/** Makes what a host has asked for, once it has been admitted, into an activity not yet begun. */
final class Activities {
  private static final long PROGRAM_WAITS_MICROS = 50_000;
  private static final long TREND_WAITS_MICROS = 1_000_000;

  private final SensingBoard board;
  private final BoardDescription description;
  private final HostLink link;
  private final LongSupplier clock;
  private final long tickMicros;

  /**
   * @param clock the agent's, in microseconds, read within a step
   */
  Activities(
      SensingBoard board,
      BoardDescription description,
      HostLink link,
      LongSupplier clock,
      long tickMicros) {
    this.board = board;
    this.description = description;
    this.link = link;
    this.clock = clock;
    this.tickMicros = tickMicros;
  }

  Activity program(Run run) {
    SampleBatch samples = new SampleBatch(run.program(), PROGRAM_WAITS_MICROS, link);
    ScanRun scan = new ScanRun(board, description, clock, run.steps(), samples);
    return new Program(run.request(), scan, samples, false, link);
  }

  Activity watch(SenseCalls sense) {
    return calls(sense, false);
  }

  Activity vigil(KeepVigil keep) {
    return switch (keep.kind()) {
      case CONTINUITY -> events(keep, GroupPatterns.continuity(keep.ports(), keep.returned()));
      case TOUCH -> events(keep, GroupPatterns.touch(keep.ports()));
      case TREND -> trend(keep);
      case CALLS ->
          calls(new SenseCalls(keep.request(), keep.vigil(), keep.wetting(), keep.loads()), true);
    };
  }

  private Activity calls(SenseCalls sense, boolean alone) {
    return new CallWatch(board, description, link, clock, tickMicros, sense, alone);
  }

  private Activity trend(KeepVigil keep) {
    SampleBatch samples = new SampleBatch(keep.vigil(), TREND_WAITS_MICROS, link);
    ScanRun scan = new ScanRun(board, description, clock, keep.steps(), true, samples);
    return new Program(keep.request(), scan, samples, true, link);
  }

  private Activity events(KeepVigil keep, GroupPatterns patterns) {
    return new EventWatch(
        board, description, link, clock, tickMicros, keep.request(), keep.vigil(), patterns);
  }
}
