package bellwire.app.desk.rehearsal;

import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.FileChoice;
import bellwire.app.desk.Typed;
import bellwire.app.desk.Words;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.app.rehearsal.TimeBound;
import bellwire.app.rehearsal.Times;
import bellwire.app.report.Cautions;
import bellwire.app.report.RehearsalCautions;
import bellwire.app.report.StepText;
import java.awt.CardLayout;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import javax.swing.JButton;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** What to rehearse, with which times, and what has to be read and answered first. */
final class RehearsalForm extends JPanel {
  private static final long serialVersionUID = 1L;
  private static final int NARROW_EMS = 52;

  private final transient DeskContext ctx;
  private final transient Runnable changed;
  private final CardLayout cards = new CardLayout();
  private final JComboBox<String> which = new JComboBox<>();
  private final transient RehearsalTexts texts = new RehearsalTexts();
  private final JPanel times = new JPanel(new MigLayout("insets 0", "[][]16[][]", ""));
  private final JPanel options =
      new JPanel(new MigLayout("insets 0, wrap 2", "[][0::, grow, fill]", "[]0[]"));
  private final JCheckBox live = box("live", "LIVE: on its wall, the equipment will run");
  private final JCheckBox loads = box("loads", "dummy loads on");
  private final JTextField outdoor = new JTextField(8);
  private final JCheckBox noSigns = box("noSigns", "Yes: none of these signs");
  private final JCheckBox connected = box("connected", "Yes");
  private final Words question = new Words("");
  private final Words about = new Words("");
  private final Words trouble = new Words("", 15, true);
  private final Words cautions = new Words("");
  private final Map<String, JTextField> timeFields = new LinkedHashMap<>();
  private final Map<String, JCheckBox> optionBoxes = new LinkedHashMap<>();
  private transient @Nullable Rehearsal rehearsal;

  /** With the file's own times. */
  private transient @Nullable Rehearsal lastRead;

  private int reading;

  /**
   * @param changed after each choice
   */
  RehearsalForm(DeskContext ctx, Runnable changed) {
    this.ctx = ctx;
    this.changed = changed;
    setLayout(cards);
    setName("rehearsal.form");
    cautions.setName("rehearsal.cautions");
    add(
        new Beside(
            NARROW_EMS, "10", new Beside.Part(left(), 56, 0), new Beside.Part(cautions, 44, 0)),
        "main");
    loads.setSelected(true);
    texts.names().forEach(which::addItem);
    String last = ctx.left("rehearsal.which");
    if (texts.names().contains(last)) {
      which.setSelectedItem(last);
    }
    which.addActionListener(e -> choose());
    choose();
    titles();
  }

  JComponent focus() {
    return which;
  }

  private JPanel left() {
    JPanel left =
        new JPanel(new MigLayout("insets 0, wrap 1, fillx, hidemode 3", "[0::, grow, fill]", ""));
    which.setName("rehearsal.which");
    which.getAccessibleContext().setAccessibleName("Rehearsal");
    JPanel row = new JPanel(new MigLayout("insets 0, fillx", "[grow, fill][]", ""));
    row.add(which, "hmin 40, wmin 0");
    JButton file = new JButton("From a file…");
    file.setName("rehearsal.file");
    file.addActionListener(e -> chooseFile());
    row.add(file, "hmin 40");
    left.add(row);
    about.setName("rehearsal.about");
    left.add(about, "growx");
    left.add(times, "gaptop 4");
    left.add(options);
    JPanel how = new JPanel(new MigLayout("insets 0, hidemode 3", "", ""));
    how.add(live, "span, wrap");
    how.add(loads);
    JLabel warm = new JLabel("Outdoors");
    warm.setLabelFor(outdoor);
    how.add(warm);
    outdoor.setName("rehearsal.outdoor");
    outdoor.getAccessibleContext().setAccessibleName(RehearsalCautions.HOW_WARM);
    outdoor.getDocument().addDocumentListener(new Typed(this::chosen));
    how.add(outdoor, "hmin 40");
    left.add(how);
    left.add(noSigns);
    left.add(question, "growx");
    left.add(connected);
    left.add(trouble, "growx");
    return left;
  }

  private JCheckBox box(String name, String words) {
    JCheckBox box = new JCheckBox(words);
    box.setName("rehearsal." + name);
    box.addActionListener(e -> chosen());
    return box;
  }

  /** What the built-in ones are called in full; read beside the event thread. */
  private void titles() {
    which.setRenderer(
        new javax.swing.DefaultListCellRenderer() {
          private static final long serialVersionUID = 1L;

          @Override
          public java.awt.Component getListCellRendererComponent(
              javax.swing.JList<?> of, Object value, int index, boolean selected, boolean focus) {
            String words = texts.title(String.valueOf(value));
            return super.getListCellRendererComponent(of, words, index, selected, focus);
          }
        });
    ctx.later(
        CompletableFuture.supplyAsync(RehearsalTexts::titles),
        all -> {
          texts.titles(all);
          which.repaint();
        });
  }

  private String name() {
    Object chosen = which.getSelectedItem();
    return chosen == null ? RehearsalFile.BUILT_IN.get(0) : chosen.toString();
  }

