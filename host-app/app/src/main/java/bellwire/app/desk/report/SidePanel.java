package bellwire.app.desk.report;

import java.awt.Dimension;
import java.awt.Rectangle;
import javax.swing.JPanel;
import javax.swing.Scrollable;
import net.miginfocom.swing.MigLayout;

/** A column that is scrolled up and down only: as wide as its view, the scroll bar left out. */
final class SidePanel extends JPanel implements Scrollable {
  SidePanel() {
    super(new MigLayout("insets 0 0 0 8, gap 8, wrap 1, hidemode 3", "[grow,fill]"));
  }

  @Override
  public Dimension getPreferredScrollableViewportSize() {
    return getPreferredSize();
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
    return true;
  }

  @Override
  public boolean getScrollableTracksViewportHeight() {
    return false;
  }
}
