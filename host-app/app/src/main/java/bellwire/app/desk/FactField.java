package bellwire.app.desk;

import bellwire.app.job.Fact;
import bellwire.app.visit.Change;
import javax.swing.text.JTextComponent;

/**
 * A fact of the visit as a field that keeps itself: a little after the last key, when the keyboard
 * goes elsewhere, before an undo and before closing. Each keeping is one edit to take back.
 */
final class FactField {
  private final DeskContext ctx;
  private final Fact fact;
  private final String words;
  private final JTextComponent field;
  private final Runnable kept;
  private final KeptField keeper;
  private String last = "";

  private int edits;

  /** The last edit that the file has taken; what it has not taken stays in the field. */
  private int inFile;

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
    field.setName("visit." + fact.name().toLowerCase(java.util.Locale.ROOT).replace('_', '-'));
    field.getAccessibleContext().setAccessibleName(words);
    keeper = new KeptField(ctx, field, this::keep);
  }

  String text() {
    return field.getText().trim();
  }

  /** As the file has it; what is being typed stays. */
  void load(String text) {
    if (!keeper.typing() && inFile == edits && !text.equals(last)) {
      last = text;
      keeper.fill(text);
    }
  }

  private void keep() {
    String before = last;
    String now = text();
    if (!now.equals(before)) {
      put(now);
      ctx.undo().did("visit", words + " changed", () -> again(before), () -> again(now));
    }
  }

  private void again(String text) {
    put(text);
    keeper.fill(text);
    field.requestFocusInWindow();
  }

  private void put(String text) {
    last = text;
    int mine = ++edits;
    ctx.later(
        ctx.visit()
            .change(
                Change.FACTS,
                records -> {
                  records.fact(fact, text);
                  return text;
                }),
        done -> {
          inFile = Math.max(inFile, mine);
          kept.run();
        });
  }
}
