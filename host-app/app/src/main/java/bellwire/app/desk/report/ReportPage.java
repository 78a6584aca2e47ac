package bellwire.app.desk.report;

import bellwire.app.desk.Beside;
import bellwire.app.desk.Column;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.FileChoice;
import bellwire.app.desk.NextAction;
import bellwire.app.desk.Page;
import bellwire.app.desk.Units;
import bellwire.app.desk.Words;
import bellwire.app.document.page.Paper;
import java.awt.CardLayout;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.CancellationException;
import javax.swing.BorderFactory;
import javax.swing.ButtonGroup;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JToggleButton;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** The eighth stop: the report as it will be printed, what is missing from it, and its files. */
public final class ReportPage implements Page {
  private static final DateTimeFormatter TIME =
      DateTimeFormatter.ofPattern("HH:mm", Locale.ROOT).withZone(ZoneId.systemDefault());
  private static final String FOLDER = "report.folder";
  private static final String PAPER = "report.paper";
  private static final String AT = "report.at";
  private static final int NARROW_EMS = 54;

  private final DeskContext ctx;
  private final Clock clock;
  private final CardLayout cards = new CardLayout();
  private final JPanel place = new JPanel(cards);
  private final PreviewPanel preview;
  private final MissingPanel missing;
  private final Saving saving;
  private final Words stale = new Words("");
  private final JButton again = new JButton("Set the pages anew");
  private boolean inView;
  private boolean changed = true;
  private boolean setting;
  private boolean choosing;
  private @Nullable Instant saved;
  private boolean changedSince;

  public ReportPage(DeskContext ctx) {
    this(ctx, Clock.systemUTC());
  }

  /**
   * @param clock of when the report is made
   */
  ReportPage(DeskContext ctx, Clock clock) {
    this.ctx = ctx;
    this.clock = clock;
    Printer printer = new Printer(ctx.visit().file(), clock);
    preview = new PreviewPanel(ctx, printer);
    missing = new MissingPanel(ctx);
    saving = new Saving(ctx, printer, clock, this::saved);
    place.add(page(), "report");
    ctx.onChange(change -> jobChanged());
    ctx.onClose(printer::close);
    String at = ctx.left(AT);
    preview.page(at.matches("[0-9]{1,4}") ? Integer.parseInt(at) : 0);
  }

  private JComponent page() {
    Column side =
        new Column(new MigLayout("insets 0 0 0 8, gap 8, wrap 1, hidemode 3", "[grow,fill]"));
    side.add(stale);
    side.add(again);
    again.setName("report.again");
    again.addActionListener(e -> set());
    for (SavedKind kind : SavedKind.values()) {
      side.add(button(kind));
    }
    side.add(new JLabel("Paper"), "gaptop 8");
    side.add(papers());
    side.add(missing, "gaptop 8");
    JScrollPane scrolled = new JScrollPane(side);
    scrolled.setBorder(BorderFactory.createEmptyBorder());
    scrolled.setHorizontalScrollBarPolicy(JScrollPane.HORIZONTAL_SCROLLBAR_NEVER);
    stale();
    return new Beside(
        NARROW_EMS, "10", new Beside.Part(scrolled, 32, 14), new Beside.Part(preview, 68, 24));
  }

  private JButton button(SavedKind kind) {
    JButton button = new JButton(kind.button());
    button.setName("report.save-" + kind.name().toLowerCase(Locale.ROOT));
    button.setToolTipText(kind.words());
    button.getAccessibleContext().setAccessibleDescription(kind.words());
    button.addActionListener(e -> choose(kind));
    return button;
  }

  private JPanel papers() {
    JPanel row = new JPanel(new MigLayout("insets 0, gap 8", "[grow,fill][grow,fill]"));
    ButtonGroup group = new ButtonGroup();
    for (Paper paper : Paper.values()) {
      String words = paper == Paper.A4 ? "A4" : "Letter";
      JToggleButton button = new JToggleButton(words, paper == paper());
      button.setName("report.paper-" + words.toLowerCase(Locale.ROOT));
      button.addActionListener(
          e -> {
            ctx.left(PAPER, paper.name());
            set();
          });
      group.add(button);
      row.add(button);
    }
    return row;
  }

