package bellwire.app.desk.report;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.ScrolledPicture;
import java.awt.Dimension;
import java.awt.Graphics;
import java.awt.Rectangle;
import java.awt.event.ActionEvent;
import java.awt.image.BufferedImage;
import javax.swing.AbstractAction;
import javax.swing.KeyStroke;
import org.jspecify.annotations.Nullable;

/** One page of the report, as a picture; keys turn and zoom. */
final class PageSheet extends ScrolledPicture {
  /** What the keys ask for. */
  interface Asked {
    /**
     * @param by pages on; negative for back
     */
    void turn(int by);

    /**
     * @param by steps; 0 for the whole width
     */
    void zoom(int by);
  }

  private static final int MARGIN = 12;

  private final DeskContext ctx;
  private final Asked asked;
  private @Nullable BufferedImage page;

  PageSheet(DeskContext ctx, Asked asked) {
    super(ctx, 40);
    this.ctx = ctx;
    this.asked = asked;
    setName("report.page");
    setFocusable(true);
    setOpaque(true);
    bind("PAGE_DOWN", () -> down(1));
    bind("PAGE_UP", () -> down(-1));
    bind("DOWN", () -> scroll(60));
    bind("UP", () -> scroll(-60));
    bind("RIGHT", () -> asked.turn(1));
    bind("LEFT", () -> asked.turn(-1));
    bind("PLUS", () -> asked.zoom(1));
    bind("EQUALS", () -> asked.zoom(1));
    bind("ADD", () -> asked.zoom(1));
    bind("MINUS", () -> asked.zoom(-1));
    bind("SUBTRACT", () -> asked.zoom(-1));
    bind("0", () -> asked.zoom(0));
    addMouseListener(
        new java.awt.event.MouseAdapter() {
          @Override
          public void mousePressed(java.awt.event.MouseEvent e) {
            requestFocusInWindow();
          }
        });
    addFocusListener(
        new java.awt.event.FocusAdapter() {
          @Override
          public void focusGained(java.awt.event.FocusEvent e) {
            repaint();
          }

          @Override
          public void focusLost(java.awt.event.FocusEvent e) {
            repaint();
          }
        });
  }

  private void bind(String key, Runnable run) {
    getInputMap().put(KeyStroke.getKeyStroke(key), key);
    getActionMap()
        .put(
            key,
            new AbstractAction() {
              @Override
              public void actionPerformed(ActionEvent e) {
                run.run();
              }
            });
  }

  /** A view's height on; past the page's end the next page. */
  private void down(int sign) {
    Rectangle view = getVisibleRect();
    boolean end = sign > 0 ? view.y + view.height >= getHeight() : view.y <= 0;
    if (end) {
      asked.turn(sign);
    } else {
      scroll(sign * view.height * 9 / 10);
    }
  }

  private void scroll(int pixels) {
    Rectangle view = getVisibleRect();
    view.y += pixels;
    scrollRectToVisible(view);
  }

  /**
   * @param words what it is, such as 'page 2 of 9'
   */
  void show(@Nullable BufferedImage shown, String words, boolean fromTop) {
    page = shown;
    getAccessibleContext().setAccessibleName(words);
    revalidate();
    repaint();
    if (fromTop) {
      scrollRectToVisible(new Rectangle(0, 0, 1, 1));
    }
  }

  private int margin() {
    return (int) (MARGIN * ctx.scale());
  }

  /** Room for a page in a view of that width. */
  int room(int viewWidth) {
    return Math.max(100, viewWidth - 2 * margin());
  }

  @Override
  public Dimension getPreferredSize() {
    BufferedImage shown = page;
    int m = 2 * margin();
    return shown == null
        ? new Dimension(200, 200)
        : new Dimension(shown.getWidth() + m, shown.getHeight() + m);
  }

  @Override
  protected void paintComponent(Graphics g) {
    g.setColor(ctx.palette().panel());
    g.fillRect(0, 0, getWidth(), getHeight());
    BufferedImage shown = page;
    if (shown == null) {
      return;
    }
    int x = Math.max(margin(), (getWidth() - shown.getWidth()) / 2);
    int y = margin();
    g.drawImage(shown, x, y, null);
    g.setColor(isFocusOwner() ? ctx.palette().accent() : ctx.palette().line());
    for (int i = 1; i <= (isFocusOwner() ? 3 : 1); i++) {
      g.drawRect(x - i, y - i, shown.getWidth() + 2 * i - 1, shown.getHeight() + 2 * i - 1);
    }
  }

  @Override
  protected int leastWidth() {
    return getPreferredSize().width;
  }
}
