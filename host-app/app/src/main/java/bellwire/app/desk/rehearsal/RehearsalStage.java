package bellwire.app.desk.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.analysis.calls.LevelChange;
import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.DrawingPanel;
import bellwire.app.desk.Words;
import bellwire.app.desk.rehearsal.DeskOperator.Now;
import bellwire.app.desk.rehearsal.DeskOperator.Phase;
import bellwire.app.desk.rehearsal.DeskOperator.Reply;
import bellwire.app.drawing.TimingDrawing;
import bellwire.app.drawing.TimingTape;
import bellwire.app.rehearsal.Operator;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.Step;
import bellwire.app.rehearsal.Terminal;
import bellwire.app.rehearsal.Times;
import bellwire.app.report.StepText;
import java.awt.event.ActionEvent;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import javax.swing.AbstractAction;
import javax.swing.JButton;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JTextField;
import javax.swing.KeyStroke;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** A rehearsal under way: what to do now, what is awaited, what was seen. */
final class RehearsalStage extends JPanel {
  private static final long serialVersionUID = 1L;

  /** How much of the diagram is shown while it grows. */
  private static final long WINDOW_MICROS = 600_000_000;

  private static final int DRAW_EVERY = 5;

  private final transient Consumer<Reply> reply;
  private final Words number = new Words("", 16, false);
  private final Words say = new Words("", 28, true);
  private final Words expected = new Words("", 18, false);
  private final Words warning = new Words("", 18, true);
  private final Words clock = new Words("", 32, true);
  private final LevelRows levels;
  private final DrawingPanel diagram;
  private final JTextField reason = new JTextField(18);
  private final JButton done = button("done", "Done  (Space)", 'D', () -> send(new Reply.Done()));
  private final JButton goOn = button("goOn", "Go on without waiting", 'G', this::go);
  private final JButton skip = button("skip", "Skip, with the reason  (S)", 'S', this::skip);
  private final JButton repeat = button("repeat", "Repeat  (R)", 'R', this::repeat);
  private final JButton end = button("end", "End early  (E)", 'E', this::end);
  private final JButton yes = button("yes", "Yes, it was so", 'Y', () -> observed("yes"));
  private final JButton no = button("no", "No, it was not", 'N', () -> observed("no"));
  private final JButton nobody = button("nobody", "Nobody looked", 'O', () -> observed(""));
  private transient @Nullable Rehearsal rehearsal;
  private transient @Nullable TimingTape tape;
  private transient @Nullable Step inForce;
  private transient @Nullable Phase phase;
  private static final int NARROW_EMS = 52;
  private boolean live;
  private long deviceMicros;
  private long stepMicros;
  private int draws;

  RehearsalStage(DeskContext ctx, Consumer<Reply> reply) {
    super(
        new MigLayout(
            "insets 10, fill, wrap 1, hidemode 3", "[grow, fill]", "[]8[]12[grow, fill]"));
    this.reply = reply;
    setName("rehearsal.stage");
    levels = new LevelRows(ctx);
    diagram = new DrawingPanel(ctx, "rehearsal.diagram");
    number.setName("rehearsal.number");
    say.setName("rehearsal.say");
    expected.setName("rehearsal.expected");
    clock.setName("rehearsal.clock");
    warning.setName("rehearsal.warning");
    JPanel now =
        new JPanel(
            new MigLayout("insets 0, fillx, wrap 1, hidemode 3", "[grow, fill]", "[]4[]8[]4[][]"));
    for (Words each : List.of(number, say, warning, expected, clock)) {
      now.add(each, "growx, wmin 0");
    }
    add(
        new Beside(NARROW_EMS, "0", new Beside.Part(now, 56, 0), new Beside.Part(levels, 44, 0)),
        "wmin 0");
    add(buttons(), "wmin 0");
    add(diagram.scrolled(), "hmin 140, wmin 0");
    keys();
  }

