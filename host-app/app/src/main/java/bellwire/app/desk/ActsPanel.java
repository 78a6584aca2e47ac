package bellwire.app.desk;

import bellwire.app.job.Act;
import java.awt.font.TextAttribute;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** The acts recorded, newest first; what was withdrawn stays, struck through. */
final class ActsPanel extends JPanel {
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("d MMM HH:mm", java.util.Locale.ENGLISH);

  private final Consumer<Act> withdraw;

  /**
   * @param withdraw asked to say of one that it was recorded by mistake
   */
  ActsPanel(Consumer<Act> withdraw) {
    super(new MigLayout("insets 0, gap 8 4, wrap 2", "[grow,fill][]", ""));
    this.withdraw = withdraw;
    setName("safe.acts");
    show(List.of());
  }

  void show(List<Act> acts) {
    removeAll();
    if (acts.isEmpty()) {
      add(new Words("Nothing recorded yet."), "span, growx");
    }
    for (int i = acts.size() - 1; i >= 0; i--) {
      row(acts.get(i));
    }
    revalidate();
    repaint();
  }

  private void row(Act act) {
    String by = act.by().isEmpty() ? "" : ", " + act.by();
    String line = time(act.atUnixMicros()) + by + "\n" + SafeActs.words(act);
    if (act.withdrawn()) {
      add(new Struck("WITHDRAWN " + line), "span, growx, wmin 80");
      return;
    }
    add(new Words(line), "growx, wmin 120");
    JButton button = new JButton("Withdraw");
    button.setName("safe.withdraw" + act.id());
    button.getAccessibleContext().setAccessibleName("Withdraw: " + SafeActs.words(act));
    button.addActionListener(e -> withdraw.accept(act));
    add(button);
  }

  static String time(long unixMicros) {
    return Instant.ofEpochMilli(unixMicros / 1000).atZone(ZoneId.systemDefault()).format(TIME);
  }

  private static final class Struck extends JLabel {
    Struck(String words) {
      super(words.replace('\n', ' '));
      setToolTipText(getText());
      strike();
    }

    @Override
    public void updateUI() {
      super.updateUI();
      strike();
    }

    private void strike() {
      setFont(
          getFont()
              .deriveFont(Map.of(TextAttribute.STRIKETHROUGH, TextAttribute.STRIKETHROUGH_ON)));
    }
  }
}
