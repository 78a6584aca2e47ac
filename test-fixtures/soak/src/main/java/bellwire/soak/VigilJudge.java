package bellwire.soak;

import bellwire.app.job.Gap;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Source;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.vigil.VigilOrder;
import bellwire.simbench.cable.Occurrence;
import bellwire.soak.Mishap.Kind;
import bellwire.soak.Slot.Task;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Holds what a job file has of a vigil to what was really there. */
final class VigilJudge {
  private static final long TICK = 1000;

  /** Readings further apart have a gap between them, nearer ones are told twice. */
  private static final long APART = 1500;

  private static final long NEAR = 500;

  /** The agent's step is late by so much now and then, and a reading left out. */
  private static final long LATE = 10_000;

  /** From a mishap's end until the vigil goes on: the way back, quiet, armed, begun. */
  private static final long BACK = 15_000_000;

  /** By which a vigil's length may be off. */
  private static final long LENGTH_OFF = 4_000_000;

  /** A longer opening, or touch, may not be missed. */
  private static final long SURE_OPENING = 3_000;

  private static final long SURE_TOUCH = 25_000;

  /** Of 50 Hz. */
  private static final long CYCLE = 20_000;

  /** Readings without a gap between them, in bench time. */
  private record Seen(long fromMicros, long toMicros) {}

  private final Scenario scenario;
  private final World world;
  private final Tally tally;
  private final Consumer<String> log;

  VigilJudge(Scenario scenario, World world, Tally tally, Consumer<String> log) {
    this.scenario = scenario;
    this.world = world;
    this.tally = tally;
    this.log = log;
  }

  void judge(Slot slot, VigilOrder order, Path file) {
    try {
      for (VigilRow row : VigilReader.vigils(file)) {
        try (VigilReader reader = VigilReader.open(file, row.id())) {
          new OfOne(slot, order, reader, row).judge();
        }
      }
    } catch (JobFileException e) {
      throw new Broken("a job file cannot be read", e);
    }
  }

  private final class OfOne {
    private final Slot slot;
    private final VigilOrder order;
    private final VigilReader reader;
    private final VigilRow row;
    private final BenchTime time;
    private final List<Seen> seen = new ArrayList<>();
    private final List<Gap> gaps = new ArrayList<>();

    OfOne(Slot slot, VigilOrder order, VigilReader reader, VigilRow row) throws JobFileException {
      this.slot = slot;
      this.order = order;
      this.reader = reader;
      this.row = row;
      time = new BenchTime(world, scenario, reader.sources());
    }

    void judge() throws JobFileException {
      String outcome = row.ending().orElseThrow(() -> new Broken("no end: " + row)).outcome();
      tally.count("vigils: " + outcome.replaceAll(":.*", ""), 1);
      if (reader.streams().isEmpty()) {
        return;
      }
      Stream stream = reader.streams().get(0);
      gaps.addAll(reader.gaps(stream, 0, Long.MAX_VALUE / 4));
      samples(stream);
      gaps.forEach(this::gap);
      ending(outcome);
      if (slot.task() == Task.CALLS) {
        calls(stream);
      } else {
        events();
      }
    }

    private void samples(Stream stream) throws JobFileException {
      long[] last = {Long.MIN_VALUE, 0};
      reader
          .samples(
              stream,
              0,
              Long.MAX_VALUE / 4,
              (first, count, value, latches) -> {
                long end = first + (count - 1) * TICK;
                if (last[0] != Long.MIN_VALUE && first - last[0] < NEAR) {
                  throw new Broken("readings told twice: " + last[0] + " then " + first);
                }
                if (last[0] == Long.MIN_VALUE || first - last[0] > APART) {
                  if (last[0] != Long.MIN_VALUE && !covered(last[0], first)) {
                    throw new Broken(
                        "readings are missing and no gap says so: after "
                            + last[0]
                            + " comes "
                            + first
                            + ", gaps="
                            + gaps);
                  }
                  seen.add(new Seen(time.bench(first), time.bench(end)));
                } else {
                  Seen before = seen.remove(seen.size() - 1);
                  seen.add(new Seen(before.fromMicros(), time.bench(end)));
                }
                last[0] = end;
                last[1] += count;
              })
          .forEach(
              bad -> {
                throw new Broken("unreadable in the job file: " + bad);
              });
      tally.count("readings", last[1]);
    }

