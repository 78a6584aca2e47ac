package bellwire.app.desk.finish;

import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.job.Checklist;
import bellwire.app.job.Tick;
import java.awt.Component;
import java.awt.event.ActionEvent;
import javax.swing.AbstractAction;
import javax.swing.DefaultListCellRenderer;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.KeyStroke;
import javax.swing.ListSelectionModel;
import net.miginfocom.swing.MigLayout;

/** The items in the order in which they are worked, and the one that is looked at. */
final class ChecklistPanel extends JPanel {
  private static final String LEFT_AT = "finish.item";
  private static final int NARROW_EMS = 48;

  private final DeskContext ctx;
  private final Ticks ticks;
  private final JList<Checklist.Item> list =
      new JList<>(Checklist.items().toArray(new Checklist.Item[0]));
  private final ItemPanel item;

  ChecklistPanel(DeskContext ctx, Ticks ticks) {
    super(new MigLayout("insets 10, gap 8, wrap 1, fill", "[grow,fill]", "[grow,fill][]"));
    this.ctx = ctx;
    this.ticks = ticks;
    item = new ItemPanel(ctx, ticks);
    list.setName("finish.list");
    list.getAccessibleContext().setAccessibleName("Checklist");
    list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    list.setCellRenderer(new Renderer());
    list.addListSelectionListener(e -> selected());
    bind("SPACE", Tick.State.DONE);
    bind("D", Tick.State.DONE);
    bind("X", Tick.State.NOT_DONE);
    bind("N", Tick.State.NOT_NEEDED);
    bind("O", Tick.State.OPEN);
    add(
        new Beside(
            NARROW_EMS,
            "0",
            new Beside.Part(new JScrollPane(list), 58, 14),
            new Beside.Part(item, 42, 0)),
        "wmin 0");
    JLabel keys = new JLabel("In the list: D done, X not done, N not needed, O open");
    keys.setName("finish.keys");
    add(keys, "wmin 0");
    select(ctx.left(LEFT_AT));
  }

  private void bind(String key, Tick.State state) {
    KeyStroke stroke = KeyStroke.getKeyStroke(key);
    list.getInputMap().put(stroke, "finish." + state);
    list.getActionMap()
        .put(
            "finish." + state,
            new AbstractAction() {
              @Override
              public void actionPerformed(ActionEvent e) {
                item.state(state);
                if (state != Tick.State.OPEN) {
                  below();
                }
              }
            });
  }

  /** The next one, for the next key. */
  private void below() {
    int next = Math.min(list.getSelectedIndex() + 1, list.getModel().getSize() - 1);
    list.setSelectedIndex(next);
    list.ensureIndexIsVisible(next);
  }

  private void select(String key) {
    list.setSelectedValue(Checklist.item(key).orElse(Checklist.items().get(0)), true);
  }

  void select(Checklist.Item shown) {
    list.setSelectedValue(shown, true);
  }

  /** Where the keys of the list work. */
  JComponent focus() {
    return list;
  }

  private void selected() {
    Checklist.Item shown = list.getSelectedValue();
    if (shown != null) {
      item.show(shown);
      ctx.left(LEFT_AT, shown.key());
    }
  }

  /** How the items stand has changed. */
  void refresh() {
    list.repaint();
    selected();
  }

  private final class Renderer extends DefaultListCellRenderer {
    @Override
    public Component getListCellRendererComponent(
        JList<?> of, Object value, int index, boolean selected, boolean focused) {
      JLabel label =
          (JLabel) super.getListCellRendererComponent(of, value, index, selected, focused);
      if (value instanceof Checklist.Item shown) {
        Tick tick = ticks.of(shown);
        label.setText(shown.words() + ": " + words(tick));
        label.setIcon(new TickMark(ctx, tick.state()));
        label.setIconTextGap((int) (10 * ctx.scale()));
      }
      return label;
    }
  }

  /** Such as 'done, witnessed, Ada'. */
  static String words(Tick tick) {
    if (tick.state() == Tick.State.OPEN) {
      return TickMark.word(tick.state());
    }
    String by = tick.by().isEmpty() ? "" : ", " + tick.by();
    return TickMark.word(tick.state()) + ", " + TickMark.word(tick.basis()) + by;
  }
}
