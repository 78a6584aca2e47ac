package bellwire.app.desk;

import bellwire.app.drawing.Drawing;
import bellwire.app.drawing.Spot;
import java.awt.BasicStroke;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Rectangle;
import java.awt.RenderingHints;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.function.Consumer;
import javax.accessibility.Accessible;
import javax.accessibility.AccessibleContext;
import javax.accessibility.AccessibleRole;
import javax.swing.BorderFactory;
import javax.swing.JScrollPane;
import javax.swing.JViewport;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/**
 * Shows a drawing as wide as it is itself. Spots are chosen by a click, or by arrow keys and Enter;
 * Ctrl with the wheel, plus and minus zoom, 0 shows all again, dragging moves what is zoomed. Each
 * spot is an accessible child with its words.
 */
public final class DrawingPanel extends ScrolledPicture {
  private static final double MAGNIFIED = 14 / (double) Drawing.TYPE;
  private static final double MOST_ZOOM = 8;

  private final DeskContext ctx;
  private @Nullable Drawing drawing;
  private @Nullable Laid laid;
  private double leastWidth = Drawing.LEAST_WIDTH;
  private double zoom = 1;
  private String at = "";
  private Consumer<Spot> chosen = spot -> {};

  /**
   * @param name of the component, such as 'survey.route'
   */
  public DrawingPanel(DeskContext ctx, String name) {
    super(ctx, 24);
    this.ctx = ctx;
    setName(name);
    setFocusable(true);
    setOpaque(true);
    putClientProperty("migLayout.dynamicAspectRatio", true);
    new DrawingKeys(this).install();
    new DrawingMouse(this).install();
    addFocusListener(
        new FocusAdapter() {
          @Override
          public void focusGained(FocusEvent e) {
            repaint();
          }

          @Override
          public void focusLost(FocusEvent e) {
            repaint();
          }
        });
    ctx.onLook(this::revalidate);
  }

  /** Shows another drawing; zoom and the spot that the keyboard is at stay where they can. */
  public void show(Drawing shown) {
    drawing = shown;
    getAccessibleContext().setAccessibleName(shown.words());
    revalidate();
    repaint();
  }

  /** Told of the spot that was clicked, or entered by the keyboard. */
  public void onSpot(Consumer<Spot> listener) {
    chosen = listener;
  }

  /** Narrower than so many of the drawing's units it is scrolled instead of squeezed. */
  public void leastWidth(double units) {
    leastWidth = units;
    revalidate();
  }

  /** In a scroll pane, for zooming and for what is higher than its place. */
  public JScrollPane scrolled() {
    JScrollPane pane = new JScrollPane(this);
    pane.setBorder(BorderFactory.createEmptyBorder());
    pane.getVerticalScrollBar().setUnitIncrement(24);
    pane.getHorizontalScrollBar().setUnitIncrement(24);
    return pane;
  }

  /** The height of the view it is scrolled in, in the drawing's units when nothing is zoomed. */
  public double viewHeight() {
    int pixels = getParent() instanceof JViewport view ? view.getHeight() : getHeight();
    return pixels / (MAGNIFIED * ctx.scale());
  }

  /** Told when that has changed. */
  public void onView(Runnable listener) {
    if (getParent() instanceof JViewport view) {
      view.addComponentListener(
          new ComponentAdapter() {
            @Override
            public void componentResized(ComponentEvent e) {
              listener.run();
            }
          });
    }
  }

  /** 1 shows the whole width. */
  public double zoom() {
    return zoom;
  }

  /** Zooms about a point of this component. */
  void zoom(double wanted, int x, int y) {
    double before = zoom;
    zoom = Math.max(1, Math.min(MOST_ZOOM, wanted));
    Rectangle view = getVisibleRect();
    double factor = zoom / before;
    revalidate();
    repaint();
    SwingUtilities.invokeLater(
        () ->
            scrollRectToVisible(
                new Rectangle(
                    (int) (x * factor) - (x - view.x),
                    (int) (y * factor) - (y - view.y),
                    view.width,
                    view.height)));
  }

  List<Spot> spots() {
    Laid now = laid(width());
    return now == null ? List.of() : now.spots();
  }

  /** A drawing at a width: what is asked for again and again, at each move of the pointer. */
  private record Laid(Drawing of, double width, double height, List<Spot> spots) {}

  private @Nullable Laid laid(double width) {
    Drawing shown = drawing;
    Laid now = laid;
    if (shown != null && (now == null || now.of() != shown || now.width() != width)) {
      now = new Laid(shown, width, shown.height(width), shown.spots(width));
      laid = now;
    }
    return shown == null ? null : now;
  }

