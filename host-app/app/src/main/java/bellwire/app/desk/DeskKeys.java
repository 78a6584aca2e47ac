package bellwire.app.desk;

import java.awt.event.ActionEvent;
import java.util.ArrayList;
import java.util.List;
import javax.swing.AbstractAction;
import javax.swing.JComponent;
import javax.swing.KeyStroke;

/** The window's keys, and what they are for: bound and shown from one list. */
final class DeskKeys {
  /** One key of the window, or of a kind of component, in words. */
  record Key(String stroke, String shown, String purpose) {}

  private final JComponent root;
  private final List<Key> keys = new ArrayList<>();

  DeskKeys(JComponent root) {
    this.root = root;
  }

  /**
   * @param stroke as {@link KeyStroke#getKeyStroke(String)} reads it
   * @param shown how it is printed on the keyboard; empty for a second way that is not shown
   */
  void bind(String stroke, String shown, String purpose, Runnable run) {
    if (!shown.isEmpty()) {
      keys.add(new Key(stroke, shown, purpose));
    }
    root.getInputMap(JComponent.WHEN_IN_FOCUSED_WINDOW)
        .put(KeyStroke.getKeyStroke(stroke), "desk." + stroke);
    root.getActionMap()
        .put(
            "desk." + stroke,
            new AbstractAction() {
              @Override
              public void actionPerformed(ActionEvent e) {
                run.run();
              }
            });
  }

  /** Keys of components, for the list alone. */
  void tell(String shown, String purpose) {
    keys.add(new Key("", shown, purpose));
  }

  List<Key> keys() {
    return List.copyOf(keys);
  }
}
