package bellwire.app.desk.vigil;

import bellwire.app.vigil.VigilPicture;
import bellwire.app.vigil.VigilPicture.Course;
import bellwire.app.vigil.VigilPicture.Event;
import bellwire.app.vigil.VigilPicture.Lane;
import bellwire.app.vigil.VigilPicture.State;
import bellwire.app.vigil.VigilPicture.Stretch;
import java.awt.BasicStroke;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import org.jfree.chart.axis.ValueAxis;
import org.jfree.chart.plot.CrosshairState;
import org.jfree.chart.plot.PlotRenderingInfo;
import org.jfree.chart.plot.XYPlot;
import org.jfree.chart.renderer.xy.AbstractXYItemRenderer;
import org.jfree.chart.renderer.xy.XYItemRendererState;
import org.jfree.data.xy.XYDataset;

/**
 * Draws a lane's ground, stretches, course and events. What is short is drawn wide enough to be
 * seen; height and shape tell what it is, colour only helps.
 */
final class LaneRenderer extends AbstractXYItemRenderer {
  private static final long serialVersionUID = 1L;
  private static final double LEAST_WIDTH = 2;
  private static final double BAR = 0.52;
  private static final double HALF_BAR = 0.26;
  private static final double COURSE = 0.8;
  private static final float LINE = 1.3f;
  private static final float THIN = 1f;

  private final transient StripColours colours;
  private final boolean courses;
  private final transient LaneScale[] scales;

  LaneRenderer(VigilPicture picture, StripColours colours) {
    this.colours = colours;
    scales = picture.lanes().stream().map(l -> LaneScale.of(l.course())).toArray(LaneScale[]::new);
    courses = picture.lanes().stream().anyMatch(l -> l.course().points() > 0);
  }

  String scale(int lane) {
    return scales[lane].words();
  }

  @Override
  public void drawItem(
      Graphics2D g,
      XYItemRendererState state,
      Rectangle2D area,
      PlotRenderingInfo info,
      XYPlot plot,
      ValueAxis domain,
      ValueAxis range,
      XYDataset of,
      int series,
      int item,
      CrosshairState crosshair,
      int pass) {
    if (of instanceof LaneDataset dataset) {
      Place place = new Place(g, area, plot, domain, range, dataset, series);
      Lane lane = dataset.lane(series);
      int at = item - 1;
      if (at < 0) {
        place.ground();
      } else if (at < lane.stretches().size()) {
        place.stretch(lane.stretches().get(at));
      } else if (at < lane.stretches().size() + lane.course().points()) {
        place.point(lane.course(), at - lane.stretches().size());
      } else {
        place.event(lane.events().get(at - lane.stretches().size() - lane.course().points()));
      }
    }
  }

  /** Where in the drawing a lane is. */
  private final class Place {
    private final Graphics2D g;
    private final Rectangle2D area;
    private final XYPlot plot;
    private final ValueAxis domain;
    private final LaneDataset dataset;
    private final LaneScale scale;
    private final double middle;
    private final double height;

    Place(
        Graphics2D g,
        Rectangle2D area,
        XYPlot plot,
        ValueAxis domain,
        ValueAxis range,
        LaneDataset dataset,
        int series) {
      this.g = g;
      this.area = area;
      this.plot = plot;
      this.domain = domain;
      this.dataset = dataset;
      scale = scales[series];
      middle = range.valueToJava2D(series, area, plot.getRangeAxisEdge());
      height = Math.abs(range.valueToJava2D(series + 1.0, area, plot.getRangeAxisEdge()) - middle);
    }

    private double x(long micros) {
      return domain.valueToJava2D(dataset.millis(micros), area, plot.getDomainAxisEdge());
    }

    void ground() {
      VigilPicture picture = dataset.picture();
      double from = Math.max(area.getMinX(), x(picture.firstMicros()));
      double to = Math.min(area.getMaxX(), x(picture.lastMicros()));
      if (to > from && !courses) {
        g.setPaint(colours.faint());
        g.fill(new Rectangle2D.Double(from, bottom() - 1, to - from, 2));
      }
    }

    private double bottom() {
      return middle + height * BAR / 2;
    }

    void stretch(Stretch of) {
      double from = x(of.fromMicros());
      double width = Math.max(of.state() == State.REST ? 0 : LEAST_WIDTH, x(of.toMicros()) - from);
      double tall = height * (of.state() == State.THROUGHOUT ? BAR : HALF_BAR);
      Rectangle2D bar = new Rectangle2D.Double(from, bottom() - tall, width, tall);
      switch (of.state()) {
        case THROUGHOUT, PARTLY -> {
          g.setPaint(colours.busy());
          g.fill(bar);
        }
        case WEAK -> {
          g.setStroke(new BasicStroke(LINE));
          g.setPaint(colours.busy());
          g.draw(bar);
        }
        case REST -> {
          g.setPaint(colours.ink());
          g.fill(new Rectangle2D.Double(from, bottom() - 1, width, 2));
        }
      }
    }

    private double y(double ohms) {
      return middle + height * COURSE * (0.5 - scale.share(ohms));
    }

    void point(Course of, int i) {
      double at = x(of.micros()[i]);
      double high = y(of.high()[i]);
      double low = y(of.low()[i]);
      double noise = Math.abs(y(of.high()[i] + 2 * of.readingOhms()) - high);
      g.setPaint(colours.band());
      g.fill(new Rectangle2D.Double(at - 1, high - noise, 2, low - high + 2 * noise));
      g.setPaint(colours.ink());
      g.setStroke(new BasicStroke(LINE));
      if (of.joined()[i] && i > 0) {
        double before = x(of.micros()[i - 1]);
        g.draw(new Line2D.Double(before, y(of.last()[i - 1]), at, y(of.first()[i])));
      }
      g.draw(new Line2D.Double(at, high, at, Math.max(low, high + 0.5)));
    }

    /** A wedge above the lane; hollow for what only a latch saw. */
    void event(Event of) {
      double from = x(of.firstMicros());
      double to = Math.max(from + LEAST_WIDTH, x(of.lastMicros()));
      double middleX = (from + Math.min(to, from + height)) / 2;
      double top = middle - height * 0.44;
      double tip = bottom() - height * BAR;
      double wide = Math.min(5, height * 0.16);
      Path2D wedge = new Path2D.Double();
      wedge.moveTo(middleX - wide, top);
      wedge.lineTo(middleX + wide, top);
      wedge.lineTo(middleX, tip);
      wedge.closePath();
      g.setPaint(of.brief() ? colours.paper() : colours.busy());
      g.fill(wedge);
      g.setPaint(colours.busy());
      g.setStroke(new BasicStroke(THIN));
      g.draw(wedge);
      double tall = height * HALF_BAR;
      if (of.brief()) {
        g.draw(new Rectangle2D.Double(from, bottom() - tall, LEAST_WIDTH, tall));
      } else {
        g.fill(new Rectangle2D.Double(from, bottom() - tall, to - from, tall));
      }
    }
  }
}
