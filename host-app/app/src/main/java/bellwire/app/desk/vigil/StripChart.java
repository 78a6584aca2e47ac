package bellwire.app.desk.vigil;

import bellwire.app.desk.Spoken;
import bellwire.app.vigil.VigilPicture;
import bellwire.app.vigil.VigilPicture.Event;
import bellwire.app.vigil.VigilPicture.Lane;
import java.awt.Cursor;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.awt.event.FocusEvent;
import java.awt.event.FocusListener;
import java.awt.geom.AffineTransform;
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
    new StripPointer(this).install();
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
    StripPaint paint = new StripPaint(g, colours, current(), getWidth(), getHeight());
    paint.paper();
    StripImage of = shown;
    if (of != null) {
      paint.image(of);
      if (cursor) {
        paint.cursor(of, cursorMicros);
      }
    }
    if (loop != null && share < 1) {
      paint.reading(share, getFont());
    }
    if (isFocusOwner()) {
      paint.focus();
    }
    g.dispose();
  }

  /** The plot's width in pixels; 0 before the first drawing. */
  double plotWidth() {
    StripImage of = shown;
    return of == null ? 0 : of.plot().getWidth();
  }

  /** Sets the cursor to a place on the screen. */
  void cursorTo(int x) {
    StripImage of = shown;
    if (of != null) {
      cursorAt(micros(of, x));
    }
  }

  /** In by a factor below 1, about a place on the screen. */
  void zoom(double factor, int x) {
    StripImage of = shown;
    if (of != null) {
      change(current().zoomed(factor, micros(of, x)));
    }
  }

  private long micros(StripImage of, int x) {
    StripView now = current();
    double part = (x - of.plot().getX()) / Math.max(1, of.plot().getWidth());
    return now.fromMicros() + Math.round(part * now.lengthMicros());
  }

  @Override
  protected String words() {
    return words;
  }
}
