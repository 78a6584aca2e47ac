package bellwire.app.desk.rehearsal;

import bellwire.analysis.calls.LevelChange;
import bellwire.app.desk.DeskContext;
import bellwire.app.desk.InterlockState;
import bellwire.app.desk.NextAction;
import bellwire.app.desk.Notices;
import bellwire.app.desk.Page;
import bellwire.app.desk.Parts;
import bellwire.app.desk.Progress;
import bellwire.app.desk.Sounds;
import bellwire.app.job.RehearsalRow;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.visit.Change;
import bellwire.app.visit.Running;
import bellwire.app.visit.Stopped;
import java.util.List;
import java.util.Queue;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.atomic.AtomicInteger;
import javax.swing.JComponent;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import org.jspecify.annotations.Nullable;

/** Page 5: a control taken through every function. */
public final class RehearsalPage implements Page {
  private static final int LOOK_MILLIS = 100;

  /** Between two looks; sixteen terminals that change each millisecond make 1600. */
  private static final int MOST_CHANGES = 10_000;

  private static final InterlockState POWERED =
      new InterlockState(
          InterlockState.Kind.LIVE, "control powered", "voltage at its terminals is expected");
  private static final String FORM = "form";
  private static final String STAGE = "stage";
  private static final String RESULTS = "results";

  private final DeskContext ctx;
  private final Parts parts;
  private final RehearsalForm form;
  private final RehearsalStage stage;
  private final RehearsalResults results;
  private final Queue<LevelChange> changes = new ArrayBlockingQueue<>(MOST_CHANGES);
  private final AtomicInteger missed = new AtomicInteger();
  private final Timer timer = new Timer(LOOK_MILLIS, e -> look());
  private @Nullable Running<RehearsalRow> running;
  private @Nullable DeskOperator operator;
  private Progress.@Nullable Task task;
  private DeskOperator.@Nullable Phase before;
  private boolean live;
  private boolean answered;

  public RehearsalPage(DeskContext ctx) {
    this.ctx = ctx;
    parts = new Parts("rehearsal", this::shows);
    form = new RehearsalForm(ctx, () -> ctx.changed(this));
    stage = new RehearsalStage(ctx, this::reply);
    results = new RehearsalResults(ctx);
    parts.add(FORM, "Set up", form);
    parts.add(STAGE, "Step by step", stage);
    parts.add(RESULTS, "Results", results);
    parts.offer(STAGE, false);
    show(FORM);
    ctx.onChange(
        change -> {
          if (change == Change.REHEARSALS) {
            reload(-1);
          }
        });
    reload(-1);
  }

  private void show(String which) {
    parts.show(which);
  }

  private void shows(String which) {
    toPart();
    if (which.equals(RESULTS)) {
      results.chooseLast();
    }
    ctx.changed(this);
  }

  /** The keyboard goes with what is shown. */
  private void toPart() {
    JComponent part = focus();
    if (part.isShowing()) {
      part.requestFocusInWindow();
    }
  }

  private record Read(List<RehearsalRow> rows, String word) {}

  /**
   * @param choose the one to show then; -1 for none
   */
  private void reload(long choose) {
    ctx.later(
        ctx.visit()
            .ask(
                all -> {
                  List<RehearsalRow> rows = all.rehearsals();
                  return new Read(rows, RehearsalResults.word(rows));
                }),
        read -> {
          results.show(read.rows(), read.word());
          if (choose >= 0) {
            results.choose(choose);
          }
          ctx.changed(this);
        });
  }

  private void begin() {
    RehearsalWish wish = form.wish();
    Rehearsal of = wish.rehearsal();
    if (of == null || !wish.missing().isEmpty() || running != null || ctx.isBusy()) {
      return;
    }
    DeskOperator asked = new DeskOperator(wish.site());
    operator = asked;
    before = null;
    answered = false;
    changes.clear();
    stage.begin(of, wish.live());
    parts.offer(STAGE, true);
    show(STAGE);
    Running<RehearsalRow> work = ctx.visit().rehearse(wish.order(), asked, this::note, this::seen);
    running = work;
    task = ctx.progress().begin("rehearsal: " + of.title(), this::askStop);
    live = wish.live();
    ctx.interlock(InterlockState.UNKNOWN);
    timer.start();
    ctx.later(work.done(), this::ended, this::failed);
  }

