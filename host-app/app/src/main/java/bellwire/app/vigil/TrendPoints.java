package bellwire.app.vigil;

import bellwire.analysis.vigil.TrendSeries;
import bellwire.analysis.vigil.Unwatched;
import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilReader;
import bellwire.app.job.Watched;
import bellwire.app.vigil.StoredVigil.Part;
import bellwire.app.vigil.VigilCourse.Columns;
import bellwire.app.vigil.VigilPicture.Course;
import bellwire.app.vigil.VigilPicture.Event;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.BooleanSupplier;
import java.util.function.DoubleConsumer;

/** A trend's resistances, worked out from its codes as they come, and kept. */
final class TrendPoints {
  private static final int PORTS = 16;
  private static final int FIRST_ROOM = 1024;

  /** As many as are analysed. */
  private static final int MOST_POINTS = 2_000_000;

  private static final long STRETCH_MICROS = 3_600_000_000L;

  /** Rounds that the end of what was read may have cut. */
  private static final int ROUNDS_AGAIN = 3;

  /** One conductor's. */
  private static final class Points {
    long[] micros = new long[FIRST_ROOM];
    double[] ohms = new double[FIRST_ROOM];
    int count;
    double readingOhms;

    void add(long at, double value) {
      if (count == MOST_POINTS) {
        return;
      }
      if (count == micros.length) {
        micros = Arrays.copyOf(micros, 2 * count);
        ohms = Arrays.copyOf(ohms, 2 * count);
      }
      micros[count] = at;
      ohms[count++] = value;
    }

    /** The first at or after a time. */
    int from(long at) {
      int found = Arrays.binarySearch(micros, 0, count, at);
      return found >= 0 ? found : -found - 1;
    }
  }

  private final Points[] points = new Points[PORTS];
  private final List<Unwatched> nothing = new ArrayList<>();
  private long periodMicros;
  private long takenMicros;

  boolean take(
      VigilReader reader,
      Watched watched,
      long lastMicros,
      DoubleConsumer progress,
      BooleanSupplier stop)
      throws JobFileException {
    if (reader.streams().isEmpty()) {
      return true;
    }
    periodMicros = reader.streams().get(0).periodMicros();
    boolean more = lastMicros > takenMicros;
    while (more && !stop.getAsBoolean()) {
      long from = Math.max(0, takenMicros - ROUNDS_AGAIN * periodMicros);
      long until = Math.min(lastMicros + 1, takenMicros + STRETCH_MICROS);
      StoredTrend trend = new StoredTrend(reader, watched);
      for (TrendSeries each : trend.series(new Part(from, until), gap -> {})) {
        put(each, from);
      }
      nothing.removeIf(each -> each.fromMicros() >= from);
      nothing.replaceAll(each -> each.until(from));
      nothing.addAll(trend.nothing());
      takenMicros = until;
      more = until <= lastMicros;
      progress.accept((double) takenMicros / Math.max(1, lastMicros));
    }
    return !more;
  }

  private void put(TrendSeries series, long from) {
    Points own = points[series.port()];
    if (own == null) {
      own = new Points();
      points[series.port()] = own;
    }
    long settled = own.count == 0 ? -1 : own.micros[own.count - 1] - periodMicros / 2;
    while (own.count > 0 && own.micros[own.count - 1] > Math.max(settled, from)) {
      own.count--; // its round may have been cut
    }
    long after = own.count == 0 ? -1 : own.micros[own.count - 1];
    own.readingOhms = series.readingOhms();
    for (int i = 0; i < series.ohms().length; i++) {
      if (series.micros()[i] > after) {
        own.add(series.micros()[i], series.ohms()[i]);
      }
    }
  }

  /** Rounds that show nothing, within a time. */
  List<Unwatched> nothing(long fromMicros, long toMicros) {
    return nothing.stream()
        .filter(each -> each.toMicros() > fromMicros && each.fromMicros() < toMicros)
        .toList();
  }

  Course course(int port, Columns of) {
    Points own = points[port];
    if (own == null) {
      return Course.NONE;
    }
    Reduced reduced = new Reduced(of.count() + 2);
    int from = Math.max(0, own.from(of.fromMicros()) - 1);
    int to = Math.min(own.count, own.from(of.toMicros()) + 1);
    boolean joins = false;
    long before = 0;
    for (int i = from; i < to; i++) {
      double ohms = own.ohms[i];
      long at = own.micros[i];
      if (Double.isNaN(ohms)) {
        joins = false;
        continue;
      }
      boolean follows = joins && at - before <= periodMicros + periodMicros / 2;
      reduced.add(of.column(at), at, ohms, follows);
      joins = true;
      before = at;
    }
    return reduced.done(own.readingOhms);
  }

  /** First, least, greatest and last of each column. */
  private static final class Reduced {
    private final long[] micros;
    private final double[] first;
    private final double[] low;
    private final double[] high;
    private final double[] last;
    private final boolean[] joined;
    private int count;
    private long column = Long.MIN_VALUE;

    Reduced(int most) {
      micros = new long[most];
      first = new double[most];
      low = new double[most];
      high = new double[most];
      last = new double[most];
      joined = new boolean[most];
    }

    void add(long at, long time, double ohms, boolean follows) {
      boolean starts = at != column;
      if ((starts || count == 0) && count < micros.length) {
        column = at;
        micros[count] = time;
        first[count] = ohms;
        low[count] = ohms;
        high[count] = ohms;
        joined[count] = follows;
        last[count++] = ohms;
        return;
      }
      int i = count - 1;
      low[i] = Math.min(low[i], ohms);
      high[i] = Math.max(high[i], ohms);
      last[i] = ohms;
    }

    Course done(double readingOhms) {
      return new Course(
          Arrays.copyOf(micros, count),
          Arrays.copyOf(first, count),
          Arrays.copyOf(low, count),
          Arrays.copyOf(high, count),
          Arrays.copyOf(last, count),
          Arrays.copyOf(joined, count),
          readingOhms);
    }
  }

  /** Readings without a value: open, or far from what was expected. */
  List<Event> open(int port, Columns of) {
    Points own = points[port];
    List<Event> all = new ArrayList<>();
    if (own == null) {
      return all;
    }
    int to = own.from(of.toMicros());
    for (int i = own.from(of.fromMicros()); i < to; i++) {
      if (Double.isNaN(own.ohms[i])) {
        Stretches.join(all, new Event(own.micros[i], own.micros[i] + periodMicros, 1, false), of);
      }
    }
    return all;
  }
}
