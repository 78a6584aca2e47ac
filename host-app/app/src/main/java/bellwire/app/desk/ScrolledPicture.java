package bellwire.app.desk;

import java.awt.Dimension;
import java.awt.Rectangle;
import javax.accessibility.AccessibleRole;
import javax.swing.Scrollable;

/** A picture in a scroll pane: as large as its view, or larger where it needs to be. */
public abstract class ScrolledPicture extends Spoken implements Scrollable {
  private static final long serialVersionUID = 1L;

  private final transient DeskContext ctx;
  private final int step;

  /**
   * @param step of the wheel, pixels at 100 %
   */
  protected ScrolledPicture(DeskContext ctx, int step) {
    super(AccessibleRole.CANVAS);
    this.ctx = ctx;
    this.step = step;
  }

  @Override
  public Dimension getPreferredScrollableViewportSize() {
    return getPreferredSize();
  }

  @Override
  public int getScrollableUnitIncrement(Rectangle visible, int orientation, int direction) {
    return (int) (step * ctx.scale());
  }

  /** A little of what was in view stays in view. */
  @Override
  public int getScrollableBlockIncrement(Rectangle visible, int orientation, int direction) {
    return Math.max(step, visible.height * 9 / 10);
  }

  @Override
  public boolean getScrollableTracksViewportWidth() {
    return getParent() != null && getParent().getWidth() >= leastWidth();
  }

  @Override
  public boolean getScrollableTracksViewportHeight() {
    return getParent() != null && getPreferredSize().height < getParent().getHeight();
  }

  /** Pixels, below which it is scrolled sideways instead of squeezed. */
  protected abstract int leastWidth();
}
