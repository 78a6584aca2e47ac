package bellwire.app.vigil;

import bellwire.analysis.vigil.Unwatched;
import bellwire.analysis.vigil.VigilProgram;
import bellwire.app.job.Gap;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Mark;
import bellwire.app.job.Overview;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.job.Watched;
import bellwire.app.vigil.VigilPicture.Course;
import bellwire.app.vigil.VigilPicture.Event;
import bellwire.app.vigil.VigilPicture.Lane;
import bellwire.app.vigil.VigilPicture.Stretch;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.BooleanSupplier;
import java.util.function.DoubleConsumer;
import org.jspecify.annotations.Nullable;

/**
 * A vigil of a job file, read part by part for a chart, also while it is being written. Openings
 * and touches come from the pyramid whatever the part's length; a trend's resistances and the
 * levels of calls are worked out once and kept. Used by one thread, never by one that paints.
 */
public final class VigilCourse implements AutoCloseable {
  private static final int METAL = 16;
  private static final long TICK_MICROS = EventIntake.TICK_MICROS;

  private final Path job;
  private final long vigil;
  private @Nullable VigilReader reader;
  private @Nullable Kept kept;

  /** What is known of it, and what of it stays in memory. */
  private static final class Kept {
    final VigilProgram program;
    final Watched watched;
    final VigilNames names;
    final @Nullable CallLevels levels;
    final @Nullable TrendPoints trend;
    VigilRow row;
    List<VigilEvent> events = List.of();
    List<Mark> marks = List.of();
    long firstMicros;
    long lastMicros = Long.MIN_VALUE;

    Kept(VigilRow row, Watched watched) {
      this.row = row;
      this.watched = watched;
      program = VigilProgram.valueOf(watched.program().toUpperCase(Locale.ROOT));
      names = new VigilNames(program, watched.names());
      levels = program == VigilProgram.CALLS ? new CallLevels(watched) : null;
      trend = program == VigilProgram.TREND ? new TrendPoints() : null;
    }
  }

  /**
   * @param vigil its number in the file
   */
  public VigilCourse(Path job, long vigil) {
    this.job = job;
    this.vigil = vigil;
  }

  private VigilReader reader() throws JobFileException {
    VigilReader open = reader;
    if (open == null) {
      open = VigilReader.open(job, vigil);
      reader = open;
    }
    return open;
  }

  /**
   * Takes in what has come since the last time. The first time may take seconds, of calls most.
   *
   * @param progress told the share that is done
   * @param stop asked often; what was taken until then stays
   * @return whether all was taken in
   * @throws BadVigil where an earlier version kept it, or it watched for something unknown
   */
  public boolean refresh(DoubleConsumer progress, BooleanSupplier stop)
      throws JobFileException, BadVigil {
    rest();
    VigilReader now = reader();
    Kept here = kept(now);
    here.row = now.row();
    here.events = now.events();
    here.marks = now.marks();
    here.firstMicros = here.row.startedMicros();
    for (Stream stream : now.streams()) {
      here.lastMicros = Math.max(here.lastMicros, now.lastMicros(stream).orElse(Long.MIN_VALUE));
    }
    if (here.lastMicros < here.firstMicros) {
      return true;
    }
    if (here.levels != null) {
      return here.levels.take(now, here.lastMicros, progress, stop);
    }
    if (here.trend != null) {
      return here.trend.take(now, here.watched, here.lastMicros, progress, stop);
    }
    return true;
  }

  private Kept kept(VigilReader now) throws JobFileException, BadVigil {
    Kept here = kept;
    if (here == null) {
      VigilRow row = now.row();
      Watched watched =
          now.watched()
              .orElseThrow(
                  () ->
                      new BadVigil(
                          job
                              + ": vigil "
                              + vigil
                              + " was kept by an earlier Bellwire, and does not say what it"
                              + " watched"));
      try {
        here = new Kept(row, watched);
      } catch (IllegalArgumentException e) {
        throw new BadVigil(job + ": vigil " + vigil + " watched for something unknown");
      }
      kept = here;
    }
    return here;
  }

  /** Lets go of the file until the next call, so that its writer can tidy up. */
  public void rest() throws JobFileException {
    VigilReader open = reader;
    reader = null;
    if (open != null) {
      open.close();
    }
  }

