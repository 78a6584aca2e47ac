package bellwire.app.desk;

import bellwire.app.job.Act;
import bellwire.app.job.Act.Kind;
import bellwire.app.job.Fact;
import bellwire.app.report.Cautions;
import bellwire.app.visit.Change;
import java.awt.event.ComponentAdapter;
import java.awt.event.ComponentEvent;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JPanel;
import javax.swing.JTextField;
import net.miginfocom.swing.MigLayout;

/**
 * The second stop: the equipment made safe, as acts that somebody did and says so. No page to click
 * through: what is not recorded is warned of wherever the board is connected.
 */
final class SafePage implements Page {
  /** Of the page's width in type sizes, below which the record stands below the work. */
  private static final int NARROW_EMS = 56;

  private final DeskContext ctx;
  private final JPanel page = new JPanel();
  private final ActsPanel recorded = new ActsPanel(this::withdraw);
  private final JTextField by = field("safe.by", "Done by");
  private final JTextField supplies = field("safe.supplies", "Supplies switched off");
  private final JTextField live = field("safe.live", "Volts on the live source");
  private final JTextField dead = field("safe.dead", "Volts on the cable");
  private final JTextField again = field("safe.again", "Volts on the live source again");
  private final JTextField metal = field("safe.metal", "Where the metal clip is");
  private final JTextField fuse = field("safe.fuse", "Fuse: cause, type and rating");
  private boolean stacked;
  private SafeActs acts = new SafeActs(List.of());

  SafePage(DeskContext ctx) {
    this.ctx = ctx;
    JPanel work = work();
    JPanel record = record();
    stack(work, record, false);
    page.addComponentListener(
        new ComponentAdapter() {
          @Override
          public void componentResized(ComponentEvent e) {
            stack(work, record, page.getWidth() < NARROW_EMS * page.getFont().getSize());
          }
        });
    ctx.onChange(
        change -> {
          if (change == Change.ACTS || change == Change.FACTS) {
            load();
          }
        });
    load();
  }

  /** Beside one another, or, where there is no room, one above the other. */
  private void stack(JPanel work, JPanel record, boolean narrow) {
    if (page.getComponentCount() > 0 && narrow == stacked) {
      return;
    }
    stacked = narrow;
    page.removeAll();
    page.setLayout(
        new MigLayout(
            "insets 20, gap 28" + (narrow ? ", wrap 1" : ""),
            narrow ? "[grow,fill]" : "[grow 60,fill,0:600:][grow 40,fill,0:400:]",
            "[top]"));
    page.add(work);
    page.add(record, "growy");
    page.revalidate();
  }

  private static JTextField field(String name, String words) {
    JTextField field = new JTextField();
    field.setName(name);
    field.getAccessibleContext().setAccessibleName(words);
    return field;
  }

  private JPanel work() {
    JPanel work = new JPanel(new MigLayout("insets 0, gap 10 8, wrap 3", "[][grow,fill][]"));
    work.add(heading("1  Read the cautions"), "span");
    for (String caution : Cautions.lines()) {
      work.add(new Words("•  " + caution), "span, growx, wmin 120");
    }
    work.add(
        button("safe.read", "I have read them", () -> add(Kind.CAUTIONS_READ, "", "")), "span");
    work.add(heading("2  Switch off, at the disconnect"), "span, gaptop 10");
    line(work, "Which supplies", supplies, button("safe.off", "Switched off", this::off));
    work.add(heading("3  Prove it dead, with your own meter"), "span, gaptop 10");
    JPanel readings =
        new JPanel(
            new MigLayout(
                "insets 0, gap 6", "[][grow,fill,50::][][grow,fill,50::][][grow,fill,50::]"));
    readings.add(new JLabel("live V"));
    readings.add(live);
    readings.add(new JLabel("cable V"));
    readings.add(dead);
    readings.add(new JLabel("live V"));
    readings.add(again);
    work.add(readings, "span 2, growx");
    work.add(button("safe.proved", "Proved dead", this::proved), "growx");
    work.add(heading("4  Clip M to bare metal"), "span, gaptop 10");
    line(work, "Where", metal, button("safe.clip", "Clipped", this::clipped));
    work.add(heading("When it comes to that"), "span, gaptop 10");
    line(work, "Fuse", fuse, button("safe.fused", "Fuse replaced", this::fused));
    work.add(button("safe.on", "Supplies switched on again", this::on), "span");
    line(work, "Done by", by, new JLabel());
    return work;
  }

  private JPanel record() {
    JPanel side = new JPanel(new MigLayout("insets 0, gap 8, wrap 1", "[grow,fill]"));
    side.add(heading("Recorded"));
    side.add(recorded);
    return side;
  }

