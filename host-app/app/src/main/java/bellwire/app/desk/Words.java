package bellwire.app.desk;

import java.awt.Color;
import java.awt.Dimension;
import javax.swing.JTextArea;
import javax.swing.UIManager;
import javax.swing.text.DefaultCaret;

/** Text to be read, on as many lines as its width asks for; laid out by MigLayout with 'growx'. */
public final class Words extends JTextArea {
  private boolean faint;

  /** Ordinary type. */
  public Words(String text) {
    super(text);
    setEditable(false);
    setFocusable(false);
    setLineWrap(true);
    setWrapStyleWord(true);
    setOpaque(false);
    setBorder(null);
    getAccessibleContext().setAccessibleName(text);
  }

  /** Of a size at 100 %, bold or not. */
  public Words(String text, int pixels, boolean bold) {
    this(text);
    if (bold) {
      Look.bold(this, pixels);
    } else {
      Look.plain(this, pixels);
    }
  }

  /** In the palette's faint ink, which is still legible. */
  public Words faint() {
    faint = true;
    ink();
    return this;
  }

  @Override
  public void setText(String text) {
    super.setText(text);
    getAccessibleContext().setAccessibleName(text);
  }

  @Override
  public void updateUI() {
    super.updateUI();
    setOpaque(false);
    setBorder(null);
    ink();
    still();
  }

  /** Text that changes does not scroll what it stands in. */
  private void still() {
    if (getCaret() instanceof DefaultCaret caret) {
      caret.setUpdatePolicy(DefaultCaret.NEVER_UPDATE);
    }
  }

  /** Narrow is possible, for it wraps; but never lower than its lines. */
  @Override
  public Dimension getMinimumSize() {
    Dimension preferred = getPreferredSize();
    int narrow = getFontMetrics(getFont()).charWidth('m') * 8;
    return new Dimension(Math.min(narrow, preferred.width), preferred.height);
  }

  private void ink() {
    Color colour =
        faint
            ? UIManager.getColor("Label.disabledForeground")
            : UIManager.getColor("Label.foreground");
    setForeground(colour);
  }
}