    private boolean covered(long from, long to) {
      return gaps.stream()
          .anyMatch(g -> g.fromMicros() <= from + APART && g.toMicros() >= to - NEAR);
    }

    /** The line, the host, its disk and its clock lose nothing: a gap has a cause in the device. */
    private void gap(Gap gap) {
      tally.count("gaps", 1);
      long length = gap.toMicros() - gap.fromMicros();
      long from = time.bench(gap.fromMicros() - TICK);
      long to = time.bench(gap.toMicros());
      if (length > LATE
          && scenario.mishaps().stream()
              .noneMatch(m -> m.ofDevice() && m.within(from - TICK, to))) {
        throw new Broken("a gap without a cause, bench " + from + ".." + to + ": " + gap);
      }
      if (to - from > BACK + longestWithin(from, to)) {
        throw new Broken("a gap longer than its cause, bench " + from + ".." + to + ": " + gap);
      }
      if (gap.reason().contains("not known")) {
        return;
      }
      if (Math.abs(to - from - length) > LENGTH_OFF) {
        throw new Broken("a gap of wrong length, really " + (to - from) + " us: " + gap);
      }
    }

    private long longestWithin(long from, long to) {
      return scenario.mishaps().stream()
          .filter(m -> m.within(from, to))
          .mapToLong(m -> m.untilMicros() - m.micros())
          .sum();
    }

    private void ending(String outcome) {
      long from = slot.micros();
      long to = world.nowMicros();
      if (outcome.startsWith("ended by the interlock")) {
        if (!was(from, to, Kind.FOREIGN_VOLTAGE)) {
          throw new Broken("ended by a voltage that is not there: " + outcome);
        }
      } else if (outcome.startsWith("ended by trouble with the board")) {
        if (!was(from, to, Kind.CHIP_STUCK, Kind.CHIP_FLIPS)) {
          throw new Broken("ended by trouble that is not there: " + outcome);
        }
      } else if (outcome.equals("its time was over")) {
        long lasted =
            seen.isEmpty() ? 0 : seen.get(seen.size() - 1).toMicros() - seen.get(0).fromMicros();
        log.accept("vigil lasted " + lasted + " of " + order.lengthMicros());
        if (lasted > order.lengthMicros() + LENGTH_OFF) {
          throw new Broken("it lasted " + lasted + " us, not " + order.lengthMicros());
        }
        if (lasted < order.lengthMicros() - LENGTH_OFF
            && !was(from, to, Kind.AGENT_HELD, Kind.AGENT_KILLED, Kind.POWER_CUT)) {
          throw new Broken("it lasted " + lasted + " us, not " + order.lengthMicros());
        }
      } else if (!outcome.startsWith("could not begin")) {
        throw new Broken("ended so: " + outcome);
      }
    }

