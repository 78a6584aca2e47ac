package bellwire.app.desk.report;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Words;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;

/** What is missing from the report, each with a way to its page. */
final class MissingPanel extends JPanel {
  private final DeskContext ctx;

  MissingPanel(DeskContext ctx) {
    super(new MigLayout("insets 0, gap 8, wrap 2", "[grow,fill][]"));
    this.ctx = ctx;
    setName("report.missing");
  }

  void show(List<Missing.Gap> gaps) {
    removeAll();
    String title = gaps.isEmpty() ? "Nothing is missing" : "Missing from the report";
    add(new Words(title, 18, true), "span");
    for (int i = 0; i < gaps.size(); i++) {
      Missing.Gap gap = gaps.get(i);
      add(new Words(gap.words()));
      JButton go = new JButton("Go");
      go.setName("report.missing" + i);
      go.getAccessibleContext().setAccessibleName(gap.words() + ": go there");
      go.addActionListener(e -> ctx.go(gap.page()));
      add(go);
    }
    revalidate();
    repaint();
  }
}
