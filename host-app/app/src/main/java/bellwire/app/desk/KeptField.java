package bellwire.app.desk;

import java.awt.event.FocusAdapter;
import java.awt.event.FocusEvent;
import javax.swing.JTextField;
import javax.swing.Timer;
import javax.swing.text.JTextComponent;

/**
 * A text that keeps itself: a little after the last key, some seconds after the first at the
 * latest, on Enter, when the keyboard goes elsewhere, before an undo, a change of page and closing.
 * A program that is killed so loses {@link #LATEST_MILLIS} of what was typed at most.
 */
public final class KeptField {
  static final int SOON_MILLIS = 700;
  static final int LATEST_MILLIS = 3000;

  private final JTextComponent field;
  private final Runnable keep;
  private final Timer soon = new Timer(SOON_MILLIS, e -> kept());
  private final Timer latest = new Timer(LATEST_MILLIS, e -> kept());
  private boolean filling;

  /**
   * @param keep keeps what the field has now; called on the event thread, also where nothing was
   *     typed
   */
  public KeptField(DeskContext ctx, JTextComponent field, Runnable keep) {
    this.field = field;
    this.keep = keep;
    soon.setRepeats(false);
    latest.setRepeats(false);
    field.getDocument().addDocumentListener(new Typed(this::typed));
    field.addFocusListener(
        new FocusAdapter() {
          @Override
          public void focusLost(FocusEvent e) {
            kept();
          }
        });
    if (field instanceof JTextField line) {
      line.addActionListener(e -> kept());
    }
    ctx.onFlush(this::kept);
    ctx.onClose(this::stop);
  }

  /** Whether something was typed that is not kept yet. */
  public boolean typing() {
    return latest.isRunning();
  }

  /** Shows a text that nobody typed. */
  public void fill(String text) {
    filling = true;
    field.setText(text);
    field.setCaretPosition(0);
    filling = false;
  }

  private void stop() {
    soon.stop();
    latest.stop();
  }

  private void kept() {
    stop();
    keep.run();
  }

  private void typed() {
    if (!filling) {
      soon.restart();
      latest.start();
    }
  }
}
