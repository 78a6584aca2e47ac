package bellwire.app.desk;

import java.util.List;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** All keys, in place of the page until Esc. */
final class KeysPanel extends JPanel {
  private final JButton close = new JButton("Back to the page (Esc)");

  KeysPanel(List<DeskKeys.Key> keys, Runnable back) {
    super(new MigLayout("insets 20, gap 24 10, wrap 2", "[]20[grow,fill]"));
    setName("keys");
    add(Look.bold(new JLabel("Keys"), 22), "span");
    for (DeskKeys.Key key : keys) {
      add(Look.bold(new JLabel(key.shown()), 16));
      add(Look.plain(new JLabel(key.purpose()), 16));
    }
    close.setName("keys.close");
    close.addActionListener(e -> back.run());
    add(close, "span, gaptop 12");
  }

  void focus() {
    close.requestFocusInWindow();
  }
}
