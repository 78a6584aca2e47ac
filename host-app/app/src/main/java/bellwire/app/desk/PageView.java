package bellwire.app.desk;

import java.awt.BorderLayout;
import java.awt.Dimension;
import java.awt.Rectangle;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.Scrollable;

/** A page in its place: as large as the place, scrolled where that is smaller than its minimum. */
final class PageView extends JScrollPane {
  PageView(Page page) {
    setBorder(BorderFactory.createEmptyBorder());
    setName("page." + page.key());
    setViewportView(new Stretched(page.component()));
    getAccessibleContext().setAccessibleName(page.title());
  }

  private static final class Stretched extends JPanel implements Scrollable {
    Stretched(JComponent page) {
      super(new BorderLayout());
      add(page);
    }

    @Override
    public Dimension getPreferredSize() {
      return getMinimumSize();
    }

    @Override
    public Dimension getPreferredScrollableViewportSize() {
      return super.getPreferredSize();
    }

    @Override
    public int getScrollableUnitIncrement(Rectangle visible, int orientation, int direction) {
      return getFont().getSize() * 2;
    }

    @Override
    public int getScrollableBlockIncrement(Rectangle visible, int orientation, int direction) {
      return Math.max(1, visible.height * 9 / 10);
    }

    @Override
    public boolean getScrollableTracksViewportWidth() {
      return getParent() != null && getParent().getWidth() >= getMinimumSize().width;
    }

    @Override
    public boolean getScrollableTracksViewportHeight() {
      return getParent() != null && getParent().getHeight() >= getMinimumSize().height;
    }
  }
}
