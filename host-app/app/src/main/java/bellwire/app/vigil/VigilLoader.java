package bellwire.app.vigil;

import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.calls.LevelTracker;
import bellwire.analysis.vigil.EventFinder;
import bellwire.analysis.vigil.Touch;
import bellwire.analysis.vigil.TouchDecoder;
import bellwire.analysis.vigil.TouchLatch;
import bellwire.analysis.vigil.TrendSeries;
import bellwire.analysis.vigil.TrendSummary;
import bellwire.analysis.vigil.Unwatched;
import bellwire.analysis.vigil.VigilEvent;
import bellwire.analysis.vigil.VigilProgram;
import bellwire.analysis.vigil.VigilSummary;
import bellwire.analysis.vigil.Watch;
import bellwire.app.job.Gap;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobReader;
import bellwire.app.job.Mark;
import bellwire.app.job.Overview.Unreadable;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.job.Watched;
import bellwire.app.vigil.StoredVigil.Occurrence;
import bellwire.app.vigil.StoredVigil.Part;
import bellwire.board.BoardDescription;
import bellwire.link.Message.KeepVigil;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.DoubleConsumer;

/** Reads a vigil's samples out of a job file and has them analysed. */
public final class VigilLoader {
  /** More than this would say no more to a person, and must fit into memory. */
  private static final int MOST_EVENTS = 200_000;

  private static final int PORTS = 16;

  /** A word is read within this of the time it has in the file. */
  private static final int READ_MICROS = 500;

  private static final long STRETCH_MICROS = 600_000_000;

  private final Path path;
  private final VigilReader reader;
  private final VigilRow row;
  private final Watched watched;
  private final VigilProgram program;
  private final Counting counting;
  private final DoubleConsumer progress;

  private final List<VigilEvent> openings = new ArrayList<>();
  private final List<Touch> touches = new ArrayList<>();
  private final List<LevelChange> levels = new ArrayList<>();
  private final List<Unwatched> unwatched = new ArrayList<>();
  private long firstMicros = Long.MAX_VALUE;
  private long lastMicros = Long.MIN_VALUE;

  /** From here on there was no more room. */
  private long fullMicros = Long.MAX_VALUE;

  private VigilLoader(Path path, VigilReader reader, Counting counting, DoubleConsumer progress)
      throws JobFileException, BadVigil {
    this.path = path;
    this.reader = reader;
    this.counting = counting;
    this.progress = progress;
    row = reader.row();
    Optional<Watched> asked = reader.watched();
    if (asked.isEmpty()) {
      throw new BadVigil(
          path
              + ": vigil "
              + row.id()
              + " was kept by an earlier Bellwire, and does not say what it watched; only 'vigil"
              + " export' reads it");
    }
    watched = asked.get();
    program = program(watched.program());
  }

  private VigilProgram program(String name) throws BadVigil {
    for (VigilProgram each : VigilProgram.values()) {
      if (each.name().toLowerCase(Locale.ROOT).equals(name)) {
        return each;
      }
    }
    throw new BadVigil(path + ": vigil " + row.id() + " watched for something unknown: " + name);
  }

  /**
   * @param vigil its number in the file
   * @param part what is looked at
   * @param progress told the share that is done
   * @throws BadVigil with a sentence for people, where there is nothing to analyse
   */
  public static StoredVigil load(
      Path path, long vigil, Part part, Counting counting, DoubleConsumer progress)
      throws JobFileException, BadVigil {
    if (VigilReader.vigils(path).stream().noneMatch(v -> v.id() == vigil)) {
      throw new BadVigil(
          path
              + ": no vigil "
              + vigil
              + "; 'bellwire vigil show --list "
              + path
              + "' lists those it has");
    }
    try (VigilReader reader = VigilReader.open(path, vigil)) {
      return new VigilLoader(path, reader, counting, progress).load(part);
    }
  }

  /** The same in the state of the file that a reader sees. */
  public static StoredVigil load(
      JobReader job, long vigil, Part part, Counting counting, DoubleConsumer progress)
      throws JobFileException, BadVigil {
    try (VigilReader reader = job.vigil(vigil)) {
      return new VigilLoader(job.path(), reader, counting, progress).load(part);
    }
  }

  private StoredVigil load(Part part) throws JobFileException, BadVigil {
    List<TrendSeries> series = List.of();
    if (program == VigilProgram.TREND) {
      StoredTrend trend = new StoredTrend(reader, watched);
      series = trend.series(part, unwatched::add);
      firstMicros = trend.firstMicros();
      lastMicros = trend.lastMicros();
    } else {
      words(part);
    }
    if (lastMicros <= firstMicros) {
      throw new BadVigil(
          path + ": vigil " + row.id() + " has no samples there; nothing was watched");
    }
    Watch watch = watch();
    if (watch.exposure().micros() <= 0) {
      throw new BadVigil(path + ": vigil " + row.id() + ": nothing was watched there");
    }
    List<Mark> marks =
        reader.marks().stream()
            .filter(m -> m.micros() >= watch.fromMicros() && m.micros() <= watch.toMicros())
            .toList();
    Optional<VigilSummary> events =
        switch (program) {
          case CONTINUITY -> Optional.of(VigilSummary.ofOpenings(watch, openings));
          case TOUCH -> Optional.of(VigilSummary.ofTouches(watch, touches, latch()));
          case CALLS -> Optional.of(VigilSummary.ofCalls(watch, levels));
          case TREND -> Optional.empty();
        };
    return new StoredVigil(
        row,
        watched,
        watch,
        events,
        series.isEmpty() ? Optional.empty() : Optional.of(TrendSummary.of(watch, series)),
        series,
        occurrences(),
        levels,
        marks,
        fullMicros < Long.MAX_VALUE);
  }

