package bellwire.app.desk.survey;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.InterlockState;
import bellwire.app.desk.NextAction;
import bellwire.app.desk.Page;
import bellwire.app.desk.Words;
import bellwire.app.job.CableRow;
import bellwire.app.sheet.SurveySheet;
import java.awt.CardLayout;
import java.util.Optional;
import javax.swing.JComponent;
import javax.swing.JPanel;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** Page 3: the cable surveyed, live, and what was found. */
public final class SurveyPage implements Page {
  private final DeskContext ctx;
  private final SurveyState state;
  private final SurveyWatch watch;
  private final LivePanel live = new LivePanel();
  private final SetupPanel setup;
  private final ResultPanel result;
  private final VoltagePanel voltage;
  private final Words unreadable = new Words("");
  private final CardLayout cards = new CardLayout();
  private final JPanel place = new JPanel(cards);
  private final JPanel panel =
      new JPanel(new MigLayout("insets 10, fill, wrap 1", "[grow,fill]", "[][grow,fill]"));

  public SurveyPage(DeskContext ctx) {
    this.ctx = ctx;
    state = new SurveyState(ctx);
    watch = new SurveyWatch(ctx, state, live, this::refresh);
    setup = new SetupPanel(ctx, state);
    result = new ResultPanel(ctx, state);
    voltage = new VoltagePanel(ctx);
    place.add(setup, "setup");
    place.add(live, "live");
    place.add(result, "result");
    place.add(voltage, "voltage");
    place.add(unreadable, "unreadable");
    panel.setName("survey");
    panel.add(new ChoiceRow(state), "growx");
    panel.add(place, "grow");
    state.listen(this::refresh);
    state.load();
  }

  private void start() {
    Snapshot now = state.now();
    if (watch.running()) {
      return;
    }
    if (now.cable().id() == 0) {
      CableRow r = now.cable();
      String name = r.name().isBlank() ? "cable 1" : r.name();
      state.edit(
          "the cable's name",
          new CableRow(
              0, name, r.gauge(), r.metres(), r.celsius(), r.nearPlace(), r.farPlace(), r.note()));
      state.whenMade(this::start);
      return;
    }
    live.begin();
    watch.start(setup.how().order(now));
    refresh();
  }

  private void refresh() {
    cards.show(place, card());
    ctx.changed(this);
  }

  private String card() {
    if (watch.running()) {
      return "live";
    }
    Optional<Seen> seen = state.seen();
    if (seen.isEmpty()) {
      return "setup";
    }
    SurveySheet sheet = seen.get().sheet();
    if (sheet == null) {
      unreadable.setText(seen.get().trouble());
      return "unreadable";
    }
    if (sheet.stopped()) {
      voltage.show(sheet, seen.get().voltage());
      return "voltage";
    }
    return "result";
  }

  @Override
  public String key() {
    return SurveyState.PAGE;
  }

  @Override
  public String title() {
    return "Survey";
  }

  @Override
  public JComponent component() {
    return panel;
  }

  @Override
  public void entered() {
    ctx.changed(this);
  }

  @Override
  public void left() {}

  @Override
  public NextAction next() {
    if (watch.running()) {
      return NextAction.words(watch.todo());
    }
    Snapshot now = state.now();
    Seen seen = state.seen().orElse(null);
    if (seen == null) {
      return NextAction.of(
          now.provedDead()
              ? setup.how().isInPlace() ? "Survey the cable in place" : "Survey the lifted cable"
              : "Survey: not recorded as proved dead",
          this::start);
    }
    SurveySheet sheet = seen.sheet();
    if (sheet == null || sheet.stopped()) {
      return NextAction.of("Find the voltage, prove dead, survey again", this::prepare);
    }
    if (seen.row().inPlace() && !lifted(now)) {
      return NextAction.of("Lift the conductors, then survey again", this::prepareLifted);
    }
    return NextAction.of("Go on to the landing", () -> ctx.go("landing"));
  }

  private static boolean lifted(Snapshot now) {
    return now.surveys().stream().anyMatch(s -> !s.row().inPlace());
  }

  private void prepare() {
    state.survey(0);
  }

  private void prepareLifted() {
    setup.how().lifted();
    state.survey(0);
  }

  @Override
  public String state() {
    if (watch.running()) {
      return "measuring";
    }
    Snapshot now = state.now();
    if (now.surveys().isEmpty()) {
      return "not begun";
    }
    return now.surveys().get(now.surveys().size() - 1).outcome();
  }

  /** For what a foreign voltage says in the band. */
  static InterlockState interlock(@Nullable SurveySheet sheet) {
    if (sheet == null) {
      return InterlockState.UNKNOWN;
    }
    if (!sheet.stopped()) {
      return InterlockState.NOT_CONNECTED;
    }
    SurveySheet.Voltage v = sheet.voltage();
    if (v == null) {
      String ports = sheet.tripped().isEmpty() ? "A PORT" : String.join(", ", sheet.tripped());
      return InterlockState.voltage(ports, "tripped, then gone");
    }
    String what =
        String.format(
            java.util.Locale.ROOT,
            "%.1f V %s, %s",
            v.volts(),
            v.alternating() ? "AC" : "DC",
            v.driven() ? "driven" : "induced");
    return InterlockState.voltage(String.join(", ", v.between()), what);
  }
}
