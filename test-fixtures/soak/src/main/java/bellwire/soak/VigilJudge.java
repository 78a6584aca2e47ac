package bellwire.soak;

import bellwire.app.job.Gap;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.soak.Mishap.Kind;
import bellwire.soak.Slot.Task;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Consumer;

/** Holds what a job file has of a vigil to what was really there. */
final class VigilJudge {
  /** The agent's step is late by so much now and then, and a reading left out. */
  private static final long LATE = 10_000;

  /** From a mishap's end until the vigil goes on: the way back, quiet, armed, begun. */
  private static final long BACK = 15_000_000;

  /** From the beginning to the first reading, with a line that has just come back. */
  private static final long BEGUN = 12_000_000;

  /** By which a vigil's length may be off. */
  private static final long LENGTH_OFF = 4_000_000;

  /** Readings without a gap between them, in bench time. */
  record Seen(long fromMicros, long toMicros) {}

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

  /**
   * @param lengthMicros asked for
   * @param askedMicros bench time at which each was asked for, by the wall clock's
   * @param begunMicros at which the host had the board's answer to the last
   * @param cameBack whether the host left the last, and went on with it
   */
  void judge(
      Slot slot,
      long lengthMicros,
      Map<Long, Long> askedMicros,
      long begunMicros,
      boolean cameBack,
      Path file) {
    try {
      for (VigilRow row : VigilReader.vigils(file)) {
        try (VigilReader reader = VigilReader.open(file, row.id())) {
          OfOne one =
              new OfOne(
                  slot,
                  lengthMicros,
                  Objects.requireNonNull(askedMicros.get(row.startedUnixMicros())),
                  begunMicros,
                  cameBack,
                  reader,
                  row);
          if (!reader.streams().isEmpty()) {
            one.judge(reader.streams().get(0), file);
          }
        }
      }
    } catch (JobFileException e) {
      throw new Broken("a job file cannot be read", e);
    }
  }

  private final class OfOne {
    private final Slot slot;
    private final long lengthMicros;
    private final long askedMicros;
    private final long begunMicros;
    private final boolean cameBack;
    private final VigilReader reader;
    private final VigilRow row;
    private final BenchTime time;
    private final String outcome;

    /**
     * Between two readings; further apart there is a gap between them, nearer one is told twice.
     */
    private long tick;

    private final List<Seen> seen = new ArrayList<>();
    private final List<Gap> gaps = new ArrayList<>();

    OfOne(
        Slot slot,
        long lengthMicros,
        long askedMicros,
        long begunMicros,
        boolean cameBack,
        VigilReader reader,
        VigilRow row)
        throws JobFileException {
      this.slot = slot;
      this.lengthMicros = lengthMicros;
      this.askedMicros = askedMicros;
      this.begunMicros = begunMicros;
      this.cameBack = cameBack;
      this.reader = reader;
      this.row = row;
      time = new BenchTime(world, scenario, reader.sources());
      outcome = row.ending().orElseThrow(() -> new Broken("no end: " + row)).outcome();
      tally.count("vigils: " + outcome.replaceAll(":.*", ""), 1);
    }

    void judge(Stream stream, Path file) throws JobFileException {
      tick = stream.periodMicros();
      gaps.addAll(reader.gaps(stream, 0, Long.MAX_VALUE / 4));
      samples(stream);
      gaps.forEach(this::gap);
      ending();
      switch (slot.task()) {
        case CALLS -> new CallJudge(world, time, tally).judge(reader, stream);
        case TREND -> new TrendJudge(scenario, world, tally).judge(file, row.id());
        default -> {
          boolean touch = slot.task() == Task.TOUCH;
          new EventJudge(scenario, world, tally, time, touch, gaps, seen).judge(reader);
        }
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
                long end = first + (count - 1) * tick;
                if (last[0] != Long.MIN_VALUE && first - last[0] < tick / 2) {
                  throw new Broken("readings told twice: " + last[0] + " then " + first);
                }
                if (last[0] == Long.MIN_VALUE || first - last[0] > tick + tick / 2) {
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
          .anyMatch(g -> g.fromMicros() <= from + tick + tick / 2 && g.toMicros() >= to - tick / 2);
    }

    /** The line, the host, its disk and its clock lose nothing: a gap has a cause in the device. */
    private void gap(Gap gap) {
      tally.count("gaps", 1);
      long length = gap.toMicros() - gap.fromMicros();
      long from = time.bench(gap.fromMicros() - tick);
      long to = time.bench(gap.toMicros());
      if (length > LATE + tick
          && scenario.mishaps().stream()
              .noneMatch(m -> m.ofDevice() && m.within(from - tick, to))) {
        throw new Broken("a gap without a cause, bench " + from + ".." + to + ": " + gap);
      }
      if (to - from > tick + mostWithin(from, to)) {
        throw new Broken("a gap longer than its cause, bench " + from + ".." + to + ": " + gap);
      }
      if (gap.reason().contains("not known") || setUnseen()) {
        return;
      }
      if (Math.abs(to - from - length) > LENGTH_OFF + tick) {
        throw new Broken("a gap of wrong length, really " + (to - from) + " us: " + gap);
      }
    }

    /** One after the other each lasts, and the way back is taken anew. */
    private long mostWithin(long from, long to) {
      return Math.max(
          BACK,
          scenario.mishaps().stream()
              .filter(m -> m.within(from, to))
              .mapToLong(m -> m.untilMicros() - m.micros() + BACK)
              .sum());
    }

    private void ending() {
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
        length();
      } else if (!outcome.startsWith("could not begin") && !outcome.equals("stopped")) {
        throw new Broken("ended so: " + outcome);
      }
    }

    /** As long as was asked for from its beginning on, by whichever clock still knows. */
    private void length() {
      if (seen.isEmpty() || setUnseen()) {
        return;
      }
      long end = seen.get(seen.size() - 1).toMicros();
      long lasted = end - askedMicros;
      log.accept("vigil lasted " + lasted + " of " + lengthMicros);
      boolean cut =
          scenario.mishaps().stream()
              .anyMatch(m -> m.ofDevice() && m.within(end - LENGTH_OFF, world.nowMicros()));
      boolean shorter = lasted < lengthMicros - LENGTH_OFF - tick && !cut;
      if (shorter || end - begunMicros > lengthMicros + BEGUN + asking()) {
        throw new Broken("it lasted " + lasted + " us, not " + lengthMicros);
      }
    }

    /**
     * A restarted board is asked for the rest; the request waits where the line is away just then.
     */
    private long asking() {
      return scenario.mishaps().stream()
          .filter(m -> m.ofLineOrHost() && m.within(slot.micros(), world.nowMicros()))
          .filter(
              line ->
                  scenario.mishaps().stream()
                      .anyMatch(
                          m -> m.ofDevice() && line.within(m.micros(), m.untilMicros() + BACK)))
          .mapToLong(m -> m.untilMicros() - m.micros())
          .sum();
    }

    /**
     * A host that comes back to a board that is away too has only the wall clock, which may have
     * been set since the vigil began.
     */
    private boolean setUnseen() {
      return cameBack && was(slot.micros(), world.nowMicros(), Kind.CLOCK_STEP);
    }

    private boolean was(long from, long to, Kind... kinds) {
      return scenario.mishaps().stream()
          .anyMatch(m -> List.of(kinds).contains(m.kind()) && m.within(from, to));
    }
  }
}
