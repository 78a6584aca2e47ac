package bellwire.app.desk.vigil;

import bellwire.analysis.vigil.Unwatched;
import bellwire.app.job.Mark;
import bellwire.app.vigil.VigilPicture;
import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics2D;
import java.awt.Paint;
import java.awt.RenderingHints;
import java.awt.TexturePaint;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.time.ZoneId;
import java.util.Locale;
import java.util.TimeZone;
import org.jfree.chart.ChartRenderingInfo;
import org.jfree.chart.JFreeChart;
import org.jfree.chart.axis.AxisLocation;
import org.jfree.chart.axis.DateAxis;
import org.jfree.chart.axis.SymbolAxis;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.ui.RectangleInsets;

/**
 * Draws a picture of a vigil into an image, on whatever thread: the window only has to show it, and
 * never waits for it.
 */
final class StripPlot {
  private static final int MOST_NAME = 20;
  private static final int HATCH = 8;
  private static final double MARK_ROOM = 22;
  private static final double LEAST_APART = 6;

  private final Look look;

  /**
   * @param font for names and times
   * @param scale image pixels for one of the component's
   */
  record Look(StripColours colours, Font font, double scale, ZoneId zone) {}

  StripPlot(Look look) {
    this.look = look;
  }

  /**
   * @param width of the component, in its own coordinates
   */
  StripImage draw(VigilPicture picture, int width, int height) {
    int pixelsWide = Math.max(1, (int) Math.ceil(width * look.scale()));
    int pixelsHigh = Math.max(1, (int) Math.ceil(height * look.scale()));
    BufferedImage image = new BufferedImage(pixelsWide, pixelsHigh, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    try {
      g.scale(look.scale(), look.scale());
      g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      g.setRenderingHint(
          RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
      g.setRenderingHint(
          RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
      g.setPaint(look.colours().paper());
      g.fill(new Rectangle2D.Double(0, 0, width, height));
      ChartRenderingInfo info = new ChartRenderingInfo(null);
      chart(picture).draw(g, new Rectangle2D.Double(0, 0, width, height), info);
      Rectangle2D plot = (Rectangle2D) info.getPlotInfo().getDataArea().clone();
      StripImage drawn = new StripImage(image, picture, plot, look.scale());
      gaps(g, drawn);
      marks(g, drawn);
      return drawn;
    } finally {
      g.dispose();
    }
  }

  private JFreeChart chart(VigilPicture picture) {
    LaneDataset dataset = new LaneDataset(picture);
    LaneRenderer renderer = new LaneRenderer(picture, look.colours());
    XYPlot plot = new XYPlot(dataset, times(dataset), names(picture), renderer);
    if (picture.lanes().stream().anyMatch(l -> l.course().points() > 0)) {
      plot.setRangeAxis(1, scales(picture, renderer));
      plot.setRangeAxisLocation(1, AxisLocation.BOTTOM_OR_RIGHT);
    }
    plot.setBackgroundPaint(look.colours().paper());
    plot.setOutlinePaint(look.colours().faint());
    plot.setDomainGridlinePaint(look.colours().faint());
    plot.setRangeGridlinesVisible(false);
    plot.setInsets(new RectangleInsets(MARK_ROOM, 4, 2, 12));
    JFreeChart chart = new JFreeChart(null, look.font(), plot, false);
    chart.setBackgroundPaint(look.colours().paper());
    chart.setPadding(RectangleInsets.ZERO_INSETS);
    return chart;
  }

  private ValueAxis times(LaneDataset dataset) {
    VigilPicture picture = dataset.picture();
    DateAxis axis = new DateAxis(null, TimeZone.getTimeZone(look.zone()), Locale.ROOT);
    axis.setLowerMargin(0);
    axis.setUpperMargin(0);
    axis.setRange(
        new org.jfree.data.Range(
            dataset.millis(picture.fromMicros()), dataset.millis(picture.toMicros())),
        true,
        false);
    return styled(axis);
  }

  private ValueAxis names(VigilPicture picture) {
    String[] names = picture.lanes().stream().map(l -> shortened(l.name())).toArray(String[]::new);
    return lanes(names.length == 0 ? new String[] {""} : names);
  }

  private ValueAxis scales(VigilPicture picture, LaneRenderer renderer) {
    String[] words = new String[picture.lanes().size()];
    for (int i = 0; i < words.length; i++) {
      words[i] = renderer.scale(i);
    }
    return lanes(words);
  }

  private ValueAxis lanes(String[] words) {
    SymbolAxis axis = new SymbolAxis(null, words);
    axis.setInverted(true);
    axis.setGridBandsVisible(false);
    axis.setRange(-0.5, words.length - 0.5);
    axis.setAutoRangeIncludesZero(false);
    return styled(axis);
  }

  private ValueAxis styled(ValueAxis axis) {
    axis.setTickLabelFont(look.font());
    axis.setTickLabelPaint(look.colours().ink());
    axis.setTickMarkPaint(look.colours().faint());
    axis.setAxisLinePaint(look.colours().faint());
    return axis;
  }

  private static String shortened(String name) {
    return name.length() > MOST_NAME ? name.substring(0, MOST_NAME - 1) + "…" : name;
  }

  private void gaps(Graphics2D g, StripImage in) {
    Rectangle2D plot = in.plot();
    for (Unwatched gap : in.picture().gaps()) {
      double from = Math.max(plot.getMinX(), in.x(gap.fromMicros()));
      double to = Math.min(plot.getMaxX(), Math.max(from + 1, in.x(gap.toMicros())));
      if (to > from) {
        Rectangle2D area = new Rectangle2D.Double(from, plot.getY(), to - from, plot.getHeight());
        g.setPaint(look.colours().paper());
        g.fill(area);
        g.setPaint(hatch());
        g.fill(area);
      }
    }
  }

  private Paint hatch() {
    BufferedImage tile = new BufferedImage(HATCH, HATCH, BufferedImage.TYPE_INT_ARGB);
    Graphics2D g = tile.createGraphics();
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setPaint(look.colours().gap());
    g.setStroke(new BasicStroke(1.2f));
    for (int shift = -HATCH; shift <= HATCH; shift += HATCH) {
      g.draw(new Line2D.Double(shift, HATCH, shift + HATCH, 0));
    }
    g.dispose();
    return new TexturePaint(tile, new Rectangle2D.Double(0, 0, HATCH, HATCH));
  }

  /** A flag with its words over each that has room. */
  private void marks(Graphics2D g, StripImage in) {
    Rectangle2D plot = in.plot();
    Font font = look.font().deriveFont(Font.BOLD);
    g.setFont(font);
    FontMetrics metrics = g.getFontMetrics();
    Color colour = look.colours().mark();
    double free = Double.NEGATIVE_INFINITY;
    double drawn = Double.NEGATIVE_INFINITY;
    for (Mark mark : in.picture().marks()) {
      double x = in.x(mark.micros());
      if (x - drawn < LEAST_APART) {
        continue;
      }
      drawn = x;
      g.setPaint(colour);
      float[] dashes = {4, 3};
      g.setStroke(
          new BasicStroke(1.2f, BasicStroke.CAP_BUTT, BasicStroke.JOIN_MITER, 1, dashes, 0));
      g.draw(new Line2D.Double(x, plot.getY() - MARK_ROOM, x, plot.getMaxY()));
      if (x >= free) {
        String words = shortened(mark.text());
        int wide = metrics.stringWidth(words) + 8;
        double left = Math.min(x, plot.getMaxX() - wide);
        g.fill(new Rectangle2D.Double(left, plot.getY() - MARK_ROOM + 2, wide, MARK_ROOM - 4));
        g.setPaint(look.colours().paper());
        g.drawString(words, (float) left + 4, (float) plot.getY() - 7);
        free = left + wide + 6;
      }
    }
  }
}
