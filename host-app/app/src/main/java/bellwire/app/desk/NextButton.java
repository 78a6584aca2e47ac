package bellwire.app.desk;

import com.formdev.flatlaf.util.UIScale;
import java.awt.Dimension;
import java.awt.Font;
import java.awt.FontMetrics;
import java.awt.Graphics;
import java.awt.Graphics2D;
import java.awt.Insets;
import java.awt.RenderingHints;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JButton;

/**
 * The next action in large type, as a button as wide as the band; without something to press it is
 * a sign that keeps its ink.
 */
final class NextButton extends JButton {
  /** Legible at three metres: 28 px are 7.4 mm at 96 px an inch. */
  static final int TYPE = 28;

  /** Large already, it grows no further than this: the page needs the room. */
  private static final int LARGEST = 42;

  private static final String KEY = "F5";

  private String words = "";
  private Runnable run = () -> {};

  NextButton() {
    setName("band.next");
    putClientProperty("migLayout.dynamicAspectRatio", true);
    addActionListener(e -> run.run());
    show(NextAction.words(""));
  }

  void show(NextAction next) {
    words = next.words();
    run = next.enabled() ? next.run() : () -> {};
    setContentAreaFilled(next.enabled());
    setBorderPainted(next.enabled());
    setFocusable(next.enabled());
    setEnabled(next.enabled());
    style();
    getAccessibleContext().setAccessibleName("Next: " + words);
    setToolTipText(next.enabled() ? KEY : null);
    revalidate();
    repaint();
  }

  String words() {
    return words;
  }

  @Override
  public void updateUI() {
    super.updateUI();
    if (words != null) {
      style();
    }
  }

  private void style() {
    int type = Math.min(TYPE, Math.round(LARGEST / UIScale.getZoomFactor()));
    String colours =
        isEnabled()
            ? "; background: $Desk.primary; foreground: $Desk.onPrimary; borderColor: $Desk.primaryEdge"
                + "; hoverBackground: $Desk.primary; focusedBackground: $Desk.primary"
                + "; hoverBorderColor: $Desk.primaryEdge"
            : "; foreground: $Label.foreground";
    putClientProperty("FlatLaf.style", "font: bold " + type + colours);
  }

  /** What the key's sign takes at the right. */
  private int keyWidth() {
    return isEnabled() ? getFontMetrics(keyFont()).stringWidth(KEY) * 3 : 0;
  }

  private Font keyFont() {
    return getFont().deriveFont(getFont().getSize2D() * 0.55f);
  }

  private List<String> lines(int width) {
    FontMetrics metrics = getFontMetrics(getFont());
    List<String> lines = new ArrayList<>();
    StringBuilder line = new StringBuilder();
    for (String word : words.split(" ", -1)) {
      if (line.length() > 0 && metrics.stringWidth(line + " " + word) > width) {
        lines.add(line.toString());
        line.setLength(0);
      }
      line.append(line.length() > 0 ? " " : "").append(word);
    }
    lines.add(line.toString());
    return lines;
  }

  @Override
  public Dimension getPreferredSize() {
    FontMetrics metrics = getFontMetrics(getFont());
    Insets insets = getInsets();
    int across = insets.left + insets.right + keyWidth();
    int width = metrics.stringWidth(words) + across + 2;
    int count = lines(Math.max(1, (getWidth() > 0 ? getWidth() : width) - across)).size();
    return new Dimension(width, count * metrics.getHeight() + insets.top + insets.bottom);
  }

  @Override
  public Dimension getMinimumSize() {
    FontMetrics metrics = getFontMetrics(getFont());
    return new Dimension(metrics.charWidth('m') * 9, metrics.getHeight());
  }

  @Override
  protected void paintComponent(Graphics g) {
    super.paintComponent(g);
    Graphics2D g2 = (Graphics2D) g.create();
    try {
      g2.setRenderingHint(
          RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
      g2.setFont(getFont());
      g2.setColor(getForeground());
      FontMetrics metrics = g2.getFontMetrics();
      Insets insets = getInsets();
      List<String> lines = lines(getWidth() - insets.left - insets.right - keyWidth());
      int y = (getHeight() - lines.size() * metrics.getHeight()) / 2 + metrics.getAscent();
      for (String line : lines) {
        g2.drawString(line, insets.left, y);
        y += metrics.getHeight();
      }
      if (isEnabled()) {
        key(g2, getWidth() - insets.right);
      }
    } finally {
      g2.dispose();
    }
  }

  /** The key that does it, as its cap. */
  private void key(Graphics2D g, int right) {
    g.setFont(keyFont());
    FontMetrics metrics = g.getFontMetrics();
    int wide = metrics.stringWidth(KEY) * 2;
    int high = metrics.getHeight() * 3 / 2;
    int x = right - wide;
    int y = (getHeight() - high) / 2;
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.drawRoundRect(x, y, wide - 1, high - 1, high / 3, high / 3);
    g.drawString(KEY, x + wide / 4, y + (high - metrics.getHeight()) / 2 + metrics.getAscent());
  }
}