    /** Every lead is as its contact is, a cycle or a bounce aside. */
    private void calls(Stream stream) throws JobFileException {
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

    private boolean was(long from, long to, Kind... kinds) {
      return scenario.mishaps().stream()
          .anyMatch(m -> List.of(kinds).contains(m.kind()) && m.within(from, to));
    }

    private void events() throws JobFileException {
      if (seen.isEmpty()) {
        return;
      }
      long from = seen.get(0).fromMicros();
      long to = seen.get(seen.size() - 1).toMicros();
      List<Occurrence> truth =
          world.device().copper().truth().occurrences((from - 70_000_000) * 1000, to * 1000);
      List<VigilEvent> events =
          reader.events().stream()
              .filter(e -> (sides(e) & scenario.unsound()) == 0)
              // What touches one of two that are bridged touches both, and shows as neither.
              .filter(e -> truth.stream().noneMatch(t -> ofUnsound(t) && meets(e, t)))
              .toList();
      for (VigilEvent each : events) {
        if (truth.stream().noneMatch(t -> tells(each, t))) {
          throw new Broken(
              "an event that is not there, bench "
                  + time.bench(each.firstMicros())
                  + ".."
                  + time.bench(each.lastMicros())
                  + ": "
                  + each);
        }
        tally.count("events", 1);
      }
      long sure = slot.task() == Task.TOUCH ? SURE_TOUCH : SURE_OPENING;
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

    private boolean tells(VigilEvent e, Occurrence t) {
      boolean who =
          slot.task() == Task.TOUCH
              ? touches(e, 1 << t.portA() | 1 << t.portB())
              : e.port() == t.portA();
      return who && meets(e, t);
    }

    private boolean meets(VigilEvent e, Occurrence t) {
      return time.bench(earliest(e)) - TICK <= t.endNanos() / 1000
          && time.bench(e.afterMicros()) + TICK >= t.startNanos() / 1000;
    }

    /** What a gap hides the beginning of, a latch of its first reading included, lies in it. */
    private long earliest(VigilEvent e) {
      long earliest = e.beforeMicros();
      for (Gap gap : gaps) {
        if (e.cutBefore() && Math.abs(gap.toMicros() - e.beforeMicros()) <= APART) {
          earliest = Math.min(earliest, gap.fromMicros());
        }
      }
      return earliest;
    }

    private boolean ofUnsound(Occurrence t) {
      return slot.task() == Task.TOUCH
          && ((1 << t.portA() | 1 << t.portB()) & scenario.unsound()) != 0;
    }

    private static boolean touches(VigilEvent e, int pair) {
      return (pair >>> e.port() & 1) != 0 && (e.others() & pair & ~(1 << e.port())) != 0;
    }

    /** The readings within which all of it lies, if it is long enough to be seen for sure. */
    private @Nullable Seen around(Occurrence each, long sure) {
      long start = each.startNanos() / 1000;
      long end = each.endNanos() / 1000;
      int sides =
          slot.task() == Task.TOUCH ? 1 << each.portA() | 1 << each.portB() : 1 << each.portA();
      if (end - start < sure || (sides & scenario.unsound()) != 0) {
        return null;
      }
      return seen.stream()
          .filter(s -> s.fromMicros() < start - 2 * TICK && s.toMicros() > end + 2 * TICK)
          .findFirst()
          .orElse(null);
    }
  }

  /** From a vigil's time to the bench's. */
  static final class BenchTime {
    private final World world;
    private final List<Source> sources;
    private final double rate;

    BenchTime(World world, Scenario scenario, List<Source> sources) {
      this.world = world;
      this.sources = sources.stream().filter(s -> s.offsetMicros() != Source.NOT_KNOWN).toList();
      rate = 1 + scenario.bench().board().clockDrift();
    }

    /** By the boot that lived then; where none did, by the one nearest. */
    long bench(long micros) {
      long best = Long.MIN_VALUE;
      long off = Long.MAX_VALUE;
      List<World.Boot> boots = world.boots();
      for (int i = 0; i < boots.size(); i++) {
        World.Boot boot = boots.get(i);
        long end = i + 1 < boots.size() ? boots.get(i + 1).fromMicros() : Long.MAX_VALUE;
        for (Source source : sources) {
          if (source.boot() != boot.boot()) {
            continue;
          }
          long bench = boot.micros() + Math.round((micros - source.offsetMicros()) / rate);
          long outside = Math.max(0, Math.max(boot.fromMicros() - bench, bench - end));
          if (outside < off) {
            off = outside;
            best = bench;
          }
        }
      }
      if (best == Long.MIN_VALUE) {
        throw new Broken("readings of no boot: micros=" + micros + " sources=" + sources);
      }
      return best;
    }
  }
}
