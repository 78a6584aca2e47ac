package bellwire.app.desk;

import java.awt.Component;
import java.awt.Container;
import java.awt.Window;
import java.nio.file.Path;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import javax.swing.text.JTextComponent;
import org.jspecify.annotations.Nullable;

/**
 * A desk of its own process in whose notes somebody types on and on, without a pause: says how much
 * was typed, until it is killed.
 */
final class TypingDesk {
  static final int KEY_MILLIS = 25;

  private static int typed;

  private TypingDesk() {}

  public static void main(String[] arguments) {
    var unused = DeskMain.open(Path.of(arguments[0]), false);
    SwingUtilities.invokeLater(() -> new Timer(KEY_MILLIS, e -> type()).start());
  }

  private static void type() {
    for (Window window : Window.getWindows()) {
      JTextComponent notes = find(window);
      if (notes != null) {
        notes.replaceSelection(letter(typed));
        typed++;
        System.out.println(typed);
        return;
      }
    }
  }

  /** The letters in their order, so that a lost one shows. */
  static String letter(int number) {
    return String.valueOf((char) ('a' + number % 26));
  }

  /** The field for notes of a window; null where it is not there. */
  static @Nullable JTextComponent find(Container in) {
    for (Component part : in.getComponents()) {
      if (part instanceof JTextComponent text && "visit.notes".equals(part.getName())) {
        return text;
      }
      JTextComponent inside = part instanceof Container inner ? find(inner) : null;
      if (inside != null) {
        return inside;
      }
    }
    return null;
  }
}
