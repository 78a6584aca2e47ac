package bellwire.app.drawing;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.font.FontRenderContext;
import java.awt.font.LineMetrics;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.jspecify.annotations.Nullable;

/**
 * A drawing laid out at one width: shapes, texts and spots in the order of painting, in colours
 * that wait for a palette.
 */
final class Plate {
  private static final FontRenderContext CONTEXT = new FontRenderContext(null, true, true);

  /** Of the few fonts and sizes that drawings use. */
  private static final Map<Font, LineMetrics> METRICS = new ConcurrentHashMap<>();

  /** Where a text stands to the point that it is given. */
  enum Align {
    LEFT,
    CENTRE,
    RIGHT
  }

  /**
   * A shape.
   *
   * @param stroke null to fill it
   */
  private record Mark(Shape shape, @Nullable BasicStroke stroke, Tone tone) {}

  /**
   * A text as set.
   *
   * @param box around it, from ascent to descent
   */
  record Text(String words, Font font, double x, double baseline, Tone tone, Rectangle2D box) {}

  private final double width;
  private double height;
  private final List<Mark> marks = new ArrayList<>();
  private final List<Text> texts = new ArrayList<>();
  private final List<Spot> spots = new ArrayList<>();

  Plate(double width) {
    this.width = width;
  }

  double width() {
    return width;
  }

  double height() {
    return height;
  }

  void height(double units) {
    height = units;
  }

  List<Spot> spots() {
    return List.copyOf(spots);
  }

  List<Text> texts() {
    return List.copyOf(texts);
  }

  void fill(Shape shape, Tone tone) {
    marks.add(new Mark(shape, null, tone));
  }

  void stroke(Shape shape, Tone tone, double lineWidth, float... dash) {
    BasicStroke stroke =
        dash.length == 0
            ? new BasicStroke((float) lineWidth, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND)
            : new BasicStroke(
                (float) lineWidth, BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, dash, 0);
    marks.add(new Mark(shape, stroke, tone));
  }

  void line(double x1, double y1, double x2, double y2, Tone tone, double lineWidth, float... d) {
    stroke(new Line2D.Double(x1, y1, x2, y2), tone, lineWidth, d);
  }

  /** Diagonal lines across a rectangle, cut to it without a clip. */
  void hatch(Rectangle2D r, Tone tone, double step, double lineWidth) {
    Path2D lines = new Path2D.Double();
    double x0 = r.getMinX();
    double y1 = r.getMaxY();
    for (double d = step / 2; d < r.getWidth() + r.getHeight(); d += step) {
      double run = Math.min(d, r.getHeight());
      double begin = d - run;
      double end = Math.min(d, r.getWidth());
      if (end <= begin) {
        continue;
      }
      lines.moveTo(x0 + begin, y1 - (d - begin));
      lines.lineTo(x0 + end, y1 - (d - end));
    }
    stroke(lines, tone, lineWidth);
  }

  /** Sets a line of text; empty text sets nothing. Returns its box. */
  Rectangle2D text(String words, Font font, double x, double baseline, Align align, Tone tone) {
    double advance = Lettering.width(words, font);
    double left =
        switch (align) {
          case LEFT -> x;
          case CENTRE -> x - advance / 2;
          case RIGHT -> x - advance;
        };
    LineMetrics m = METRICS.computeIfAbsent(font, f -> f.getLineMetrics("Ag", CONTEXT));
    // Ascent and descent of the font leave room for accents that two lines may share.
    double top = baseline - 0.80 * m.getAscent();
    Rectangle2D box =
        new Rectangle2D.Double(left, top, advance, baseline + 0.95 * m.getDescent() - top);
    if (!words.isEmpty()) {
      texts.add(new Text(words, font, left, baseline, tone, box));
    }
    return box;
  }

  void spot(String key, Rectangle2D bounds, String words) {
    spots.add(new Spot(key, bounds, words));
  }

  void paint(Graphics2D graphics, Palette palette) {
    Graphics2D g = (Graphics2D) graphics.create();
    try {
      g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      g.setRenderingHint(
          RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
      g.setRenderingHint(
          RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
      g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
      paintMarks(g, palette);
      for (Text text : texts) {
        g.setColor(text.tone().of(palette));
        Lettering.draw(g, text.words(), text.font(), text.x(), text.baseline());
      }
    } finally {
      g.dispose();
    }
  }

  /** All but the texts: what they are read against. */
  void paintMarks(Graphics2D g, Palette palette) {
    g.setColor(palette.paper());
    g.fill(new Rectangle2D.Double(0, 0, width, height));
    for (Mark mark : marks) {
      Color colour = mark.tone().of(palette);
      g.setColor(colour);
      if (mark.stroke() == null) {
        g.fill(mark.shape());
      } else {
        g.setStroke(mark.stroke());
        g.draw(mark.shape());
      }
    }
  }
}
