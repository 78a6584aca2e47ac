package bellwire.app.desk.vigil;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.InterlockState;
import bellwire.app.desk.NextAction;
import bellwire.app.desk.Notices;
import bellwire.app.desk.Page;
import bellwire.app.desk.Parts;
import bellwire.app.desk.Progress;
import bellwire.app.desk.Sounds;
import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilRow;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.HeatBy;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilPrompts;
import bellwire.app.vigil.VigilRun;
import bellwire.app.vigil.VigilView;
import bellwire.app.visit.Change;
import bellwire.app.visit.VigilRunning;
import bellwire.app.visit.VigilRunning.End;
import bellwire.link.Message.KeepVigil.Kind;
import java.nio.file.Path;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicReference;
import javax.swing.JComponent;
import javax.swing.Timer;
import org.jspecify.annotations.Nullable;

/** Page 6: hours of watching. */
public final class VigilPage implements Page {
  private static final int LOOK_MILLIS = 100;
  private static final String FORM = "form";
  private static final String WATCHING = "watching";
  private static final String KEPT = "kept";

  private final DeskContext ctx;
  private final Parts parts;
  private final VigilForm form;
  private final VigilWatching watching;
  private final VigilKept kept;
  private final AtomicReference<@Nullable VigilView> latest = new AtomicReference<>();
  private final Timer timer = new Timer(LOOK_MILLIS, e -> look());
  private List<VigilRow> rows = List.of();
  private VigilCount count = VigilCount.NONE;
  private @Nullable VigilRunning running;
  private @Nullable VigilOrder order;
  private Progress.@Nullable Task task;
  private @Nullable VigilView view;
  private long here = -1;

  /** Whose chart is live; -1 for none. */
  private long liveVigil = -1;

  private int looks;
  private long counted;
  private boolean wasUp = true;
  private InterlockState told = InterlockState.NOT_CONNECTED;
  private String afterwards = "";

  public VigilPage(DeskContext ctx) {
    this.ctx = ctx;
    parts = new Parts("vigil", this::shows);
    form = new VigilForm(ctx, () -> ctx.changed(this));
    watching =
        new VigilWatching(ctx, new VigilWatching.Doings(this::mark, this::leave, this::askEnd));
    kept = new VigilKept(ctx);
    parts.add(FORM, "Set up", form);
    parts.add(WATCHING, "Watching", watching);
    parts.add(KEPT, "Look again", kept);
    parts.offer(WATCHING, false);
    show(FORM);
    ctx.onChange(
        change -> {
          if (change == Change.VIGILS) {
            reload();
          } else if (change == Change.CABLES
              || change == Change.FACTS
              || change == Change.SURVEYS) {
            form.prefill();
          }
        });
    form.prefill();
    reload();
  }

  private void show(String which) {
    parts.show(which);
  }

  private void shows(String which) {
    if (focus().isShowing()) {
      focus().requestFocusInWindow();
    }
    if (which.equals(KEPT)) {
      kept.chooseLast();
    }
    ctx.changed(this);
  }

  private void reload() {
    Path job = ctx.visit().file();
    ctx.later(ctx.visit().ask(all -> VigilCount.read(job)), this::take);
  }

  private void take(VigilCount read) {
    List<VigilRow> now = read.rows();
    count = read;
    rows = now;
    kept.show(now);
    if (running != null && now.size() > 0) {
      VigilRow last = now.get(now.size() - 1);
      if (last.ending().isEmpty() && liveVigil != last.id()) {
        liveVigil = last.id();
        watching.chart().show(ctx.visit().file(), last.id(), true);
      }
    }
    if (parts.shown().equals(KEPT)) {
      kept.chooseLast();
    }
    ctx.changed(this);
  }

  private Optional<VigilRow> unfinished() {
    return running != null
        ? Optional.empty()
        : VigilRun.lastBegun(rows).filter(row -> row.ending().isEmpty());
  }

