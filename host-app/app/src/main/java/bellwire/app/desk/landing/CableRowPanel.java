package bellwire.app.desk.landing;

import bellwire.app.desk.DeskContext;
import bellwire.app.job.CableRow;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import java.util.ArrayList;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** Which cable, where the job has several; and a newer survey of it, to be taken over. */
final class CableRowPanel extends JPanel {
  private record Item(long id, String words) {
    @Override
    public String toString() {
      return words;
    }
  }

  private final DeskContext ctx;
  private final LandingState state;
  private final JLabel label = new JLabel("Cable");
  private final JComboBox<Item> cables = new JComboBox<>();
  private final JButton take = new JButton("Take the newest survey's conductors over");
  private boolean showing;

  CableRowPanel(DeskContext ctx, LandingState state) {
    super(new MigLayout("insets 0, hidemode 3", "[][]18[]"));
    this.ctx = ctx;
    this.state = state;
    cables.setName("landing.cable");
    cables.getAccessibleContext().setAccessibleName("Cable");
    label.setLabelFor(cables);
    take.setName("landing.takeSurvey");
    take.getAccessibleContext()
        .setAccessibleDescription("Conductors of the same name stay landed; it can be taken back.");
    add(label);
    add(cables, "wmin 80");
    add(take);
    cables.addActionListener(
        e -> {
          Item item = (Item) cables.getSelectedItem();
          if (!showing && item != null) {
            state.cable(item.id());
          }
        });
    take.addActionListener(e -> take());
    setVisible(false);
    state.listen(this::refresh);
  }

  private void refresh() {
    showing = true;
    List<Item> items = new ArrayList<>();
    for (CableRow row : state.known().cables()) {
      items.add(new Item(row.id(), row.name().isBlank() ? "cable " + row.id() : row.name()));
    }
    List<Item> there = new ArrayList<>();
    for (int i = 0; i < cables.getItemCount(); i++) {
      there.add(cables.getItemAt(i));
    }
    if (!there.equals(items)) {
      cables.removeAllItems();
      items.forEach(cables::addItem);
    }
    items.stream()
        .filter(i -> i.id() == state.cable())
        .findFirst()
        .ifPresent(cables::setSelectedItem);
    boolean several = items.size() > 1;
    label.setVisible(several);
    cables.setVisible(several);
    boolean newer = state.withSurvey() != null;
    take.setVisible(newer);
    boolean shown = several || newer;
    if (shown != isVisible()) {
      setVisible(shown);
    }
    showing = false;
  }

  private void take() {
    LandingDraft before = state.draft();
    @Nullable LandingDraft after = state.withSurvey();
    if (before == null || after == null) {
      return;
    }
    List<String> gone = new ArrayList<>();
    for (Which which : Which.values()) {
      before.plan(which).landed().stream()
          .filter(l -> l.near() != null || l.far() != null)
          .map(l -> l.conductor())
          .filter(
              name ->
                  after.plan(which).landed().stream().noneMatch(l -> l.conductor().equals(name)))
          .filter(name -> !gone.contains(name))
          .forEach(gone::add);
    }
    state.edit("the survey's conductors taken over", after);
    ctx.notices()
        .note(
            "The landing has the survey's conductors now, with their resistances and faults."
                + (gone.isEmpty()
                    ? ""
                    : " Not in the survey, so not landed any more: "
                        + String.join(", ", gone)
                        + ".")
                + " Ctrl+Z takes it back.");
  }
}