  /** On the rehearsal's thread. The diagram may miss some, and says so; the record has them all. */
  private void seen(LevelChange change) {
    if (!changes.offer(change)) {
      missed.incrementAndGet();
    }
  }

  private void note(String words) {
    SwingUtilities.invokeLater(() -> ctx.notices().note(words));
  }

  private void reply(DeskOperator.Reply reply) {
    DeskOperator of = operator;
    if (of != null) {
      of.reply(reply);
    }
  }

  private void askStop() {
    Running<RehearsalRow> work = running;
    if (work != null) {
      ctx.notices()
          .ask(
              "Break the rehearsal off? Nothing of it is kept; 'End early' keeps what was seen.",
              new Notices.Choice("Go on", () -> {}),
              new Notices.Choice("Break it off", work::cancel));
    }
  }

  private void look() {
    for (LevelChange each = changes.poll(); each != null; each = changes.poll()) {
      stage.seen(each);
    }
    int left = missed.getAndSet(0);
    if (left > 0) {
      ctx.notices()
          .note(
              left
                  + " changes came too fast for the diagram. They are in the record all the same.");
    }
    DeskOperator of = operator;
    DeskOperator.Now now = of == null ? null : of.now();
    if (of == null || now == null) {
      return;
    }
    if (!answered) {
      answered = true;
      ctx.interlock(live ? InterlockState.LIVE : POWERED);
    }
    stage.show(now, of.site().callOnly(now.step()));
    Progress.Task at = task;
    if (at != null) {
      at.at((now.number() - 1.0) / now.of(), Double.NaN, now.step().name());
    }
    if (now.phase() != before) {
      if (now.phase() != DeskOperator.Phase.WATCHED) {
        ctx.sounds().play(Sounds.Tone.YOUR_TURN);
      }
      before = now.phase();
      ctx.changed(this);
    }
  }

  private void over() {
    timer.stop();
    look();
    running = null;
    operator = null;
    Progress.Task of = task;
    task = null;
    if (of != null) {
      of.end();
    }
    parts.offer(STAGE, false);
    ctx.interlock(InterlockState.NOT_CONNECTED);
  }

  private void ended(RehearsalRow row) {
    over();
    ctx.sounds().play(Sounds.Tone.DONE);
    show(RESULTS);
    reload(row.id());
  }

  private void failed(Throwable failure) {
    over();
    if (failure instanceof Stopped stopped) {
      if (!stopped.letGo()) {
        ctx.interlock(InterlockState.NOT_LET_GO);
      }
      ctx.notices().note(Notices.words(failure));
    } else {
      if (answered) {
        ctx.interlock(InterlockState.NOT_LET_GO);
      }
      ctx.sounds().play(Sounds.Tone.TROUBLE);
      ctx.notices().trouble(failure);
    }
    show(FORM);
  }

  @Override
  public String key() {
    return "rehearsal";
  }

  @Override
  public String title() {
    return "Rehearsal";
  }

  @Override
  public JComponent component() {
    return parts;
  }

  @Override
  public void entered() {
    if (running != null) {
      show(STAGE);
    } else if (ctx.left("rehearsal.shown").equals(RESULTS) && results.count() > 0) {
      show(RESULTS);
    }
  }

  @Override
  public JComponent focus() {
    return switch (parts.shown()) {
      case STAGE -> stage.focus();
      case RESULTS -> results.focus();
      default -> form.focus();
    };
  }

  @Override
  public void left() {
    ctx.left("rehearsal.shown", parts.shown());
  }

  @Override
  public NextAction next() {
    if (running != null) {
      return stage.asks()
          ? NextAction.of(stage.next(), stage::done)
          : NextAction.words(stage.next());
    }
    if (parts.shown().equals(RESULTS)) {
      return results.lastWord().endsWith("all rules")
          ? NextAction.of("Go on to the vigil", () -> ctx.go("vigil"))
          : NextAction.of("Set the control right, then rehearse again", () -> show(FORM));
    }
    RehearsalWish wish = form.wish();
    String missing = wish.missing();
    return missing.isEmpty()
        ? NextAction.of(
            "Begin the rehearsal" + (wish.live() ? ", LIVE" : " on the bench"), this::begin)
        : NextAction.words(missing);
  }

  @Override
  public String state() {
    if (running != null) {
      return "under way";
    }
    int count = results.count();
    if (count == 0) {
      return "not begun";
    }
    return count == 1 ? results.lastWord() : count + ", last: " + results.lastWord();
  }
}
