package bellwire.app.visit;

import bellwire.analysis.calls.LevelChange;
import bellwire.app.job.RehearsalRow;
import bellwire.app.link.AgentCalls;
import bellwire.app.link.Transport;
import bellwire.app.rehearsal.CallSource;
import bellwire.app.rehearsal.Operator;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.RehearsalRun;
import bellwire.app.rehearsal.TraceWriter;
import bellwire.app.report.Cautions;
import bellwire.app.report.RehearsalJson;
import bellwire.board.BoardDescription;
import bellwire.link.HostEndpoint;
import java.io.ByteArrayOutputStream;
import java.util.List;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** A rehearsal with a board, put into the job with its record. */
final class RehearsalWork extends Work<RehearsalRow> {
  private final Visit visit;
  private final RehearsalOrder order;
  private final Operator operator;
  private final Consumer<String> notes;
  private final Consumer<LevelChange> seen;
  private volatile @Nullable AgentCalls calls;

  RehearsalWork(
      Visit visit,
      RehearsalOrder order,
      Operator operator,
      Consumer<String> notes,
      Consumer<LevelChange> seen) {
    super("a rehearsal");
    this.visit = visit;
    this.order = order;
    this.operator = operator;
    this.notes = notes;
    this.seen = seen;
  }

  @Override
  RehearsalRow work() throws Exception {
    Rehearsal rehearsal = RehearsalFile.parse(order.name(), order.file(), order.times());
    Boards boards = visit.boards();
    ByteArrayOutputStream trace = new ByteArrayOutputStream();
    RehearsalOutcome outcome;
    try (Transport transport = boards.open(Boards.Use.REHEARSAL);
        TraceWriter record = TraceWriter.packed(trace, rehearsal, notes);
        AgentCalls source =
            new AgentCalls(
                transport,
                HostEndpoint.Timing.forBaud(boards.baud()),
                order.loads(),
                record,
                this::cancelled,
                new SplittableRandom().nextLong(1L << 40),
                notes)) {
      calls = source;
      double ppm = BoardDescription.revisionA().value("clock-ppm").tolerance();
      CallSource told = new ToldCalls(source, seen);
      outcome =
          new RehearsalRun(
                  rehearsal,
                  order.options(),
                  told,
                  new WithHands(operator, Boards.hands(transport)),
                  record,
                  ppm)
              .run();
    }
    List<String> options = order.options().stream().sorted().toList();
    String json = RehearsalJson.text(outcome, order.options(), order.live(), Cautions.lines());
    RehearsalRow row =
        new RehearsalRow(
            0,
            System.currentTimeMillis() * 1000,
            order.live(),
            order.file(),
            options,
            json,
            trace.toByteArray());
    return visit
        .change(
            Change.REHEARSALS,
            all ->
                new RehearsalRow(
                    all.add(row),
                    row.atUnixMicros(),
                    row.live(),
                    row.file(),
                    row.options(),
                    row.json(),
                    row.trace()))
        .get();
  }

  @Override
  boolean letGo() {
    AgentCalls agent = calls;
    return agent == null || agent.letGo();
  }
}