  private void begin() {
    ZonedDateTime now = ZonedDateTime.now();
    VigilWish wish = form.wish();
    String missing = wish.missing(now);
    if (!missing.isEmpty() || running != null) {
      ctx.notices().note(missing.isEmpty() ? "A vigil is under way already." : missing + ".");
      return;
    }
    if (ctx.isBusy()) {
      return;
    }
    form.remember();
    long number = new SplittableRandom().nextLong(VigilOrder.LEAST_NUMBER, Long.MAX_VALUE);
    VigilOrder asked = wish.order(number, now);
    begun(asked, ctx.visit().vigil(asked, latest::set, this::noted));
  }

  private void resume(VigilRow row) {
    if (ctx.isBusy()) {
      return;
    }
    Path job = ctx.visit().file();
    ctx.later(
        ctx.visit().ask(all -> order(job, row)),
        asked -> begun(asked, ctx.visit().resume(row, asked, latest::set, this::noted)));
  }

  private static VigilOrder order(Path job, VigilRow row) throws JobFileException {
    try {
      return VigilRun.order(job, row);
    } catch (BadVigil e) {
      throw new IllegalStateException(e.getMessage(), e);
    }
  }

  private void noted(String words) {
    javax.swing.SwingUtilities.invokeLater(() -> ctx.notices().note(words));
  }

  private void begun(VigilOrder asked, VigilRunning vigil) {
    order = asked;
    running = vigil;
    afterwards = "";
    latest.set(null);
    view = null;
    told = InterlockState.NOT_CONNECTED;
    liveVigil = -1;
    counted = 0;
    wasUp = true;
    task = ctx.progress().begin("vigil: " + VigilOrder.name(asked.kind()), this::askEnd);
    parts.offer(WATCHING, true);
    show(WATCHING);
    watching.begin(asked);
    interlock(asked.kind() == Kind.CALLS ? InterlockState.LIVE : InterlockState.UNKNOWN);
    timer.start();
    ctx.later(vigil.done(), this::ended, this::failed);
    reload();
  }

  /** Ten times a second at most, however often the board tells something. */
  private void look() {
    VigilView now = latest.get();
    VigilOrder of = order;
    if (looks++ % 50 == 0) {
      Path job = ctx.visit().file();
      ctx.later(ctx.visit().ask(all -> job.toFile().getUsableSpace()), room -> here = room);
    }
    if (now == null || of == null || now == view) {
      return;
    }
    view = now;
    if (running != null) {
      interlock(
          of.kind() == Kind.CALLS
              ? InterlockState.LIVE
              : now.up() ? InterlockState.CLEAR : InterlockState.SILENT);
    }
    watching.show(of, now, here);
    Progress.Task running = task;
    if (running != null) {
      double all = now.sinceMicros() + (double) now.leftMicros();
      running.at(all > 0 ? now.sinceMicros() / all : Double.NaN, now.leftMicros() / 1e6, "");
    }
    long events = now.rows().stream().mapToLong(VigilView.Row::events).sum();
    if (events > counted) {
      ctx.sounds().play(Sounds.Tone.TICK);
      counted = events;
    }
    if (wasUp && !now.up()) {
      ctx.sounds().play(Sounds.Tone.TROUBLE);
    }
    wasUp = now.up();
    if (looks % 10 == 0) {
      ctx.changed(this);
    }
  }

  private void mark(String text) {
    VigilRunning of = running;
    if (of != null) {
      of.mark(text);
      watching.noted(text);
      watching.chart().noted();
    }
  }

  private void leave() {
    VigilRunning of = running;
    if (of != null) {
      of.leave();
    }
  }

  private void askEnd() {
    if (running != null) {
      ctx.notices()
          .ask(
              "End the vigil now? What was seen stays in the job.",
              new Notices.Choice("Go on watching", () -> {}),
              new Notices.Choice("End it", this::end));
    }
  }

  private void end() {
    VigilRunning of = running;
    if (of != null) {
      of.end();
    }
  }

  /** What was switched off is switched on, and recorded, on the page for that. */
  private void heatAgain() {
    afterwards = "";
    ctx.go("safe");
  }