  private static JLabel heading(String words) {
    return Look.bold(new JLabel(words), 17);
  }

  private static void line(JPanel into, String words, JComponent field, JComponent button) {
    JLabel label = new JLabel(words);
    label.setLabelFor(field);
    into.add(label);
    into.add(field, "growx");
    into.add(button, "growx");
  }

  private static JButton button(String name, String words, Runnable run) {
    JButton button = new JButton(words);
    button.setName(name);
    button.addActionListener(e -> run.run());
    return button;
  }

  private void off() {
    told(
        supplies,
        Kind.SWITCHED_OFF,
        "Say which supplies: the disconnect, the breaker, the switch.");
  }

  private void clipped() {
    told(metal, Kind.CLIPPED_TO_METAL, "Say where: the cabinet, the earth screw, a drain wire.");
  }

  private void fused() {
    told(fuse, Kind.FUSE_REPLACED, "Say what the cause was, and the fuse's type and rating.");
  }

  private void on() {
    add(Kind.SWITCHED_ON, "", "");
  }

  private void proved() {
    LiveDeadLive proof = LiveDeadLive.of(live.getText(), dead.getText(), again.getText());
    if (!proof.trouble().isEmpty()) {
      ctx.notices().trouble(proof.trouble());
      ctx.sounds().play(Sounds.Tone.TROUBLE);
      return;
    }
    add(Kind.PROVED_DEAD, "", proof.words());
    List.of(live, dead, again).forEach(field -> field.setText(""));
  }

  private void told(JTextField field, Kind kind, String missing) {
    String what = field.getText().trim();
    if (what.isEmpty()) {
      ctx.notices().note(missing);
      field.requestFocusInWindow();
    } else {
      add(kind, what, "");
      field.setText("");
    }
  }

  private void add(Kind kind, String what, String reading) {
    long now = ChronoUnit.MICROS.between(Instant.EPOCH, Instant.now());
    Act act = new Act(0, kind, what, reading, by.getText().trim(), now, false);
    ctx.later(
        ctx.visit().change(Change.ACTS, records -> records.add(act)),
        id ->
            ctx.undo()
                .did(
                    key(),
                    SafeActs.words(act) + " – recorded",
                    () -> withdraw(id),
                    () -> add(kind, what, reading)));
  }

  private void withdraw(Act act) {
    withdraw(act.id());
  }

  private void withdraw(long id) {
    ctx.later(
        ctx.visit()
            .change(
                Change.ACTS,
                records -> {
                  records.withdrawAct(id);
                  return id;
                }),
        done -> {});
  }

  private record Read(List<Act> acts, String technician) {}

  private void load() {
    ctx.later(
        ctx.visit().ask(records -> new Read(records.acts(), records.fact(Fact.TECHNICIAN))),
        read -> {
          acts = new SafeActs(read.acts());
          recorded.show(read.acts());
          if (by.getText().isBlank()) {
            by.setText(read.technician());
          }
          ctx.changed(this);
        });
  }

  @Override
  public String key() {
    return "safe";
  }

  @Override
  public String title() {
    return "Safe";
  }

  @Override
  public JComponent component() {
    return page;
  }

  @Override
  public void entered() {}

  @Override
  public void left() {}

  @Override
  public NextAction next() {
    List<Kind> missing = acts.missing();
    if (missing.isEmpty()) {
      return NextAction.of("Go on: survey the cable", () -> ctx.go("survey"));
    }
    return switch (missing.get(0)) {
      case CAUTIONS_READ ->
          NextAction.of("Read the cautions, then record it", () -> add(Kind.CAUTIONS_READ, "", ""));
      case SWITCHED_OFF -> NextAction.of("Switch off, and say which supplies", this::off);
      case PROVED_DEAD -> NextAction.of("Prove the cable dead: live, cable, live", this::prove);
      default -> NextAction.of("Clip M to bare metal, and say where", this::clipped);
    };
  }

  /** To the first reading that is not there yet; with all three, records. */
  private void prove() {
    for (JTextField field : List.of(live, dead, again)) {
      if (field.getText().isBlank()) {
        field.requestFocusInWindow();
        return;
      }
    }
    proved();
  }

  @Override
  public String state() {
    int done = SafeActs.WANTED.size() - acts.missing().size();
    if (done == 0) {
      return "not begun";
    }
    if (done < SafeActs.WANTED.size()) {
      return done + " of " + SafeActs.WANTED.size() + " recorded";
    }
    return acts.standing(Kind.PROVED_DEAD)
        .map(act -> "dead " + ActsPanel.time(act.atUnixMicros()))
        .orElse("");
  }
}
