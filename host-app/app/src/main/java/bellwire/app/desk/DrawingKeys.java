package bellwire.app.desk;

import bellwire.app.drawing.Spot;
import java.awt.event.ActionEvent;
import java.awt.geom.Rectangle2D;
import java.util.List;
import java.util.Optional;
import javax.swing.AbstractAction;
import javax.swing.JComponent;
import javax.swing.KeyStroke;

/**
 * A drawing by keyboard: arrows to the next spot in their direction, Home and End to the first and
 * last, Enter or space to choose, plus, minus and 0 for the zoom. Tab leaves the drawing, which may
 * have a hundred spots.
 */
final class DrawingKeys {
  private static final double STEP = 1.25;

  private final DrawingPanel panel;

  DrawingKeys(DrawingPanel panel) {
    this.panel = panel;
  }

  void install() {
    bind("RIGHT", () -> move(1, 0));
    bind("LEFT", () -> move(-1, 0));
    bind("DOWN", () -> move(0, 1));
    bind("UP", () -> move(0, -1));
    bind("HOME", () -> first(panel.spots()));
    bind("END", () -> last(panel.spots()));
    bind("ENTER", this::choose);
    bind("SPACE", this::choose);
    for (String plus : List.of("PLUS", "ADD", "EQUALS")) {
      bind(plus, () -> zoom(panel.zoom() * STEP));
    }
    for (String minus : List.of("MINUS", "SUBTRACT")) {
      bind(minus, () -> zoom(panel.zoom() / STEP));
    }
    bind("0", () -> zoom(1));
    bind("NUMPAD0", () -> zoom(1));
  }

  private void bind(String key, Runnable run) {
    panel.getInputMap(JComponent.WHEN_FOCUSED).put(KeyStroke.getKeyStroke(key), key);
    panel
        .getActionMap()
        .put(
            key,
            new AbstractAction() {
              @Override
              public void actionPerformed(ActionEvent e) {
                run.run();
              }
            });
  }

  private void zoom(double wanted) {
    var view = panel.getVisibleRect();
    panel.zoom(wanted, (int) view.getCenterX(), (int) view.getCenterY());
  }

  private Optional<Spot> current(List<Spot> spots) {
    return spots.stream().filter(s -> s.key().equals(panel.at())).findFirst();
  }

  private void choose() {
    current(panel.spots()).ifPresent(panel::choose);
  }

  private void first(List<Spot> spots) {
    if (!spots.isEmpty()) {
      panel.at(spots.get(0));
    }
  }

  private void last(List<Spot> spots) {
    if (!spots.isEmpty()) {
      panel.at(spots.get(spots.size() - 1));
    }
  }

  private void move(int dx, int dy) {
    List<Spot> spots = panel.spots();
    Optional<Spot> current = current(spots);
    if (current.isEmpty()) {
      first(spots);
      return;
    }
    next(spots, current.get(), dx, dy).ifPresent(panel::at);
  }

  /** The nearest spot in a direction; what is off to the side counts twice. */
  static Optional<Spot> next(List<Spot> spots, Spot from, int dx, int dy) {
    Spot best = null;
    double least = Double.POSITIVE_INFINITY;
    for (Spot spot : spots) {
      double across = centre(spot, true) - centre(from, true);
      double down = centre(spot, false) - centre(from, false);
      double ahead = across * dx + down * dy;
      double aside = Math.abs(across * dy) + Math.abs(down * dx);
      double cost = ahead + 2 * aside;
      if (ahead > 0.5 && cost < least) {
        least = cost;
        best = spot;
      }
    }
    return Optional.ofNullable(best);
  }

  private static double centre(Spot spot, boolean horizontal) {
    Rectangle2D bounds = spot.bounds();
    return horizontal ? bounds.getCenterX() : bounds.getCenterY();
  }
}
