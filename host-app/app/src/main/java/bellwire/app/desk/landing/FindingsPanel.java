package bellwire.app.desk.landing;

import bellwire.analysis.landing.Found;
import bellwire.app.desk.Words;
import bellwire.app.landing.LandingDraft;
import java.awt.Component;
import java.util.List;
import java.util.Set;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.ListSelectionModel;
import net.miginfocom.swing.MigLayout;

/** What the check finds, as one edits; the one chosen is lit along the conductors. */
final class FindingsPanel extends JPanel {
  private static final int LEAST_ROWS = 2;
  private static final int MOST_ROWS = 5;

  private final LandingState state;
  private final Words head = new Words(" ", 17, true);
  private final DefaultListModel<Found> model = new DefaultListModel<>();
  private final JList<Found> list = new JList<>(model);
  private final Words words = new Words("");
  private final JScrollPane listed;
  private boolean showing;

  FindingsPanel(LandingState state) {
    super(
        new MigLayout(
            "insets 8 6 6 6, fill, wrap 1, hidemode 3", "[grow,fill]", "[][][grow,fill]"));
    this.state = state;
    head.setName("landing.verdict");
    list.setName("landing.findings");
    list.getAccessibleContext().setAccessibleName("Findings");
    list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    list.setCellRenderer(new Row());
    list.addListSelectionListener(
        e -> {
          if (!e.getValueIsAdjusting() && !showing) {
            chosen(list.getSelectedIndex());
          }
        });
    words.setName("landing.finding");
    listed = scroll(list);
    rows(0);
    add(head, "wmin 0");
    add(listed, "hmin 48, wmin 0");
    add(scroll(words), "hmin 100, wmin 0");
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

  /** As many rows as there are findings, a few at least; what they say has the rest. */
  private void rows(int count) {
    list.setVisibleRowCount(Math.max(LEAST_ROWS, Math.min(MOST_ROWS, count)));
    listed.setVisible(count > 0);
    revalidate();
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
    rows(found.size());
    words.setText(
        found.isEmpty() ? "" : "Choose a finding: its current is lit along the conductors.");
  }

  private void chosen(int index) {
    Checked checked = state.checked();
    if (checked == null || index < 0 || index >= checked.found().size()) {
      state.light(Set.of());
      return;
    }
    FindingWay way = checked.ways().get(index);
    words.setText(text(checked.found().get(index), way));
    words.setCaretPosition(0);
    state.light(way.keys());
  }

  /** Chooses the worst. */
  void first() {
    if (model.getSize() > 0) {
      list.setSelectedIndex(0);
      list.requestFocusInWindow();
    }
  }

  static String text(Found f, FindingWay along) {
    String first =
        f.words().isEmpty()
            ? ""
            : Character.toUpperCase(f.words().charAt(0)) + f.words().substring(1);
    String when = f.states().isEmpty() ? "" : "\n\nWhen: " + String.join("; ", f.states()) + ".";
    String way = f.path().isEmpty() ? "" : "\n\nIts current: " + String.join(" \u203A ", f.path());
    for (String closed : along.words()) {
      way += "\n\n" + Character.toUpperCase(closed.charAt(0)) + closed.substring(1);
    }
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
