package bellwire.app.desk;

import java.awt.CardLayout;
import java.awt.Component;
import java.awt.Dimension;
import javax.swing.JPanel;

/** One of several parts of a page in its place; as small as the one that is shown may be. */
public final class Cards extends JPanel {
  private static final long serialVersionUID = 1L;

  public Cards() {
    super(new CardLayout());
  }

  /** Shows the part that was added under this name. */
  public void show(String part) {
    ((CardLayout) getLayout()).show(this, part);
    revalidate();
  }

  @Override
  public Dimension getMinimumSize() {
    for (Component part : getComponents()) {
      if (part.isVisible()) {
        return part.getMinimumSize();
      }
    }
    return super.getMinimumSize();
  }
}