  private void choose() {
    lastRead = null;
    timeFields.clear();
    optionBoxes.clear();
    times.removeAll();
    options.removeAll();
    ctx.left("rehearsal.which", name());
    read(true);
  }

  private void chooseFile() {
    FileChoice choice =
        new FileChoice(
            "Open a rehearsal file",
            FileChoice.Mode.OPEN,
            List.of(".yaml", ".yml"),
            Path.of("").toAbsolutePath(),
            "",
            this::take,
            () -> cards.show(this, "main"));
    add(choice, "file");
    cards.show(this, "file");
    choice.requestFocusInWindow();
  }

  private void take(Path file) {
    cards.show(this, "main");
    ctx.later(
        CompletableFuture.supplyAsync(() -> RehearsalTexts.read(file)),
        text -> {
          String name = RehearsalTexts.name(file);
          if (texts.add(name, text)) {
            which.addItem(name);
          }
          which.setSelectedItem(name);
          choose();
        });
  }

  /** Reads the file with the times as they are now. */
  private void read(boolean anew) {
    int mine = ++reading;
    rehearsal = null;
    String name = name();
    String text = texts.text(name());
    Map<String, String> own = anew ? Map.of() : timesTyped();
    ctx.later(
        CompletableFuture.supplyAsync(() -> RehearsalTexts.parsed(name, text, own)),
        read -> {
          if (mine == reading) {
            took(read, anew);
          }
        },
        failure -> {
          if (mine == reading) {
            trouble.setText(bellwire.app.desk.Notices.words(failure));
            chosen();
          }
        });
    chosen();
  }

  private void took(Rehearsal read, boolean anew) {
    rehearsal = read;
    trouble.setText("");
    if (anew) {
      fields(read);
    }
    StringBuilder words = new StringBuilder();
    read.assumes().forEach(line -> words.append("Assumes: ").append(line).append('\n'));
    words.append("Leads: ").append(StepText.leads(read)).append(".");
    about.setText(words.toString());
    chosen();
    revalidate();
  }

  private void fields(Rehearsal read) {
    int column = 0;
    List<TimeBound> all = new ArrayList<>(read.times().values());
    all.sort(Comparator.comparing(TimeBound::name));
    for (TimeBound time : all) {
      JTextField field = new JTextField(Times.words(time.micros()), 6);
      field.setName("rehearsal.time." + time.name());
      field.setToolTipText(time.basis());
      JLabel label = new JLabel(time.name());
      label.setLabelFor(field);
      field.getAccessibleContext().setAccessibleName("Time " + time.name() + ", " + time.basis());
      field.getDocument().addDocumentListener(new Typed(() -> read(false)));
      timeFields.put(time.name(), field);
      times.add(label);
      times.add(field, ++column % 2 == 0 ? "hmin 40, wrap" : "hmin 40");
    }
    for (Rehearsal.Choice option : read.options()) {
      JCheckBox box = new JCheckBox(option.name());
      box.setName("rehearsal.option." + option.name());
      box.addActionListener(e -> chosen());
      optionBoxes.put(option.name(), box);
      box.getAccessibleContext().setAccessibleName(option.says());
      options.add(box);
      options.add(new Words(option.says()), "growx");
    }
  }

  private Map<String, String> timesTyped() {
    Map<String, String> typed = new LinkedHashMap<>();
    Rehearsal of = lastRead;
    timeFields.forEach(
        (name, field) -> {
          String words = field.getText().strip();
          TimeBound before = of == null ? null : of.times().get(name);
          if (!words.isEmpty() && (before == null || !words.equals(Times.words(before.micros())))) {
            typed.put(name, words);
          }
        });
    return typed;
  }

  private void chosen() {
    Rehearsal of = rehearsal;
    if (of != null && (lastRead == null || timesTyped().isEmpty())) {
      lastRead = of;
    }
    boolean asked = !ctx.visit().boards().simulated();
    RehearsalWish wish = wish();
    outdoor.setEnabled(wish.asksOutdoor());
    noSigns.setVisible(asked);
    connected.setVisible(asked);
    question.setVisible(asked);
    question.setText(RehearsalCautions.connected(live.isSelected()));
    List<String> lines = new ArrayList<>(Cautions.lines());
    lines.addAll(live.isSelected() ? RehearsalCautions.LIVE : RehearsalCautions.BENCH);
    StringBuilder words = new StringBuilder("BEFORE ANYTHING IS CONNECTED\n");
    lines.forEach(line -> words.append("\n•  ").append(line));
    words.append("\n\nNOT FOR THIS BOARD\n");
    RehearsalCautions.UNSUITED.forEach(line -> words.append("\n•  ").append(line));
    cautions.setText(words.toString());
    changed.run();
  }

  RehearsalWish wish() {
    Set<String> chosen = new LinkedHashSet<>();
    optionBoxes.forEach(
        (name, box) -> {
          if (box.isSelected()) {
            chosen.add(name);
          }
        });
    return new RehearsalWish(
        name(),
        texts.text(name()),
        rehearsal,
        trouble.getText(),
        timesTyped(),
        chosen,
        live.isSelected(),
        loads.isSelected(),
        outdoor.getText(),
        noSigns.isSelected(),
        connected.isSelected(),
        !ctx.visit().boards().simulated());
  }
}
