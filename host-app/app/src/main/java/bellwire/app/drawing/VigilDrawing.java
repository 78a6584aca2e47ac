package bellwire.app.drawing;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.analysis.vigil.TrendSeries;
import bellwire.analysis.vigil.Unwatched;
import bellwire.analysis.vigil.VigilProgram;
import bellwire.app.job.Mark;
import bellwire.app.vigil.StoredVigil;
import bellwire.app.vigil.StoredVigil.Occurrence;
import java.awt.geom.Rectangle2D;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;

/**
 * A vigil's whole time: a lane a conductor or lead with what happened on it, a trend's resistances
 * with the least and greatest of each column as a band, hatched where nothing was watched, a
 * person's notes. No line crosses what was not watched.
 */
public final class VigilDrawing extends PlateDrawing {
  private static final int METAL = 16;
  private static final double NAME = 96;
  private static final double LANE = 18;
  private static final double TREND_LANE = 40;
  private static final double TOP = 18;
  private static final double AXIS = 20;
  private static final double LINE = 14;
  private static final int MOST_NOTES = 12;
  private static final double LEAST_APART = 3;
  private static final long[] STEPS_SECONDS = {
    1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600, 7200, 10_800, 21_600, 43_200, 86_400
  };
  private static final double LEAST_TICK = 58;

  private final StoredVigil vigil;
  private final ZoneId zone;
  private final long from;
  private final long to;

  /**
   * @param zone whose clock the times are told by
   */
  public VigilDrawing(StoredVigil vigil, ZoneId zone) {
    this.vigil = vigil;
    this.zone = zone;
    from = vigil.watch().fromMicros();
    to = Math.max(from + 1, vigil.watch().toMicros());
  }

  private List<Integer> numbers() {
    List<Integer> all = new ArrayList<>();
    VigilProgram program = vigil.watch().program();
    if (program == VigilProgram.TREND && !vigil.series().isEmpty()) {
      vigil.series().forEach(s -> all.add(s.port()));
      return all;
    }
    int ports = vigil.watch().ports() | (program == VigilProgram.TOUCH ? 1 << METAL : 0);
    for (int left = ports; left != 0; left &= left - 1) {
      all.add(Integer.numberOfTrailingZeros(left));
    }
    return all;
  }

  private boolean trend() {
    return vigil.watch().program() == VigilProgram.TREND;
  }

  @Override
  Plate lay(double width) {
    Plate plate = new Plate(width);
    List<Integer> numbers = numbers();
    double each = trend() ? TREND_LANE : LANE;
    Rectangle2D plot =
        new Rectangle2D.Double(NAME, TOP, width - NAME - 8, Math.max(1, numbers.size()) * each);
    axis(plate, plot);
    for (int i = 0; i < numbers.size(); i++) {
      Rectangle2D lane = new Rectangle2D.Double(plot.getX(), TOP + i * each, plot.getWidth(), each);
      lane(plate, numbers.get(i), lane);
    }
    for (Unwatched gap : vigil.gaps()) {
      double left = x(plot, gap.fromMicros());
      double wide = Math.max(VigilSpan.LEAST, x(plot, gap.toMicros()) - left);
      plate.hatch(
          new Rectangle2D.Double(left, plot.getY(), wide, plot.getHeight()),
          Palette::faint,
          5,
          0.6);
    }
    double y = notes(plate, plot, plot.getMaxY() + AXIS);
    y = legend(plate, width, y);
    plate.height(y + 4);
    return plate;
  }

  private double x(Rectangle2D plot, long micros) {
    return new VigilSpan(from, to).x(plot, micros);
  }

  private void axis(Plate plate, Rectangle2D plot) {
    double seconds = (to - from) / 1e6;
    double most = Math.max(1, Math.floor(plot.getWidth() / LEAST_TICK));
    long step = STEPS_SECONDS[STEPS_SECONDS.length - 1];
    for (int i = STEPS_SECONDS.length - 1; i >= 0; i--) {
      if (seconds / STEPS_SECONDS[i] <= most) {
        step = STEPS_SECONDS[i];
      }
    }
    long stepMicros = step * 1_000_000;
    long offset = Math.floorMod(vigil.row().unixMicros(from) + zoneMicros(), stepMicros);
    long first = from + (offset == 0 ? 0 : stepMicros - offset);
    for (long at = first; at <= to; at += stepMicros) {
      double x = x(plot, at);
      plate.line(x, plot.getY(), x, plot.getMaxY() + 3, Palette::line, 0.4);
      String shorter = tick(at, step);
      double half = Lettering.width(shorter, Lettering.regular(TYPE)) / 2;
      double middle = Math.min(plot.getMaxX() + 6 - half, Math.max(plot.getX() + half - 40, x));
      plate.text(
          shorter,
          Lettering.regular(TYPE),
          middle,
          plot.getMaxY() + 14,
          Plate.Align.CENTRE,
          Palette::ink);
    }
    plate.stroke(plot, Palette::line, 0.5);
  }

