package bellwire.app.desk.finish;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.KeptField;
import bellwire.app.desk.Words;
import bellwire.app.job.Checklist;
import bellwire.app.job.Tick;
import java.util.EnumMap;
import java.util.Locale;
import java.util.Map;
import javax.swing.ButtonGroup;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import javax.swing.JToggleButton;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** One item of the checklist: what it asks for, how it stands, how that is known, by whom. */
final class ItemPanel extends JPanel {
  private final Ticks ticks;
  private final Words title = new Words("", 20, true);
  private final Words how = new Words("");
  private final Map<Tick.State, JToggleButton> states = new EnumMap<>(Tick.State.class);
  private final Map<Tick.Basis, JToggleButton> bases = new EnumMap<>(Tick.Basis.class);
  private final JTextField by = new JTextField();
  private final JTextField note = new JTextField();
  private Checklist.@Nullable Item item;

  ItemPanel(DeskContext ctx, Ticks ticks) {
    super(new MigLayout("insets 0 16 0 0, gap 8, wrap 1, hidemode 3", "[grow,fill]"));
    this.ticks = ticks;
    setName("finish.item");
    add(title);
    add(how);
    add(new JLabel("How it stands"), "gaptop 8");
    add(states(ctx));
    add(new JLabel("How that is known"), "gaptop 8");
    add(bases());
    field(ctx, "By whom", by, "finish.by");
    field(ctx, "Note", note, "finish.note");
  }

  private JPanel states(DeskContext ctx) {
    JPanel row = new JPanel(new MigLayout("insets 0, gap 8, wrap 2", "[grow,fill]8[grow,fill]"));
    ButtonGroup group = new ButtonGroup();
    for (Tick.State state :
        new Tick.State[] {
          Tick.State.DONE, Tick.State.NOT_DONE, Tick.State.NOT_NEEDED, Tick.State.OPEN
        }) {
      JToggleButton button = button(TickMark.word(state), "finish." + key(state), group);
      button.setIcon(new TickMark(ctx, state));
      button.addActionListener(e -> state(state));
      states.put(state, button);
      row.add(button);
    }
    return row;
  }

  private JPanel bases() {
    JPanel row = new JPanel(new MigLayout("insets 0, gap 8", "[grow,fill][grow,fill][grow,fill]"));
    ButtonGroup group = new ButtonGroup();
    for (Tick.Basis basis : Tick.Basis.values()) {
      JToggleButton button = button(TickMark.word(basis), "finish." + key(basis), group);
      button.addActionListener(e -> basis(basis));
      bases.put(basis, button);
      row.add(button);
    }
    tip(Tick.Basis.MEASURED, "An instrument said so: a level, a gauge, a meter");
    tip(Tick.Basis.WITNESSED, "A person saw, felt or did it");
    tip(Tick.Basis.ASSUMED, "Nobody looked");
    return row;
  }

  private void tip(Tick.Basis basis, String words) {
    JToggleButton button = bases.get(basis);
    if (button != null) {
      button.setToolTipText(words);
      button.getAccessibleContext().setAccessibleDescription(words);
    }
  }

  private static String key(Enum<?> value) {
    return value.name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  private static JToggleButton button(String words, String name, ButtonGroup group) {
    JToggleButton button = new JToggleButton(words);
    button.setName(name);
    group.add(button);
    return button;
  }

  private void field(DeskContext ctx, String words, JTextField field, String name) {
    JLabel label = new JLabel(words);
    label.setLabelFor(field);
    field.setName(name);
    field.getAccessibleContext().setAccessibleName(words);
    var unused = new KeptField(ctx, field, this::keepTexts);
    add(label, "gaptop 8");
    add(field);
  }

  /** Another item, or the same one anew; what is being typed into it stays. */
  void show(Checklist.Item shown) {
    boolean other = item == null || !item.key().equals(shown.key());
    if (other) {
      keepTexts();
    }
    item = shown;
    Tick tick = ticks.of(shown);
    title.setText(shown.words());
    how.setText(shown.how());
    select(states.get(tick.state()));
    boolean open = tick.state() == Tick.State.OPEN;
    bases.values().forEach(button -> button.setEnabled(!open));
    select(bases.get(tick.basis()));
    if (other || !by.isFocusOwner()) {
      by.setText(tick.by());
    }
    if (other || !note.isFocusOwner()) {
      note.setText(tick.note());
    }
  }

  private static void select(@Nullable JToggleButton button) {
    if (button != null) {
      button.setSelected(true);
    }
  }

  /** Done is witnessed until somebody says otherwise; not done and not needed as well. */
  void state(Tick.State state) {
    Checklist.Item shown = item;
    if (shown != null) {
      ticks.put(shown, state, ticks.of(shown).basis(), by.getText(), note.getText());
    }
  }

  private void basis(Tick.Basis basis) {
    Checklist.Item shown = item;
    if (shown != null) {
      ticks.put(shown, ticks.of(shown).state(), basis, by.getText(), note.getText());
    }
  }

  private void keepTexts() {
    Checklist.Item shown = item;
    if (shown != null) {
      Tick tick = ticks.of(shown);
      ticks.put(shown, tick.state(), tick.basis(), by.getText(), note.getText());
    }
  }
}
