package bellwire.app.desk;

import bellwire.app.job.Fact;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobRecords;
import bellwire.app.visit.Change;
import java.awt.CardLayout;
import java.nio.file.Path;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import javax.swing.BorderFactory;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTextArea;
import javax.swing.JTextField;
import javax.swing.SwingConstants;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** The first stop: who, where, which system; where the board is; the job file itself. */
final class VisitPage implements Page {
  private static final Map<Fact, String> LABELS = new EnumMap<>(Fact.class);

  static {
    LABELS.put(Fact.CUSTOMER, "Customer");
    LABELS.put(Fact.PLACE, "Place");
    LABELS.put(Fact.TECHNICIAN, "Technician");
    LABELS.put(Fact.SYSTEM, "System");
    LABELS.put(Fact.OLD_CONTROL, "Control found");
    LABELS.put(Fact.NEW_CONTROL, "Control to fit");
    LABELS.put(Fact.REASON, "Reason of the visit");
    LABELS.put(Fact.NOTES, "Notes");
  }

  private final DeskContext ctx;
  private final CardLayout cards = new CardLayout();
  private final JPanel place = new JPanel(cards);
  private final JobChoice choice;
  private final Map<Fact, FactField> fields = new EnumMap<>(Fact.class);
  private final Map<Fact, JComponent> inputs = new EnumMap<>(Fact.class);
  private final JLabel kept = new JLabel("everything is kept as you type");
  private final FactSwitch units;
  private final FactSwitch mains;

  VisitPage(DeskContext ctx) {
    this.ctx = ctx;
    choice = new JobChoice(ctx.window(), place, cards);
    units =
        new FactSwitch(
            ctx, Fact.UNITS, "Lengths in", List.of("metres", "feet"), this::unitsChanged);
    mains = new FactSwitch(ctx, Fact.MAINS_HERTZ, "Mains, Hz", List.of("50", "60"), v -> kept());
    place.add(page(), "facts");
    ctx.onChange(
        change -> {
          if (change == Change.FACTS) {
            load();
          }
        });
    load();
  }

  private FormPanel page() {
    FormPanel page = new FormPanel();
    page.head(new Words(String.valueOf(ctx.visit().file().getFileName()), 20, true), kept);
    kept.setName("visit.kept");
    for (Fact fact :
        List.of(
            Fact.CUSTOMER,
            Fact.PLACE,
            Fact.TECHNICIAN,
            Fact.SYSTEM,
            Fact.OLD_CONTROL,
            Fact.NEW_CONTROL)) {
      add(page, fact, new JTextField(), false);
    }
    add(page, Fact.REASON, new JTextField(), true);
    JTextArea notes = new JTextArea(3, 20);
    notes.setLineWrap(true);
    notes.setWrapStyleWord(true);
    add(page, Fact.NOTES, notes, true);
    page.row(top("Board"), new BoardChoice(ctx, this::bench), true);
    JPanel switches = new JPanel(new MigLayout("insets 0, gap 24"));
    switches.add(units);
    switches.add(mains);
    page.row(top("Measures"), switches, true);
    page.row(top("Another job"), choice.buttons(), true);
    page.arranged();
    return page;
  }

  /** Beside the first line of what is higher than a line. */
  private static JLabel top(String words) {
    JLabel label = new JLabel(words);
    label.setVerticalAlignment(SwingConstants.TOP);
    label.setBorder(BorderFactory.createEmptyBorder(10, 0, 0, 0));
    return label;
  }

  private void add(FormPanel page, Fact fact, javax.swing.text.JTextComponent input, boolean wide) {
    String words = LABELS.getOrDefault(fact, "");
    boolean high = input instanceof JTextArea;
    JLabel label = high ? top(words) : new JLabel(words);
    label.setLabelFor(input);
    if (high) {
      // Tab goes on; there is no need for tabs in notes.
      input.setFocusTraversalKeys(java.awt.KeyboardFocusManager.FORWARD_TRAVERSAL_KEYS, null);
      input.setFocusTraversalKeys(java.awt.KeyboardFocusManager.BACKWARD_TRAVERSAL_KEYS, null);
    }
    fields.put(fact, new FactField(ctx, fact, words, input, this::kept));
    inputs.put(fact, input);
    page.row(label, high ? new JScrollPane(input) : input, wide);
  }

  private void bench(Consumer<Path> chosen) {
    choice.choose("Which simulated bench?", List.of(".yaml", ".yml"), chosen);
  }

  private void kept() {
    String time =
        LocalTime.now(ZoneId.systemDefault()).format(DateTimeFormatter.ofPattern("HH:mm:ss"));
    kept.setText("kept at " + time);
    ctx.changed(this);
  }

  private void unitsChanged(String fact) {
    ctx.units(Units.of(fact));
    kept();
  }

  private void load() {
    ctx.later(ctx.visit().ask(VisitPage::facts), this::show);
  }

  private static Map<Fact, String> facts(JobRecords records) throws JobFileException {
    Map<Fact, String> facts = new EnumMap<>(Fact.class);
    for (Fact fact : Fact.values()) {
      facts.put(fact, records.fact(fact));
    }
    return facts;
  }

  private void show(Map<Fact, String> facts) {
    fields.forEach((fact, field) -> field.load(facts.getOrDefault(fact, "")));
    units.show(facts.getOrDefault(Fact.UNITS, ""));
    mains.show(facts.getOrDefault(Fact.MAINS_HERTZ, ""));
    ctx.units(Units.of(facts.getOrDefault(Fact.UNITS, "")));
    ctx.changed(this);
  }

  @Override
  public String key() {
    return "visit";
  }

  @Override
  public String title() {
    return "Visit";
  }

  @Override
  public JComponent component() {
    return place;
  }

  @Override
  public void entered() {}

  @Override
  public @Nullable JComponent focus() {
    return firstEmpty().orElseGet(() -> inputs.get(Fact.CUSTOMER));
  }

  @Override
  public void left() {}

  private java.util.Optional<JComponent> firstEmpty() {
    for (Fact fact : List.of(Fact.CUSTOMER, Fact.PLACE, Fact.TECHNICIAN)) {
      FactField field = fields.get(fact);
      if (field != null && field.text().isEmpty()) {
        return java.util.Optional.ofNullable(inputs.get(fact));
      }
    }
    return java.util.Optional.empty();
  }

  @Override
  public NextAction next() {
    return firstEmpty()
        .map(
            input ->
                NextAction.of(
                    "Say who the customer is, where, and who works", input::requestFocusInWindow))
        .orElseGet(() -> NextAction.of("Go on: make the equipment safe", () -> ctx.go("safe")));
  }

  @Override
  public String state() {
    FactField customer = fields.get(Fact.CUSTOMER);
    String name = customer == null ? "" : customer.text();
    return name.isEmpty() ? "not begun" : name;
  }
}