  private void over() {
    timer.stop();
    look();
    running = null;
    Progress.Task of = task;
    task = null;
    if (of != null) {
      of.end();
    }
    watching.chart().live(false);
    parts.offer(WATCHING, false);
    interlock(InterlockState.NOT_CONNECTED);
  }

  /** Told once for each change: it is spoken too. */
  private void interlock(InterlockState state) {
    if (!state.equals(told)) {
      told = state;
      ctx.interlock(state);
    }
  }

  private void ended(End end) {
    VigilOrder of = order;
    over();
    if (end.byVoltage()) {
      interlock(InterlockState.voltage("THE CABLE", ""));
      ctx.sounds().play(Sounds.Tone.VOLTAGE);
      ctx.notices().trouble(end.words() + ". " + VigilPrompts.FOREIGN);
    } else {
      ctx.sounds().play(Sounds.Tone.DONE);
    }
    if (end.left()) {
      interlock(InterlockState.ALONE);
      boolean disk = view != null && view.boardDiskBytes() > 0;
      ctx.notices()
          .note(
              "The board goes on alone, "
                  + (disk
                      ? "and records on its own disk."
                      : "but has no disk of its own: it keeps the last minutes only."));
    } else {
      if (!end.letGo()) {
        interlock(InterlockState.NOT_LET_GO);
        ctx.notices().trouble(VigilRun.NOT_LET_GO);
      }
      afterwards =
          of != null && of.deEnergised() && !ctx.visit().boards().simulated()
              ? HeatBy.of(of.note()).atTheEnd(ZonedDateTime.now())
              : "";
      ctx.notices().note(("The vigil is over: " + end.words() + ". " + afterwards).strip());
    }
    show(KEPT);
    Path job = ctx.visit().file();
    ctx.later(
        ctx.visit().ask(all -> VigilCount.read(job)),
        now -> {
          take(now);
          kept.choose(end.vigil());
        });
  }

  private void failed(Throwable failure) {
    boolean answered = view != null;
    over();
    if (answered) {
      interlock(InterlockState.NOT_LET_GO);
    }
    ctx.sounds().play(Sounds.Tone.TROUBLE);
    ctx.notices().trouble(failure);
    show(FORM);
    reload();
  }

  @Override
  public String key() {
    return "vigil";
  }

  @Override
  public String title() {
    return "Vigil";
  }

  @Override
  public JComponent component() {
    return parts;
  }

  @Override
  public void entered() {
    String last = ctx.left("vigil.shown");
    if (running != null) {
      show(WATCHING);
    } else if (last.equals(KEPT) && !rows.isEmpty()) {
      show(KEPT);
    }
  }

  @Override
  public JComponent focus() {
    return switch (parts.shown()) {
      case WATCHING -> watching.focus();
      case KEPT -> kept.focus();
      default -> form.focus();
    };
  }

  @Override
  public void left() {
    ctx.left("vigil.shown", parts.shown());
    form.remember();
  }

  @Override
  public NextAction next() {
    if (running != null) {
      return NextAction.of("Shake the cable, then mark it: Space", () -> mark(VigilPrompts.SHOOK));
    }
    Optional<VigilRow> left = unfinished();
    if (left.isPresent()) {
      return NextAction.of("Go on with vigil " + left.get().id(), () -> resume(left.get()));
    }
    if (!afterwards.isEmpty() && parts.shown().equals(KEPT)) {
      return NextAction.of(afterwards, this::heatAgain);
    }
    if (parts.shown().equals(KEPT)) {
      return NextAction.of("Go on: the checklist before you leave", () -> ctx.go("finish"));
    }
    VigilWish wish = form.wish();
    String missing = wish.missing(ZonedDateTime.now());
    return missing.isEmpty()
        ? NextAction.of(
            "Begin the vigil: " + VigilOrder.name(wish.kind()) + ", " + wish.length().strip(),
            this::begin)
        : NextAction.words(missing);
  }

  @Override
  public String state() {
    VigilView now = view;
    if (running != null) {
      return now == null ? "beginning" : VigilRows.seconds(now.leftMicros()) + " to go";
    }
    return unfinished().isPresent() ? "the board is alone" : count.words();
  }
}
