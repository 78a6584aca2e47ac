package bellwire.app.desk;

import java.awt.BorderLayout;
import java.awt.Dimension;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JScrollPane;

/** A page in its place: as large as the place, scrolled where that is smaller than its minimum. */
final class PageView extends JScrollPane {
  PageView(Page page) {
    setBorder(BorderFactory.createEmptyBorder());
    setName("page." + page.key());
    setViewportView(new Stretched(page.component()));
    getAccessibleContext().setAccessibleName(page.title());
  }

  private static final class Stretched extends Column {
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
    public boolean getScrollableTracksViewportWidth() {
      return getParent() != null && getParent().getWidth() >= getMinimumSize().width;
    }

    @Override
    public boolean getScrollableTracksViewportHeight() {
      return getParent() != null && getParent().getHeight() >= getMinimumSize().height;
    }
  }
}
