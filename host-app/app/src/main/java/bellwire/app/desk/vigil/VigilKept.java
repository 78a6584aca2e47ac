package bellwire.app.desk.vigil;

import bellwire.analysis.vigil.VigilComparison;
import bellwire.app.desk.DeskContext;
import bellwire.app.job.VigilRow;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.ComparisonText;
import bellwire.app.vigil.Counting;
import bellwire.app.vigil.StoredVigil;
import bellwire.app.vigil.StoredVigil.Part;
import bellwire.app.vigil.VigilLoader;
import bellwire.app.vigil.VigilText;
import java.awt.Component;
import java.awt.Font;
import java.awt.Rectangle;
import java.awt.font.FontRenderContext;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CompletableFuture;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.ListSelectionModel;
import javax.swing.Timer;
import net.miginfocom.swing.MigLayout;

/** The vigils that the job has: their charts, their statements, before and after a repair. */
final class VigilKept extends JPanel {
  private static final long serialVersionUID = 1L;
  private static final int TYPE = 14;
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("MM-dd HH:mm", Locale.ROOT);
  private static final int TELL_MILLIS = 200;

  private final transient DeskContext ctx;
  private final DefaultListModel<VigilRow> model = new DefaultListModel<>();
  private final JList<VigilRow> list = new JList<>(model);
  private final JTextArea statement = new JTextArea(8, 60);
  private final JButton compare = new JButton("Compare the two");
  private final ChartBox box;
  private long shown = -1;

  /** What was asked for last; what comes later of something earlier is passed over. */
  private int asked;

  VigilKept(DeskContext ctx) {
    super(
        new MigLayout(
            "insets 12, fill", "[260::, grow 28, fill]16[grow 72, fill]", "[grow, fill]"));
    this.ctx = ctx;
    setName("vigil.kept");
    box = new ChartBox(ctx, "vigil.kept");
    add(left());
    add(right());
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
    statement.setName("vigil.statement");
    statement.getAccessibleContext().setAccessibleName("Statement of the vigil");
    statement.setEditable(false);
    ChartBox.still(statement);
    look();
    ctx.onLook(this::look);
    JPanel right =
        new JPanel(
            new MigLayout(
                "insets 0, fill, wrap 1", "[0::, grow, fill]", "[fill, grow 58]8[fill, grow 42]"));
    right.add(box, "wmin 0, h 220:320:");
    right.add(new JScrollPane(statement), "wmin 0, h 110:210:");
    return right;
  }

  private void look() {
    statement.setFont(new Font(Font.MONOSPACED, Font.PLAIN, (int) Math.round(TYPE * ctx.scale())));
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

  /** '1 continuity, 11-26 10:29, 46 min'. */
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
    Path job = ctx.visit().file();
    read("statement of vigil " + row.id(), share -> statement(job, row.id(), share));
  }

  private void compare() {
    List<VigilRow> rows = list.getSelectedValuesList();
    Path job = ctx.visit().file();
    read(
        "comparison",
        share -> comparison(job, rows.get(0).id(), rows.get(rows.size() - 1).id(), share));
  }

  /** How far a reading is, told by its thread and shown by the window's. */
  private static final class Share {
    volatile double done;
  }

  /** What is worked out from the samples, beside the event thread. */
  private interface Reading {
    List<String> lines(Share share) throws Exception;
  }

  private void read(String what, Reading reading) {
    int mine = ++asked;
    Share share = new Share();
    Font font = statement.getFont();
    CompletableFuture<List<String>> lines = new CompletableFuture<>();
    Thread thread =
        new Thread(
            () -> {
              try {
                measured(List.of("0 %"), font);
                lines.complete(measured(reading.lines(share), font));
              } catch (Exception | Error e) {
                lines.completeExceptionally(e);
              }
            },
            "vigil-statement");
    thread.setDaemon(true);
    thread.setPriority(Thread.NORM_PRIORITY - 1);
    statement.setText("");
    Timer timer =
        new Timer(
            TELL_MILLIS,
            e -> {
              if (mine == asked) {
                statement.setText(
                    "reading the samples for the "
                        + what
                        + ", "
                        + Math.round(100 * share.done)
                        + " %");
              }
            });
    timer.start();
    thread.start();
    ctx.later(
        lines,
        all -> {
          timer.stop();
          tell(mine, all);
        },
        failure -> {
          timer.stop();
          tell(mine, List.of(String.valueOf(failure.getMessage())));
        });
  }

  /**
   * Has the font's glyphs loaded, which takes a while the first time, before the window needs them.
   */
  private static List<String> measured(List<String> lines, Font font) {
    FontRenderContext context = new FontRenderContext(null, true, false);
    lines.forEach(line -> font.getStringBounds(line, context));
    return lines;
  }

  private void tell(int mine, List<String> lines) {
    if (mine == asked) {
      statement.setText(String.join("\n", lines));
      statement.scrollRectToVisible(new Rectangle());
    }
  }

  private static List<String> statement(Path job, long vigil, Share share) throws Exception {
    try {
      StoredVigil stored =
          VigilLoader.load(job, vigil, Part.ALL, Counting.EACH, s -> share.done = s);
      List<String> lines = VigilText.lines(stored, ZoneId.systemDefault(), false);
      int time = lines.indexOf("TIME"); // the chart shows it
      return time < 0 ? lines : lines.subList(0, time);
    } catch (BadVigil e) {
      return List.of(String.valueOf(e.getMessage()));
    }
  }

  private static List<String> comparison(Path job, long before, long after, Share share)
      throws Exception {
    try {
      StoredVigil was =
          VigilLoader.load(job, before, Part.ALL, Counting.EACH, s -> share.done = s / 2);
      StoredVigil is =
          VigilLoader.load(job, after, Part.ALL, Counting.EACH, s -> share.done = 0.5 + s / 2);
      List<String> obstacles = VigilComparison.obstacles(was.watch(), is.watch());
      if (!obstacles.isEmpty()) {
        return List.of(
            "Vigils "
                + before
                + " and "
                + after
                + " can't be compared: "
                + String.join("; ", obstacles)
                + ". Watch again as the first time.");
      }
      return ComparisonText.lines(
          VigilComparison.of(was.events().orElseThrow(), is.events().orElseThrow()), was);
    } catch (BadVigil e) {
      return List.of(String.valueOf(e.getMessage()));
    }
  }
}
