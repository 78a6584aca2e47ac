package bellwire.app.desk;

import java.awt.BasicStroke;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import javax.swing.JToggleButton;
import javax.swing.UIManager;

/** A stop on the rail: its number on the line, its name, a word of state. */
final class RailStop extends JToggleButton {
  private final int number;
  private final String title;
  private final boolean first;
  private final boolean last;
  private String state = "";
  private boolean narrow;
  private int height;

  RailStop(int number, int count, String key, String title) {
    this.number = number;
    this.title = title;
    first = number == 1;
    last = number == count;
    setName("rail." + key);
    setToolTipText(title + " (Alt+" + number + ")");
    setBorderPainted(false);
    setContentAreaFilled(false);
    state("");
  }

  void state(String word) {
    state = word;
    getAccessibleContext()
        .setAccessibleName(number + " " + title + (word.isEmpty() ? "" : ", " + word));
    repaint();
  }

  String state() {
    return state;
  }

  /**
   * @param wanted without the word of state, where the window is narrow for its type
   * @param high pixels
   */
  void fit(boolean wanted, int high) {
    narrow = wanted;
    height = high;
    revalidate();
  }

  private int em() {
    return getFont().getSize();
  }

  @Override
  public Dimension getPreferredSize() {
    return new Dimension(em() * (narrow ? 19 : 27) / 2, height > 0 ? height : em() * 7 / 2);
  }

  @Override
  public Dimension getMinimumSize() {
    return getPreferredSize();
  }

  @Override
  protected void paintComponent(Graphics g) {
    Graphics2D g2 = (Graphics2D) g.create();
    try {
      g2.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
      g2.setRenderingHint(
          RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
      if (isSelected()) {
        g2.setColor(UIManager.getColor("ToggleButton.selectedBackground"));
        g2.fillRect(0, 0, getWidth(), getHeight());
      }
      line(g2);
      words(g2);
      if (isFocusOwner()) {
        g2.setColor(UIManager.getColor("Component.focusColor"));
        g2.setStroke(new BasicStroke(3));
        g2.drawRect(2, 2, getWidth() - 5, getHeight() - 5);
      }
    } finally {
      g2.dispose();
    }
  }

  /** The rail itself and the stop on it; the one in view is filled. */
  private void line(Graphics2D g) {
    int em = em();
    int x = em * 3 / 2;
    int middle = getHeight() / 2;
    int radius = em * 9 / 10;
    g.setColor(UIManager.getColor("Button.borderColor"));
    g.setStroke(new BasicStroke(Math.max(2, em / 7f)));
    if (!first) {
      g.drawLine(x, 0, x, middle - radius);
    }
    if (!last) {
      g.drawLine(x, middle + radius, x, getHeight());
    }
    g.setColor(isSelected() ? getForeground() : getBackground());
    g.fillOval(x - radius, middle - radius, 2 * radius, 2 * radius);
    g.setColor(getForeground());
    g.drawOval(x - radius, middle - radius, 2 * radius, 2 * radius);
    g.setFont(getFont().deriveFont(Font.BOLD));
    FontMetrics metrics = g.getFontMetrics();
    String figure = String.valueOf(number);
    g.setColor(isSelected() ? getBackground() : getForeground());
    g.drawString(
        figure,
        x - metrics.stringWidth(figure) / 2,
        middle + (metrics.getAscent() - metrics.getDescent()) / 2);
  }

  private void words(Graphics2D g) {
    int x = em() * 3;
    g.setColor(isEnabled() ? getForeground() : UIManager.getColor("Label.disabledForeground"));
    g.setFont(
        getFont()
            .deriveFont(isSelected() ? Font.BOLD : Font.PLAIN, em() * (narrow ? 1.1f : 1.15f)));
    FontMetrics metrics = g.getFontMetrics();
    boolean two = !narrow && !state.isEmpty();
    int middle = getHeight() / 2;
    g.drawString(title, x, two ? middle - em() / 6 : middle + metrics.getAscent() / 2 - 2);
    if (two) {
      g.setFont(getFont());
      g.setColor(UIManager.getColor("Label.disabledForeground"));
      if (isSelected()) {
        g.setColor(getForeground());
      }
      g.drawString(
          cut(state, g.getFontMetrics(), getWidth() - x - 4),
          x,
          middle + g.getFontMetrics().getAscent() + 1);
    }
  }

  private static String cut(String words, FontMetrics metrics, int width) {
    if (metrics.stringWidth(words) <= width) {
      return words;
    }
    String shorter = words;
    while (shorter.length() > 1 && metrics.stringWidth(shorter + "…") > width) {
      shorter = shorter.substring(0, shorter.length() - 1);
    }
    return shorter + "…";
  }
}
