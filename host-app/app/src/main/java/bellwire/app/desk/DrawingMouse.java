package bellwire.app.desk;

import bellwire.app.drawing.Spot;
import java.awt.Cursor;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.awt.event.MouseWheelEvent;
import java.awt.geom.Rectangle2D;
import java.util.Optional;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/** A drawing by pointer: a click chooses, dragging moves what is zoomed, Ctrl+wheel zooms. */
final class DrawingMouse extends MouseAdapter {
  /** Pixels about a spot that still hit it: a finger is broader than a line. */
  private static final int NEAR = 8;

  private static final double STEP = 1.15;

  private final DrawingPanel panel;
  private @Nullable Point dragged;

  DrawingMouse(DrawingPanel panel) {
    this.panel = panel;
  }

  void install() {
    panel.addMouseListener(this);
    panel.addMouseMotionListener(this);
    panel.addMouseWheelListener(this);
  }

  @Override
  public void mousePressed(MouseEvent e) {
    panel.requestFocusInWindow();
    dragged = e.getPoint();
  }

  @Override
  public void mouseClicked(MouseEvent e) {
    if (SwingUtilities.isLeftMouseButton(e)) {
      hit(e.getPoint()).ifPresent(panel::choose);
    }
  }

  @Override
  public void mouseDragged(MouseEvent e) {
    Point from = dragged;
    if (from != null && panel.zoom() > 1) {
      Rectangle view = panel.getVisibleRect();
      view.translate(from.x - e.getX(), from.y - e.getY());
      panel.scrollRectToVisible(view);
    }
  }

  @Override
  public void mouseMoved(MouseEvent e) {
    boolean over = hit(e.getPoint()).isPresent();
    panel.setCursor(Cursor.getPredefinedCursor(over ? Cursor.HAND_CURSOR : Cursor.DEFAULT_CURSOR));
  }

  @Override
  public void mouseWheelMoved(MouseWheelEvent e) {
    if (e.isControlDown()) {
      panel.zoom(panel.zoom() * Math.pow(STEP, -e.getPreciseWheelRotation()), e.getX(), e.getY());
    } else {
      panel
          .getParent()
          .dispatchEvent(SwingUtilities.convertMouseEvent(panel, e, panel.getParent()));
    }
  }

  /** The smallest spot under or near a point; of two as small the nearer. */
  private Optional<Spot> hit(Point point) {
    Spot best = null;
    double least = Double.POSITIVE_INFINITY;
    for (Spot spot : panel.spots()) {
      Rectangle2D box = panel.onScreen(spot);
      double dx = Math.max(0, Math.max(box.getMinX() - point.x, point.x - box.getMaxX()));
      double dy = Math.max(0, Math.max(box.getMinY() - point.y, point.y - box.getMaxY()));
      double away = Math.hypot(dx, dy);
      double cost = away * 1e6 + box.getWidth() * box.getHeight();
      if (away <= NEAR && cost < least) {
        least = cost;
        best = spot;
      }
    }
    return Optional.ofNullable(best);
  }
}
