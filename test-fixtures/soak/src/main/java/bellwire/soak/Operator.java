package bellwire.soak;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.CableFacts;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndKind;
import bellwire.app.job.FilledDisk;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilRow;
import bellwire.app.link.AgentInstrument;
import bellwire.app.link.AgentVigil;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.Cancelled;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.ScanTranslation;
import bellwire.app.survey.SurveyListener;
import bellwire.app.survey.SurveyOptions;
import bellwire.app.survey.SurveyOutcome;
import bellwire.app.survey.SurveyRun;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilPrompts;
import bellwire.app.vigil.VigilRun;
import bellwire.board.BoardDescription;
import bellwire.board.CodedPlug;
import bellwire.link.HostEndpoint;
import bellwire.link.Message.KeepVigil;
import bellwire.soak.Mishap.Kind;
import bellwire.soak.Slot.Task;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/**
 * The person and the host's program: goes through the slots of a visit, tries again what failed,
 * starts the program again where it was killed, and has each outcome judged.
 */
final class Operator {
  private static final BoardModel BOARD = BoardModels.of(BoardDescription.revisionA());
  static final int BAUD = 921_600;
  private static final long LEAST_STEP_MICROS = 5_000;
  private static final long MOST_STEP_MICROS = 1_000_000;

  /** From a survey's slot on no plug is on for so long. */
  private static final long UNPLUGGED_MICROS = 1_000_000;

  /** Before what failed is tried again. */
  static final long PAUSE_MICROS = 3_000_000;

  /** A vigil that was begun later than this in its slot does not end within it by itself. */
  private static final long LATE_MICROS = 20_000_000;

  /** A slot's vigil ends so long before the slot. */
  private static final long SPARE_MICROS = 15_000_000;

  private final Scenario scenario;
  private final World world;
  private final Path directory;
  private final Tally tally;
  private final Consumer<String> log;
  private final SplittableRandom random;
  private @Nullable JobFile job;
  private boolean full;

  /** The job file of the vigil before, whose end the board may not have been told of. */
  private @Nullable Path before;

  Operator(Scenario scenario, World world, Path directory, Tally tally, Consumer<String> log) {
    this.scenario = scenario;
    this.world = world;
    this.directory = directory;
    this.tally = tally;
    this.log = log;
    random = new SplittableRandom(scenario.bench().seed() ^ 0x0FF1CEL);
  }

  void visit() {
    for (Slot slot : scenario.slots()) {
      log.accept("slot " + slot);
      world.pass(slot.micros());
      switch (slot.task()) {
        case SURVEY -> surveys(slot);
        case REHEARSAL ->
            new Rehearsals(scenario, world, directory, tally, log, random.split()).keep(slot);
        case CONTINUITY, TOUCH, CALLS, TREND -> new Watch(slot).keep();
      }
    }
    world.pass(scenario.endMicros());
  }

  private void surveys(Slot slot) {
    SurveyOutcome outcome = null;
    boolean early =
        scenario.mishaps().stream()
            .anyMatch(
                m -> m.kind() == Kind.PLUG_EARLY && m.within(slot.micros(), slot.calmMicros()));
    boolean plugged = early;
    String trouble = "";
    while (outcome == null && world.nowMicros() < slot.untilMicros()) {
      plugged = early || world.nowMicros() - slot.micros() > UNPLUGGED_MICROS;
      try {
        outcome = survey(slot);
      } catch (InstrumentTrouble e) {
        tally.count("surveys ended by trouble", 1);
        trouble = String.valueOf(e.getMessage());
        log.accept("survey: " + trouble);
        world.pass(Math.min(slot.untilMicros(), world.nowMicros() + PAUSE_MICROS));
      } catch (Cancelled e) {
        tally.count("surveys broken off at their slot's end", 1);
        break;
      } catch (HostGone e) {
        tally.count("surveys whose host was killed", 1);
        world.awaitHost();
      }
    }
    if (outcome != null) {
      log.accept("survey: " + (outcome.result() == null ? "voltage" : outcome.result().phases()));
      new SurveyJudge(scenario, world, tally).judge(slot, plugged, outcome);
    }
    if (slot == last()) {
      if (outcome == null || outcome.result() == null) {
        throw new Broken("no survey once all is calm: " + trouble);
      }
      new SurveyJudge(scenario, world, tally).whole(outcome);
    }
  }

  private Slot last() {
    return scenario.slots().get(scenario.slots().size() - 1);
  }

  private SurveyOutcome survey(Slot slot) throws InstrumentTrouble {
    world.hostRuns(true);
    SurveyOptions options =
        new SurveyOptions(
            0,
            EnumSet.of(FarEndKind.CODED, FarEndKind.TIE),
            1_500_000,
            30_000_000,
            0,
            0,
            BoardModels.plug(CodedPlug.nominal()),
            new CableFacts(Gauge.awg(18), Double.NaN, 22, 4),
            Criteria.standard());
    AgentInstrument instrument =
        new AgentInstrument(
            world,
            HostEndpoint.Timing.forBaud(BAUD),
            new ScanTranslation(60)::step,
            BOARD.converterVolts(),
            () -> world.nowMicros() >= slot.untilMicros(),
            random.nextLong(1L << 40),
            words -> log.accept("  " + words));
    try {
      SurveyOutcome outcome =
          new SurveyRun(instrument, BOARD, options, SurveyListener.silent()).run();
      instrument.close();
      world.hostRuns(false);
      return outcome;
    } catch (InstrumentTrouble | Cancelled e) {
      instrument.close();
      world.hostRuns(false);
      throw e;
    }
  }