  /** The vigil's begin. */
  public long firstMicros() {
    return kept == null ? 0 : kept.firstMicros;
  }

  /** The last reading that was taken in; less than the begin where there was none. */
  public long lastMicros() {
    return kept == null ? Long.MIN_VALUE : kept.lastMicros;
  }

  /** What {@link #refresh} has taken in; null before it. */
  public @Nullable VigilPicture picture(long fromMicros, long toMicros, int columns)
      throws JobFileException {
    Kept here = kept;
    if (here == null) {
      return null;
    }
    long to = Math.max(toMicros, fromMicros + 1);
    int most = (int) Math.max(1, Math.min(columns, (to - fromMicros) / TICK_MICROS));
    Columns of = new Columns(fromMicros, to, most);
    VigilReader now = reader();
    List<Lane> lanes = new ArrayList<>();
    List<Unwatched> gaps = new ArrayList<>();
    Overview overview = null;
    if (here.lastMicros > here.firstMicros && !now.streams().isEmpty()) {
      Stream stream = now.streams().get(0);
      for (Gap each : now.gaps(stream, fromMicros, to)) {
        gaps.add(new Unwatched(each.fromMicros(), each.toMicros(), each.reason()));
      }
      boolean words = here.program != VigilProgram.TREND && here.program != VigilProgram.CALLS;
      if (here.trend != null) {
        gaps.addAll(here.trend.nothing(fromMicros, to));
        gaps.sort(Comparator.comparingLong(Unwatched::fromMicros));
      }
      overview = words ? now.overview(stream, fromMicros, to, most) : null;
    }
    int ports = here.watched.ports() | (here.program == VigilProgram.TOUCH ? 1 << METAL : 0);
    for (int left = ports; left != 0; left &= left - 1) {
      lanes.add(lane(here, Integer.numberOfTrailingZeros(left), overview, of));
    }
    return new VigilPicture(
        here.row,
        here.program,
        fromMicros,
        to,
        here.firstMicros,
        here.lastMicros,
        lanes,
        together(gaps, of),
        here.marks.stream().filter(m -> of.holds(m.micros(), m.micros())).toList());
  }

  private static Lane lane(Kept here, int port, @Nullable Overview overview, Columns of) {
    List<Stretch> stretches = List.of();
    Course course = Course.NONE;
    List<Event> events = events(here, port, of);
    if (overview != null) {
      stretches = Stretches.ofColumns(overview.columns(), port);
    }
    if (here.levels != null) {
      stretches = here.levels.stretches(port, of);
    }
    if (here.trend != null) {
      course = here.trend.course(port, of);
      events = here.trend.open(port, of);
    }
    return new Lane(port, here.names.of(port), stretches, events, course);
  }

  private static List<Event> events(Kept here, int port, Columns of) {
    List<Event> all = new ArrayList<>();
    for (VigilEvent each : here.events) {
      boolean decided = Integer.bitCount(each.others()) == 1;
      int ports = 1 << each.port() | (decided ? each.others() : 0);
      if ((ports >>> port & 1) != 0 && of.holds(each.firstMicros(), each.lastMicros())) {
        long last = each.latched() ? each.firstMicros() : each.lastMicros();
        Stretches.join(all, new Event(each.firstMicros(), last, each.times(), each.latched()), of);
      }
    }
    return all;
  }

  private static List<Unwatched> together(List<Unwatched> gaps, Columns of) {
    List<Unwatched> all = new ArrayList<>();
    for (Unwatched each : gaps) {
      int last = all.size() - 1;
      if (last >= 0
          && of.column(each.fromMicros()) <= of.column(all.get(last).toMicros())
          && gaps.size() > of.count()) {
        Unwatched before = all.get(last);
        long to = Math.max(before.toMicros(), each.toMicros());
        all.set(last, new Unwatched(before.fromMicros(), to, before.reason(), before.measured()));
      } else {
        all.add(each);
      }
    }
    return all;
  }

  @Override
  public void close() throws JobFileException {
    rest();
  }

  /** A part in columns of one length. */
  record Columns(long fromMicros, long toMicros, int count) {
    boolean holds(long first, long last) {
      return last >= fromMicros && first < toMicros;
    }

    /** Also of times outside: below 0, or count and more. */
    long column(long micros) {
      return (long) Math.floor((double) (micros - fromMicros) * count / (toMicros - fromMicros));
    }
  }
}
