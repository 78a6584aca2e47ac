package bellwire.app.desk;

import bellwire.app.job.Act;
import bellwire.app.job.Act.Kind;
import bellwire.app.job.Fact;
import bellwire.app.report.Cautions;
import bellwire.app.visit.Change;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import javax.swing.BorderFactory;
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
  private static final int NARROW_EMS = 62;

  private final DeskContext ctx;
  private final JPanel page;
  private final ActsPanel recorded = new ActsPanel(this::withdraw);
  private final JButton read =
      button("safe.read", "I have read them", () -> add(Kind.CAUTIONS_READ, "", ""));
  private final JTextField by = field("safe.by", "Done by");
  private final JTextField supplies = field("safe.supplies", "Supplies switched off");
  private final JTextField live = field("safe.live", "Volts on the live source");
  private final JTextField dead = field("safe.dead", "Volts on the cable");
  private final JTextField again = field("safe.again", "Volts on the live source again");
  private final JTextField metal = field("safe.metal", "Where the metal clip is");
  private final JTextField fuse = field("safe.fuse", "Fuse: cause, type and rating");
  private final Map<Kind, JLabel> stands = new EnumMap<>(Kind.class);
  private SafeActs acts = new SafeActs(List.of());

  SafePage(DeskContext ctx) {
    this.ctx = ctx;
    page =
        new Beside(
            NARROW_EMS,
            "12 10 10 10",
            new Beside.Part(work(), 60, 0),
            new Beside.Part(record(), 40, 0));
    ctx.onChange(
        change -> {
          if (change == Change.ACTS || change == Change.FACTS) {
            load();
          }
        });
    load();
  }

  private static JTextField field(String name, String words) {
    JTextField field = new JTextField();
    field.setName(name);
    field.getAccessibleContext().setAccessibleName(words);
    return field;
  }

  private JPanel work() {
    JPanel work = new JPanel(new MigLayout("insets 0, gap 10 8, wrap 3", "[][grow,fill][]"));
    head(work, "1  Read the cautions", Kind.CAUTIONS_READ, "");
    work.add(cautions(), "span 2, growx, wmin 120");
    work.add(read, "growx, aligny bottom");
    head(work, "2  Switch off, at the disconnect", Kind.SWITCHED_OFF, ", gaptop 6");
    line(work, "Which supplies", supplies, button("safe.off", "Switched off", this::off));
    head(work, "3  Prove it dead, with your own meter", Kind.PROVED_DEAD, ", gaptop 6");
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
    head(work, "4  Clip M to bare metal", Kind.CLIPPED_TO_METAL, ", gaptop 6");
    line(work, "Where", metal, button("safe.clip", "Clipped", this::clipped));
    work.add(heading("Afterwards, where it comes to that"), "span, gaptop 6");
    line(work, "Fuse", fuse, button("safe.fused", "Fuse replaced", this::fused));
    work.add(
        new Words("Supplies on again: what was proved dead is dead no more."),
        "span 2, growx, wmin 0");
    work.add(button("safe.on", "Switched on", this::on), "growx");
    return work;
  }

  /** Set off by a bar: they are not small print. */
  private JComponent cautions() {
    JPanel lines = new JPanel(new MigLayout("insets 2 12 2 0, gap 6 4, wrap 2", "[][grow,fill]"));
    for (String caution : Cautions.lines()) {
      lines.add(new JLabel("\u2022"), "aligny top");
      lines.add(new Words(caution), "growx, wmin 100");
    }
    bar(lines);
    ctx.onLook(() -> bar(lines));
    return lines;
  }

  private void bar(JComponent beside) {
    int wide = (int) Math.round(5 * ctx.scale());
    beside.setBorder(BorderFactory.createMatteBorder(0, wide, 0, 0, ctx.palette().faulty()));
  }

  /** What is to be done, and, once it stands recorded, that it is. */
  private void head(JPanel into, String words, Kind kind, String gap) {
    JLabel done = new JLabel();
    done.setName("safe.done." + kind.name().toLowerCase(java.util.Locale.ROOT));
    stands.put(kind, done);
    into.add(heading(words), "span, split 2" + gap);
    into.add(done, "gapleft 16");
  }

  private void showStanding() {
    stands.forEach(
        (kind, label) ->
            label.setText(
                acts.standing(kind)
                    .map(act -> "\u2713 recorded " + ActsPanel.time(act.atUnixMicros()))
                    .orElse("")));
  }

  private JPanel record() {
    JPanel side = new JPanel(new MigLayout("insets 0, gap 8, wrap 1", "[grow,fill]"));
    JLabel label = new JLabel("By whom");
    label.setLabelFor(by);
    side.add(label, "split 2, growx 0");
    side.add(by, "growx, wmin 60");
    side.add(heading("Recorded"), "gaptop 6");
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
          showStanding();
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

  /** Where the next of it is written down. */
  @Override
  public JComponent focus() {
    List<Kind> missing = acts.missing();
    Kind next = missing.isEmpty() ? Kind.FUSE_REPLACED : missing.get(0);
    return switch (next) {
      case CAUTIONS_READ -> read;
      case SWITCHED_OFF -> supplies;
      case PROVED_DEAD -> live;
      case CLIPPED_TO_METAL -> metal;
      default -> fuse;
    };
  }

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
