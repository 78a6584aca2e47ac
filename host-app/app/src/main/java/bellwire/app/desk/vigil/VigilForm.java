package bellwire.app.desk.vigil;

import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Typed;
import bellwire.app.desk.Words;
import bellwire.app.report.Cautions;
import bellwire.app.report.VigilCautions;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilPrompts;
import bellwire.app.vigil.VigilSite;
import bellwire.app.visit.Boards;
import bellwire.link.Message.KeepVigil.Kind;
import java.awt.BorderLayout;
import java.time.ZonedDateTime;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import javax.swing.ButtonGroup;
import javax.swing.JCheckBox;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import javax.swing.JToggleButton;
import net.miginfocom.swing.MigLayout;

/** What to watch, how long, and what a building without its heat is asked. */
final class VigilForm extends JPanel {
  private static final long serialVersionUID = 1L;
  private static final String LENGTH = "8 h";
  private static final int NARROW_EMS = 52;

  /** The demo's bench shows what it has within this. */
  private static final String DEMO_LENGTH = "2 h";

  private static final String[] FAR_ENDS = {"twisted together (a tie plug)", "the coded plug"};

  private final transient DeskContext ctx;
  private final transient Runnable changed;
  private final Map<Kind, JToggleButton> kinds = new EnumMap<>(Kind.class);
  private final JTextField ports = field("ports", "Ports with conductors", 18);
  private final JTextField leads =
      field("leads", "The control's terminals on X1, X2 and so on", 18);
  private final JTextField length = field("length", "How long", 8);
  private final JTextField returned = field("return", "Port the current comes back through", 5);
  private final JComboBox<String> farEnd = new JComboBox<>(FAR_ENDS);
  private final JCheckBox dry = box("dry", "dry contacts, fed with 5 V by the board");
  private final JCheckBox loads = box("loads", "dummy loads on, for a control on the bench");
  private final JTextField people = field("people", "Who is in the building meanwhile", 18);
  private final JTextField coldest = field("coldest", "Outdoors at the coldest", 8);
  private final JTextField heatBy = field("heatBy", "Heat back by", 8);
  private final Words cautions = new Words("");
  private final Words warning = new Words("", 16, true);
  private final JPanel fields = new JPanel(new MigLayout("insets 0, hidemode 3", "[]12[grow]", ""));
  private final List<Row> rows = new ArrayList<>();
  private Kind kind = Kind.CONTINUITY;
  private double metres = Double.NaN;
  private int mainsHertz = 60;
  private boolean filled;

  /** What the job told; what a person typed is not touched. */
  private String suggested = "";

  /** A label and what it is for, shown with some programs. */
  private record Row(JLabel label, JComponent field, List<Kind> with) {}

  /**
   * @param changed after each keystroke
   */
  VigilForm(DeskContext ctx, Runnable changed) {
    super(new BorderLayout());
    this.ctx = ctx;
    this.changed = changed;
    setName("vigil.form");
    JPanel left = new JPanel(new MigLayout("insets 0, wrap 1, fillx", "[0::, grow, fill]", ""));
    left.add(programs());
    rows();
    left.add(fields, "gaptop 8");
    left.add(warning, "growx");
    cautions.setName("vigil.cautions");
    add(
        new Beside(
            NARROW_EMS, "10", new Beside.Part(left, 60, 0), new Beside.Part(cautions, 40, 0)));
    length.setText(ctx.visit().boards() instanceof Boards.Demo ? DEMO_LENGTH : LENGTH);
    choose(Kind.CONTINUITY);
  }

  /** Each with what it sees beside it. */
  JComponent focus() {
    return ports.isVisible() ? ports : leads;
  }

  private JComponent programs() {
    JPanel panel = new JPanel(new MigLayout("insets 0, wrap 2", "[]12[0::, grow, fill]", "[]4[]"));
    ButtonGroup group = new ButtonGroup();
    for (Kind each : List.of(Kind.CALLS, Kind.CONTINUITY, Kind.TOUCH, Kind.TREND)) {
      JToggleButton button = new JToggleButton(VigilOrder.name(each));
      button.setName("vigil.program." + VigilOrder.name(each));
      button
          .getAccessibleContext()
          .setAccessibleName("Watch for " + VigilOrder.name(each) + ": " + VigilPrompts.sees(each));
      button.addActionListener(e -> choose(each));
      group.add(button);
      kinds.put(each, button);
      panel.add(button, "growx, hmin 40");
      panel.add(new Words(VigilPrompts.sees(each)), "growx");
    }
    return panel;
  }

