package bellwire.app.desk.landing;

import bellwire.analysis.loop.Point.Side;
import java.awt.event.KeyAdapter;
import java.awt.event.KeyEvent;

/**
 * The strips by keyboard: up and down choose a conductor, left and right its end; letters, or Enter
 * and up and down, a terminal; Enter lands, F or Delete frees, Esc leaves it where it was.
 */
final class StripsKeys extends KeyAdapter {
  private final StripsPanel panel;
  private final Held held;

  StripsKeys(StripsPanel panel, Held held) {
    this.panel = panel;
    this.held = held;
  }

  @Override
  public void keyPressed(KeyEvent e) {
    if (e.isControlDown() || e.isAltDown() || e.isMetaDown()) {
      return;
    }
    boolean taken = true;
    switch (e.getKeyCode()) {
      case KeyEvent.VK_UP -> held.step(-1);
      case KeyEvent.VK_DOWN -> held.step(1);
      case KeyEvent.VK_HOME -> held.step(Integer.MIN_VALUE / 2);
      case KeyEvent.VK_END -> held.step(Integer.MAX_VALUE / 2);
      case KeyEvent.VK_LEFT -> held.end(Side.NEAR);
      case KeyEvent.VK_RIGHT -> held.end(Side.FAR);
      case KeyEvent.VK_ENTER, KeyEvent.VK_SPACE -> held.enter();
      case KeyEvent.VK_DELETE, KeyEvent.VK_BACK_SPACE -> held.land(null);
      case KeyEvent.VK_ESCAPE -> {
        taken = held.drop();
        held.tell();
      }
      default -> taken = false;
    }
    if (taken) {
      e.consume();
      panel.repaint();
    }
  }

  @Override
  public void keyTyped(KeyEvent e) {
    char c = e.getKeyChar();
    if (!e.isControlDown() && !e.isAltDown() && (Character.isLetterOrDigit(c) || c == '/')) {
      held.type(c);
      e.consume();
      panel.repaint();
    }
  }
}
