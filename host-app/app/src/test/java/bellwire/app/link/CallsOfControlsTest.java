package bellwire.app.link;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.calls.LevelTracker;
import bellwire.analysis.calls.LevelTracker.Feed;
import bellwire.board.BoardDescription;
import bellwire.simbench.VirtualClock;
import bellwire.simbench.chip.CallInputs;
import bellwire.simbench.control.ControlSetup;
import bellwire.simbench.control.Kind;
import bellwire.simbench.control.Operation;
import bellwire.simbench.control.SimulatedControl;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * Healthy controls of every kind with all else drawn, through the board's inputs, the dummy loads
 * on: each level told has a true closing or opening of the contact in its interval, and nothing
 * that lasts goes untold.
 */
class CallsOfControlsTest {
  private static final int SETUPS = Integer.getInteger("bellwire.controls", 10);
  private static final long SEED = 900;
  private static final long SECONDS = 40;

  /** Stays closed or open for so long: more than any bounce. */
  private static final long LASTING_NANOS = 60_000_000;

  private record Edge(boolean closing, long nanos) {}

  @ParameterizedTest
  @EnumSource(Kind.class)
  void everyLevelHasItsMoment(Kind kind) {
    SplittableRandom random = new SplittableRandom(SEED + kind.ordinal());
    System.out.println(kind + " seed=" + (SEED + kind.ordinal()));
    int edges = 0;
    for (int i = 0; i < SETUPS; i++) {
      edges += check(kind, i, random.split());
    }
    assertThat(edges).isGreaterThan(SETUPS / 2);
  }

  private static int check(Kind kind, int run, SplittableRandom random) {
    ControlSetup setup = ControlSetup.draw(kind, random.split());
    long seed = random.nextLong();
    List<String> terminals = kind.terminals();
    SimulatedControl control = new SimulatedControl(setup, terminals, seed);
    SimulatedControl twin = new SimulatedControl(setup, terminals, seed);
    VirtualClock clock = new VirtualClock();
    CallInputs inputs =
        new CallInputs(BoardDescription.revisionA(), control, clock, random.split());
    boolean dry = setup.supplies().isEmpty();
    List<LevelChange> told = new ArrayList<>();
    int leads = (1 << terminals.size()) - 1;
    LevelTracker tracker = new LevelTracker(dry ? Feed.DRY : Feed.AC, leads, told::add);
    List<List<Edge>> truth = new ArrayList<>();
    terminals.forEach(t -> truth.add(new ArrayList<>()));
    for (long ms = 1; ms <= SECONDS * 1000; ms++) {
      if (ms % 8000 == 2000) {
        Operation operation = operation(random);
        control.operate(operation, clock.nanos());
        twin.operate(operation, clock.nanos());
      }
      long now = ms * 1_000_000 + random.nextInt(200_000);
      record(twin, terminals, clock.nanos(), now, truth);
      clock.advanceTo(now);
      tracker.sample(now / 1000, 60, inputs.word(dry, dry ? 0 : leads));
    }
    tracker.finish(clock.micros());
    int edges = 0;
    for (int lead = 0; lead < terminals.size(); lead++) {
      int each = lead;
      List<LevelChange> mine = told.stream().filter(c -> c.lead() == each).toList();
      String what =
          "%s run=%d lead=%d%n%s%n%s%n%s".formatted(kind, run, lead, mine, truth.get(lead), setup);
      edges += compare(what, mine, truth.get(lead), clock.nanos());
    }
    return edges;
  }

  private static Operation operation(SplittableRandom random) {
    return switch (random.nextInt(5)) {
      case 0 -> Operation.fan(random.nextBoolean() ? Operation.Fan.ON : Operation.Fan.AUTO);
      case 1 -> Operation.mode(Operation.Mode.values()[random.nextInt(4)]);
      default ->
          new Operation(
              random.nextBoolean() ? Operation.Mode.HEAT : Operation.Mode.COOL,
              null,
              random.nextBoolean() ? 4.0 : -4.0,
              null);
    };
  }

  private static void record(
      SimulatedControl twin, List<String> terminals, long from, long to, List<List<Edge>> truth) {
    long at = from;
    for (long next = twin.nextChange(at); next <= to; next = twin.nextChange(at)) {
      at = next;
      for (int i = 0; i < terminals.size(); i++) {
        List<Edge> edges = truth.get(i);
        boolean closed = twin.closed(terminals.get(i), at);
        boolean before = !edges.isEmpty() && edges.get(edges.size() - 1).closing();
        if (closed != before) {
          edges.add(new Edge(closed, at));
        }
      }
    }
  }

  private static int compare(String what, List<LevelChange> told, List<Edge> truth, long end) {
    assertThat(told).as(what).isNotEmpty();
    assertThat(told.get(0).level()).as(what).isEqualTo(Level.OFF);
    for (LevelChange change : told.subList(1, told.size())) {
      if (change.level() == Level.UNKNOWN && change.earliestMicros() > end / 1000 - 600_000) {
        continue; // too near the end
      }
      assertThat(change.level()).as(what).isIn(Level.ON, Level.OFF);
      boolean there =
          truth.stream()
              .anyMatch(
                  e ->
                      e.closing() == (change.level() == Level.ON)
                          && e.nanos() >= change.earliestMicros() * 1000
                          && e.nanos() <= change.latestMicros() * 1000 + 1000);
      assertThat(there).as("%s in %s", change, what).isTrue();
    }
    int lasting = 0;
    for (int i = 0; i < truth.size(); i++) {
      long until = i + 1 < truth.size() ? truth.get(i + 1).nanos() : end;
      if (until - truth.get(i).nanos() < LASTING_NANOS || until > end - 700_000_000) {
        continue;
      }
      Edge edge = truth.get(i);
      Level last = Level.UNKNOWN;
      for (LevelChange change : told) {
        last = change.latestMicros() * 1000 <= edge.nanos() + 30_000_000 ? change.level() : last;
      }
      assertThat(last).as("%s in %s", edge, what).isEqualTo(edge.closing() ? Level.ON : Level.OFF);
      lasting++;
    }
    return lasting;
  }
}
