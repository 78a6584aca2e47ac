package bellwire.app.desk.landing;

import bellwire.analysis.loop.Control;
import bellwire.analysis.loop.Point;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import java.util.List;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** Jumpers, on or off, and the control's settings. */
final class FittingsRow extends JPanel {
  private final LandingState state;
  private @Nullable Control shown;
  private List<Control.Jumper> jumpers = List.of();
  private @Nullable Which which;
  private boolean showing;

  FittingsRow(LandingState state) {
    super(new MigLayout("insets 0, wrap 6, gapx 10"));
    this.state = state;
    setName("landing.fittings");
    state.listen(this::refresh);
  }

  private void refresh() {
    LandingDraft draft = state.draft();
    if (draft == null) {
      return;
    }
    showing = true;
    Control control = draft.control(state.which());
    boolean same =
        state.which() == which
            && control == shown
            && draft.jumpers(state.which()).equals(jumpers)
            && getComponentCount() > 0;
    if (!same) {
      which = state.which();
      shown = control;
      jumpers = draft.jumpers(state.which());
      build(control);
    }
    values(draft);
    showing = false;
  }

  private void build(@Nullable Control control) {
    removeAll();
    for (Control.Jumper jumper : jumpers) {
      add(box(jumper));
    }
    List<Control.Setting> settings = control == null ? List.of() : control.settings();
    for (Control.Setting setting : settings) {
      JComboBox<String> choice = new JComboBox<>(setting.choices().toArray(new String[0]));
      choice.setName("landing.setting." + setting.name());
      choice
          .getAccessibleContext()
          .setAccessibleName("setting " + setting.name().replace('-', ' '));
      choice.addActionListener(e -> set(setting, (String) choice.getSelectedItem()));
      JLabel label = new JLabel(setting.name().replace('-', ' '));
      label.setLabelFor(choice);
      add(label, "split 2, gapright 4");
      add(choice, "wmin 60");
    }
    if (getComponentCount() == 0) {
      add(new JLabel("No jumpers and no settings."));
    }
    revalidate();
    repaint();
  }

  private JCheckBox box(Control.Jumper jumper) {
    String side = jumper.side() == Point.Side.NEAR ? " at the equipment" : " at the control";
    String words = "jumper " + jumper.a() + " to " + jumper.b();
    JCheckBox box = new JCheckBox(words);
    box.setName("landing.jumper." + jumper.a() + "-" + jumper.b());
    box.getAccessibleContext().setAccessibleName(words + side);
    box.addActionListener(
        e -> {
          LandingDraft draft = state.draft();
          if (!showing && draft != null) {
            state.edit(
                words + (box.isSelected() ? " fitted" : " left out"),
                draft.jumper(state.which(), jumper, box.isSelected()));
          }
        });
    box.putClientProperty("jumper", jumper);
    return box;
  }

  private void set(Control.Setting setting, @Nullable String choice) {
    LandingDraft draft = state.draft();
    if (!showing && draft != null && choice != null) {
      state.edit(
          setting.name() + " set to " + choice,
          draft.setting(state.which(), setting.name(), choice));
    }
  }

  private void values(LandingDraft draft) {
    var plan = draft.plan(state.which());
    for (var part : getComponents()) {
      if (part instanceof JCheckBox box
          && box.getClientProperty("jumper") instanceof Control.Jumper jumper) {
        box.setSelected(fitted(plan.jumpers(), jumper));
      } else if (part instanceof JComboBox<?> choice) {
        String name = choice.getName().substring("landing.setting.".length());
        choice.setSelectedItem(plan.settings().get(name));
      }
    }
  }

  private static boolean fitted(java.util.Set<Control.Jumper> fitted, Control.Jumper jumper) {
    return fitted.contains(jumper)
        || fitted.contains(new Control.Jumper(jumper.side(), jumper.b(), jumper.a()));
  }
}
