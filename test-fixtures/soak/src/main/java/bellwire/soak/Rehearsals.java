package bellwire.soak;

import bellwire.analysis.logic.Verdict;
import bellwire.app.bench.BenchTransport;
import bellwire.app.link.AgentCalls;
import bellwire.app.rehearsal.CallRecord;
import bellwire.app.rehearsal.Hands;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.RehearsalRun;
import bellwire.app.rehearsal.Replay;
import bellwire.app.rehearsal.Step;
import bellwire.app.rehearsal.TraceWriter;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.link.HostEndpoint;
import bellwire.soak.Mishap.Kind;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.Consumer;

/** Rehearsals of a slot: of a control without a fault, by hand, and once more after a trouble. */
final class Rehearsals {
  private static final double CLOCK_PPM = 100;

  /** Nobody begins another with less left of the slot. */
  private static final long SHORTEST_MICROS = 60_000_000;

  /** What is under way then is ended by hand. */
  private static final long SPARE_MICROS = 10_000_000;

  private final Scenario scenario;
  private final World world;
  private final Path directory;
  private final Tally tally;
  private final Consumer<String> log;
  private final SplittableRandom random;
  private final Rehearsal rehearsal = parsed();

  Rehearsals(
      Scenario scenario,
      World world,
      Path directory,
      Tally tally,
      Consumer<String> log,
      SplittableRandom random) {
    this.scenario = scenario;
    this.world = world;
    this.directory = directory;
    this.tally = tally;
    this.log = log;
    this.random = random;
  }

  private static Rehearsal parsed() {
    String name = "rehearsal.yaml";
    try (InputStream in = Rehearsals.class.getResourceAsStream(name)) {
      String text = new String(Objects.requireNonNull(in).readAllBytes(), StandardCharsets.UTF_8);
      return RehearsalFile.parse(name, text, Map.of());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (FileException e) {
      throw new IllegalStateException(e);
    }
  }

  void keep(Slot slot) {
    while (world.nowMicros() < slot.untilMicros() - SHORTEST_MICROS) {
      if (once(slot)) {
        return;
      }
      world.pass(world.nowMicros() + Operator.PAUSE_MICROS);
    }
  }

  /** Whether no other is wanted. */
  private boolean once(Slot slot) {
    long from = world.nowMicros();
    Path file = directory.resolve("rehearsal-" + from + ".jsonl.gz");
    world.hostRuns(true);
    try {
      RehearsalOutcome outcome;
      try (TraceWriter record = TraceWriter.open(file, rehearsal, log)) {
        outcome = rehearse(slot, record);
      }
      log.accept("rehearsal: " + (outcome.good() ? "good" : "ended: " + outcome.ended()));
      judge(outcome, from, file);
      return outcome.trouble().isEmpty();
    } catch (InstrumentTrouble e) {
      tally.count("rehearsals that could not begin", 1);
      log.accept("rehearsal: " + e.getMessage());
      return false;
    } catch (HostGone e) {
      tally.count("rehearsals whose host was killed", 1);
      world.awaitHost();
      return false;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } finally {
      world.hostRuns(false);
    }
  }

  private RehearsalOutcome rehearse(Slot slot, CallRecord record) throws InstrumentTrouble {
    AgentCalls calls =
        new AgentCalls(
            world,
            HostEndpoint.Timing.forBaud(Operator.BAUD),
            true,
            record,
            () -> world.nowMicros() >= slot.untilMicros(),
            random.nextLong(1L << 40),
            words -> log.accept("  " + words));
    RehearsalOutcome outcome =
        new RehearsalRun(rehearsal, Set.of(), calls, new Person(slot), record, CLOCK_PPM).run();
    calls.close();
    return outcome;
  }

  private void judge(RehearsalOutcome outcome, long from, Path file) {
    if (!outcome.rulings(Verdict.BROKEN).isEmpty() || !outcome.findings().isEmpty()) {
      throw new Broken(
          "a fault of a control that has none: "
              + outcome.rulings(Verdict.BROKEN)
              + outcome.findings());
    }
    boolean calm =
        scenario.mishaps().stream()
            .filter(m -> m.kind() != Kind.CLOCK_STEP && m.kind() != Kind.PLUG_EARLY)
            .noneMatch(m -> m.within(from, world.nowMicros()));
    if (calm && outcome.ended().isEmpty() && !outcome.good()) {
      throw new Broken("not good, though nothing went wrong: " + outcome.rulings());
    }
    if (calm && !outcome.trouble().isEmpty()) {
      throw new Broken("broken off, though nothing went wrong: " + outcome.trouble());
    }
    RehearsalOutcome again = replayed(file);
    same("changes", outcome.changes(), again.changes());
    same("rulings", outcome.rulings(), again.rulings());
    if (outcome.trouble().isEmpty()) { // the record does not say what broke it off
      same("attempts", outcome.attempts(), again.attempts());
    }
    tally.count("rehearsals " + (outcome.good() ? "good" : "broken off or not whole"), 1);
    tally.count("changes of calls in rehearsals", outcome.changes().size());
  }

  private static void same(String what, List<?> live, List<?> replayed) {
    for (int i = 0; i < Math.max(live.size(), replayed.size()); i++) {
      Object one = i < live.size() ? live.get(i) : "nothing";
      Object other = i < replayed.size() ? replayed.get(i) : "nothing";
      if (!one.equals(other)) {
        throw new Broken("a replay has other " + what + ": " + other + " for " + one);
      }
    }
  }

  private RehearsalOutcome replayed(Path file) {
    try (Replay replay = Replay.open(file, rehearsal)) {
      return new RehearsalRun(rehearsal, Set.of(), replay, replay, CallRecord.NONE, CLOCK_PPM)
          .run();
    } catch (IOException | InstrumentTrouble e) {
      throw new Broken("a record cannot be replayed", e);
    }
  }

  /** Does what is asked for, some time after the question. */
  private final class Person implements bellwire.app.rehearsal.Operator {
    private final Slot slot;
    private final Hands hands = BenchTransport.of(world.device());

    Person(Slot slot) {
      this.slot = slot;
    }

    @Override
    public Answer begin(Step step, int number, int of, Idle idle) throws InstrumentTrouble {
      for (int looks = 1 + random.nextInt(20); looks > 0; looks--) {
        idle.pass();
      }
      if (world.nowMicros() > slot.untilMicros() - SPARE_MICROS) {
        return new Answer(Choice.END, "no time left");
      }
      hands.perform(step.deed());
      return new Answer(Choice.DO, "");
    }

    @Override
    public Next look(Moment moment) {
      if (world.nowMicros() > slot.untilMicros() - SPARE_MICROS) {
        return Next.END;
      }
      return moment.reached() || moment.late() ? Next.GO_ON : Next.WAIT;
    }

    @Override
    public String observe(Step step, Idle idle) {
      return "";
    }
  }
}
