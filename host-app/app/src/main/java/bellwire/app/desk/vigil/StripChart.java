package bellwire.app.desk.vigil;

import bellwire.app.desk.Spoken;
import bellwire.app.vigil.VigilPicture;
import bellwire.app.vigil.VigilPicture.Event;
import bellwire.app.vigil.VigilPicture.Lane;
import java.awt.BasicStroke;
import java.awt.Cursor;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.awt.event.FocusEvent;
import java.awt.event.FocusListener;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;
import java.awt.geom.AffineTransform;
import java.awt.geom.Line2D;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.function.Consumer;
import javax.accessibility.AccessibleRole;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/**
 * The chart of a vigil: shows the latest drawing, stretched at once where it is moved, until the
 * next one comes. Nothing is read or drawn anew on the event thread.
 */
public final class StripChart extends Spoken {
  private static final long serialVersionUID = 1L;
  private static final double ZOOM = 1.25;
  private static final int NEAR_PIXELS = 4;

  private transient StripColours colours;
  private transient Consumer<String> told = words -> {};
  private transient Consumer<String> trouble = words -> {};
  private transient @Nullable StripLoop loop;
  private transient boolean closed;
  private transient @Nullable StripImage shown;
  private transient StripView view = StripView.ALL;
  private double share = 1;
  private long cursorMicros;
  private boolean cursor;
  private String words = "";

  /** The colours are asked for anew by {@link #colours(StripColours)}. */
  public StripChart(StripColours colours) {
    super(AccessibleRole.CANVAS);
    this.colours = colours;
    getAccessibleContext().setAccessibleName("Chart of the vigil");
    setOpaque(true);
    setFocusable(true);
    setName("vigil.chart");
    setCursor(Cursor.getPredefinedCursor(Cursor.CROSSHAIR_CURSOR));
    setMinimumSize(new Dimension(200, 120));
    setPreferredSize(new Dimension(800, 300));
    Pointer pointer = new Pointer();
    addMouseListener(pointer);
    addMouseMotionListener(pointer);
    addMouseWheelListener(pointer);
    addComponentListener(
        new ComponentAdapter() {
          @Override
          public void componentResized(ComponentEvent e) {
            ask();
          }

          @Override
          public void componentShown(ComponentEvent e) {
            ask();
          }
        });
    addFocusListener(
        new FocusListener() {
          @Override
          public void focusGained(FocusEvent e) {
            repaint();
          }

          @Override
          public void focusLost(FocusEvent e) {
            repaint();
          }
        });
    StripKeys.bind(this);
  }

  /**
   * @param cursorWords told what is at the cursor
   * @param troubleWords told why nothing is shown
   */
  public void tell(Consumer<String> cursorWords, Consumer<String> troubleWords) {
    told = cursorWords;
    trouble = troubleWords;
  }

  /** Shows a vigil of a job file, all of it. */
  public void show(Path job, long vigil, boolean live) {
    clear();
    if (closed) {
      return;
    }
    share = 0;
    view = StripView.ALL;
    StripLoop[] own = new StripLoop[1];
    StripLoop next =
        new StripLoop(
            job,
            vigil,
            live,
            new StripLoop.Sink() {
              @Override
              public void drawn(StripImage image) {
                later(own, () -> take(image));
              }

              @Override
              public void read(double now) {
                later(
                    own,
                    () -> {
                      share = now;
                      repaint();
                    });
              }

              @Override
              public void trouble(String why) {
                later(own, () -> trouble.accept(why));
              }
            });
    own[0] = next;
    loop = next;
    ask();
  }

  /** On the event thread, unless another vigil is shown meanwhile. */
  private void later(StripLoop[] own, Runnable what) {
    SwingUtilities.invokeLater(
        () -> {
          if (loop == own[0]) {
            what.run();
          }
        });
  }

  /** Shows nothing, and lets go of the file. */
  public void clear() {
    StripLoop old = loop;
    loop = null;
    shown = null;
    cursor = false;
    share = 1;
    if (old != null) {
      old.close();
    }
    repaint();
  }

  /** Shows nothing from now on. */
  void close() {
    closed = true;
    clear();
  }

  /** Whether it is still being written. */
  public void live(boolean now) {
    StripLoop of = loop;
    if (of != null) {
      of.live(now);
    }
  }

