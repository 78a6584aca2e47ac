package bellwire.app.desk.landing;

import bellwire.analysis.loop.Point.Side;
import bellwire.app.drawing.Spot;
import java.awt.Cursor;
import java.awt.Point;
import java.awt.event.MouseAdapter;
import java.awt.event.MouseEvent;
import java.util.Optional;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/**
 * The strips by pointer: an end is dragged to a terminal; or clicked, and then the terminal, for
 * fingers in gloves.
 */
final class StripsMouse extends MouseAdapter {
  private static final double NEAR = 12;
  private static final String CONDUCTOR = "conductor:";

  private final StripsPanel panel;
  private final Held held;
  private @Nullable Point pressed;
  private boolean dragged;

  StripsMouse(StripsPanel panel, Held held) {
    this.panel = panel;
    this.held = held;
  }

  @Override
  public void mousePressed(MouseEvent e) {
    panel.requestFocusInWindow();
    pressed = null;
    dragged = false;
    if (!SwingUtilities.isLeftMouseButton(e)) {
      return;
    }
    Optional<Spot> hit = hit(e.getPoint());
    if (hit.isEmpty()) {
      return;
    }
    String key = hit.get().key();
    if (key.startsWith("end:")) {
      String rest = key.substring("end:".length());
      boolean near = rest.startsWith("near:");
      held.select(rest.substring(rest.indexOf(':') + 1), near ? Side.NEAR : Side.FAR);
      pressed = e.getPoint();
    } else if (key.startsWith(CONDUCTOR)) {
      boolean near = e.getX() < panel.getWidth() / 2;
      held.select(key.substring(CONDUCTOR.length()), near ? Side.NEAR : Side.FAR);
      pressed = e.getPoint();
    }
  }

  @Override
  public void mouseDragged(MouseEvent e) {
    Point from = pressed;
    if (from == null || !dragged && from.distance(e.getPoint()) < NEAR / 2) {
      return;
    }
    if (!dragged) {
      dragged = true;
      held.enter();
    }
    panel.pointer(e.getPoint());
  }

  @Override
  public void mouseReleased(MouseEvent e) {
    Optional<String> clamp = panel.clampAt(e.getPoint(), held.side());
    if (dragged) {
      panel.pointer(null);
      if (clamp.isPresent()) {
        held.land(clamp.get());
      } else {
        held.drop();
        held.tell();
      }
    } else if (pressed != null) {
      held.enter();
    } else if (held.moving() && clamp.isPresent() && SwingUtilities.isLeftMouseButton(e)) {
      held.land(clamp.get());
    }
    pressed = null;
    dragged = false;
    panel.repaint();
  }

  @Override
  public void mouseMoved(MouseEvent e) {
    int shape = hit(e.getPoint()).isPresent() ? Cursor.HAND_CURSOR : Cursor.DEFAULT_CURSOR;
    panel.setCursor(Cursor.getPredefinedCursor(shape));
  }

  /** Ends before conductors, conductors before what is larger; of two the nearer. */
  private Optional<Spot> hit(Point at) {
    Spot best = null;
    double least = Double.POSITIVE_INFINITY;
    for (Spot spot : panel.spots()) {
      double away = StripsPanel.away(panel.onScreen(spot), at);
      int rank = spot.key().startsWith("end:") ? 0 : spot.key().startsWith(CONDUCTOR) ? 2 : 1;
      double cost = rank * 1e3 + away;
      if (away <= (rank == 2 ? 3 : NEAR) && cost < least) {
        least = cost;
        best = spot;
      }
    }
    return Optional.ofNullable(best);
  }
}
