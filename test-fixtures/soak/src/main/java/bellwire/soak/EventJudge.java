package bellwire.soak;

import bellwire.app.job.Gap;
import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilReader;
import bellwire.simbench.cable.Occurrence;
import bellwire.soak.VigilJudge.Seen;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Holds the openings or touches of a vigil to those that were there. */
final class EventJudge {
  private static final long TICK = 1000;

  /** From a gap's end to an event whose beginning it hides. */
  private static final long APART = 1500;

  /** A longer opening, or touch, may not be missed. */
  private static final long SURE_OPENING = 3_000;

  private static final long SURE_TOUCH = 25_000;

  private final Scenario scenario;
  private final World world;
  private final Tally tally;
  private final BenchTime time;
  private final boolean touch;
  private final List<Gap> gaps;
  private final List<Seen> seen;

  /**
   * @param touch whether touches were looked for, not openings
   */
  EventJudge(
      Scenario scenario,
      World world,
      Tally tally,
      BenchTime time,
      boolean touch,
      List<Gap> gaps,
      List<Seen> seen) {
    this.scenario = scenario;
    this.world = world;
    this.tally = tally;
    this.time = time;
    this.touch = touch;
    this.gaps = gaps;
    this.seen = seen;
  }

  void judge(VigilReader reader) throws JobFileException {
    if (seen.isEmpty()) {
      return;
    }
    long from = seen.get(0).fromMicros();
    long to = seen.get(seen.size() - 1).toMicros();
    List<Occurrence> truth =
        world.device().copper().truth().occurrences((from - 70_000_000) * 1000, to * 1000);
    List<VigilEvent> events = reader.events();
    List<VigilEvent> clear =
        events.stream()
            .filter(e -> (sides(e) & scenario.unsound()) == 0)
            // What touches one of two that are bridged touches both, and shows as neither.
            .filter(e -> truth.stream().noneMatch(t -> ofUnsound(t) && meets(e, t)))
            .filter(e -> !fed(e))
            .toList();
    for (VigilEvent each : clear) {
      if (!isThere(each, truth)) {
        throw new Broken(
            "an event that is not there, bench "
                + time.bench(each.firstMicros())
                + ".."
                + time.bench(each.lastMicros())
                + ": "
                + each
                + ", there: "
                + truth.stream().filter(t -> meets(each, t)).toList());
      }
      tally.count("events", 1);
    }
    long sure = touch ? SURE_TOUCH : SURE_OPENING;
    for (Occurrence each : truth) {
      Seen around = around(each, sure);
      if (around != null && events.stream().noneMatch(e -> tells(e, each))) {
        throw new Broken("missed, seen " + around + ": " + each);
      }
    }
  }

  /** All that may have a part in it. */
  private static int sides(VigilEvent event) {
    return 1 << event.port() | event.others();
  }

  private boolean isThere(VigilEvent e, List<Occurrence> truth) {
    if (!touch) {
      return truth.stream().anyMatch(t -> tells(e, t));
    }
    List<Occurrence> then = truth.stream().filter(t -> meets(e, t)).toList();
    // Two of one conductor, one upon the other, may pass for one with a third.
    long own = then.stream().filter(t -> t.portA() == e.port() || t.portB() == e.port()).count();
    return own > 1 || touches(e, joined(1 << e.port(), then));
  }

  /** What two touches have in common joins the other two. */
  private static int joined(int ports, List<Occurrence> touches) {
    int all = ports;
    for (Occurrence each : touches) {
      int pair = 1 << each.portA() | 1 << each.portB();
      if ((pair & all) != 0) {
        all |= pair;
      }
    }
    return all == ports ? all : joined(all, touches);
  }

  private boolean tells(VigilEvent e, Occurrence t) {
    boolean who = touch ? touches(e, 1 << t.portA() | 1 << t.portB()) : e.port() == t.portA();
    return who && meets(e, t);
  }

  private boolean meets(VigilEvent e, Occurrence t) {
    return time.bench(earliest(e)) - TICK <= t.endNanos() / 1000
        && time.bench(e.afterMicros()) + TICK >= t.startNanos() / 1000;
  }

  /**
   * What a gap, or the vigil's begin, hides the beginning of, a latch of the first reading
   * included, lies in it or in the tick before it.
   */
  private long earliest(VigilEvent e) {
    long earliest = e.beforeMicros() - (e.cutBefore() ? TICK : 0);
    for (Gap gap : gaps) {
      if (e.cutBefore() && Math.abs(gap.toMicros() - e.beforeMicros()) <= APART) {
        earliest = Math.min(earliest, gap.fromMicros() - TICK);
      }
    }
    return earliest;
  }

  /**
   * A voltage that the plug shorts within the window is one bit in the event path, as an opening.
   */
  private boolean fed(VigilEvent e) {
    return scenario.mishaps().stream()
        .filter(m -> m.kind() == Mishap.Kind.FOREIGN_VOLTAGE)
        .anyMatch(
            m -> m.within(time.bench(earliest(e)) - TICK, time.bench(e.afterMicros()) + TICK));
  }

  private boolean ofUnsound(Occurrence t) {
    return touch && ((1 << t.portA() | 1 << t.portB()) & scenario.unsound()) != 0;
  }

  private static boolean touches(VigilEvent e, int pair) {
    return (pair >>> e.port() & 1) != 0 && (e.others() & pair & ~(1 << e.port())) != 0;
  }

  /** The readings within which all of it lies, if it is long enough to be seen for sure. */
  private @Nullable Seen around(Occurrence each, long sure) {
    long start = each.startNanos() / 1000;
    long end = each.endNanos() / 1000;
    int sides = touch ? 1 << each.portA() | 1 << each.portB() : 1 << each.portA();
    if (end - start < sure || (sides & scenario.unsound()) != 0) {
      return null;
    }
    return seen.stream()
        .filter(s -> s.fromMicros() < start - 2 * TICK && s.toMicros() > end + 2 * TICK)
        .findFirst()
        .orElse(null);
  }
}
