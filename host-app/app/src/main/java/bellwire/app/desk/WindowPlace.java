package bellwire.app.desk;

import java.awt.Rectangle;
import javax.swing.JFrame;

/** Where a window stands on the screen, from one time to the next. */
final class WindowPlace {
  private static final int LEAST_WIDTH = 800;
  private static final int LEAST_HEIGHT = 500;

  private WindowPlace() {}

  /** Puts a window where the last one was left, as far as this screen reaches. */
  static void take(JFrame frame, DeskPrefs prefs) {
    Rectangle screen = frame.getGraphicsConfiguration().getBounds();
    int width = Math.min(screen.width, Math.max(LEAST_WIDTH, prefs.number("width", 1280)));
    int height = Math.min(screen.height, Math.max(LEAST_HEIGHT, prefs.number("height", 800)));
    int right = screen.width - width;
    int down = screen.height - height;
    frame.setSize(width, height);
    frame.setLocation(
        screen.x + within(prefs.number("x", right / 2), right),
        screen.y + within(prefs.number("y", down / 2), down));
    if (prefs.get("maximised", "no").equals("yes")) {
      frame.setExtendedState(JFrame.MAXIMIZED_BOTH);
    }
  }

  private static int within(int wanted, int most) {
    return Math.max(0, Math.min(wanted, most));
  }

  static void remember(JFrame frame, DeskPrefs prefs) {
    if (frame.getBounds().isEmpty()) {
      return;
    }
    boolean maximised = (frame.getExtendedState() & JFrame.MAXIMIZED_BOTH) != 0;
    prefs.put("maximised", maximised ? "yes" : "no");
    if (!maximised) {
      prefs.put("x", frame.getX());
      prefs.put("y", frame.getY());
      prefs.put("width", frame.getWidth());
      prefs.put("height", frame.getHeight());
    }
  }
}
