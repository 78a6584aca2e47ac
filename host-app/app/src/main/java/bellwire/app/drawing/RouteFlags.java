package bellwire.app.drawing;

import bellwire.analysis.uncertainty.Quantity;
import bellwire.app.drawing.Plate.Align;
import bellwire.app.drawing.RouteFaults.RouteFault;
import java.awt.Font;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Flags above the run: a fault's word, ports and place, a bracket for what its place may be off,
 * and a leader down to it. Flags that would meet stand in levels, a further one higher.
 */
final class RouteFlags {
  private static final double LEVEL = 24;
  private static final double LEAST_BRACKET = 3;
  private static final double BETWEEN = 8;

  private record Flag(
      RouteFault fault,
      double x,
      double from,
      double to,
      String words,
      double textLeft,
      double textWidth) {
    double begin() {
      return Math.min(from, textLeft) - BETWEEN / 2;
    }

    double end() {
      return Math.max(to, textLeft + textWidth) + BETWEEN / 2;
    }

    boolean meets(Flag other) {
      return begin() < other.end() && other.begin() < end();
    }
  }

  private final Plate plate;
  private final Run run;
  private final @Nullable Quantity length;
  private final double left;
  private final double right;
  private final Font font = Lettering.regular(Drawing.TYPE);
  private final List<Flag> flags = new ArrayList<>();
  private int[] levels = {};
  private double bottom;

  RouteFlags(Plate plate, Run run, @Nullable Quantity length, double left, double right) {
    this.plate = plate;
    this.run = run;
    this.length = length;
    this.left = left;
    this.right = right;
  }

  /** Finds each flag's level; returns where the flags end. */
  double arrange(List<RouteFault> faults, double top) {
    faults.stream().filter(f -> f.at() != null).map(this::flag).forEach(flags::add);
    flags.sort(Comparator.comparingDouble(Flag::x));
    levels = new int[flags.size()];
    int most = -1;
    for (int i = flags.size() - 1; i >= 0; i--) {
      for (int j = i + 1; j < flags.size(); j++) {
        if (flags.get(i).meets(flags.get(j))) {
          levels[i] = Math.max(levels[i], levels[j] + 1);
        }
      }
      most = Math.max(most, levels[i]);
    }
    bottom = top + (most + 1) * LEVEL;
    return bottom;
  }

  private Flag flag(RouteFault f) {
    if (f.at() == null) {
      throw new IllegalArgumentException("fault=" + f.key());
    }
    double value = f.at().fraction().value();
    double u = Figures.K * f.at().fraction().u();
    double x = x(value);
    String words =
        f.kind().word() + " " + Figures.ports(f.ports()) + " " + Figures.place(f.at(), run, length);
    words = Lettering.shorten(words, font, plate.width() - 8);
    double wide = Lettering.width(words, font);
    double textLeft = Math.max(0, Math.min(x - 2, plate.width() - wide));
    double from = Math.min(x(value - u), x - LEAST_BRACKET / 2);
    double to = Math.max(x(value + u), x + LEAST_BRACKET / 2);
    return new Flag(f, x, from, to, words, textLeft, wide);
  }

  private double x(double fraction) {
    return left + Math.max(0, Math.min(1, fraction)) * (right - left);
  }

  private double base(int flag) {
    return bottom - levels[flag] * LEVEL;
  }

  /** Lines down to the first row that a fault is on; to be drawn before the rows. */
  void leaders(Map<String, Double> rows) {
    for (int i = 0; i < flags.size(); i++) {
      Flag flag = flags.get(i);
      double to =
          flag.fault().ports().stream()
              .filter(rows::containsKey)
              .mapToDouble(rows::get)
              .min()
              .orElse(bottom);
      plate.line(flag.x(), base(i) - 4, flag.x(), to, Palette::line, 0.8);
    }
  }

  void draw(@Nullable String selectedKey) {
    for (int i = 0; i < flags.size(); i++) {
      Flag flag = flags.get(i);
      double y = base(i) - 4;
      Tone tone = Symbols.tone(flag.fault().standing());
      Rectangle2D pad =
          new Rectangle2D.Double(flag.textLeft() - 2, y - 17, flag.textWidth() + 4, 13);
      plate.fill(pad, flag.fault().key().equals(selectedKey) ? Palette::selected : Palette::paper);
      plate.text(flag.words(), font, flag.textLeft(), y - 7, Align.LEFT, tone);
      boolean decided = flag.fault().at() != null && flag.fault().at().decided();
      Symbols.bracket(
          plate, flag.from(), flag.to(), y, tone, decided ? new float[0] : new float[] {4, 3});
      plate.spot(
          flag.fault().key(),
          new Rectangle2D.Double(flag.begin(), y - 18, flag.end() - flag.begin(), LEVEL),
          RouteDrawing.faultWords(flag.fault(), run, length));
    }
  }
}