  /** A note was made. */
  public void noted() {
    StripLoop of = loop;
    if (of != null) {
      of.changed();
    }
  }

  /** Draws with other colours from now on. */
  public void colours(StripColours now) {
    colours = now;
    ask();
  }

  /** All of the vigil, also what will come. */
  public void all() {
    change(StripView.ALL);
  }

  /** The latest so long; about the cursor where it is set. */
  public void length(long micros) {
    VigilPicture of = picture();
    boolean end = !cursor || of == null;
    change(end ? StripView.latest(micros) : StripView.about(cursorMicros, micros));
  }

  void move(double by) {
    change(current().moved(by));
  }

  /** In by a factor below 1, about the cursor or the middle. */
  void zoom(double factor) {
    StripView now = current();
    boolean inside = cursor && cursorMicros >= now.fromMicros() && cursorMicros < now.toMicros();
    long middle = (now.fromMicros() + now.toMicros()) / 2;
    change(now.zoomed(factor, inside ? cursorMicros : middle));
  }

  /** Moves the cursor by pixels. */
  void cursorBy(int pixels) {
    StripImage of = shown;
    if (of == null) {
      return;
    }
    StripView now = current();
    long each = Math.max(1, Math.round(now.lengthMicros() / Math.max(1, of.plot().getWidth())));
    long from = cursor ? cursorMicros : (now.fromMicros() + now.toMicros()) / 2;
    cursorAt(from + pixels * each);
  }

  /** Goes to the next event, or the one before. */
  void event(boolean later) {
    VigilPicture of = picture();
    if (of == null) {
      return;
    }
    StripView now = current();
    long from = cursor ? cursorMicros : later ? now.fromMicros() - 1 : now.toMicros();
    long best = later ? Long.MAX_VALUE : Long.MIN_VALUE;
    for (Lane lane : of.lanes()) {
      for (Event each : lane.events()) {
        long at = each.firstMicros();
        if (later && at > from && at < best || !later && at < from && at > best) {
          best = at;
        }
      }
    }
    if (best != Long.MAX_VALUE && best != Long.MIN_VALUE) {
      cursorAt(best);
    } else {
      told.accept("No more events in this part; zoom out, or move on.");
    }
  }

  private void cursorAt(long micros) {
    cursor = true;
    cursorMicros = micros;
    StripView now = current();
    if (micros < now.fromMicros() || micros >= now.toMicros()) {
      change(StripView.about(micros, now.lengthMicros()));
    }
    describe();
    repaint();
  }

  private void describe() {
    StripImage of = shown;
    if (of == null) {
      return;
    }
    StripWords says = new StripWords(of.picture(), zone());
    String now = says.whole();
    if (cursor) {
      long each = Math.round(current().lengthMicros() / Math.max(1, of.plot().getWidth()));
      now = says.at(cursorMicros, NEAR_PIXELS * each);
    }
    if (!now.equals(words)) {
      words = now;
      told.accept(now);
    }
  }

  private static ZoneId zone() {
    return ZoneId.systemDefault();
  }

  /** What is in the latest drawing; null before the first. */
  public @Nullable VigilPicture picture() {
    StripImage of = shown;
    return of == null ? null : of.picture();
  }

  /** What is looked at now, whether drawn already or not. */
  StripView current() {
    VigilPicture of = picture();
    if (of == null || view.kind() == StripView.Kind.PART) {
      return view;
    }
    return new StripView(view.kind(), of.fromMicros(), of.toMicros());
  }

  private void change(StripView next) {
    VigilPicture of = picture();
    view = of == null ? next : next.within(of.firstMicros(), of.lastMicros());
    ask();
    repaint();
  }

  private void ask() {
    StripLoop of = loop;
    if (of != null && getWidth() > 0 && getHeight() > 0 && isShowing()) {
      AffineTransform device =
          getGraphicsConfiguration() == null
              ? new AffineTransform()
              : getGraphicsConfiguration().getDefaultTransform();
      Font font = getFont() == null ? new Font(Font.SANS_SERIF, Font.PLAIN, 14) : getFont();
      of.draw(
          new StripLoop.Order(
              view,
              getWidth(),
              getHeight(),
              new StripPlot.Look(colours, font, device.getScaleX(), zone())));
    }
  }

  private void take(StripImage image) {
    shown = image;
    describe();
    repaint();
  }

  @Override
  public void addNotify() {
    super.addNotify();
    SwingUtilities.invokeLater(this::ask);
  }

