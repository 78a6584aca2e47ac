package bellwire.app.desk.survey;

import bellwire.app.job.CableRow;
import java.util.ArrayList;
import java.util.List;
import javax.swing.DefaultComboBoxModel;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** Which cable, and which of its surveys or a new one. */
final class ChoiceRow extends JPanel {
  /** A row of a choice: its key in the job, 0 for a new one. */
  private record Item(long id, String words) {
    @Override
    public String toString() {
      return words;
    }
  }

  private final SurveyState state;
  private final JComboBox<Item> cables = new JComboBox<>();
  private final JComboBox<Item> surveys = new JComboBox<>();
  private boolean showing;

  ChoiceRow(SurveyState state) {
    super(new MigLayout("insets 0, fillx", "[][grow 30,fill,:240:]16[][grow 70,fill]"));
    this.state = state;
    add(label("Cable", cables, "survey.cable"));
    add(cables, "wmin 80");
    add(label("Survey", surveys, "survey.survey"));
    add(surveys, "wmin 120");
    cables.addActionListener(
        e -> {
          Item item = (Item) cables.getSelectedItem();
          if (!showing && item != null) {
            state.cable(item.id());
          }
        });
    surveys.addActionListener(
        e -> {
          Item item = (Item) surveys.getSelectedItem();
          if (!showing && item != null) {
            state.survey(item.id());
          }
        });
    state.listen(this::refresh);
  }

  private static JLabel label(String words, JComboBox<?> box, String name) {
    JLabel label = new JLabel(words);
    label.setLabelFor(box);
    box.setName(name);
    box.getAccessibleContext().setAccessibleName(words);
    return label;
  }

  private void refresh() {
    showing = true;
    Snapshot now = state.now();
    List<Item> all = new ArrayList<>();
    for (CableRow c : now.cables()) {
      String name = c.id() == now.cable().id() ? now.cable().name() : c.name();
      all.add(new Item(c.id(), name.isBlank() ? "cable " + c.id() : name));
    }
    all.add(new Item(-1, now.cables().isEmpty() ? "a first cable" : "another cable \u2026"));
    fill(cables, all, now.cable().id() == 0 ? -1 : now.cable().id());
    List<Item> done = new ArrayList<>();
    done.add(new Item(0, "prepare a new one"));
    List<Seen> seen = now.surveys();
    for (int i = seen.size() - 1; i >= 0; i--) {
      done.add(new Item(seen.get(i).row().id(), seen.get(i).title()));
    }
    fill(surveys, done, state.seen().map(s -> s.row().id()).orElse(0L));
    showing = false;
  }

  private static void fill(JComboBox<Item> box, List<Item> items, long selected) {
    List<Item> there = new ArrayList<>();
    for (int i = 0; i < box.getItemCount(); i++) {
      there.add(box.getItemAt(i));
    }
    if (!there.equals(items)) {
      box.setModel(new DefaultComboBoxModel<>(items.toArray(new Item[0])));
    }
    @Nullable Item chosen = null;
    for (Item item : items) {
      chosen = item.id() == selected ? item : chosen;
    }
    box.setSelectedItem(chosen);
  }
}