  private void rows() {
    List<Kind> wired = List.of(Kind.CONTINUITY, Kind.TOUCH, Kind.TREND);
    List<Kind> all = List.of(Kind.values());
    row("Ports", ports, wired);
    row("Leads X1, X2 …", leads, List.of(Kind.CALLS));
    row("How long", length, all);
    row("Current returns by", returned, List.of(Kind.CONTINUITY));
    farEnd.setName("vigil.farEnd");
    farEnd.getAccessibleContext().setAccessibleName("What is on the far ends");
    farEnd.addActionListener(e -> changed.run());
    row("Far ends", farEnd, List.of(Kind.TREND));
    row("", dry, List.of(Kind.CALLS));
    row("", loads, List.of(Kind.CALLS));
    row("Who is in the building", people, wired);
    row("Outdoors, at the coldest", coldest, wired);
    row("Heat back by", heatBy, wired);
  }

  private void row(String words, JComponent field, List<Kind> with) {
    JLabel label = new JLabel(words);
    label.setLabelFor(field);
    fields.add(label);
    fields.add(field, "growx, wrap, hmin 40, wmin 40");
    rows.add(new Row(label, field, with));
  }

  private JTextField field(String name, String words, int columns) {
    JTextField field = new JTextField(columns);
    field.setName("vigil." + name);
    field.getAccessibleContext().setAccessibleName(words);
    field.getDocument().addDocumentListener(new Typed(this::typed));
    return field;
  }

  private JCheckBox box(String name, String words) {
    JCheckBox box = new JCheckBox(words);
    box.setName("vigil." + name);
    box.addActionListener(e -> typed());
    return box;
  }

  private void typed() {
    if (filled) {
      warn();
      changed.run();
    }
  }

  private void choose(Kind wanted) {
    kind = wanted;
    kinds.forEach((each, button) -> button.setSelected(each == wanted));
    boolean quiet = ctx.visit().boards().simulated();
    for (Row row : rows) {
      boolean site = row.field() == people || row.field() == coldest || row.field() == heatBy;
      boolean shown = row.with().contains(wanted) && !(site && quiet);
      row.label().setVisible(shown);
      row.field().setVisible(shown);
    }
    List<String> lines = new ArrayList<>(Cautions.lines());
    lines.addAll(wanted == Kind.CALLS ? VigilCautions.LIVE : VigilCautions.WITHOUT_HEAT);
    StringBuilder text = new StringBuilder("BEFORE ANYTHING IS CONNECTED\n");
    lines.forEach(line -> text.append("\n•  ").append(line));
    cautions.setText(text.toString());
    warn();
    revalidate();
    if (filled) {
      changed.run();
    }
  }

  private void warn() {
    ZonedDateTime now = ZonedDateTime.now();
    VigilWish wish = wish();
    String words = "";
    if (wish.site(now).map(VigilSite::frost).orElse(false)) {
      words = VigilCautions.FROST;
    } else if (wish.missing(now).isEmpty() && wish.shortened(now)) {
      words = VigilSite.SHORTENED;
    }
    warning.setText(words);
  }

  /** Takes what the job knows of its cable, where nothing was typed yet. */
  void prefill() {
    ctx.later(ctx.visit().ask(VigilKnown::read), this::take);
  }

  private void take(VigilKnown known) {
    filled = false;
    mainsHertz = known.mainsHertz();
    metres = known.cable() == null ? Double.NaN : known.cable().metres();
    String told = known.ports();
    boolean own = !ports.getText().isBlank() && !ports.getText().equals(suggested);
    if (!own && !told.isEmpty()) {
      if (returned.getText().equals(first(suggested))) {
        returned.setText("");
      }
      suggested = told;
      ports.setText(told);
    }
    if (ports.getText().isBlank()) {
      ports.setText(ctx.left("vigil.ports"));
    }
    if (returned.getText().isBlank()) {
      returned.setText(first(ports.getText()));
    }
    if (leads.getText().isBlank()) {
      leads.setText(ctx.left("vigil.leads"));
    }
    String program = ctx.left("vigil.program").toUpperCase(Locale.ROOT);
    for (Kind each : Kind.values()) {
      if (each.name().equals(program)) {
        choose(each);
      }
    }
    filled = true;
    typed();
  }

  private static String first(String ports) {
    return ports.split("[=,-]", 2)[0].strip();
  }

  /** For the next time that the desk is opened. */
  void remember() {
    ctx.left("vigil.program", VigilOrder.name(kind));
    ctx.left("vigil.ports", ports.getText().equals(suggested) ? "" : ports.getText());
    ctx.left("vigil.leads", leads.getText());
  }

  VigilWish wish() {
    return new VigilWish(
        kind,
        ports.getText(),
        leads.getText(),
        returned.getText(),
        farEnd.getSelectedIndex() == 1,
        dry.isSelected(),
        loads.isSelected(),
        length.getText(),
        metres,
        mainsHertz,
        !ctx.visit().boards().simulated(),
        people.getText(),
        coldest.getText(),
        heatBy.getText());
  }
}
