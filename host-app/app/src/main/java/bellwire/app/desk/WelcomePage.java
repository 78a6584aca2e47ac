package bellwire.app.desk;

import java.awt.CardLayout;
import java.nio.file.Path;
import java.util.List;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** The first stop while no job is open: which job? */
final class WelcomePage implements Page {
  private final DeskWindow window;
  private final CardLayout cards = new CardLayout();
  private final JPanel place = new JPanel(cards);
  private final JobChoice choice;

  WelcomePage(DeskWindow window) {
    this.window = window;
    choice = new JobChoice(window, place, cards);
    JPanel panel =
        new JPanel(new MigLayout("insets 24, gap 12, wrap 1", "[grow,fill,0:600:800]", ""));
    panel.add(
        new Words(
            "A job is one visit to one customer: what was found, what was done, and the report of"
                + " it, in one file. Everything is kept as it happens; nothing has to be saved.",
            16,
            false));
    panel.add(choice.buttons());
    panel.add(Look.bold(new JLabel("Jobs opened last"), 18), "gaptop 12");
    JPanel recent = new JPanel(new MigLayout("insets 0, gap 6, wrap 1", "[grow,fill]"));
    panel.add(recent);
    choice.recent(recent, window.recent());
    place.add(panel, "choice");
  }

  @Override
  public String key() {
    return "visit";
  }

  @Override
  public String title() {
    return "Visit";
  }

  @Override
  public JComponent component() {
    return place;
  }

  @Override
  public void entered() {}

  @Override
  public void left() {}

  @Override
  public NextAction next() {
    List<Path> recent = window.recent();
    if (recent.isEmpty()) {
      return NextAction.of("Begin a new job", choice::make);
    }
    return NextAction.words("New customer, or go on with a job?");
  }

  @Override
  public String state() {
    return "no job open";
  }
}
