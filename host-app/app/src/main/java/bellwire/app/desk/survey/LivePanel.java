package bellwire.app.desk.survey;

import bellwire.app.desk.Words;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.SwingConstants;
import net.miginfocom.swing.MigLayout;

/** While a survey runs: what to do at the far end, in type that reads from there. */
final class LivePanel extends JPanel {
  private static final int MOST_LINES = 200;

  private final Words todo = new Words("", 40, true);
  private final Words seen = new Words("", 24, false);
  private final JLabel left = new JLabel(" ", SwingConstants.LEFT);
  private final Words notes = new Words("");
  private final StringBuilder told = new StringBuilder();
  private int lines;

  LivePanel() {
    super(new MigLayout("insets 18, fill, wrap 1", "[grow,fill]", "[][][]20[grow,fill]"));
    todo.setName("survey.todo");
    seen.setName("survey.seenNow");
    left.setName("survey.secondsLeft");
    left.putClientProperty("FlatLaf.style", "font: bold 24");
    notes.setName("survey.notes");
    add(todo, "wmin 0");
    add(seen, "wmin 0");
    add(left);
    JScrollPane below = new JScrollPane(notes, 20, 31);
    below.setBorder(null);
    add(below, "grow, hmin 80");
  }

  void begin() {
    told.setLength(0);
    lines = 0;
    notes.setText("");
    todo.setText("Hands off the cable: the board looks for voltage");
    seen.setText("");
    left.setText(" ");
  }

  void measuring(String phase) {
    todo.setText("Hands off: measuring");
    seen.setText(phase);
    left.setText(" ");
  }

  void waiting(String forWhat, String sight, long secondsLeft) {
    todo.setText("Far end: " + forWhat);
    seen.setText("Seen there now: " + sight);
    left.setText("Time left: " + clock(secondsLeft));
  }

  static String clock(long seconds) {
    return seconds >= 60 ? seconds / 60 + " min " + seconds % 60 + " s" : seconds + " s";
  }

  void note(String words) {
    if (lines++ < MOST_LINES) {
      told.append(told.length() == 0 ? "" : "\n").append("\u2022 ").append(words);
      notes.setText(told.toString());
      notes.setCaretPosition(told.length());
    }
  }
}