  private static JButton button(String name, String words, char mnemonic, Runnable run) {
    JButton button = new JButton(words);
    button.setName("rehearsal." + name);
    if (mnemonic != 0) {
      button.setMnemonic(mnemonic);
    }
    button.addActionListener(e -> run.run());
    return button;
  }

  /** Letters and Space work there. */
  JComponent focus() {
    return diagram;
  }

  private JComponent buttons() {
    JPanel rows = new JPanel(new MigLayout("insets 0, gap 6, wrap 1, hidemode 3", "[grow, fill]"));
    JPanel answers = new JPanel(new MigLayout("insets 0, hidemode 3", "", ""));
    for (JButton each : List.of(done, yes, no, nobody, goOn)) {
      answers.add(each, each == done ? "hmin 52" : "hmin 40");
    }
    JPanel row = new JPanel(new MigLayout("insets 0, fillx, hidemode 3", "[][][grow, fill][]", ""));
    row.add(repeat, "hmin 40");
    row.add(skip, "hmin 40");
    reason.setName("rehearsal.reason");
    reason.getAccessibleContext().setAccessibleName("Reason, or what you saw or heard");
    reason.putClientProperty("JTextField.placeholderText", "reason, or what you saw");
    reason.addActionListener(
        e -> {
          if (phase == Phase.LISTENED) {
            observed(reason.getText());
          }
        });
    row.add(reason, "hmin 40, wmin 80");
    row.add(end, "hmin 40");
    rows.add(answers, "wmin 0");
    rows.add(row, "wmin 0");
    return rows;
  }

  /** Letters and Space, wherever the keyboard is but in the reason's field. */
  private void keys() {
    key("SPACE", done);
    key("ENTER", done);
    key("S", skip);
    key("R", repeat);
    key("E", end);
    key("G", goOn);
  }

  private void key(String stroke, JButton button) {
    getInputMap(WHEN_ANCESTOR_OF_FOCUSED_COMPONENT).put(KeyStroke.getKeyStroke(stroke), stroke);
    getActionMap()
        .put(
            stroke,
            new AbstractAction() {
              private static final long serialVersionUID = 1L;

              @Override
              public void actionPerformed(ActionEvent e) {
                if (!reason.isFocusOwner() && button.isVisible() && button.isEnabled()) {
                  button.doClick(0);
                }
              }
            });
  }

  private void send(Reply what) {
    reply.accept(what);
  }

  private void go() {
    send(new Reply.GoOn());
  }

  private void skip() {
    if (reason.getText().isBlank()) {
      warning.setText(
          "Say why as well: type the reason, then skip. Such as 'no outdoor unit here'.");
      reason.requestFocusInWindow();
      return;
    }
    send(new Reply.Skip(reason.getText()));
    reason.setText("");
    done.requestFocusInWindow();
  }

  private void repeat() {
    send(new Reply.Repeat(reason.getText()));
    reason.setText("");
  }

  private void end() {
    send(new Reply.End(reason.getText()));
    reason.setText("");
  }

  private void observed(String said) {
    send(new Reply.Observed(said));
    reason.setText("");
  }

  /** A rehearsal begins. */
  void begin(Rehearsal of, boolean onSite) {
    rehearsal = of;
    live = onSite;
    tape = new TimingTape(of.terminals());
    inForce = null;
    phase = null;
    deviceMicros = 0;
    stepMicros = 0;
    say.setText("Connecting to the board");
    number.setText(of.title());
    expected.setText("");
    clock.setText("");
    warning.setText("");
    levels.show(List.of());
    shown(null);
    draw();
  }

  void seen(LevelChange change) {
    TimingTape on = tape;
    if (on != null) {
      on.add(change);
      deviceMicros = Math.max(deviceMicros, change.latestMicros());
    }
  }

