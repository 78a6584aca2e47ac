package bellwire.app.desk.vigil;

import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.job.VigilRow;
import java.awt.BorderLayout;
import java.awt.Component;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.ListSelectionModel;
import net.miginfocom.swing.MigLayout;

/** The vigils that the job has: their charts, their statements, before and after a repair. */
final class VigilKept extends JPanel {
  private static final long serialVersionUID = 1L;
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ENGLISH);
  private static final int NARROW_EMS = 62;

  private final transient DeskContext ctx;
  private final DefaultListModel<VigilRow> model = new DefaultListModel<>();
  private final JList<VigilRow> list = new JList<>(model);
  private final StatementPane statement;
  private final JButton compare = new JButton("Compare the two");
  private final ChartBox box;
  private long shown = -1;

  VigilKept(DeskContext ctx) {
    super(new BorderLayout());
    this.ctx = ctx;
    setName("vigil.kept");
    box = new ChartBox(ctx, "vigil.kept");
    statement = new StatementPane(ctx);
    add(
        new Beside(
            NARROW_EMS, "10", new Beside.Part(left(), 25, 9), new Beside.Part(right(), 75, 34)));
  }

  private JComponent left() {
    JPanel left =
        new JPanel(new MigLayout("insets 0, fill, wrap 1", "[grow, fill]", "[grow, fill][]"));
    list.setName("vigil.list");
    list.getAccessibleContext().setAccessibleName("Vigils of this job");
    list.setSelectionMode(ListSelectionModel.MULTIPLE_INTERVAL_SELECTION);
    list.setCellRenderer(new Lines());
    list.addListSelectionListener(
        e -> {
          if (!e.getValueIsAdjusting()) {
            selected();
          }
        });
    left.add(new JScrollPane(list), "hmin 120");
    compare.setName("vigil.compare");
    compare.setToolTipText("Choose two: Ctrl with a click, or Shift with the arrows");
    compare.setEnabled(false);
    compare.addActionListener(e -> compare());
    left.add(compare, "hmin 40");
    return left;
  }

  private JComponent right() {
    JPanel right =
        new JPanel(
            new MigLayout(
                "insets 0, fill, wrap 1", "[0::, grow, fill]", "[fill, grow 58]8[fill, grow 42]"));
    right.add(box, "wmin 0, h 220:320:");
    right.add(statement, "wmin 0, h 110:210:");
    return right;
  }

  private static final class Lines extends DefaultListCellRenderer {
    private static final long serialVersionUID = 1L;

    @Override
    public Component getListCellRendererComponent(
        JList<?> of, Object value, int index, boolean isSelected, boolean focus) {
      String words = value instanceof VigilRow row ? line(row) : "";
      return super.getListCellRendererComponent(of, words, index, isSelected, focus);
    }
  }

  /** '1 continuity, 26 Nov 10:29, 46 min'. */
  private static String line(VigilRow row) {
    Instant begin = Instant.EPOCH.plus(row.startedUnixMicros(), ChronoUnit.MICROS);
    return row.id()
        + "  "
        + row.program()
        + ", "
        + begin.atZone(ZoneId.systemDefault()).format(WHEN)
        + row.ending()
            .map(e -> ", " + VigilRows.seconds(e.micros() - row.startedMicros()))
            .orElse(", not ended");
  }

  JComponent focus() {
    return list;
  }

  StripChart chart() {
    return box.chart();
  }

  /** The job's vigils as they are now; the selection stays. */
  void show(List<VigilRow> rows) {
    VigilRow before = list.getSelectedValue();
    if (rows.size() == model.size()
        && java.util.stream.IntStream.range(0, rows.size())
            .allMatch(i -> rows.get(i).equals(model.get(i)))) {
      return;
    }
    model.clear();
    rows.forEach(model::addElement);
    for (int i = 0; i < rows.size(); i++) {
      if (before != null && rows.get(i).id() == before.id()) {
        list.setSelectedIndex(i);
      }
    }
  }

  /** Shows one of them, as if it had been chosen. */
  void choose(long vigil) {
    for (int i = 0; i < model.size(); i++) {
      if (model.get(i).id() == vigil) {
        shown = -1;
        list.clearSelection();
        list.setSelectedIndex(i);
        list.ensureIndexIsVisible(i);
      }
    }
  }

  /** The last one, where none is chosen. */
  void chooseLast() {
    if (list.isSelectionEmpty() && model.size() > 0) {
      choose(model.get(model.size() - 1).id());
    }
  }

  private void selected() {
    List<VigilRow> rows = list.getSelectedValuesList();
    compare.setEnabled(rows.size() == 2);
    if (rows.size() != 1 || rows.get(0).id() == shown) {
      return;
    }
    VigilRow row = rows.get(0);
    shown = row.id();
    ctx.left("vigil.chosen", Long.toString(row.id()));
    box.chart().show(ctx.visit().file(), row.id(), false);
    statement.statement(ctx.visit().file(), row.id());
  }

  private void compare() {
    List<VigilRow> rows = list.getSelectedValuesList();
    statement.comparison(ctx.visit().file(), rows.get(0).id(), rows.get(rows.size() - 1).id());
  }
}
