package bellwire.app.desk;

import java.awt.BorderLayout;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;

/** Holds the place of a page that does not exist yet. */
final class PlaceholderPage implements Page {
  private final String key;
  private final String title;
  private final JPanel panel = new JPanel(new BorderLayout());

  PlaceholderPage(String key, String title) {
    this.key = key;
    this.title = title;
    panel.add(new JLabel(title, JLabel.CENTER));
  }

  @Override
  public String key() {
    return key;
  }

  @Override
  public String title() {
    return title;
  }

  @Override
  public JComponent component() {
    return panel;
  }

  @Override
  public void entered() {}

  @Override
  public void left() {}

  @Override
  public NextAction next() {
    return NextAction.words(title);
  }

  @Override
  public String state() {
    return "";
  }
}
