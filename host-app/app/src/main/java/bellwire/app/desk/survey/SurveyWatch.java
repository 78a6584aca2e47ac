package bellwire.app.desk.survey;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.InterlockState;
import bellwire.app.desk.Progress;
import bellwire.app.desk.Sounds;
import bellwire.app.job.SurveyRow;
import bellwire.app.survey.SurveyListener;
import bellwire.app.visit.Running;
import bellwire.app.visit.Stopped;
import bellwire.app.visit.SurveyOrder;
import java.util.concurrent.CompletionException;
import javax.swing.SwingUtilities;
import org.jspecify.annotations.Nullable;

/** A survey that runs, told on the event thread: seldom enough for it. */
final class SurveyWatch {
  private static final long TELL_NANOS = 100_000_000;

  private final DeskContext ctx;
  private final SurveyState state;
  private final LivePanel live;
  private final Runnable changed;
  private @Nullable Running<SurveyRow> running;
  private Progress.@Nullable Task task;
  private String todo = "";
  private boolean answered;

  SurveyWatch(DeskContext ctx, SurveyState state, LivePanel live, Runnable changed) {
    this.ctx = ctx;
    this.state = state;
    this.live = live;
    this.changed = changed;
  }

  boolean running() {
    return running != null;
  }

  /** In the band while it runs. */
  String todo() {
    return todo;
  }

  void start(SurveyOrder order) {
    if (ctx.isBusy()) {
      return;
    }
    todo = "Hands off the cable";
    answered = false;
    ctx.interlock(InterlockState.UNKNOWN);
    Running<SurveyRow> begun = ctx.visit().survey(order, new Told());
    running = begun;
    task =
        ctx.progress()
            .begin(
                order.inPlace() ? "survey in place" : "survey of the lifted cable", begun::cancel);
    ctx.later(begun.done(), this::done, this::failed);
  }

  private void over() {
    Progress.Task ended = task;
    if (ended != null) {
      ended.end();
    }
    task = null;
    running = null;
  }

  private void done(SurveyRow row) {
    over();
    Seen seen = Seen.of(row, java.util.List.of());
    ctx.interlock(SurveyPage.interlock(seen.sheet()));
    boolean voltage = seen.sheet() != null && seen.sheet().stopped();
    ctx.sounds().play(voltage ? Sounds.Tone.VOLTAGE : Sounds.Tone.DONE);
    state.survey(row.id());
    state.load();
    changed.run();
  }

  private void failed(Throwable failure) {
    over();
    Throwable cause =
        failure instanceof CompletionException && failure.getCause() != null
            ? failure.getCause()
            : failure;
    if (cause instanceof Stopped stopped && stopped.letGo()) {
      ctx.interlock(InterlockState.NOT_CONNECTED);
      ctx.notices().note("The survey was stopped; the board has let go of the cable.");
    } else {
      ctx.interlock(answered ? InterlockState.NOT_LET_GO : InterlockState.NOT_CONNECTED);
      ctx.notices().trouble(failure);
    }
    changed.run();
  }

  /** On the survey's thread. */
  private final class Told implements SurveyListener {
    private long phaseBegan = System.nanoTime();
    private long last;
    private boolean armed;
    private String phase = "";

    @Override
    public void phase(String title) {
      phaseBegan = System.nanoTime();
      phase = title;
      boolean first = !armed;
      armed = true;
      later(
          () -> {
            if (first) {
              answered = true;
              ctx.interlock(InterlockState.CLEAR);
            }
            todo = "Hands off: measuring";
            live.measuring(title);
            at(0, Double.NaN, title);
          });
    }

    @Override
    public void progress(double share) {
      long now = System.nanoTime();
      if (now - last < TELL_NANOS) {
        return;
      }
      last = now;
      double left = share > 0.02 ? (now - phaseBegan) * 1e-9 * (1 - share) / share : Double.NaN;
      String title = phase;
      later(() -> at(share, left, title));
    }

    @Override
    public void waiting(String forWhat, String sight, long secondsLeft) {
      long now = System.nanoTime();
      if (now - last < TELL_NANOS) {
        return;
      }
      last = now;
      later(
          () -> {
            boolean another = !todo.equalsIgnoreCase(forWhat);
            todo = Character.toUpperCase(forWhat.charAt(0)) + forWhat.substring(1);
            live.waiting(forWhat, sight, secondsLeft);
            at(Double.NaN, secondsLeft, forWhat);
            if (another) {
              ctx.sounds().play(Sounds.Tone.YOUR_TURN);
              changed.run();
            }
          });
    }

    @Override
    public void note(String words) {
      later(
          () -> {
            live.note(words);
            if (words.startsWith("INTERLOCK TRIPPED")) {
              ctx.interlock(InterlockState.voltage("A PORT", "interlock tripped"));
            }
          });
    }

    private void later(Runnable run) {
      SwingUtilities.invokeLater(
          () -> {
            if (running()) {
              run.run();
            }
          });
    }

    private void at(double share, double left, String words) {
      Progress.Task now = task;
      if (now != null) {
        now.at(share, left, words);
      }
    }
  }
}
