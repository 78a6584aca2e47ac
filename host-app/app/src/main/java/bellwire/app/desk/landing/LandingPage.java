package bellwire.app.desk.landing;

import bellwire.analysis.loop.Point.Side;
import bellwire.app.desk.Beside;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.NextAction;
import bellwire.app.desk.Page;
import bellwire.app.desk.Words;
import bellwire.app.landing.LandingDraft;
import bellwire.app.landing.LandingDraft.Which;
import bellwire.app.report.LandingCautions;
import bellwire.app.visit.Change;
import javax.swing.JComponent;
import javax.swing.JPanel;
import javax.swing.JScrollPane;
import javax.swing.JTabbedPane;
import javax.swing.SwingUtilities;
import net.miginfocom.swing.MigLayout;
import org.jspecify.annotations.Nullable;

/** Page 4: which conductor goes under which terminal, checked as it is edited. */
public final class LandingPage implements Page {
  private static final int NARROW_EMS = 56;

  private final DeskContext ctx;
  private final LandingState state;
  private final Checker checker = new Checker();
  private final JPanel panel =
      new JPanel(
          new MigLayout("insets 10, fill, wrap 1, hidemode 3", "[grow,fill]", "[][][][grow,fill]"));
  private final Held held;
  private final StripsPanel strips;
  private final Words say = new Words(" ");
  private final JTabbedPane tabs = new JTabbedPane();
  private final FindingsPanel findings;
  private final CallsPanel calls;
  private final PlanPanel plan;
  private @Nullable LandingDraft asked;
  private @Nullable Which askedOf;

  public LandingPage(DeskContext ctx) {
    this.ctx = ctx;
    state = new LandingState(ctx);
    Errand errand = new Errand(ctx);
    held =
        new Held(
            new Held.Told() {
              @Override
              public void say(String words) {
                told(words);
              }

              @Override
              public void land(String conductor, Side side, @Nullable String terminal) {
                landed(conductor, side, terminal);
              }
            });
    strips = new StripsPanel(ctx, held);
    findings = new FindingsPanel(state);
    calls = new CallsPanel(state);
    plan = new PlanPanel(ctx, state, errand);
    tabs.setName("landing.tabs");
    tabs.addTab("Findings", findings);
    tabs.addTab("Calls", calls);
    tabs.addTab("Plan", plan);
    tabs.addTab("Symptoms", new SymptomsPanel(ctx, state, errand));
    tabs.addTab("Cautions", cautions());
    tabs.addChangeListener(e -> calls.stop());
    say.setName("landing.say");
    panel.setName("landing");
    panel.add(new HeadRow(ctx, state), "wmin 0");
    panel.add(new CableRowPanel(ctx, state), "wmin 0");
    panel.add(new Words("\u25B2  " + LandingCautions.LINES.get(0), 15, true), "wmin 0");
    panel.add(
        new Beside(NARROW_EMS, "0", new Beside.Part(work(), 57, 30), new Beside.Part(tabs, 43, 26)),
        "wmin 0");
    state.listen(this::show);
    state.onOpen(this::load);
    ctx.onChange(this::changed);
    ctx.onClose(checker::close);
    load();
  }

  private JComponent work() {
    JPanel work =
        new JPanel(new MigLayout("insets 0, fill, wrap 1", "[grow,fill]", "[grow,fill][][]"));
    work.add(strips.scrolled(), "wmin 0, hmin 180");
    work.add(say, "wmin 0, hmin 44");
    work.add(new FittingsRow(state), "wmin 0");
    return work;
  }

  private static JComponent cautions() {
    Words words = new Words("\u2022 " + String.join("\n\n\u2022 ", LandingCautions.LINES));
    words.setName("landing.cautions");
    JPanel inner = new JPanel(new MigLayout("insets 6, fillx", "[grow,fill]"));
    inner.add(words, "wmin 0");
    JScrollPane scrolled = new JScrollPane(inner, 20, 31);
    scrolled.setBorder(null);
    return scrolled;
  }

  private void load() {
    load(number(ctx.left("landing.cable")));
  }

  private void load(long wanted) {
    ctx.later(
        ctx.visit().ask(job -> new LandingStart(job).open(wanted)),
        opened -> {
          if (!opened.trouble().isEmpty()) {
            ctx.notices().trouble(opened.trouble());
          }
          state.open(opened);
        });
  }