  /** The spot that the keyboard is at; empty for none. */
  String at() {
    return at;
  }

  void at(Spot spot) {
    at = spot.key();
    Rectangle2D box = onScreen(spot);
    scrollRectToVisible(box.getBounds());
    repaint();
    getAccessibleContext()
        .firePropertyChange(
            AccessibleContext.ACCESSIBLE_ACTIVE_DESCENDANT_PROPERTY, null, spot.words());
  }

  void choose(Spot spot) {
    at = spot.key();
    repaint();
    chosen.accept(spot);
  }

  /** A spot's place in pixels of this component. */
  Rectangle2D onScreen(Spot spot) {
    double f = factor();
    Rectangle2D b = spot.bounds();
    return new Rectangle2D.Double(b.getX() * f, b.getY() * f, b.getWidth() * f, b.getHeight() * f);
  }

  /** Pixels a unit, so that a drawing's smallest type is 14 px at 100 %. */
  private double factor() {
    return MAGNIFIED * ctx.scale() * zoom;
  }

  /** In the drawing's units. */
  private double width() {
    return Math.max(leastWidth, getWidth() / factor());
  }

  @Override
  public Dimension getPreferredSize() {
    double widthNow = getParent() == null || getWidth() == 0 ? leastWidth : visibleWidth();
    Laid now = laid(widthNow);
    if (now == null) {
      return new Dimension((int) (leastWidth * MAGNIFIED * ctx.scale()), (int) (80 * ctx.scale()));
    }
    double f = factor();
    return new Dimension((int) Math.ceil(widthNow * f), (int) Math.ceil(now.height() * f));
  }

  /** The drawing's width in its units: that of the view, however much is zoomed. */
  private double visibleWidth() {
    int pixels = getParent() instanceof JViewport view ? view.getWidth() : getWidth();
    return Math.max(leastWidth, pixels / (MAGNIFIED * ctx.scale()));
  }

  @Override
  public Dimension getMinimumSize() {
    return new Dimension(
        (int) (Drawing.LEAST_WIDTH * MAGNIFIED * ctx.scale()), (int) (60 * ctx.scale()));
  }

  @Override
  protected void paintComponent(Graphics g) {
    Graphics2D g2 = (Graphics2D) g.create();
    try {
      g2.setColor(ctx.palette().paper());
      g2.fillRect(0, 0, getWidth(), getHeight());
      if (drawing == null) {
        return;
      }
      g2.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      g2.setRenderingHint(
          RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
      g2.setRenderingHint(
          RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
      g2.scale(factor(), factor());
      drawing.paint(g2, width(), ctx.palette());
      if (isFocusOwner()) {
        focus(g2);
      }
    } finally {
      g2.dispose();
    }
  }

  private void focus(Graphics2D g) {
    g.setColor(ctx.palette().accent());
    g.setStroke(new BasicStroke((float) (3 / zoom)));
    for (Spot spot : spots()) {
      if (spot.key().equals(at)) {
        Rectangle2D b = spot.bounds();
        g.draw(
            new Rectangle2D.Double(
                b.getX() - 2, b.getY() - 2, b.getWidth() + 4, b.getHeight() + 4));
        return;
      }
    }
    g.draw(new Rectangle2D.Double(1.5, 1.5, getWidth() / factor() - 3, getHeight() / factor() - 3));
  }

  @Override
  public AccessibleContext getAccessibleContext() {
    if (accessibleContext == null) {
      accessibleContext = new AccessibleDrawing();
    }
    return accessibleContext;
  }

  private final class AccessibleDrawing extends AccessibleJComponent {
    @Override
    public AccessibleRole getAccessibleRole() {
      return AccessibleRole.CANVAS;
    }

    @Override
    public int getAccessibleChildrenCount() {
      return spots().size();
    }

    @Override
    public @Nullable Accessible getAccessibleChild(int i) {
      List<Spot> spots = spots();
      return i < 0 || i >= spots.size()
          ? null
          : new AccessibleSpot(DrawingPanel.this, spots.get(i), i);
    }
  }

  @Override
  public boolean getScrollableTracksViewportWidth() {
    return zoom == 1 && super.getScrollableTracksViewportWidth();
  }

  @Override
  protected int leastWidth() {
    return (int) Math.ceil(leastWidth * MAGNIFIED * ctx.scale());
  }
}
