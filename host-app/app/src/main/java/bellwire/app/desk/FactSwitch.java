package bellwire.app.desk;

import bellwire.app.job.Fact;
import bellwire.app.visit.Change;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Consumer;
import javax.swing.ButtonGroup;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JRadioButton;
import net.miginfocom.swing.MigLayout;

/** A fact with few values, as buttons; the first holds where nothing is told. */
final class FactSwitch extends JPanel {
  private final DeskContext ctx;
  private final Fact fact;
  private final String words;
  private final List<String> values;
  private final Consumer<String> kept;
  private final List<JRadioButton> buttons = new ArrayList<>();
  private String last;

  FactSwitch(DeskContext ctx, Fact fact, String words, List<String> values, Consumer<String> kept) {
    super(new MigLayout("insets 0, gap 8"));
    this.ctx = ctx;
    this.fact = fact;
    this.words = words;
    this.values = values;
    this.kept = kept;
    last = values.get(0);
    ButtonGroup group = new ButtonGroup();
    add(new JLabel(words));
    for (String value : values) {
      JRadioButton button = new JRadioButton(value);
      button.setName(
          "visit." + fact.name().toLowerCase(Locale.ROOT).replace('_', '-') + "." + value);
      button.getAccessibleContext().setAccessibleName(words + " " + value);
      button.addActionListener(e -> chosen(value));
      group.add(button);
      buttons.add(button);
      add(button);
    }
    buttons.get(0).setSelected(true);
  }

  void show(String value) {
    int at = Math.max(0, values.indexOf(value));
    last = values.get(at);
    buttons.get(at).setSelected(true);
  }

  private void chosen(String value) {
    String before = last;
    if (!value.equals(before)) {
      put(value);
      ctx.undo().did("visit", words + " changed", () -> put(before), () -> put(value));
    }
  }

  private void put(String value) {
    show(value);
    ctx.later(
        ctx.visit()
            .change(
                Change.FACTS,
                records -> {
                  records.fact(fact, value);
                  return value;
                }),
        kept);
  }
}
