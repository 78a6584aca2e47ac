package bellwire.app.desk.landing;

import bellwire.app.desk.Words;
import java.util.List;
import java.util.Set;
import javax.swing.DefaultListModel;
import javax.swing.JButton;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JToggleButton;
import javax.swing.ListSelectionModel;
import javax.swing.Timer;
import net.miginfocom.swing.MigLayout;

/** Every call played through: what the control closes, what runs, what carries the current. */
final class CallsPanel extends JPanel {
  private static final int PACE_MILLIS = 2500;

  private final LandingState state;
  private final DefaultListModel<String> model = new DefaultListModel<>();
  private final JList<String> list = new JList<>(model);
  private final Words words = new Words("");
  private final JToggleButton play = new JToggleButton("Play through");
  private final Timer timer = new Timer(PACE_MILLIS, e -> step(1));
  private boolean showing;

  CallsPanel(LandingState state) {
    super(
        new MigLayout(
            "insets 6, fill, wrap 3", "[][][grow,fill]", "[][grow 45,fill][grow 55,fill]"));
    this.state = state;
    JButton back = new JButton("Back");
    JButton next = new JButton("Next call");
    back.setName("landing.calls.back");
    next.setName("landing.calls.next");
    play.setName("landing.calls.play");
    back.addActionListener(e -> step(-1));
    next.addActionListener(e -> step(1));
    play.addActionListener(e -> playing());
    list.setName("landing.calls");
    list.getAccessibleContext().setAccessibleName("Calls of the control");
    list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    list.addListSelectionListener(
        e -> {
          if (!e.getValueIsAdjusting() && !showing) {
            chosen(list.getSelectedIndex());
          }
        });
    words.setName("landing.call");
    JScrollPane above = new JScrollPane(list, 20, 31);
    JScrollPane below = new JScrollPane(words, 20, 31);
    above.setBorder(null);
    below.setBorder(null);
    add(back);
    add(next);
    add(play, "growx 0");
    add(above, "span 3, growx, hmin 90");
    add(below, "span 3, growx, hmin 80");
    state.listen(this::refresh);
  }

  /** Out of view: nothing goes on by itself. */
  void stop() {
    timer.stop();
    play.setSelected(false);
  }

  private void playing() {
    if (play.isSelected()) {
      step(1);
      timer.start();
    } else {
      timer.stop();
    }
  }

  private void step(int by) {
    int count = model.getSize();
    if (count > 0) {
      int at = list.getSelectedIndex();
      list.setSelectedIndex(at < 0 ? (by > 0 ? 0 : count - 1) : Math.floorMod(at + by, count));
      list.ensureIndexIsVisible(list.getSelectedIndex());
    }
  }

  private void refresh() {
    Checked checked = state.checked();
    if (checked == null) {
      return;
    }
    List<String> names = checked.states().stream().map(CallsPanel::row).toList();
    if (java.util.Collections.list(model.elements()).equals(names)) {
      return;
    }
    int at = list.getSelectedIndex();
    showing = true;
    model.clear();
    names.forEach(model::addElement);
    showing = false;
    if (at >= 0 && at < names.size() && isShowing()) {
      list.setSelectedIndex(at);
    } else {
      words.setText("Choose a call, or play them through: what carries its current is lit.");
    }
  }

  private static String row(Checked.State s) {
    String mark = s.troubles().isEmpty() && !s.blank() ? "\u25CB " : "\u25B2 ";
    return mark + s.name();
  }

  private void chosen(int index) {
    Checked checked = state.checked();
    if (checked == null || index < 0 || index >= checked.states().size()) {
      state.light(Set.of());
      return;
    }
    Checked.State s = checked.states().get(index);
    words.setText(text(s));
    words.setCaretPosition(0);
    state.light(s.lit());
  }

  static String text(Checked.State s) {
    StringBuilder out = new StringBuilder("It asks for: " + s.call() + ".\n");
    if (s.blank()) {
      out.append("\u25B2 THE CONTROL IS BLANK: it has no supply and closes nothing.\n");
    } else {
      out.append("The control closes: ")
          .append(s.closed().isEmpty() ? "nothing" : String.join(", ", s.closed()))
          .append(".\n");
    }
    if (s.loads().isEmpty()) {
      out.append("\u25CB nothing runs\n");
    }
    for (Checked.Run run : s.loads()) {
      boolean well = run.word().equals("runs");
      out.append(well ? "\u25CF " : "\u25B2 ")
          .append(run.load() + " " + run.word() + ", " + run.figures())
          .append(run.wanted() ? "\n" : ", NOT ASKED FOR\n");
    }
    s.troubles().forEach(t -> out.append("\u25B2 " + t + "\n"));
    return out.toString().stripTrailing();
  }
}
