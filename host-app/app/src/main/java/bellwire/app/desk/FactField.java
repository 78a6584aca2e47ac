package bellwire.app.desk;

import bellwire.app.job.Fact;
import bellwire.app.visit.Change;
import javax.swing.Timer;
import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;
import javax.swing.text.JTextComponent;

/**
 * A fact of the visit as a field that keeps itself: a little after the last key, when the keyboard
 * goes elsewhere, before an undo and before closing. Each keeping is one edit to take back.
 */
final class FactField {
  private static final int SOON_MILLIS = 700;

  private final DeskContext ctx;
  private final Fact fact;
  private final String words;
  private final JTextComponent field;
  private final Runnable kept;
  private final Timer soon = new Timer(SOON_MILLIS, e -> keep());
  private String last = "";
  private boolean filling;

  /**
   * @param words what it is, in the words of its label
   * @param kept told when the file has it
   */
  FactField(DeskContext ctx, Fact fact, String words, JTextComponent field, Runnable kept) {
    this.ctx = ctx;
    this.fact = fact;
    this.words = words;
    this.field = field;
    this.kept = kept;
    soon.setRepeats(false);
    field.setName("visit." + fact.name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'));
    field.getAccessibleContext().setAccessibleName(words);
    field.getDocument().addDocumentListener(new Typed());
    field.addFocusListener(
        new java.awt.event.FocusAdapter() {
          @Override
          public void focusLost(java.awt.event.FocusEvent e) {
            keep();
          }
        });
    ctx.onFlush(this::keep);
  }

  String text() {
    return field.getText().trim();
  }

  /** As the file has it; what is being typed stays. */
  void load(String text) {
    if (!soon.isRunning() && !text.equals(last)) {
      last = text;
      fill(text);
    }
  }

  private void fill(String text) {
    filling = true;
    field.setText(text);
    field.setCaretPosition(0);
    filling = false;
  }

  private void keep() {
    soon.stop();
    String before = last;
    String now = text();
    if (!now.equals(before)) {
      put(now);
      ctx.undo().did("visit", words + " changed", () -> again(before), () -> again(now));
    }
  }

  private void again(String text) {
    put(text);
    fill(text);
    field.requestFocusInWindow();
  }

  private void put(String text) {
    last = text;
    ctx.later(
        ctx.visit()
            .change(
                Change.FACTS,
                records -> {
                  records.fact(fact, text);
                  return text;
                }),
        done -> kept.run());
  }

  private final class Typed implements DocumentListener {
    @Override
    public void insertUpdate(DocumentEvent e) {
      changed();
    }

    @Override
    public void removeUpdate(DocumentEvent e) {
      changed();
    }

    @Override
    public void changedUpdate(DocumentEvent e) {
      changed();
    }

    private void changed() {
      if (!filling) {
        soon.restart();
      }
    }
  }
}
