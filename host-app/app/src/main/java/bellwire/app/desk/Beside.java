package bellwire.app.desk;

import java.awt.Dimension;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.util.List;
import javax.swing.JComponent;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/**
 * Parts of a page beside one another, or, where the page is narrow for its type, one above the
 * other: larger type then scrolls up and down, never sideways.
 */
public final class Beside extends JPanel {
  private static final long serialVersionUID = 1L;

  /**
   * A part.
   *
   * @param share of the width, beside the others
   * @param leastEms height that it needs above or below another, in type sizes; 0 for its own
   */
  public record Part(JComponent component, int share, int leastEms) {}

  private final transient List<Part> parts;
  private final int narrowEms;
  private final String insets;
  private boolean stacked;
  private int em;

  /**
   * @param narrowEms width in type sizes below which the parts are stacked
   * @param insets MigLayout's, pixels
   */
  public Beside(int narrowEms, String insets, Part... parts) {
    this.parts = List.of(parts);
    this.narrowEms = narrowEms;
    this.insets = insets;
    this.parts.forEach(part -> add(part.component()));
    arrange(false);
    addComponentListener(
        new ComponentAdapter() {
          @Override
          public void componentResized(ComponentEvent e) {
            fit();
          }
        });
  }

  private void fit() {
    boolean narrow = getWidth() > 0 && getWidth() < narrowEms * getFont().getSize();
    if (narrow != stacked || em != getFont().getSize()) {
      arrange(narrow);
    }
  }

  private void arrange(boolean narrow) {
    stacked = narrow;
    em = getFont().getSize();
    StringBuilder columns = new StringBuilder();
    StringBuilder rows = new StringBuilder();
    for (Part part : parts) {
      columns
          .append(columns.isEmpty() ? "" : "16")
          .append("[grow " + part.share() + ",fill,0:" + part.share() * 10 + ":]");
      rows.append(rows.isEmpty() ? "" : "12").append("[grow,fill]");
    }
    // Nothing is taken out and put in again: the keyboard stays where it is.
    MigLayout layout =
        narrow
            ? new MigLayout("insets " + insets + ", fill, wrap 1", "[grow,fill]", rows.toString())
            : new MigLayout("insets " + insets + ", fill", columns.toString(), "[grow,fill]");
    setLayout(layout);
    for (Part part : parts) {
      int least = part.leastEms() * em;
      layout.addLayoutComponent(
          part.component(), "wmin 0" + (narrow && least > 0 ? ", hmin " + least : ""));
    }
    revalidate();
    repaint();
  }

  @Override
  public void updateUI() {
    super.updateUI();
    if (parts != null) {
      fit();
    }
  }

  /** As narrow as may be: what is too narrow for beside is stacked. */
  @Override
  public Dimension getMinimumSize() {
    return new Dimension(0, super.getMinimumSize().height);
  }
}
