package bellwire.app.desk.vigil;

import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Words;
import bellwire.app.vigil.HeatBy;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilPrompts;
import bellwire.app.vigil.VigilView;
import java.awt.event.ActionEvent;
import java.time.ZonedDateTime;
import java.util.function.Consumer;
import javax.swing.AbstractAction;
import javax.swing.BorderFactory;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextField;
import javax.swing.KeyStroke;
import net.miginfocom.swing.MigLayout;

/** A vigil under way. */
final class VigilWatching extends JPanel {
  private static final long serialVersionUID = 1L;
  private static final long MEBI = 1 << 20;
  private static final int NARROW_EMS = 52;

  private final Words headline = new Words("", 22, true);
  private final Words state = new Words("", 16, false);
  private final Words lastNote = new Words("");
  private final VigilRows rows;
  private final ChartBox box;
  private final JButton shook = new JButton("Mark: " + VigilPrompts.SHOOK + "  (Space)");
  private final JTextField note = new JTextField(16);

  /** What a person can do with it. */
  record Doings(Consumer<String> mark, Runnable leave, Runnable end) {}

  VigilWatching(DeskContext ctx, Doings doings) {
    super(new MigLayout("insets 10, fill, wrap 1", "[grow, fill]", "[][][grow, fill]"));
    setName("vigil.watching");
    rows = new VigilRows(ctx);
    box = new ChartBox(ctx, "vigil.live");
    headline.setName("vigil.headline");
    state.setName("vigil.link");
    add(headline, "growx, wmin 0");
    add(state, "growx, wmin 0");
    add(
        new Beside(
            NARROW_EMS, "0", new Beside.Part(left(doings), 45, 20), new Beside.Part(box, 55, 22)));
    keys(doings);
  }

  private JComponent left(Doings doings) {
    JPanel left =
        new JPanel(new MigLayout("insets 0, fill, wrap 1", "[grow, fill]", "[grow, fill][][]"));
    JScrollPane scrolled = new JScrollPane(rows);
    scrolled.setBorder(BorderFactory.createEmptyBorder());
    scrolled.getVerticalScrollBar().setUnitIncrement(44);
    left.add(scrolled, "hmin 120");
    shook.setName("vigil.mark");
    shook.addActionListener(e -> doings.mark().accept(VigilPrompts.SHOOK));
    left.add(shook, "hmin 64");
    JPanel notes =
        new JPanel(new MigLayout("insets 0, fillx", "[grow 60, fill][grow 40, fill]", ""));
    note.setName("vigil.note");
    note.getAccessibleContext().setAccessibleName("Another note at this moment");
    note.putClientProperty("JTextField.placeholderText", "another note, then Enter");
    note.addActionListener(
        e -> {
          if (!note.getText().isBlank()) {
            doings.mark().accept(note.getText().strip());
            note.setText("");
          }
        });
    notes.add(note, "span, growx, hmin 40, wmin 120");
    JButton leave = new JButton("Let the board go on alone");
    leave.setName("vigil.leave");
    leave.addActionListener(e -> doings.leave().run());
    JButton end = new JButton("End the vigil…");
    end.setName("vigil.end");
    end.addActionListener(e -> doings.end().run());
    notes.add(leave, "growx, hmin 40, wmin 0");
    notes.add(end, "growx, hmin 40, wmin 0, wrap");
    notes.add(lastNote, "span, growx");
    left.add(notes);
    return left;
  }

  /** Space marks, wherever the keyboard is but in the note's field. */
  private void keys(Doings doings) {
    getInputMap(JComponent.WHEN_ANCESTOR_OF_FOCUSED_COMPONENT)
        .put(KeyStroke.getKeyStroke("SPACE"), "mark");
    getActionMap()
        .put(
            "mark",
            new AbstractAction() {
              private static final long serialVersionUID = 1L;

              @Override
              public void actionPerformed(ActionEvent e) {
                if (!note.isFocusOwner()) {
                  doings.mark().accept(VigilPrompts.SHOOK);
                }
              }
            });
  }

  JComponent focus() {
    return shook;
  }

  StripChart chart() {
    return box.chart();
  }

  /** The keyboard goes to the large key. */
  void begin(VigilOrder order) {
    headline.setText(VigilOrder.name(order.kind()) + ": beginning");
    state.setText("");
    lastNote.setText("");
    rows.show(java.util.List.of());
    shook.requestFocusInWindow();
  }

  void noted(String text) {
    lastNote.setText("noted: " + text);
  }

  void show(VigilOrder order, VigilView view, long hereBytes) {
    String heat = HeatBy.of(order.note()).live(ZonedDateTime.now());
    headline.setText(
        VigilOrder.name(order.kind())
            + ": watched "
            + VigilRows.seconds(view.watchedMicros())
            + ", "
            + VigilRows.seconds(view.leftMicros())
            + " to go"
            + (heat.isEmpty() ? "" : ".  " + heat));
    state.setText(
        (view.up() ? "● linked" : "▲ LINK LOST, the board goes on alone")
            + ";  disk: "
            + (hereBytes < 0 ? "…" : room(hereBytes) + " here")
            + (view.boardDiskBytes() > 0
                ? ", " + room(view.boardDiskBytes()) + " at the board"
                : "; the board keeps no record of its own")
            + (view.lost() > 0 ? ";  ▲ " + view.lost() + " messages LOST" : ""));
    rows.show(view.rows());
  }

  private static String room(long bytes) {
    return bytes >= 10 * 1024 * MEBI
        ? bytes / (1024 * MEBI) + " GiB"
        : Math.max(0, bytes / MEBI) + " MiB";
  }
}
