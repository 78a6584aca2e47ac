package bellwire.app.desk;

import javax.swing.JComponent;
import org.jspecify.annotations.Nullable;

/** A stop of the visit: one page of the window. Called on the event thread alone. */
public interface Page {
  /** Stable, such as 'survey': for {@link DeskContext#go} and for what is remembered. */
  String key();

  /** One word for the rail. */
  String title();

  /** Always the same component. It is scrolled where the window is smaller than its minimum. */
  JComponent component();

  /** Comes into view. */
  void entered();

  /** Where the keyboard is once the page has come into view; null for its first field. */
  default @Nullable JComponent focus() {
    return null;
  }

  /** Goes out of view. */
  void left();

  /** The one thing to do now. */
  NextAction next();

  /** For the rail, short: 'not begun', 'done 14:05', '2 findings'. */
  String state();
}
