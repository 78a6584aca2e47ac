package bellwire.app.desk;

import java.util.List;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** All keys, in place of the page until Esc. */
final class KeysPanel extends JPanel {
  private final JButton close = new JButton("Back to the page (Esc)");

  private final RailFoot look;

  /**
   * @param look the window's light, size and sound, which a small window has here alone
   */
  KeysPanel(List<DeskKeys.Key> keys, RailFoot look, Runnable back) {
    super(new MigLayout("insets 20, gap 24 10, wrap 2", "[]20[grow,fill]"));
    this.look = look;
    setName("keys");
    add(close, "span");
    add(Look.bold(new JLabel("Look and sound"), 22), "span");
    add(look, "span, w 260::420, growx 0");
    add(Look.bold(new JLabel("Keys"), 22), "span");
    for (DeskKeys.Key key : keys) {
      add(Look.bold(new JLabel(key.shown()), 16));
      add(new Words(key.purpose(), 16, false), "growx, wmin 120");
    }
    close.setName("keys.close");
    close.addActionListener(e -> back.run());
  }

  RailFoot look() {
    return look;
  }

  void focus() {
    close.requestFocusInWindow();
  }
}