  /** '14:00', with seconds where the step has some; a day's begin is told as 'day 2'. */
  private String tick(long micros, long stepSeconds) {
    String words = vigil.clock(micros, zone);
    int day = words.indexOf(" (");
    if (day > 0 && words.startsWith("00:00:00")) {
      return words.substring(day + 2, words.length() - 1);
    }
    String time = day > 0 ? words.substring(0, day) : words;
    return stepSeconds % 60 == 0 ? time.substring(0, time.lastIndexOf(':')) : time;
  }

  private long zoneMicros() {
    java.time.Instant at =
        java.time.Instant.ofEpochSecond(vigil.row().unixMicros(from) / 1_000_000);
    return zone.getRules().getOffset(at).getTotalSeconds() * 1_000_000L;
  }

  private void lane(Plate plate, int number, Rectangle2D lane) {
    String name = vigil.called(number);
    double middle = lane.getCenterY() + 3.5;
    plate.text(
        Lettering.shorten(name, Lettering.regular(TYPE), NAME - 8),
        Lettering.regular(TYPE),
        NAME - 6,
        trend() ? lane.getY() + 14 : middle,
        Plate.Align.RIGHT,
        Palette::ink);
    String said;
    if (trend()) {
      said = course(plate, number, lane);
    } else {
      ground(plate, lane);
      said = vigil.levels().isEmpty() ? happened(plate, number, lane) : levels(plate, number, lane);
    }
    plate.spot(
        "lane:" + number,
        new Rectangle2D.Double(0, lane.getY(), plate.width(), lane.getHeight()),
        name + ": " + said);
  }

  /** Only where it was watched. */
  private void ground(Plate plate, Rectangle2D lane) {
    double y = lane.getMaxY() - 4;
    long at = from;
    for (Unwatched gap : vigil.gaps()) {
      if (gap.fromMicros() > at) {
        plate.line(x(lane, at), y, x(lane, gap.fromMicros()), y, Palette::line, 0.6);
      }
      at = Math.max(at, gap.toMicros());
    }
    if (to > at) {
      plate.line(x(lane, at), y, x(lane, to), y, Palette::line, 0.6);
    }
  }

  private int column(long micros, int columns) {
    return new VigilSpan(from, to).column(micros, columns);
  }

  /** What is in the same column is one mark; a hollow one where all of it was only just. */
  private String happened(Plate plate, int number, Rectangle2D lane) {
    int n = VigilSpan.columns(lane);
    boolean[] some = new boolean[n];
    boolean[] longer = new boolean[n];
    long count = 0;
    for (Occurrence each : vigil.occurrences()) {
      if ((each.ports() >>> number & 1) != 0) {
        count++;
        for (int c = column(each.firstMicros(), n); c <= column(each.lastMicros(), n); c++) {
          some[c] = true;
          longer[c] |= !each.brief();
        }
      }
    }
    double bottom = lane.getMaxY() - 4;
    for (int c = 0; c < n; ) {
      int end = c + 1;
      while (some[c] && end < n && some[end] && longer[end] == longer[c]) {
        end++;
      }
      if (some[c]) {
        double left = lane.getX() + c * VigilSpan.COLUMN;
        double wide = Math.max(VigilSpan.LEAST, (end - c) * VigilSpan.COLUMN);
        double tall = longer[c] ? 10 : 5;
        plate.fill(
            new Rectangle2D.Double(left, bottom - tall, wide, tall),
            longer[c] ? Palette::faulty : Palette::undecided);
      }
      c = end;
    }
    return count == 0 ? "nothing happened" : count + (count == 1 ? " event" : " events");
  }

