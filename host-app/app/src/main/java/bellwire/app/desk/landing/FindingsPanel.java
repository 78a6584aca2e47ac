package bellwire.app.desk.landing;

import bellwire.analysis.landing.Found;
import bellwire.app.desk.Words;
import bellwire.app.landing.LandingDraft;
import java.awt.Component;
import java.util.List;
import java.util.Set;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.ListSelectionModel;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** What the check finds, as one edits; the one chosen is lit along the conductors. */
final class FindingsPanel extends JPanel {
  private final LandingState state;
  private final JLabel head = new JLabel(" ");
  private final DefaultListModel<Found> model = new DefaultListModel<>();
  private final JList<Found> list = new JList<>(model);
  private final Words words = new Words("");
  private boolean showing;

  FindingsPanel(LandingState state) {
    super(new MigLayout("insets 6, fill, wrap 1", "[grow,fill]", "[][grow 40,fill][grow 60,fill]"));
    this.state = state;
    head.setName("landing.verdict");
    head.putClientProperty("FlatLaf.style", "font: bold 17");
    list.setName("landing.findings");
    list.getAccessibleContext().setAccessibleName("Findings");
    list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    list.setCellRenderer(new Row());
    list.addListSelectionListener(
        e -> {
          if (!e.getValueIsAdjusting() && !showing) {
            chosen(list.getSelectedValue());
          }
        });
    words.setName("landing.finding");
    add(head);
    add(scroll(list), "hmin 90");
    add(scroll(words), "hmin 60");
    state.listen(this::refresh);
  }

  private static JScrollPane scroll(Component inner) {
    JScrollPane pane = new JScrollPane(inner, 20, 31);
    pane.setBorder(null);
    return pane;
  }

  private void refresh() {
    LandingDraft draft = state.draft();
    Checked checked = state.checked();
    if (draft == null) {
      return;
    }
    if (checked == null) {
      boolean possible = draft.control(state.which()) != null;
      head.setText(possible ? "Checking …" : "Not checked");
      if (!possible) {
        fill(List.of());
        words.setText(
            "What closed the calls as found is not known: choose the old control above. A plan"
                + " needs only its letters.");
      }
      return;
    }
    long faults = checked.faults();
    head.setText(
        faults == 0
            ? "\u25CB  No finding: every call does what it should, as far as is told"
            : "\u25B2  "
                + faults
                + (faults == 1 ? " finding" : " findings")
                + ": not ready for power");
    fill(checked.found());
  }

  private void fill(List<Found> found) {
    List<Found> there = java.util.Collections.list(model.elements());
    if (there.equals(found)) {
      return;
    }
    showing = true;
    model.clear();
    found.forEach(model::addElement);
    showing = false;
    words.setText(
        found.isEmpty() ? "" : "Choose a finding: its current is lit along the conductors.");
  }

  private void chosen(@Nullable Found found) {
    LandingDraft draft = state.draft();
    if (found == null || draft == null) {
      state.light(Set.of());
      return;
    }
    words.setText(text(found));
    words.setCaretPosition(0);
    state.light(new PathKeys(draft, state.which()).of(path(found)));
  }

  /** Chooses the worst. */
  void first() {
    if (model.getSize() > 0) {
      list.setSelectedIndex(0);
      list.requestFocusInWindow();
    }
  }

  /** Where it has no current, what it is about. */
  private static List<String> path(Found found) {
    return found.path().isEmpty() ? found.where() : found.path();
  }

  static String text(Found f) {
    String first =
        f.words().isEmpty()
            ? ""
            : Character.toUpperCase(f.words().charAt(0)) + f.words().substring(1);
    String when = f.states().isEmpty() ? "" : "\n\nWhen: " + String.join("; ", f.states()) + ".";
    String way = f.path().isEmpty() ? "" : "\n\nIts current: " + String.join(" \u203A ", f.path());
    return first + "." + when + "\n\nWhat to do: " + f.kind().remedy() + way;
  }

  private static final class Row extends DefaultListCellRenderer {
    @Override
    public Component getListCellRendererComponent(
        JList<?> list, Object value, int index, boolean selected, boolean focus) {
      Found f = (Found) value;
      String mark = f.notice() ? "\u25C7 worth knowing: " : "\u25B2 ";
      return super.getListCellRendererComponent(
          list, mark + f.kind().title(), index, selected, focus);
    }
  }
}
