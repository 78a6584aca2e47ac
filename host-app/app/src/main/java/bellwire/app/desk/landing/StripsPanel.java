package bellwire.app.desk.landing;

import bellwire.analysis.loop.Point.Side;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.ScrolledPicture;
import bellwire.app.drawing.Drawing;
import bellwire.app.drawing.Spot;
import bellwire.app.drawing.StripsDrawing;
import bellwire.app.drawing.StripsModel;
import java.awt.BasicStroke;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.RenderingHints;
import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.swing.JScrollPane;
import org.jspecify.annotations.Nullable;

/** The two strips, on which ends of conductors are moved by pointer and keyboard. */
final class StripsPanel extends ScrolledPicture {
  private static final double MAGNIFIED = 14 / (double) Drawing.TYPE;

  private final DeskContext ctx;
  private final Held held;
  private @Nullable StripsModel model;
  private @Nullable Point pointer;

  StripsPanel(DeskContext ctx, Held held) {
    super(ctx, 24);
    this.ctx = ctx;
    this.held = held;
    setName("landing.strips");
    setFocusable(true);
    setOpaque(true);
    StripsMouse mouse = new StripsMouse(this, held);
    addMouseListener(mouse);
    addMouseMotionListener(mouse);
    addKeyListener(new StripsKeys(this, held));
    addFocusListener(
        new FocusAdapter() {
          @Override
          public void focusGained(FocusEvent e) {
            held.tell();
            repaint();
          }

          @Override
          public void focusLost(FocusEvent e) {
            repaint();
          }
        });
    ctx.onLook(this::revalidate);
  }

  void show(StripsModel shown) {
    model = shown;
    getAccessibleContext().setAccessibleName(drawing().words());
    revalidate();
    repaint();
  }

  /** Keys of what carries the current that is looked at. */
  Set<String> lit() {
    StripsModel shown = model;
    return shown == null ? Set.of() : shown.lit();
  }

  /** What is in hand, in words. */
  void describe(String words) {
    getAccessibleContext().setAccessibleDescription(words);
    repaint();
    seen();
  }

  /** Where a drag is; null for none. */
  void pointer(@Nullable Point at) {
    pointer = at;
    repaint();
  }

  JScrollPane scrolled() {
    JScrollPane pane = new JScrollPane(this);
    pane.setBorder(null);
    pane.getVerticalScrollBar().setUnitIncrement(24);
    return pane;
  }

  private StripsDrawing drawing() {
    StripsModel shown = model;
    StripsModel there =
        shown == null
            ? new StripsModel(
                "", "", List.of(), List.of(), List.of(), List.of(), Set.of(), List.of())
            : shown;
    return new StripsDrawing(
        there, StripsModel.endKey(StripsOf.side(held.side()), held.conductor()));
  }

  List<Spot> spots() {
    return drawing().spots(units());
  }

  /** A spot by its key, in pixels. */
  Optional<Rectangle2D> place(String key) {
    return spots().stream().filter(s -> s.key().equals(key)).map(this::onScreen).findFirst();
  }

  Rectangle2D onScreen(Spot spot) {
    double f = factor();
    Rectangle2D b = spot.bounds();
    return new Rectangle2D.Double(b.getX() * f, b.getY() * f, b.getWidth() * f, b.getHeight() * f);
  }

  private double factor() {
    return MAGNIFIED * ctx.scale();
  }

  private double units() {
    return Math.max(Drawing.LEAST_WIDTH, getWidth() / factor());
  }

  private void seen() {
    place(heldKey()).ifPresent(box -> scrollRectToVisible(box.getBounds()));
  }

  private String heldKey() {
    return StripsModel.endKey(StripsOf.side(held.side()), held.conductor());
  }

  private Optional<Rectangle2D> targetPlace() {
    String to = held.target();
    return !held.moving() || to == null
        ? Optional.empty()
        : place(StripsModel.clampKey(StripsOf.side(held.side()), to));
  }

  @Override
  public Dimension getPreferredSize() {
    double least = Drawing.LEAST_WIDTH;
    double width = getParent() == null ? least : Math.max(least, getParent().getWidth() / factor());
    return new Dimension(
        (int) Math.ceil(least * factor()), (int) Math.ceil(drawing().height(width) * factor()));
  }

  @Override
  public Dimension getMinimumSize() {
    return new Dimension((int) (Drawing.LEAST_WIDTH * factor()), (int) (160 * ctx.scale()));
  }

  @Override
  protected void paintComponent(Graphics g) {
    Graphics2D g2 = (Graphics2D) g.create();
    try {
      g2.setColor(ctx.palette().paper());
      g2.fillRect(0, 0, getWidth(), getHeight());
      g2.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      g2.setRenderingHint(
          RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
      Graphics2D scaled = (Graphics2D) g2.create();
      scaled.scale(factor(), factor());
      drawing().paint(scaled, units(), ctx.palette());
      scaled.dispose();
      hand(g2);
    } finally {
      g2.dispose();
    }
  }

  /** The end in hand, where it would go, and the way of a drag. */
  private void hand(Graphics2D g) {
    float thick = (float) (3 * ctx.scale());
    g.setColor(ctx.palette().accent());
    g.setStroke(new BasicStroke(thick));
    Optional<Rectangle2D> from = place(heldKey());
    if (isFocusOwner() || held.moving()) {
      from.ifPresent(box -> g.draw(grown(box)));
    }
    Optional<Rectangle2D> to = targetPlace();
    to.ifPresent(box -> g.draw(grown(box)));
    g.setStroke(
        new BasicStroke(
            thick, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND, 1, new float[] {9, 7}, 0));
    Point at = pointer;
    if (from.isPresent() && held.moving()) {
      Rectangle2D box = from.get();
      double x = at != null ? at.x : to.map(Rectangle2D::getCenterX).orElse(box.getCenterX());
      double y = at != null ? at.y : to.map(Rectangle2D::getCenterY).orElse(box.getCenterY());
      g.draw(new Line2D.Double(box.getCenterX(), box.getCenterY(), x, y));
    }
  }

  private static Rectangle2D grown(Rectangle2D box) {
    return new Rectangle2D.Double(
        box.getX() - 3, box.getY() - 3, box.getWidth() + 6, box.getHeight() + 6);
  }

  /** The terminal of a side near a point; a finger is broader than a clamp. */
  Optional<String> clampAt(Point at, Side side) {
    StripsModel shown = model;
    if (shown == null) {
      return Optional.empty();
    }
    StripsModel.Side strip = StripsOf.side(side);
    List<StripsModel.Clamp> clamps = side == Side.NEAR ? shown.near() : shown.far();
    String best = null;
    double least = 20 * ctx.scale();
    for (StripsModel.Clamp clamp : clamps) {
      Optional<Rectangle2D> box = place(StripsModel.clampKey(strip, clamp.letter()));
      double away = box.map(b -> away(b, at)).orElse(Double.POSITIVE_INFINITY);
      if (away < least) {
        least = away;
        best = clamp.letter();
      }
    }
    return Optional.ofNullable(best);
  }

  static double away(Rectangle2D box, Point at) {
    double dx = Math.max(0, Math.max(box.getMinX() - at.x, at.x - box.getMaxX()));
    double dy = Math.max(0, Math.max(box.getMinY() - at.y, at.y - box.getMaxY()));
    return Math.hypot(dx, dy);
  }

  @Override
  protected int leastWidth() {
    return getMinimumSize().width;
  }
}
