package bellwire.app.desk;

import java.awt.Dimension;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import net.miginfocom.swing.MigLayout;

/** Labels and fields, two fields to a row, or one where the page is narrow for its type. */
final class FormPanel extends JPanel {
  private static final int NARROW_EMS = 56;

  private record Row(JLabel label, JComponent field, boolean wide) {}

  private final List<Row> rows = new ArrayList<>();
  private JComponent title = new JLabel();
  private JComponent aside = new JLabel();
  private boolean narrow;

  FormPanel() {
    addComponentListener(
        new ComponentAdapter() {
          @Override
          public void componentResized(ComponentEvent e) {
            boolean now = getWidth() < NARROW_EMS * getFont().getSize();
            if (now != narrow) {
              narrow = now;
              arranged();
            }
          }
        });
  }

  /** What it is about, and what is told beside it. */
  void head(JComponent words, JComponent told) {
    title = words;
    aside = told;
    add(title);
    add(aside);
  }

  /**
   * @param wide over both columns
   */
  void row(JLabel label, JComponent field, boolean wide) {
    rows.add(new Row(label, field, wide));
    add(label);
    add(field);
  }

  /** Lays out what was added. */
  void arranged() {
    // Nothing is taken out and put in again: the keyboard stays where it is.
    MigLayout layout =
        new MigLayout(
            "insets 12 10 10 10, gap 12 10, wrap " + (narrow ? 2 : 4),
            narrow ? "[][grow,fill]" : "[][grow,fill]24[][grow,fill]");
    setLayout(layout);
    layout.addLayoutComponent(title, "span 2, growx, wmin 0");
    layout.addLayoutComponent(aside, "span 2, align right");
    for (Row row : rows) {
      layout.addLayoutComponent(row.label(), "growy");
      String high = row.field() instanceof JScrollPane ? ", hmin 64" : "";
      layout.addLayoutComponent(
          row.field(), "wmin 0" + high + (row.wide() && !narrow ? ", span 3, growx" : ""));
    }
    revalidate();
    repaint();
  }

  /** As narrow as may be: it has another shape for that. */
  @Override
  public Dimension getMinimumSize() {
    return new Dimension(0, super.getMinimumSize().height);
  }
}
