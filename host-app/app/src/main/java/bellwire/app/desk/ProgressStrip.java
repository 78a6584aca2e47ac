package bellwire.app.desk;

import java.util.Locale;
import javax.swing.JButton;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JProgressBar;
import net.miginfocom.swing.MigLayout;

/** At the foot of the window: how far the long work is, the time left, Cancel. */
final class ProgressStrip extends JPanel {
  private static final int STEPS = 1000;

  private final Progress progress;
  private final JLabel words = new JLabel();
  private final JProgressBar bar = new JProgressBar(0, STEPS);
  private final JLabel left = new JLabel();
  private final JButton cancel = new JButton("Cancel (Esc)");

  ProgressStrip(Progress progress) {
    super(new MigLayout("insets 4 12 4 8, gap 12", "[][grow,fill][][]"));
    this.progress = progress;
    setName("progress");
    words.setName("progress.words");
    left.setName("progress.left");
    cancel.setName("progress.cancel");
    bar.getAccessibleContext().setAccessibleName("Progress");
    cancel.addActionListener(e -> progress.cancel());
    add(Look.bold(words, 16));
    add(bar, "wmin 80");
    add(left);
    add(cancel);
    progress.listen(this::refresh);
    refresh();
  }

  private void refresh() {
    Progress.Task task = progress.running();
    setVisible(task != null);
    if (task == null) {
      return;
    }
    String doing = task.doing().isEmpty() ? "" : ": " + task.doing();
    words.setText(task.cancelled() ? "Stopping: " + task.what() : task.what() + doing);
    boolean unknown = Double.isNaN(task.fraction());
    bar.setIndeterminate(unknown && !task.cancelled());
    bar.setValue(unknown ? 0 : (int) Math.round(task.fraction() * STEPS));
    left.setText(task.cancelled() ? "" : timeLeft(task.secondsLeft()));
    cancel.setEnabled(!task.cancelled());
  }

  /** In the coarseness a person plans with. */
  static String timeLeft(double seconds) {
    if (Double.isNaN(seconds)) {
      return "time left not known yet";
    }
    if (seconds < 10) {
      return "a few seconds left";
    }
    if (seconds < 90) {
      return "about " + Math.round(seconds / 10) * 10 + " s left";
    }
    if (seconds < 5400) {
      return "about " + Math.round(seconds / 60) + " min left";
    }
    return String.format(Locale.ROOT, "about %.1f h left", seconds / 3600);
  }
}
