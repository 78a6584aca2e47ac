package bellwire.app.desk.vigil;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.InterlockState;
import bellwire.app.desk.Notices;
import bellwire.app.desk.Progress;
import bellwire.app.desk.Sounds;
import bellwire.app.job.VigilRow;
import bellwire.app.vigil.HeatBy;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilPrompts;
import bellwire.app.vigil.VigilRun;
import bellwire.app.vigil.VigilView;
import bellwire.app.visit.VigilRunning;
import bellwire.app.visit.VigilRunning.End;
import bellwire.link.Message.KeepVigil.Kind;
import java.nio.file.Path;
import java.time.ZonedDateTime;
import java.util.concurrent.atomic.AtomicReference;
import javax.swing.SwingUtilities;
import javax.swing.Timer;
import org.jspecify.annotations.Nullable;

/** A vigil that runs: shown on the event thread, seldom enough for it, and worked by a person. */
final class VigilWatch {
  private static final int LOOK_MILLIS = 100;

  /** Told of its course, on the event thread. */
  interface Told {
    void begun();

    /** How it stands is another now. */
    void changed();

    /**
     * @param vigil its key in the job
     */
    void ended(long vigil);

    void failed();
  }

  private final DeskContext ctx;
  private final Told page;
  private final VigilWatching panel;
  private final AtomicReference<@Nullable VigilView> latest = new AtomicReference<>();
  private final Timer timer = new Timer(LOOK_MILLIS, e -> look());
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

  VigilWatch(DeskContext ctx, Told page) {
    this.ctx = ctx;
    this.page = page;
    panel = new VigilWatching(ctx, new VigilWatching.Doings(this::mark, this::leave, this::askEnd));
    ctx.onClose(timer::stop);
  }

  VigilWatching panel() {
    return panel;
  }

  boolean running() {
    return running != null;
  }

  /** For the rail, while it runs. */
  String state() {
    VigilView now = view;
    return now == null ? "beginning" : VigilRows.seconds(now.leftMicros()) + " to go";
  }

  /** What is to be done after the last one; empty for nothing. */
  String afterwards() {
    return afterwards;
  }

  void heatDone() {
    afterwards = "";
  }

  void begin(VigilOrder asked) {
    begun(asked, ctx.visit().vigil(asked, latest::set, this::noted));
  }

  /** Goes on with one that was left. */
  void resume(VigilRow left, VigilOrder asked) {
    begun(asked, ctx.visit().resume(left, asked, latest::set, this::noted));
  }

  /** The last vigil in the file; the one that runs is shown live. */
  void inFile(VigilRow last) {
    if (running != null && last.ending().isEmpty() && liveVigil != last.id()) {
      liveVigil = last.id();
      panel.chart().show(ctx.visit().file(), last.id(), true);
    }
  }

  void mark(String text) {
    VigilRunning of = running;
    if (of != null) {
      of.mark(text);
      panel.noted(text);
      panel.chart().noted();
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

  private void noted(String words) {
    SwingUtilities.invokeLater(() -> ctx.notices().note(words));
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
    page.begun();
    panel.begin(asked);
    interlock(asked.kind() == Kind.CALLS ? InterlockState.LIVE : InterlockState.UNKNOWN);
    timer.start();
    ctx.later(vigil.done(), this::ended, this::failed);
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
    panel.show(of, now, here);
    Progress.Task at = task;
    if (at != null) {
      double all = now.sinceMicros() + (double) now.leftMicros();
      at.at(all > 0 ? now.sinceMicros() / all : Double.NaN, now.leftMicros() / 1e6, "");
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
      page.changed();
    }
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
    panel.chart().live(false);
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
    page.ended(end.vigil());
  }

  private void failed(Throwable failure) {
    boolean answered = view != null;
    over();
    if (answered) {
      interlock(InterlockState.NOT_LET_GO);
    }
    ctx.sounds().play(Sounds.Tone.TROUBLE);
    ctx.notices().trouble(failure);
    page.failed();
  }
}
