package bellwire.app.desk.landing;

import bellwire.analysis.loop.Control;
import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.landing.Described;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.app.landing.Part;
import bellwire.yaml.FileException;
import java.awt.BorderLayout;
import java.awt.Component;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import javax.swing.ButtonGroup;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JToggleButton;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** Which plan is in view, and what is at both ends of the cable. */
final class HeadRow extends JPanel {
  private static final String OWN = "described by yourself";
  private static final String UNKNOWN = "not known";
  private static final int NARROW_EMS = 64;

  private final DeskContext ctx;
  private final LandingState state;
  private final JToggleButton found = new JToggleButton("As found");
  private final JToggleButton planned = new JToggleButton("As planned");
  private final JComboBox<String> equipment = new JComboBox<>();
  private final JComboBox<String> control = new JComboBox<>();
  private final JLabel controlLabel = new JLabel();
  private boolean showing;

  HeadRow(DeskContext ctx, LandingState state) {
    super(new BorderLayout());
    this.ctx = ctx;
    this.state = state;
    ButtonGroup group = new ButtonGroup();
    toggle(found, group, Which.AS_FOUND, "landing.found");
    toggle(planned, group, Which.AS_PLANNED, "landing.planned");
    JLabel equipmentLabel = new JLabel("Equipment");
    name(equipment, equipmentLabel, "landing.equipment", "Equipment");
    name(control, controlLabel, "landing.control", "Control");
    JPanel which = new JPanel(new MigLayout("insets 0", "[][]"));
    which.add(found);
    which.add(planned);
    JPanel ends =
        new JPanel(new MigLayout("insets 0, fillx", "[][grow,fill,:280:]12[][grow,fill,:280:]"));
    ends.add(equipmentLabel);
    ends.add(equipment, "wmin 60");
    ends.add(controlLabel);
    ends.add(control, "wmin 60");
    add(new Beside(NARROW_EMS, "0", new Beside.Part(which, 20, 0), new Beside.Part(ends, 80, 0)));
    equipment.addActionListener(e -> chosen(equipment, true));
    control.addActionListener(e -> chosen(control, false));
    state.listen(this::refresh);
  }

  private void toggle(JToggleButton button, ButtonGroup group, Which which, String name) {
    button.setName(name);
    group.add(button);
    button.addActionListener(e -> state.which(which));
  }

  private static void name(JComboBox<String> box, JLabel label, String name, String words) {
    box.setName(name);
    box.getAccessibleContext().setAccessibleName(words);
    label.setLabelFor(box);
    box.setRenderer(
        new DefaultListCellRenderer() {
          @Override
          public Component getListCellRendererComponent(
              JList<?> of, Object value, int index, boolean selected, boolean focus) {
            // A file's name, for people.
            String shown = value == null ? "" : value.toString().replace('-', ' ');
            return super.getListCellRendererComponent(of, shown, index, selected, focus);
          }
        });
  }

  private void refresh() {
    LandingDraft draft = state.draft();
    if (draft == null) {
      return;
    }
    showing = true;
    boolean asFound = state.which() == Which.AS_FOUND;
    found.setSelected(asFound);
    planned.setSelected(!asFound);
    fill(equipment, Described.EQUIPMENT, draft.equipment(), false);
    controlLabel.setText(asFound ? "Old control" : "New control");
    control.getAccessibleContext().setAccessibleName(controlLabel.getText());
    fill(control, Described.CONTROLS, asFound ? draft.oldControl() : draft.control(), asFound);
    showing = false;
  }

  private static void fill(
      JComboBox<String> box, List<String> names, @Nullable Part part, boolean mayBeUnknown) {
    List<String> items = new ArrayList<>(names);
    if (mayBeUnknown) {
      items.add(0, UNKNOWN);
    }
    String selected = part == null ? UNKNOWN : part.described() ? OWN : part.text();
    if (!items.contains(selected)) {
      items.add(selected);
    }
    List<String> there = new ArrayList<>();
    for (int i = 0; i < box.getItemCount(); i++) {
      there.add(box.getItemAt(i));
    }
    if (!there.equals(items)) {
      box.removeAllItems();
      items.forEach(box::addItem);
    }
    box.setSelectedItem(selected);
  }

  private void chosen(JComboBox<String> box, boolean ofEquipment) {
    LandingDraft draft = state.draft();
    String name = (String) box.getSelectedItem();
    if (showing || draft == null || name == null || name.equals(OWN)) {
      return;
    }
    boolean asFound = state.which() == Which.AS_FOUND;
    try {
      LandingDraft after =
          ofEquipment
              ? draft.withEquipment(new Part(name))
              : asFound
                  ? draft.withOldControl(name.equals(UNKNOWN) ? null : new Part(name))
                  : draft.withControl(new Part(name));
      int freed = landed(draft) - landed(after);
      state.edit((ofEquipment ? "equipment: " : "control: ") + name, after);
      if (freed > 0) {
        ctx.notices()
            .note(
                (freed == 1 ? "One end is" : freed + " ends are")
                    + " free now: the terminal is not on "
                    + Objects.requireNonNull(title(after, ofEquipment))
                    + ". Ctrl+Z takes it back.");
      }
    } catch (FileException e) {
      ctx.notices().trouble(e);
    }
  }

  private @Nullable String title(LandingDraft after, boolean ofEquipment) {
    Control now = after.control(state.which());
    return ofEquipment || now == null ? after.landing().equipment().title() : now.title();
  }

  private static int landed(LandingDraft draft) {
    int ends = 0;
    for (Which which : Which.values()) {
      for (var l : draft.plan(which).landed()) {
        ends += (l.near() == null ? 0 : 1) + (l.far() == null ? 0 : 1);
      }
    }
    return ends;
  }
}
