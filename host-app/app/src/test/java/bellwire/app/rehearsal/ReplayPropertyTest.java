package bellwire.app.rehearsal;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import bellwire.analysis.logic.Verdict;
import bellwire.simbench.control.ControlSetup;
import bellwire.simbench.control.Defect;
import bellwire.simbench.control.Kind;
import bellwire.simbench.file.Bench;
import bellwire.simbench.file.BenchFile;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.LongPredicate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A record gives what the rehearsal gave, to the microsecond, though ticks came late, the agent
 * hung at times, and the line was cut; and what is lost breaks no rule of a healthy control. {@code
 * -Dbellwire.replays=30} draws more.
 */
final class ReplayPropertyTest {
  private static final long SEED = Long.getLong("bellwire.seed", 8800);
  private static final int RUNS = Integer.getInteger("bellwire.replays", 2);

  /** The short ones first. */
  private static final List<Kind> KINDS =
      List.of(
          Kind.HEAT_ONLY,
          Kind.BOILER_DRY,
          Kind.ZONE_PANEL,
          Kind.TWO_SUPPLIES,
          Kind.FURNACE_COOLING,
          Kind.ELECTRIC_HEAT,
          Kind.HEAT_PUMP_O,
          Kind.HEAT_PUMP_B,
          Kind.TWO_STAGE,
          Kind.DUAL_FUEL);

  @TempDir private Path directory;

  @Test
  void aReplayIsTheRehearsalAgainWithGapsAndJitter() throws Exception {
    long gaps = 0;
    for (int i = 0; i < RUNS; i++) {
      gaps += same(KINDS.get(i % KINDS.size()), SEED + i);
    }
    assertTrue(gaps >= 5L * RUNS, "gaps=" + gaps + " seed=" + SEED);
  }

  private long same(Kind kind, long seed) throws Exception {
    SplittableRandom random = new SplittableRandom(seed);
    Rehearsal rehearsal = RehearsalMatrixTest.builtIn(kind);
    Path file = directory.resolve("record-" + seed + ".jsonl.gz");
    Bench bench = bench(kind, random);
    RehearsalOutcome live;
    try (TraceWriter writer = TraceWriter.open(file, rehearsal, words -> {})) {
      live =
          new SimulatedRehearsal(rehearsal, bench)
              .through(line -> new CompressorRestTest.LossyLine(line, random.split(), 0.02))
              .frozenWhile(hanging(random.split()))
              .recordedBy(writer)
              .run();
    }
    RehearsalOutcome again;
    try (Replay replay = Replay.open(file, rehearsal)) {
      again =
          new RehearsalRun(
                  rehearsal,
                  Set.of(),
                  replay,
                  replay,
                  CallRecord.NONE,
                  SimulatedRehearsal.CLOCK_PPM)
              .run();
    }
    boolean healthy = bench.control().orElseThrow().setup().faults().isEmpty();
    String which =
        (healthy ? "healthy " : "defective ")
            + kind
            + " seed="
            + seed
            + " gaps="
            + live.sampling().gaps();
    System.out.println(which + " changes=" + live.changes().size() + " bounces=" + live.bounces());
    if (healthy) {
      assertEquals(List.of(), live.rulings(Verdict.BROKEN), which);
    }
    assertEquals(live.changes(), again.changes(), which);
    assertEquals(live.rulings(), again.rulings(), which);
    assertEquals(live.attempts(), again.attempts(), which);
    assertEquals(live.atEnd(), again.atEnd(), which);
    assertEquals(live.bounces(), again.bounces(), which);
    assertEquals(live.sampling().samples(), again.sampling().samples(), which);
    assertEquals(live.sampling().gaps(), again.sampling().gaps(), which);
    assertEquals(live.startMicros(), again.startMicros(), which);
    assertEquals(live.endMicros(), again.endMicros(), which);
    assertEquals(live.mainsHertz(), again.mainsHertz(), which);
    assertEquals(live.ended(), again.ended(), which);
    return live.sampling().gaps();
  }

  private static Bench bench(Kind kind, SplittableRandom random) throws Exception {
    ControlSetup setup = ControlSetup.draw(kind, random);
    List<Defect> possible =
        Arrays.stream(Defect.values()).filter(defect -> defect.canShow(kind)).toList();
    if (random.nextBoolean()) {
      setup = setup.with(possible.get(random.nextInt(possible.size())), random);
    }
    return BenchFile.parse(
            "bench.yaml",
            String.format(
                Locale.ROOT,
                "bellwire-bench: 1%nseed: %d%nboard: {clock-drift: %.1f ppm, tick-jitter: %.3f ms}%n"
                    + "control: {kind: %s}%n",
                random.nextLong(1_000_000),
                random.nextDouble(-100, 100),
                random.nextDouble(1, 2.5),
                kind.name().toLowerCase(Locale.ROOT).replace('_', '-')))
        .with(Bench.Control.of(setup));
  }

  /** For up to two seconds, every half minute or so. */
  private static LongPredicate hanging(SplittableRandom random) {
    long[] next = {10_000_000, 10_000_000};
    return micros -> {
      if (micros >= next[1]) {
        next[0] = micros + random.nextLong(10_000_000, 60_000_000);
        next[1] = next[0] + random.nextLong(2_000_000);
      }
      return micros >= next[0];
    };
  }
}