  private static TouchLatch latch() {
    BoardDescription board = BoardDescription.revisionA();
    BoardDescription.Value latch = board.value("event-latch-micros");
    return new TouchLatch(board.nominal("event-blind-micros"), latch.nominal() + latch.tolerance());
  }

  private Watch watch() throws JobFileException {
    long end = Math.min(lastMicros, fullMicros);
    return new Watch(
        program,
        watched.ports(),
        watched.returned(),
        watched.shortestOpeningMicros(),
        firstMicros,
        end,
        unwatched,
        reader.marks().stream()
            .map(Mark::micros)
            .filter(m -> m >= firstMicros && m <= end)
            .toList());
  }

  private void words(Part part) throws JobFileException, BadVigil {
    Stream stream =
        reader.streams().stream()
            .filter(s -> s.kind() == Stream.Kind.WORDS)
            .findFirst()
            .orElseThrow(
                () ->
                    new BadVigil(
                        path + ": vigil " + row.id() + " has no samples yet; let it watch first"));
    Runs runs = runs();
    long from = Math.max(part.fromMicros(), row.startedMicros());
    // One that was left and gone on with reaches beyond its length.
    long longest = row.startedMicros() + 2 * KeepVigil.MOST_MICROS;
    long end = row.ending().map(e -> e.micros()).orElse(longest);
    long likely = Math.max(1, Math.min(end, row.startedMicros() + watched.lengthMicros()) - from);
    long to = Math.min(part.toMicros(), end + STRETCH_MICROS);
    for (long at = from; at < to && fullMicros == Long.MAX_VALUE; at += STRETCH_MICROS) {
      long until = Math.min(to, at + STRETCH_MICROS);
      List<Unreadable> damaged =
          reader.coded(
              stream,
              at,
              until,
              (first, count, value, latches, code) -> {
                long last = first + (count - 1) * stream.periodMicros();
                firstMicros = Math.min(firstMicros, first);
                lastMicros = last;
                runs.run(first, last, count, value, latches, code);
              });
      for (Unreadable each : damaged) {
        unwatched.add(
            new Unwatched(
                Math.max(from, each.firstMicros()),
                Math.max(Math.max(from, each.firstMicros()), Math.min(to, each.lastMicros())),
                each.reason()));
      }
      progress.accept(Math.min(1, (double) (until - from) / likely));
    }
    runs.finish();
    if (lastMicros > firstMicros) {
      for (Gap gap : reader.gaps(stream, firstMicros, lastMicros)) {
        unwatched.add(new Unwatched(gap.fromMicros(), gap.toMicros(), gap.reason()));
      }
      unwatched.sort(Comparator.comparingLong(Unwatched::fromMicros));
    }
  }

  /** Takes samples alike. */
  private interface Runs {
    void run(long first, long last, int count, int value, int latches, int code);

    void finish();
  }

  private Runs runs() {
    return switch (program) {
      case CONTINUITY -> openingRuns();
      case TOUCH -> touchRuns();
      default -> callRuns();
    };
  }

  private Runs openingRuns() {
    EventFinder finder =
        new EventFinder(PORTS, counting.limits(), e -> keep(openings, e, e.firstMicros()));
    return new Runs() {
      @Override
      public void run(long first, long last, int count, int value, int latches, int code) {
        finder.accept(first, last, value, latches);
      }

      @Override
      public void finish() {
        finder.finish();
      }
    };
  }

  private Runs touchRuns() {
    TouchDecoder decoder =
        new TouchDecoder(
            watched.ports(), counting.limits(), t -> keep(touches, t, t.firstMicros()));
    return new Runs() {
      @Override
      public void run(long first, long last, int count, int value, int latches, int code) {
        decoder.accept(first, last, code, value, latches);
      }

      @Override
      public void finish() {
        decoder.finish();
      }
    };
  }

  private Runs callRuns() {
    LevelTracker tracker =
        new LevelTracker(
            watched.wetting() ? LevelTracker.Feed.DRY : LevelTracker.Feed.AC,
            watched.ports(),
            change -> keep(levels, change, change.latestMicros()));
    return new Runs() {
      @Override
      public void run(long first, long last, int count, int value, int latches, int code) {
        long period = count < 2 ? 0 : (last - first) / (count - 1);
        for (int i = 0; i < count; i++) {
          tracker.sample(first + i * period, READ_MICROS, value);
        }
      }

      @Override
      public void finish() {
        tracker.finish(lastMicros);
      }
    };
  }

  private <T> void keep(List<T> into, T each, long micros) {
    if (into.size() < MOST_EVENTS) {
      into.add(each);
    } else {
      fullMicros = Math.min(fullMicros, micros);
    }
  }

  private List<Occurrence> occurrences() {
    List<Occurrence> all = new ArrayList<>();
    for (VigilEvent e : openings) {
      all.add(new Occurrence(1 << e.port(), e.firstMicros(), e.lastMicros(), e.latched()));
    }
    for (Touch t : touches) {
      all.add(
          new Occurrence(
              t.drivenPorts() | (t.decided() ? t.possibleOthers() : 0),
              t.firstMicros(),
              t.lastMicros(),
              t.latched()));
    }
    return all;
  }
}
