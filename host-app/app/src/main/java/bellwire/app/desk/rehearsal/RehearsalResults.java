package bellwire.app.desk.rehearsal;

import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.DrawingPanel;
import bellwire.app.drawing.TimingDrawing;
import bellwire.app.drawing.TimingModel;
import bellwire.app.job.RehearsalRow;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.report.RehearsalText;
import bellwire.app.visit.StoredRehearsal;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.BorderLayout;
import java.awt.Component;
import java.awt.Font;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CompletableFuture;
import javax.swing.DefaultListCellRenderer;
import javax.swing.DefaultListModel;
import javax.swing.JComponent;
import javax.swing.JList;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.ListSelectionModel;
import net.miginfocom.swing.MigLayout;

/** The rehearsals that the job has, each judged again from its record. */
final class RehearsalResults extends JPanel {
  private static final long serialVersionUID = 1L;
  private static final int TYPE = 14;
  private static final int NARROW_EMS = 62;
  private static final DateTimeFormatter WHEN =
      DateTimeFormatter.ofPattern("d MMM HH:mm", Locale.ENGLISH);

  private final transient DeskContext ctx;
  private final DefaultListModel<RehearsalRow> model = new DefaultListModel<>();
  private final JList<RehearsalRow> list = new JList<>(model);
  private final JTextArea outcome = new JTextArea(8, 60);
  private final DrawingPanel diagram;
  private String lastWord = "";
  private int asked;

  RehearsalResults(DeskContext ctx) {
    super(new BorderLayout());
    this.ctx = ctx;
    setName("rehearsal.results");
    list.setName("rehearsal.list");
    list.getAccessibleContext().setAccessibleName("Rehearsals of this job");
    list.setSelectionMode(ListSelectionModel.SINGLE_SELECTION);
    list.setCellRenderer(new Lines());
    list.addListSelectionListener(
        e -> {
          if (!e.getValueIsAdjusting()) {
            selected();
          }
        });
    diagram = new DrawingPanel(ctx, "rehearsal.timing");
    outcome.setName("rehearsal.outcome");
    outcome.getAccessibleContext().setAccessibleName("Outcome of the rehearsal");
    outcome.setEditable(false);
    outcome.setLineWrap(true);
    outcome.setWrapStyleWord(true);
    look();
    ctx.onLook(this::look);
    JPanel told =
        new JPanel(
            new MigLayout(
                "insets 0, fill, wrap 1", "[grow, fill]", "[44%, grow, fill]10[56%, grow, fill]"));
    told.add(new JScrollPane(outcome), "wmin 0, hmin 120");
    told.add(diagram.scrolled(), "wmin 0, hmin 160");
    add(
        new Beside(
            NARROW_EMS,
            "10",
            new Beside.Part(new JScrollPane(list), 22, 5),
            new Beside.Part(told, 78, 26)));
  }

  private void look() {
    outcome.setFont(new Font(Font.MONOSPACED, Font.PLAIN, (int) Math.round(TYPE * ctx.scale())));
  }

  private static final class Lines extends DefaultListCellRenderer {
    private static final long serialVersionUID = 1L;

    @Override
    public Component getListCellRendererComponent(
        JList<?> of, Object value, int index, boolean isSelected, boolean focus) {
      String words = value instanceof RehearsalRow row ? line(row) : "";
      return super.getListCellRendererComponent(of, words, index, isSelected, focus);
    }
  }

  static String line(RehearsalRow row) {
    Instant at = Instant.EPOCH.plus(row.atUnixMicros(), ChronoUnit.MICROS);
    return row.id()
        + "  "
        + at.atZone(ZoneId.systemDefault()).format(WHEN)
        + (row.live() ? "  live" : "  bench");
  }

  int count() {
    return model.size();
  }

  /** The last one's outcome in a word or two, from what was judged then; empty without one. */
  String lastWord() {
    return lastWord;
  }

  /** Reads a row's outcome; not on the event thread. */
  static String word(List<RehearsalRow> rows) {
    if (rows.isEmpty()) {
      return "";
    }
    try {
      JsonNode told = new ObjectMapper().readTree(rows.get(rows.size() - 1).json());
      int findings = told.path("findings").size();
      String found = findings == 1 ? "1 finding" : findings + " findings";
      boolean early = !told.path("ended-early").asText().isEmpty();
      return findings > 0
          ? found
          : told.path("good").asBoolean()
              ? "kept all rules"
              : early ? "ended early" : "not all decided";
    } catch (IOException e) {
      return "can't be read";
    }
  }

  void show(List<RehearsalRow> rows, String word) {
    lastWord = word;
    RehearsalRow before = list.getSelectedValue();
    model.clear();
    rows.forEach(model::addElement);
    for (int i = 0; i < rows.size(); i++) {
      if (before != null && rows.get(i).id() == before.id()) {
        list.setSelectedIndex(i);
      }
    }
  }

  void choose(long id) {
    for (int i = 0; i < model.size(); i++) {
      if (model.get(i).id() == id) {
        list.setSelectedIndex(i);
        list.ensureIndexIsVisible(i);
      }
    }
  }

  JComponent focus() {
    return list;
  }

  void chooseLast() {
    if (list.isSelectionEmpty() && model.size() > 0) {
      list.setSelectedIndex(model.size() - 1);
    }
  }

  /** An outcome in words and as a diagram. */
  private record Read(List<String> lines, TimingDrawing drawing) {}

  private void selected() {
    RehearsalRow row = list.getSelectedValue();
    if (row == null) {
      return;
    }
    int mine = ++asked;
    outcome.setText("judging it again from its record");
    ctx.later(
        CompletableFuture.supplyAsync(() -> read(row)),
        read -> {
          if (mine == asked) {
            outcome.setText(String.join("\n", read.lines()));
            outcome.setCaretPosition(0);
            diagram.show(read.drawing());
          }
        },
        failure -> {
          if (mine == asked) {
            outcome.setText(bellwire.app.desk.Notices.words(failure));
          }
        });
  }

  private static Read read(RehearsalRow row) {
    try {
      RehearsalOutcome of = StoredRehearsal.outcome(row);
      TimingDrawing drawing = new TimingDrawing(TimingModel.of(of));
      return new Read(RehearsalText.linesBesideDrawing(of), drawing);
    } catch (IOException e) {
      throw new UncheckedIOException(e.getMessage(), e);
    }
  }
}