  /** Ten times a second at most. */
  void show(Now now, boolean callOnly) {
    Rehearsal of = rehearsal;
    TimingTape on = tape;
    if (of == null || on == null) {
      return;
    }
    Operator.Moment moment = now.moment();
    if (moment != null) {
      deviceMicros = Math.max(deviceMicros, moment.nowMicros());
      on.advance(deviceMicros);
    }
    boolean other = inForce != now.step() || phase != now.phase();
    if (inForce != now.step() && now.phase() != Phase.ASKED || phase == Phase.ASKED && other) {
      on.step(now.step().name(), deviceMicros);
      stepMicros = deviceMicros;
    }
    if (other) {
      inForce = now.step();
      phase = now.phase();
      words(of, now, callOnly);
      shown(now.phase());
    }
    time(now);
    if (!now.levels().isEmpty()) {
      levels.show(lines(of, now));
    }
    if (draws++ % DRAW_EVERY == 0) {
      draw();
    }
  }

  private void words(Rehearsal of, Now now, boolean callOnly) {
    number.setText("step " + now.number() + " of " + now.of() + ": " + now.step().name());
    String first = now.powerFirst() ? StepText.POWER_FIRST + " " : "";
    boolean listens = now.phase() == Phase.LISTENED;
    say.setText(listens ? StepText.listen(now.step()) : first + now.step().say());
    expected.setText(listens ? "" : "Expected: " + StepText.expected(of, now.step()));
    warning.setText(callOnly && now.phase() == Phase.ASKED ? StepText.TOO_COLD : "");
    done.setText(callOnly ? "Call only: done  (Space)" : "Done  (Space)");
  }

  private void shown(@Nullable Phase now) {
    boolean asked = now == Phase.ASKED;
    boolean listens = now == Phase.LISTENED;
    boolean watched = now == Phase.WATCHED;
    done.setVisible(asked);
    skip.setVisible(asked);
    goOn.setVisible(watched);
    repeat.setVisible(watched);
    yes.setVisible(listens);
    no.setVisible(listens);
    nobody.setVisible(listens);
    reason.setVisible(now != null);
    end.setVisible(now != null);
    JComponent first = asked ? done : listens ? yes : levels; // Space must not hurry a step
    if (now != null && !reason.isFocusOwner()) {
      first.requestFocusInWindow();
    }
  }

  private void time(Now now) {
    Operator.Moment moment = now.moment();
    if (moment == null) {
      clock.setText(now.phase() == Phase.ASKED ? "your turn" : "");
      return;
    }
    clock.setText(
        moment.reached()
            ? "as expected"
            : moment.goal()
                ? "as expected, hold " + Times.clock(moment.leftMicros())
                : "waiting, at most " + Times.clock(moment.leftMicros()));
  }

  private List<LevelRows.Line> lines(Rehearsal of, Now now) {
    List<LevelRows.Line> all = new ArrayList<>();
    long since = deviceMicros - stepMicros;
    for (int i = 0; i < Math.min(now.levels().size(), of.terminals().size()); i++) {
      Terminal t = of.terminals().get(i);
      Level level = now.levels().get(i);
      boolean watched = now.phase() == Phase.WATCHED;
      String wanted = watched ? StepText.wanted(of, now.step(), t, level, since) : "";
      boolean well = wanted.isEmpty() || !wanted.startsWith("LATE") && !wanted.startsWith("should");
      all.add(new LevelRows.Line(t.name(), level, wanted, well));
    }
    return all;
  }

  private void draw() {
    TimingTape on = tape;
    if (on != null) {
      diagram.show(new TimingDrawing(on.window(WINDOW_MICROS)));
    }
  }

  /** What the band says. */
  String next() {
    Phase now = phase;
    if (now == null) {
      return "Connecting to the board";
    }
    return switch (now) {
      case ASKED -> "Do the step, then Space";
      case WATCHED -> live ? "Watch and listen" : "Wait: the terminals are watched";
      case LISTENED -> "Say what the equipment did";
    };
  }

  boolean asks() {
    return phase == Phase.ASKED;
  }

  void done() {
    done.doClick(0);
  }
}
