package bellwire.app.desk.survey;

import bellwire.analysis.survey.CableFacts;
import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.DrawingPanel;
import bellwire.app.desk.Units;
import bellwire.app.desk.Words;
import bellwire.app.drawing.PairMatrixDrawing;
import bellwire.app.drawing.ResistanceDrawing;
import bellwire.app.drawing.RouteDrawing;
import bellwire.app.drawing.Rows;
import bellwire.app.drawing.Run;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.sheet.SurveySheet.Finding;
import java.awt.BorderLayout;
import java.awt.Component;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.JComponent;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTabbedPane;
import javax.swing.ListSelectionModel;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** A survey's result: the run to scale, pairs, resistances, and the evidence of what is chosen. */
final class ResultPanel extends JPanel {
  private static final int NARROW_EMS = 62;

  /** What the drawings have above and below their rows, in their units. */
  private static final double ROUTE_REST = 104;

  private static final double RESISTANCE_REST = 46;

  private final DeskContext ctx;
  private final SurveyState state;
  private final DrawingPanel route;
  private final DrawingPanel matrix;
  private final DrawingPanel resistance;
  private final Words evidence = new Words("");
  private final Words explained = new Words("");
  private final Words compared = new Words("");
  private final DefaultListModel<Finding> findings = new DefaultListModel<>();
  private final JList<Finding> list = new JList<>(findings);
  private final JTabbedPane tabs = new JTabbedPane();
  private @Nullable Seen shown;
  private String shownKey = "";
  private Runnable draw = () -> {};
  private boolean showing;

  ResultPanel(DeskContext ctx, SurveyState state) {
    super(new BorderLayout());
    this.ctx = ctx;
    this.state = state;
    route = drawing("survey.route");
    matrix = drawing("survey.matrix");
    resistance = drawing("survey.resistance");
    evidence.setName("survey.evidence");
    explained.setName("survey.explanations");
    compared.setName("survey.compared");
    list.setName("survey.findings");
    list.getAccessibleContext().setAccessibleName("Findings of the survey");
    list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    list.setCellRenderer(new Row());
    list.addListSelectionListener(
        e -> {
          if (!e.getValueIsAdjusting() && !showing && list.getSelectedIndex() >= 0) {
            state.key("finding:" + list.getSelectedIndex());
          }
        });
    tabs.setName("survey.tabs");
    tabs.addTab("Evidence", scroll(evidence));
    tabs.addTab("Findings", scroll(list));
    tabs.addTab("What explains it", scroll(explained));
    tabs.addTab("Landing before and now", scroll(compared));
    add(
        new Beside(
            NARROW_EMS,
            "0",
            new Beside.Part(column(route.scrolled(), resistance.scrolled()), 50, 40),
            new Beside.Part(column(matrix.scrolled(), tabs), 50, 40)));
    state.listen(this::refresh);
    route.onView(() -> draw.run());
    resistance.onView(() -> draw.run());
  }

  private static JPanel column(JComponent above, JComponent below) {
    JPanel column =
        new JPanel(
            new MigLayout(
                "insets 0, fill, wrap 1", "[grow,fill]", "[58%,grow,fill]8[42%,grow,fill]"));
    column.add(above, "wmin 0, hmin 120");
    column.add(below, "wmin 0, hmin 120");
    return column;
  }

  private DrawingPanel drawing(String name) {
    DrawingPanel panel = new DrawingPanel(ctx, name);
    panel.onSpot(
        spot -> {
          tabs.setSelectedIndex(0);
          state.key(spot.key());
        });
    return panel;
  }

  private static JScrollPane scroll(JComponent inner) {
    JScrollPane pane = new JScrollPane(inner, 20, 31);
    pane.setBorder(javax.swing.BorderFactory.createEmptyBorder(6, 2, 2, 2));
    return pane;
  }

  private void refresh() {
    Seen seen = state.seen().orElse(null);
    SurveySheet sheet = seen == null ? null : seen.sheet();
    if (seen == null || sheet == null || sheet.stopped()) {
      shown = null;
      return;
    }
    boolean same = seen.equals(shown) && state.key().equals(shownKey);
    if (same) {
      return;
    }
    boolean another = !seen.equals(shown);
    shown = seen;
    shownKey = state.key();
    Snapshot now = state.now();
    Run run = run(now);
    String key = state.key().isEmpty() ? null : state.key();
    matrix.show(new PairMatrixDrawing(sheet, key));
    draw = () -> draw(sheet, now, run, key);
    draw.run();
    Evidence told = new Evidence(sheet, ctx.units());
    put(evidence, told.of(state.key()));
    if (another) {
      put(explained, told.explained());
      put(compared, Comparing.words(state.earlierInPlace(), seen));
      showing = true;
      findings.clear();
      sheet.findings().forEach(findings::addElement);
      showing = false;
      tabs.setTitleAt(1, "Findings (" + findings.size() + ")");
    }
  }

  /** Rows as high as lets all of them be seen at once, where the window allows it. */
  private void draw(SurveySheet sheet, Snapshot now, Run run, @Nullable String key) {
    int rows = sheet.conductors().size();
    double ofRoute = Rows.fitting(route.viewHeight(), ROUTE_REST, rows);
    double ofResistance = Rows.fitting(resistance.viewHeight(), RESISTANCE_REST, rows);
    route.show(new RouteDrawing(sheet, now.farColours(), run, ofRoute, key));
    resistance.show(new ResistanceDrawing(sheet, run, ofResistance, key));
  }

  private static void put(Words words, String text) {
    words.setText(text);
    words.setCaretPosition(0);
  }

  private Run run(Snapshot now) {
    CableFacts facts = HowPanel.facts(now.cable());
    return new Run(facts.metres(), facts.gauge(), facts.celsius(), ctx.units() == Units.FEET);
  }

  /** To the findings, the worst chosen. */
  void firstFinding() {
    if (!findings.isEmpty()) {
      list.setSelectedIndex(0);
      tabs.setSelectedIndex(0);
      route.requestFocusInWindow();
    }
  }

  void focus() {
    route.requestFocusInWindow();
  }

  private static final class Row extends DefaultListCellRenderer {
    @Override
    public Component getListCellRendererComponent(
        JList<?> all, Object value, int index, boolean selected, boolean focus) {
      Finding f = (Finding) value;
      String ports = f.ports().isEmpty() ? "" : " (" + String.join(", ", f.ports()) + ")";
      return super.getListCellRendererComponent(
          all, "\u25B2 " + f.title() + ports, index, selected, focus);
    }
  }
}
