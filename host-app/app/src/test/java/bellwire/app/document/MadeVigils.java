package bellwire.app.document;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.vigil.Touch;
import bellwire.analysis.vigil.TouchLatch;
import bellwire.analysis.vigil.TrendSeries;
import bellwire.analysis.vigil.TrendSummary;
import bellwire.analysis.vigil.Unwatched;
import bellwire.analysis.vigil.VigilEvent;
import bellwire.analysis.vigil.VigilProgram;
import bellwire.analysis.vigil.VigilSummary;
import bellwire.analysis.vigil.Watch;
import bellwire.app.document.ReportContents.Vigil;
import bellwire.app.job.Ending;
import bellwire.app.job.Mark;
import bellwire.app.job.VigilRow;
import bellwire.app.job.Watched;
import bellwire.app.vigil.StoredVigil;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;

/** Vigils of each program, of a night, with something of everything in them. */
final class MadeVigils {
  private static final long SECOND = 1_000_000;
  private static final long LENGTH = 9 * 3600 * SECOND;

  /** 26 November 2026, 01:00:30 UTC. */
  private static final long START = 1_795_654_830_000_000L;

  private static final Map<Integer, String> COLOURS = Map.of(0, "red", 1, "white", 2, "green");

  private final Random random;
  private final List<Mark> marks = new ArrayList<>();

  MadeVigils(long seed) {
    random = new Random(seed);
    for (int i = 0; i < 30; i++) {
      marks.add(new Mark((600 + 900L * i) * SECOND + 250_000, "shook it, number " + (i + 101)));
    }
  }

  List<Vigil> all() {
    return List.of(continuity(), touch(), calls(), trend());
  }

  private Vigil vigil(
      int id,
      Watch watch,
      Optional<VigilSummary> events,
      Optional<TrendSummary> trend,
      List<TrendSeries> series) {
    String program = watch.program().name().toLowerCase(Locale.ROOT);
    VigilRow row =
        new VigilRow(id, program, START, 0, Optional.of(new Ending(LENGTH, "its time was over")));
    Watched watched =
        new Watched(
            id,
            program,
            watch.ports(),
            watch.returned(),
            false,
            0,
            LENGTH,
            id == 1 ? "A; program 0.7; self-check passed" : "A",
            "two people at home",
            watch.shortestMicros(),
            0,
            60,
            COLOURS);
    StoredVigil stored =
        new StoredVigil(
            row, watched, watch, events, trend, series, List.of(), List.of(), marks, false);
    return new Vigil(row, Optional.of(stored), "");
  }

  private Watch watch(VigilProgram program, int ports, double shortest) {
    return new Watch(
        program,
        ports,
        0,
        shortest,
        0,
        LENGTH,
        List.of(
            new Unwatched(4000 * SECOND, 4042 * SECOND, "missing"),
            new Unwatched(9000 * SECOND, 9312 * SECOND, "the link was down")),
        marks.stream().map(Mark::micros).toList());
  }

  private static VigilEvent opening(int port, long at, long micros, boolean brief) {
    long last = at + micros;
    return new VigilEvent(port, at - 1000, at, last, last + 1000, 1, brief, false, false);
  }

  /** One in bursts, one in a cycle, one after the marks, two together, one never. */
  private Vigil continuity() {
    List<VigilEvent> events = new ArrayList<>();
    for (int burst = 0; burst < 6; burst++) {
      long at = (1000 + (long) (random.nextDouble() * 30_000)) * SECOND;
      for (int i = 0; i < 7; i++) {
        at += 40_000 + (long) (random.nextDouble() * 300_000);
        events.add(opening(1, at, 3000L * i, i == 0));
      }
    }
    for (long at = 700 * SECOND; at < LENGTH - SECOND; at += 754 * SECOND) {
      events.add(opening(2, at + (long) (random.nextDouble() * 20 * SECOND), 480_000, false));
    }
    for (Mark mark : marks.subList(0, 20)) {
      events.add(opening(3, mark.micros() + 700_000, 1_900_000, false));
    }
    for (int i = 0; i < 9; i++) {
      long at = (1500 + 3111L * i) * SECOND;
      events.add(opening(4, at, 90_000, false));
      events.add(opening(5, at, 90_000, false));
    }
    events.sort(Comparator.comparingLong(VigilEvent::firstMicros));
    Watch watch = watch(VigilProgram.CONTINUITY, 0b1111111, 10.6);
    return vigil(
        1, watch, Optional.of(VigilSummary.ofOpenings(watch, events)), Optional.empty(), List.of());
  }

  private Vigil touch() {
    List<Touch> touches = new ArrayList<>();
    for (int i = 0; i < 23; i++) {
      long at = (1200 + 1300L * i) * SECOND + (long) (random.nextDouble() * 500 * SECOND);
      touches.add(new Touch(0b10, 0b100, at - 1000, at, at + 7000, at + 8000, false, false, false));
    }
    long at = 5000 * SECOND;
    touches.add(new Touch(0b1, 0b11000, at - 1000, at, at, at + 1000, true, false, false));
    touches.sort(Comparator.comparingLong(Touch::firstMicros));
    Watch watch = watch(VigilProgram.TOUCH, 0b11111, Double.NaN);
    return vigil(
        2,
        watch,
        Optional.of(VigilSummary.ofTouches(watch, touches, new TouchLatch(2, 3))),
        Optional.empty(),
        List.of());
  }

  /** A call with two short drop-outs in it, and a stray one. */
  private Vigil calls() {
    List<LevelChange> changes = new ArrayList<>();
    change(changes, 0, Level.OFF, 0);
    change(changes, 1, Level.OFF, 0);
    change(changes, 0, Level.ON, 3000 * SECOND);
    for (long at : new long[] {3600, 4800}) {
      change(changes, 0, Level.OFF, at * SECOND);
      change(changes, 0, Level.ON, at * SECOND + 230_000);
    }
    change(changes, 0, Level.OFF, 7000 * SECOND);
    change(changes, 1, Level.ON, 8000 * SECOND);
    change(changes, 1, Level.OFF, 8000 * SECOND + 140_000);
    Watch watch = watch(VigilProgram.CALLS, 0b11, Double.NaN);
    return vigil(
        3, watch, Optional.of(VigilSummary.ofCalls(watch, changes)), Optional.empty(), List.of());
  }

  private static void change(List<LevelChange> changes, int lead, Level level, long at) {
    changes.add(new LevelChange(lead, level, at, at + 1000));
  }

  /** One that steps, one that creeps, three that stay, one of them open now and then. */
  private Vigil trend() {
    int readings = 1600;
    List<TrendSeries> series = new ArrayList<>();
    for (int port = 0; port < 5; port++) {
      long[] micros = new long[readings];
      double[] ohms = new double[readings];
      for (int i = 0; i < readings; i++) {
        micros[i] = i * (LENGTH / readings);
        double own = port == 1 && i > 1000 ? 0.024 : port == 2 ? 2e-5 * i : 0;
        double warmth = 1 + 4e-3 * i / readings;
        ohms[i] = (0.6 + 0.01 * port) * warmth + own + 2e-4 * random.nextGaussian();
        if (port == 4 && i % 311 == 100) {
          ohms[i] = Double.NaN;
        }
      }
      series.add(new TrendSeries(port, micros, ohms, 2e-4));
    }
    Watch watch = watch(VigilProgram.TREND, 0b11111, Double.NaN);
    return vigil(4, watch, Optional.empty(), Optional.of(TrendSummary.of(watch, series)), series);
  }
}
