package bellwire.app.drawing;

import bellwire.analysis.calls.Level;
import bellwire.app.drawing.Plate.Align;
import bellwire.app.drawing.TimingModel.Bracket;
import bellwire.app.drawing.TimingModel.Lane;
import bellwire.app.drawing.TimingModel.StepMark;
import bellwire.app.rehearsal.Times;
import bellwire.app.sheet.SurveySheet.Standing;
import java.awt.Font;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Lays a timing diagram out on a plate: steps, lanes with their brackets, axis, legend. */
final class TimingLayout {
  private static final double LANE = 30;
  private static final double STEP = 14;
  private static final double BRACKET = 40;
  private static final int MOST_STEP_LEVELS = 8;
  private static final long[] AXIS_SECONDS = {
    1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800, 3600, 7200, 10_800, 21_600, 43_200, 86_400
  };

  private final Plate plate;
  private final TimingModel model;
  private final @Nullable String selectedKey;
  private final Font font = Lettering.regular(Drawing.TYPE);
  private final Font bold = Lettering.bold(Drawing.TYPE);
  private final double left;
  private final double right;
  private double stepsEnd;

  TimingLayout(Plate plate, TimingModel model, @Nullable String selectedKey) {
    this.plate = plate;
    this.model = model;
    this.selectedKey = selectedKey;
    double names = 30;
    for (Lane lane : model.lanes()) {
      names =
          Math.max(
              names,
              Math.max(
                  Lettering.width(Lettering.clean(lane.name()), bold),
                  Lettering.width(Lettering.clean(lane.words()), font)));
    }
    left = Math.min(names, 0.22 * plate.width()) + 8;
    right = plate.width() - 4;
  }

  Plate lay() {
    double y = steps(2);
    stepsEnd = y;
    List<Double> tops = new ArrayList<>();
    List<List<Row>> rows = new ArrayList<>();
    for (int lane = 0; lane < model.lanes().size(); lane++) {
      tops.add(y);
      rows.add(rows(lane));
      y += LANE + BRACKET * levels(rows.get(lane)) + 4;
    }
    double lanesEnd = y;
    stepLines(lanesEnd);
    for (int lane = 0; lane < model.lanes().size(); lane++) {
      lane(model.lanes().get(lane), tops.get(lane));
      brackets(rows.get(lane), tops.get(lane) + LANE);
    }
    List<Row> loose = rows(-1);
    brackets(loose, y);
    y = axis(y + BRACKET * levels(loose) + 2);
    plate.height(legend(y + 8) + 4);
    return plate;
  }

  private double x(long micros) {
    double share = (double) (micros - model.fromMicros()) / (model.toMicros() - model.fromMicros());
    return left + (right - left) * Math.max(0, Math.min(1, share));
  }

  private record StepFlag(int index, double x, String words, double width) {}

  /** Names of the steps, in levels where they would meet, the first ones highest. */
  private double steps(double top) {
    List<StepFlag> flags = new ArrayList<>();
    for (int i = 0; i < model.steps().size(); i++) {
      StepMark s = model.steps().get(i);
      if (s.toMicros() >= model.fromMicros() && s.fromMicros() <= model.toMicros()) {
        String words =
            Lettering.shorten(
                Lettering.clean(s.name()) + (s.counts() ? "" : " (set aside)"),
                font,
                plate.width() / 3);
        flags.add(new StepFlag(i, x(s.fromMicros()), words, Lettering.width(words, font)));
      }
    }
    int[] level = new int[flags.size()];
    int most = -1;
    for (int i = flags.size() - 1; i >= 0; i--) {
      for (int j = i + 1; j < flags.size(); j++) {
        boolean meets = textLeft(flags.get(i)) + flags.get(i).width() + 8 > textLeft(flags.get(j));
        level[i] = meets ? Math.max(level[i], level[j] + 1) : level[i];
      }
      // A pile that gets too high stands as lines alone; its spots still have the words.
      level[i] = level[i] >= MOST_STEP_LEVELS ? Integer.MIN_VALUE / 2 : level[i];
      most = Math.max(most, level[i]);
    }
    double end = top + (most + 1) * STEP;
    for (int i = 0; i < flags.size(); i++) {
      StepFlag flag = flags.get(i);
      double y = level[i] < 0 ? end : end - level[i] * STEP;
      step(flag, y, level[i] >= 0, end);
    }
    return end + 4;
  }