  @Override
  protected void paintComponent(Graphics graphics) {
    Graphics2D g = (Graphics2D) graphics.create();
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    g.setPaint(colours.paper());
    g.fillRect(0, 0, getWidth(), getHeight());
    StripImage of = shown;
    if (of != null) {
      image(g, of);
      cursor(g, of);
    }
    if (loop != null && share < 1) {
      reading(g);
    }
    if (isFocusOwner()) {
      g.setPaint(colours.ink());
      g.setStroke(new BasicStroke(2));
      g.drawRect(1, 1, getWidth() - 2, getHeight() - 2);
    }
    g.dispose();
  }

  private void reading(Graphics2D g) {
    g.setPaint(colours.ink());
    g.setFont(getFont());
    String said = "reading the samples, " + Math.round(100 * share) + " %";
    g.drawString(said, 12, g.getFontMetrics().getAscent() + 4);
  }

  /** The drawing; while the view has moved on, its middle stretched to where it belongs. */
  private void image(Graphics2D g, StripImage of) {
    StripView now = current();
    VigilPicture picture = of.picture();
    boolean there =
        now.fromMicros() == picture.fromMicros() && now.toMicros() == picture.toMicros();
    int left = (int) Math.ceil(of.plot().getX());
    int right = (int) of.plot().getMaxX();
    if (there) {
      part(g, of, 0, getWidth(), 0, getWidth());
      return;
    }
    part(g, of, 0, left, 0, left);
    part(g, of, right, getWidth(), right, getWidth());
    long from = Math.max(now.fromMicros(), picture.fromMicros());
    long to = Math.min(now.toMicros(), picture.toMicros());
    if (to > from) {
      part(g, of, x(of, from), x(of, to), of.x(from), of.x(to));
    }
  }

  /** A stretch of the image's whole height, by plain scaling, which is quick. */
  private static void part(
      Graphics2D g, StripImage of, double from, double to, double imageFrom, double imageTo) {
    double scale = of.scale();
    int height = of.image().getHeight();
    g.drawImage(
        of.image(),
        (int) Math.round(from),
        0,
        (int) Math.round(to),
        (int) Math.round(height / scale),
        (int) Math.round(imageFrom * scale),
        0,
        (int) Math.round(imageTo * scale),
        height,
        null);
  }

  private double x(StripImage of, long micros) {
    StripView now = current();
    return of.plot().getX()
        + of.plot().getWidth() * (micros - now.fromMicros()) / Math.max(1, now.lengthMicros());
  }

  private void cursor(Graphics2D g, StripImage of) {
    double x = cursor ? x(of, cursorMicros) : Double.NaN;
    if (x >= of.plot().getX() && x <= of.plot().getMaxX()) {
      g.setPaint(colours.ink());
      g.setStroke(new BasicStroke(1.5f));
      g.draw(new Line2D.Double(x, of.plot().getY(), x, of.plot().getMaxY()));
    }
  }

  private long micros(int x) {
    StripImage of = shown;
    StripView now = current();
    if (of == null) {
      return now.fromMicros();
    }
    double part = (x - of.plot().getX()) / Math.max(1, of.plot().getWidth());
    return now.fromMicros() + Math.round(part * now.lengthMicros());
  }

  /** Drag moves, the wheel zooms about the pointer, a click sets the cursor. */
  private final class Pointer extends MouseAdapter {
    private int lastX;
    private boolean dragged;

    @Override
    public void mousePressed(MouseEvent e) {
      requestFocusInWindow();
      lastX = e.getX();
      dragged = false;
    }

    @Override
    public void mouseDragged(MouseEvent e) {
      StripImage of = shown;
      if (of != null && e.getX() != lastX) {
        dragged = true;
        move((lastX - e.getX()) / Math.max(1, of.plot().getWidth()));
        lastX = e.getX();
      }
    }

    @Override
    public void mouseReleased(MouseEvent e) {
      if (!dragged && shown != null) {
        cursorAt(micros(e.getX()));
      }
    }

    @Override
    public void mouseWheelMoved(MouseWheelEvent e) {
      if (shown != null) {
        change(current().zoomed(Math.pow(ZOOM, e.getPreciseWheelRotation()), micros(e.getX())));
      }
    }
  }

  @Override
  protected String words() {
    return words;
  }
}