  private String levels(Plate plate, int lead, Rectangle2D lane) {
    double bottom = lane.getMaxY() - 4;
    List<LevelChange> own = vigil.levels().stream().filter(c -> c.lead() == lead).toList();
    int n = VigilSpan.columns(lane);
    int[] level = new int[n];
    int calls = 0;
    for (int i = 0; i < own.size(); i++) {
      Level now = own.get(i).level();
      if (now != Level.ON && now != Level.WEAK) {
        continue;
      }
      calls += now == Level.ON ? 1 : 0;
      long until = i + 1 < own.size() ? own.get(i + 1).earliestMicros() : to;
      for (int c = column(own.get(i).latestMicros(), n); c <= column(until, n); c++) {
        level[c] = Math.max(level[c], now == Level.ON ? 2 : 1);
      }
    }
    for (int c = 0; c < n; ) {
      int end = c + 1;
      while (end < n && level[end] == level[c]) {
        end++;
      }
      if (level[c] > 0) {
        double tall = level[c] == 2 ? 10 : 4;
        Rectangle2D bar =
            new Rectangle2D.Double(
                lane.getX() + c * VigilSpan.COLUMN,
                bottom - tall,
                Math.max(VigilSpan.LEAST, (end - c) * VigilSpan.COLUMN),
                tall);
        plate.fill(bar, level[c] == 2 ? Palette::accent : Palette::undecided);
      }
      c = end;
    }
    return calls + (calls == 1 ? " call" : " calls");
  }

  private String course(Plate plate, int port, Rectangle2D lane) {
    for (TrendSeries series : vigil.series()) {
      if (series.port() == port) {
        return new TrendLane(plate, lane, new VigilSpan(from, to), vigil.gaps())
            .draw(series, NAME - 6);
      }
    }
    return "no reading";
  }

  /** A flag with its number over each note, the words below. */
  private double notes(Plate plate, Rectangle2D plot, double below) {
    double y = below;
    double drawn = Double.NEGATIVE_INFINITY;
    double numbered = Double.NEGATIVE_INFINITY;
    int shown = 0;
    for (Mark mark : vigil.marks()) {
      double x = x(plot, mark.micros());
      if (x - drawn >= LEAST_APART) {
        plate.line(x, TOP - 4, x, plot.getMaxY(), Palette::accent, 0.6, 3, 2);
        drawn = x;
      }
      if (++shown <= MOST_NOTES) {
        boolean free = x - numbered >= 14;
        numbered = free ? x : numbered;
        plate.text(
            free ? Integer.toString(shown) : "",
            Lettering.bold(TYPE),
            x,
            TOP - 6,
            Plate.Align.CENTRE,
            Palette::accent);
        String words = shown + "  " + vigil.clock(mark.micros(), zone) + "  " + mark.text();
        y += LINE;
        plate.text(
            Lettering.shorten(words, Lettering.regular(TYPE), plate.width() - 8),
            Lettering.regular(TYPE),
            4,
            y,
            Plate.Align.LEFT,
            Palette::ink);
      }
    }
    if (shown > MOST_NOTES) {
      y += LINE;
      plate.text(
          "and " + (shown - MOST_NOTES) + " more notes",
          Lettering.regular(TYPE),
          4,
          y,
          Plate.Align.LEFT,
          Palette::faint);
    }
    return y;
  }

  private double legend(Plate plate, double width, double from) {
    String words =
        switch (vigil.watch().program()) {
          case CONTINUITY -> "tall: open; low: open for less than a millisecond";
          case TOUCH -> "tall: touching; low: only just";
          case CALLS -> "tall: call; low: voltage, but too little for a call";
          case TREND -> "line: mean; band: least and greatest; mark at the top: no value";
        };
    double y = from;
    for (String line :
        Lettering.wrap(words + "; hatched: not watched", Lettering.regular(TYPE), width - 8)) {
      y += LINE;
      plate.text(line, Lettering.regular(TYPE), 4, y, Plate.Align.LEFT, Palette::faint);
    }
    return y;
  }

  @Override
  public String words() {
    return "Time of vigil "
        + vigil.row().id()
        + ", "
        + vigil.watched().program()
        + ", from "
        + vigil.clock(from, zone)
        + " to "
        + vigil.clock(to, zone)
        + ": "
        + numbers().size()
        + " lanes, "
        + vigil.gaps().size()
        + (vigil.gaps().size() == 1 ? " gap, " : " gaps, ")
        + vigil.marks().size()
        + (vigil.marks().size() == 1 ? " note" : " notes");
  }
}