  private double textLeft(StepFlag flag) {
    return Math.max(0, Math.min(flag.x() + 3, plate.width() - flag.width()));
  }

  private void step(StepFlag flag, double y, boolean told, double end) {
    StepMark s = model.steps().get(flag.index());
    String key = "step:" + flag.index();
    double x = textLeft(flag);
    Rectangle2D box = new Rectangle2D.Double(x, y - STEP, Math.max(8, flag.width()), STEP);
    if (told) {
      if (y < end) {
        plate.line(flag.x(), y - 3, flag.x(), end, Palette::line, 0.6);
      }
      plate.fill(
          new Rectangle2D.Double(x - 1, y - STEP + 1, flag.width() + 2, STEP - 2),
          key.equals(selectedKey) ? Palette::selected : Palette::paper);
      plate.text(flag.words(), font, x, y - 3.5, Align.LEFT, Palette::ink);
    }
    plate.spot(
        key,
        box,
        "Step "
            + s.name()
            + " from "
            + at(s.fromMicros())
            + (s.toMicros() == Long.MAX_VALUE ? "" : " to " + at(s.toMicros()))
            + (s.counts() ? "" : ", set aside")
            + ".");
  }

  private void stepLines(double end) {
    for (StepMark s : model.steps()) {
      if (s.fromMicros() >= model.fromMicros() && s.fromMicros() <= model.toMicros()) {
        double x = x(s.fromMicros());
        plate.line(x, stepsEnd - 4, x, end, Palette::line, 0.6);
      }
    }
  }

  private String at(long micros) {
    return Times.sinceWords(micros - model.zeroMicros());
  }

  private void lane(Lane lane, double top) {
    String key = "lane:" + lane.name();
    Rectangle2D row = new Rectangle2D.Double(0, top, plate.width(), LANE);
    if (key.equals(selectedKey)) {
      plate.fill(new Rectangle2D.Double(0, top, left - 4, LANE), Palette::selected);
    }
    String name = Lettering.shorten(Lettering.clean(lane.name()), bold, left - 8);
    String words = Lettering.shorten(Lettering.clean(lane.words()), font, left - 8);
    plate.text(name, bold, 0, top + 12, Align.LEFT, Palette::ink);
    plate.text(words, font, 0, top + 25, Align.LEFT, Palette::faint);
    new TimingLane(plate, left, right, top + 5, top + LANE - 5)
        .draw(lane, model.fromMicros(), model.toMicros());
    plate.spot(key, row, TimingDrawing.words(model, lane));
  }

  /** A bracket in the level that has room for it and its words. */
  private record Row(
      Bracket bracket, int level, double textLeft, double wide, String says, String words) {}

  private List<Row> rows(int lane) {
    List<Row> rows = new ArrayList<>();
    List<List<double[]>> taken = new ArrayList<>();
    model.brackets().stream()
        .filter(b -> b.lane() == lane || lane < 0 && b.lane() >= model.lanes().size())
        .filter(b -> b.toMicros() >= model.fromMicros() && b.fromMicros() <= model.toMicros())
        .sorted(Comparator.comparingLong(Bracket::fromMicros))
        .forEach(
            b -> {
              double room = right - left;
              String says = Lettering.shorten(Lettering.clean(b.words()), font, room);
              String words =
                  Lettering.shorten(
                      "needed " + b.need() + ", measured " + b.measured() + ": " + b.verdict(),
                      font,
                      room);
              double wide = Math.max(Lettering.width(says, font), Lettering.width(words, font));
              double text = Math.max(left, Math.min(x(b.fromMicros()), right - wide));
              double begin = Math.min(text, x(b.fromMicros())) - 4;
              double end = Math.max(text + wide, Math.max(x(b.toMicros()), boundX(b))) + 8;
              rows.add(new Row(b, level(taken, begin, end), text, wide, says, words));
            });
    return rows;
  }

  private double boundX(Bracket b) {
    return b.boundMicros() < 0 ? left : x(b.boundMicros());
  }

  private static int level(List<List<double[]>> taken, double begin, double end) {
    for (int level = 0; ; level++) {
      if (level == taken.size()) {
        taken.add(new ArrayList<>());
      }
      if (taken.get(level).stream().noneMatch(t -> begin < t[1] && t[0] < end)) {
        taken.get(level).add(new double[] {begin, end});
        return level;
      }
    }
  }