  private static long number(String text) {
    return text.matches("\\d{1,18}") ? Long.parseLong(text) : 0;
  }

  /** What the job tells before anything was landed here is what there is to begin with. */
  private void changed(Change change) {
    boolean bears = change == Change.CABLES || change == Change.SURVEYS || change == Change.FACTS;
    if (bears && !state.stored()) {
      load();
    } else if (bears) {
      long cable = state.cable();
      ctx.later(
          ctx.visit().ask(job -> new LandingStart(job).known(cable)),
          known -> {
            if (cable == state.cable()) {
              state.known(known);
            }
          });
    }
  }

  private void told(String words) {
    say.setText(words);
    strips.describe(words);
  }

  private void landed(String conductor, Side side, @Nullable String terminal) {
    LandingDraft draft = state.draft();
    if (draft == null) {
      return;
    }
    String place = side == Side.NEAR ? " at the equipment" : " at the control";
    state.edit(
        conductor + place + (terminal == null ? " freed" : " landed under " + terminal),
        draft.landed(state.which(), conductor, side, terminal));
  }

  private void show() {
    LandingDraft draft = state.draft();
    if (draft == null) {
      return;
    }
    held.show(draft, state.which());
    held.tell();
    strips.show(StripsOf.model(draft, state.which(), state.lit(), state.checked()));
    if (!draft.equals(asked) || askedOf != state.which()) {
      asked = draft;
      askedOf = state.which();
      checker.check(
          draft,
          state.which(),
          checked -> SwingUtilities.invokeLater(() -> state.checked(checked)),
          failure -> SwingUtilities.invokeLater(() -> ctx.notices().trouble(failure)));
    }
    ctx.changed(this);
  }

  @Override
  public String key() {
    return LandingState.PAGE;
  }

  @Override
  public String title() {
    return "Landing";
  }

  @Override
  public JComponent component() {
    return panel;
  }

  @Override
  public void entered() {}

  @Override
  public JComponent focus() {
    return strips;
  }

  @Override
  public void left() {
    calls.stop();
    held.drop();
  }

  @Override
  public NextAction next() {
    LandingDraft draft = state.draft();
    if (draft == null) {
      return NextAction.words("Reading the landing from the job");
    }
    if (empty(draft, Which.AS_FOUND) && empty(draft, Which.AS_PLANNED)) {
      return NextAction.of("Land what you find, as found", () -> begin(Which.AS_FOUND));
    }
    if (empty(draft, Which.AS_PLANNED)) {
      return NextAction.of("Propose a landing of the new control", this::propose);
    }
    Checked checked = state.checked();
    if (state.which() == Which.AS_FOUND) {
      return NextAction.of("Look at the landing as planned", () -> begin(Which.AS_PLANNED));
    }
    if (checked == null) {
      return NextAction.words("Checking the landing");
    }
    return checked.faults() == 0
        ? NextAction.of("Land it so, then go on to the rehearsal", () -> ctx.go("rehearsal"))
        : NextAction.of("Clear the finding: " + first(checked), this::firstFinding);
  }

  private static String first(Checked checked) {
    return checked.found().get(0).kind().title();
  }

  private void begin(Which which) {
    state.which(which);
    strips.requestFocusInWindow();
  }

  private void propose() {
    tabs.setSelectedComponent(plan);
    plan.propose();
  }

  private void firstFinding() {
    tabs.setSelectedComponent(findings);
    findings.first();
  }

  private static boolean empty(LandingDraft draft, Which which) {
    return draft.plan(which).landed().stream().allMatch(l -> l.near() == null && l.far() == null);
  }

  @Override
  public String state() {
    LandingDraft draft = state.draft();
    Checked checked = state.checked();
    if (draft == null || !state.stored() && empty(draft, Which.AS_FOUND)) {
      return "not begun";
    }
    if (checked == null || checked.which() != Which.AS_PLANNED) {
      return empty(draft, Which.AS_PLANNED) ? "as found only" : "planned";
    }
    long faults = checked.faults();
    return faults == 0 ? "no finding" : faults == 1 ? "1 finding" : faults + " findings";
  }
}