  /** A vigil of a slot, over whatever happens. */
  private final class Watch {
    private final Slot slot;
    private final Path file;
    private String trouble = "";

    /** When each vigil was asked for, by the wall clock then, as its row has it. */
    private final Map<Long, Long> askedMicros = new HashMap<>();

    private long begunMicros;
    private boolean cameBack;

    Watch(Slot slot) {
      this.slot = slot;
      file = directory.resolve("slot-" + slot.micros() / 1_000_000 + ".bellwire");
    }

    /** Each time under a number of its own. */
    private VigilOrder order() {
      return new VigilOrder(
          VigilOrder.LEAST_NUMBER + random.nextLong(1L << 40),
          KeepVigil.Kind.valueOf(slot.task().name()),
          watched(),
          Map.of(),
          slot.task() == Task.CONTINUITY ? scenario.returned() : 0,
          false,
          0,
          slot.untilMicros() - SPARE_MICROS - slot.micros() - 10_000_000,
          Double.NaN,
          slot.task() == Task.TREND ? VigilPrompts.FarEnd.TIE.expectedOhms() : 0,
          60,
          "");
    }

    private int watched() {
      return switch (slot.task()) {
        case CALLS -> (1 << Scenario.LEADS.size()) - 1;
        case TREND -> scenario.sound();
        default -> scenario.ports();
      };
    }

    void keep() {
      world.watchCalls(slot.task() == Task.CALLS);
      while (world.nowMicros() < slot.untilMicros()) {
        try {
          if (attempt()) {
            before = file;
            judge();
            return;
          }
        } catch (HostGone e) {
          tally.count("vigils whose host was killed", 1);
          close();
          world.awaitHost();
        }
        world.pass(Math.min(slot.untilMicros(), world.nowMicros() + PAUSE_MICROS));
      }
      throw new Broken("the vigil has not ended though all is calm: " + trouble);
    }

    /** What had not been committed is lost. */
    private void close() {
      JobFile open = job;
      job = null;
      if (open != null) {
        try {
          open.close();
        } catch (JobFileException e) {
          throw new Broken("a job file cannot be closed", e);
        }
      }
    }

    private boolean attempt() {
      world.hostRuns(true);
      try {
        JobFile open = JobFile.open(file);
        job = open;
        full = false;
        obeyDisk();
        Optional<VigilRow> left = VigilRun.unfinished(file);
        cameBack = left.isPresent();
        VigilRun run =
            left.isEmpty()
                ? begin(open)
                : VigilRun.resume(open, left.get(), VigilRun.order(file, left.get()), means());
        begunMicros = begunMicros == 0 ? world.nowMicros() : begunMicros;
        boolean late = begunMicros - slot.micros() > LATE_MICROS;
        while (run.step(random.nextLong(LEAST_STEP_MICROS, MOST_STEP_MICROS))) {
          obeyDisk();
          if (late && world.nowMicros() > slot.untilMicros() - SPARE_MICROS) {
            tally.count("vigils begun late and ended by hand", 1);
            run.stop();
            break;
          }
          if (world.nowMicros() > slot.untilMicros()) {
            throw new Broken("the vigil goes on beyond its time: " + run.view());
          }
        }
        log.accept("vigil: " + run.ending());
        run.close();
        return true;
      } catch (InstrumentTrouble e) {
        tally.count("vigils interrupted by trouble", 1);
        trouble = String.valueOf(e.getMessage());
        log.accept("vigil: " + trouble);
        if (trouble.contains("or still has what it recorded")) {
          handOver();
        }
        return false;
      } catch (JobFileException | BadVigil e) {
        tally.count("vigils interrupted by their file", 1);
        trouble = String.valueOf(e.getMessage());
        log.accept("vigil: " + trouble);
        return false;
      } finally {
        if (job != null) {
          close();
        }
        world.hostRuns(false);
      }
    }

    /** As a refused vigil says. */
    private void handOver() {
      close();
      handOver(file);
      if (before != null) {
        handOver(before);
      }
    }

    private void handOver(Path other) {
      tally.count("boards told again what a file has", 1);
      try (JobFile open = JobFile.open(other)) {
        log.accept("  told again: " + VigilRun.handOver(open, means()));
      } catch (InstrumentTrouble | JobFileException e) {
        log.accept("  told again: " + e.getMessage());
      }
    }

    private VigilRun begin(JobFile open) throws JobFileException, InstrumentTrouble {
      askedMicros.put(world.unixMicros(), world.nowMicros());
      begunMicros = 0;
      return VigilRun.begin(open, order(), means());
    }

    private void obeyDisk() {
      boolean is = world.is(Kind.DISK_FULL);
      JobFile open = job;
      if (is != full && open != null) {
        FilledDisk.set(open, is);
        full = is;
      }
    }

    private VigilRun.Means means() {
      return new VigilRun.Means(
          BOARD,
          "A",
          feed ->
              new AgentVigil(
                  world,
                  HostEndpoint.Timing.forBaud(BAUD),
                  feed,
                  () -> false,
                  random.nextLong(1L << 40),
                  words -> log.accept("  " + words)),
          world::unixMicros,
          () -> world.nowMicros() * 1000,
          words -> log.accept("  " + words));
    }

    private void judge() {
      new VigilJudge(scenario, world, tally, log)
          .judge(slot, order().lengthMicros(), askedMicros, begunMicros, cameBack, file);
    }
  }
}