  private static int levels(List<Row> rows) {
    return rows.stream().mapToInt(r -> r.level() + 1).max().orElse(0);
  }

  private void brackets(List<Row> rows, double top) {
    for (Row row : rows) {
      Bracket b = row.bracket();
      double y = top + row.level() * BRACKET + 5;
      Tone tone = Symbols.tone(b.standing());
      Rectangle2D area =
          new Rectangle2D.Double(row.textLeft() - 2, y + 5, row.wide() + 4, BRACKET - 12);
      plate.fill(area, b.key().equals(selectedKey) ? Palette::selected : Palette::paper);
      float[] dash = b.standing() == Standing.UNDECIDED ? new float[] {4, 3} : new float[0];
      span(b, y, tone, dash);
      if (b.boundMicros() >= model.fromMicros() && b.boundMicros() <= model.toMicros()) {
        double x = boundX(b);
        plate.line(x(b.fromMicros()), y, x, y, tone, 0.6);
        plate.fill(triangle(x, y), tone);
      }
      plate.text(row.says(), font, row.textLeft(), y + 15, Align.LEFT, Palette::ink);
      plate.text(row.words(), font, row.textLeft(), y + 28, Align.LEFT, tone);
      double begin = Math.min(row.textLeft(), x(b.fromMicros()));
      double end = Math.max(row.textLeft() + row.wide(), x(b.toMicros()));
      plate.spot(
          b.key(),
          new Rectangle2D.Double(begin, y - 5, end - begin, BRACKET - 1),
          TimingDrawing.words(b));
    }
  }

  /** A bracket whose end lies outside of what is shown has no tick there. */
  private void span(Bracket b, double y, Tone tone, float... dash) {
    double from = x(b.fromMicros());
    double to = x(b.toMicros());
    plate.line(from, y, to, y, tone, 1.4, dash);
    if (b.fromMicros() >= model.fromMicros()) {
      plate.line(from, y - 3.5, from, y + 3.5, tone, 1.2);
    }
    if (b.toMicros() <= model.toMicros()) {
      plate.line(to, y - 3.5, to, y + 3.5, tone, 1.2);
    }
  }

  private static java.awt.Shape triangle(double x, double y) {
    var t = Symbols.path(x - 4, y - 6, x + 4, y - 6, x, y);
    t.closePath();
    return t;
  }

  private double axis(double top) {
    plate.line(left, top, right, top, Palette::line, 1);
    long seconds = AXIS_SECONDS[AXIS_SECONDS.length - 1];
    double whole = (model.toMicros() - model.fromMicros()) / 1e6;
    for (int i = AXIS_SECONDS.length - 1; i >= 0; i--) {
      if ((right - left) * AXIS_SECONDS[i] / whole >= 46) {
        seconds = AXIS_SECONDS[i];
      }
    }
    long step = seconds * 1_000_000;
    long first = -Math.floorDiv(model.zeroMicros() - model.fromMicros(), step) * step;
    double labelled = Double.NEGATIVE_INFINITY;
    for (long t = first; t + model.zeroMicros() <= model.toMicros(); t += step) {
      double x = x(t + model.zeroMicros());
      plate.line(x, top, x, top + 5, Palette::line, 1);
      String label = Times.sinceWords(t);
      double wide = Lettering.width(label, font);
      double begin = Math.min(x - wide / 2, plate.width() - wide);
      if (begin > labelled + 6) {
        plate.text(label, font, begin, top + 16, Align.LEFT, Palette::faint);
        labelled = begin + wide;
      }
    }
    plate.text("minutes and seconds", font, left, top + 30, Align.LEFT, Palette::faint);
    return top + 34;
  }

  private double legend(double top) {
    Legend legend = new Legend();
    for (Level level : List.of(Level.ON, Level.WEAK, Level.OFF, Level.UNKNOWN)) {
      legend.add(
          TimingDrawing.word(level),
          (p, x, y) -> new TimingLane(p, x, x + Legend.SAMPLE, y - 8, y + 8).sample(level));
    }
    if (!model.brackets().isEmpty()) {
      legend.add("measured", (p, x, y) -> Symbols.bracket(p, x + 4, x + 26, y, Palette::ink));
      legend.add("bound of the rule", (p, x, y) -> p.fill(triangle(x + 15, y + 3), Palette::ink));
    }
    return legend.lay(plate, top);
  }
}