  /** Where nobody chose: Letter goes with feet. */
  private Paper paper() {
    String chosen = ctx.left(PAPER);
    if (chosen.isEmpty()) {
      return ctx.units() == Units.FEET ? Paper.LETTER : Paper.A4;
    }
    return chosen.equals(Paper.LETTER.name()) ? Paper.LETTER : Paper.A4;
  }

  private void jobChanged() {
    changed = true;
    changedSince = true;
    stale();
    ctx.changed(this);
  }

  private void stale() {
    boolean show = changed && inView && !setting;
    stale.setText("The job has changed since these pages were set.");
    stale.setVisible(show);
    again.setVisible(show);
  }

  private void set() {
    changed = false;
    setting = true;
    stale();
    ctx.changed(this);
    preview.set(
        paper(),
        proof -> {
          setting = false;
          missing.show(proof.missing());
          stale();
          ctx.changed(this);
        },
        failure -> {
          setting = false;
          changed = true;
          stale();
          ctx.changed(this);
          if (!(failure instanceof CancellationException)) {
            ctx.notices().trouble(failure);
          }
        });
  }

  private void choose(SavedKind kind) {
    String last = ctx.left(FOLDER);
    Path job = ctx.visit().file().toAbsolutePath();
    Path folder = job.getParent();
    Path start = last.isEmpty() && folder != null ? folder : Path.of(last);
    String name = String.valueOf(job.getFileName()).replaceFirst("\\.bellwire$", "");
    FileChoice choice =
        new FileChoice(
            kind.words(),
            FileChoice.Mode.SAVE,
            kind.ending().isEmpty() ? List.of("/") : List.of(kind.ending()),
            start,
            name + "-" + kind.proposed(),
            file -> {
              back();
              Path into = file.toAbsolutePath().getParent();
              if (into != null) {
                ctx.left(FOLDER, into.toString());
              }
              saving.save(kind, file, paper(), () -> choose(kind));
            },
            this::back);
    if (choosing) {
      place.remove(place.getComponentCount() - 1);
    }
    place.add(choice, "files");
    cards.show(place, "files");
    choosing = true;
    choice.focus();
    ctx.changed(this);
  }

  private void back() {
    if (choosing) {
      choosing = false;
      place.remove(place.getComponentCount() - 1);
      cards.first(place);
      place.revalidate();
      place.repaint();
      preview.focus();
      ctx.changed(this);
    }
  }

  private void saved(SavedKind kind) {
    if (kind == SavedKind.PDF || kind == SavedKind.HTML) {
      saved = clock.instant();
      changedSince = false;
    }
    ctx.changed(this);
  }

  @Override
  public String key() {
    return "report";
  }

  @Override
  public String title() {
    return "Report";
  }

  @Override
  public JComponent component() {
    return place;
  }

  @Override
  public void entered() {
    inView = true;
    if (changed && !setting) {
      set();
    }
  }

  @Override
  public @Nullable JComponent focus() {
    return choosing ? null : preview.focused();
  }

  @Override
  public void left() {
    inView = false;
    ctx.left(AT, Integer.toString(preview.page()));
  }

  @Override
  public NextAction next() {
    if (choosing) {
      return NextAction.words("Say where to keep it");
    }
    if (saved != null && !changedSince) {
      return NextAction.of("Saved: hand it over. Save the labels", () -> choose(SavedKind.LABELS));
    }
    String words = setting ? "The pages are being set; save the report" : "Save the report as PDF";
    return NextAction.of(words, () -> choose(SavedKind.PDF));
  }

  @Override
  public String state() {
    if (saved == null) {
      return "not saved";
    }
    return changedSince ? "changed since" : "saved " + TIME.format(saved);
  }
}
