package bellwire.app.desk;

import javax.swing.event.DocumentEvent;
import javax.swing.event.DocumentListener;

/** Tells of every change of a text, whatever it is. */
public record Typed(Runnable changed) implements DocumentListener {
  @Override
  public void insertUpdate(DocumentEvent e) {
    changed.run();
  }

  @Override
  public void removeUpdate(DocumentEvent e) {
    changed.run();
  }

  @Override
  public void changedUpdate(DocumentEvent e) {
    changed.run();
  }
}
