package bellwire.app.desk.rehearsal;

import bellwire.analysis.calls.Level;
import bellwire.app.rehearsal.Operator;
import bellwire.app.rehearsal.RehearsalSite;
import bellwire.app.rehearsal.Step;
import bellwire.app.survey.InstrumentTrouble;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.atomic.AtomicReference;
import org.jspecify.annotations.Nullable;

/**
 * The operator at the window. The rehearsal asks on its own thread, which lets time pass until
 * there is an answer; the window looks at {@link #now} and answers from the event thread. Neither
 * waits for the other.
 */
final class DeskOperator implements Operator {
  private static final int MOST_REPLIES = 16;

  /** What is asked, or goes on. */
  enum Phase {
    /** The step is to be done; the rehearsal waits for the person. */
    ASKED,
    /** The step is done; the terminals are watched. */
    WATCHED,
    /** What the equipment did is asked. */
    LISTENED
  }

  /**
   * As it stands.
   *
   * @param levels of the terminals; empty before the first look
   * @param moment of a step that is watched; null otherwise
   * @param powerFirst the control has to get its power back before the step
   */
  record Now(
      Phase phase,
      Step step,
      int number,
      int of,
      List<Level> levels,
      @Nullable Moment moment,
      boolean powerFirst) {}

  /** What the person wants. */
  sealed interface Reply {
    /** The step is done. */
    record Done() implements Reply {}

    record Skip(String reason) implements Reply {}

    /** From the step before. */
    record Repeat(String reason) implements Reply {}

    /** Without waiting any longer. */
    record GoOn() implements Reply {}

    record End(String reason) implements Reply {}

    /** 'yes', 'no', empty, or in words. */
    record Observed(String said) implements Reply {}
  }

  private final RehearsalSite site;
  private final AtomicReference<@Nullable Now> now = new AtomicReference<>();
  private final BlockingQueue<Reply> replies = new LinkedBlockingQueue<>(MOST_REPLIES);
  private int number;
  private int of;
  private boolean powerFirst;
  private boolean hurry;
  private boolean again;
  private String whyAgain = "";
  private @Nullable Answer early;

  DeskOperator(RehearsalSite site) {
    this.site = site;
  }

  /** As it stands; null before the first step. For any thread. */
  @Nullable Now now() {
    return now.get();
  }

  RehearsalSite site() {
    return site;
  }

  /** From the event thread; one too many is passed over. */
  void reply(Reply reply) {
    replies.offer(reply);
  }

  @Override
  public void told(Step step, int stepNumber, int steps) {
    number = stepNumber;
    of = steps;
    now.set(new Now(Phase.WATCHED, step, number, of, List.of(), null, false));
  }

  @Override
  public Answer begin(Step step, int stepNumber, int steps, Idle idle) throws InstrumentTrouble {
    Answer already = early;
    if (already != null) {
      return already;
    }
    number = stepNumber;
    of = steps;
    hurry = false;
    again = false;
    replies.clear();
    now.set(new Now(Phase.ASKED, step, number, of, List.of(), null, powerFirst));
    while (true) {
      List<Level> levels = idle.pass();
      now.set(new Now(Phase.ASKED, step, number, of, levels, null, powerFirst));
      Reply reply = replies.poll();
      if (reply instanceof Reply.Done) {
        powerFirst = false;
        return new Answer(Choice.DO, site.callOnly(step) ? RehearsalSite.CALL_ONLY : "");
      } else if (reply instanceof Reply.Skip skip && !skip.reason().isBlank()) {
        powerFirst = false;
        return new Answer(Choice.SKIP, "not tested, because " + skip.reason().strip());
      } else if (reply instanceof Reply.End end) {
        return ended(end.reason());
      }
    }
  }

  private static Answer ended(String why) {
    return new Answer(Choice.END, why.isBlank() ? "the operator ended it" : why.strip());
  }

  @Override
  public Next look(Moment moment) {
    now.set(new Now(Phase.WATCHED, moment.step(), number, of, moment.levels(), moment, false));
    Reply reply = replies.poll();
    if (reply instanceof Reply.GoOn) {
      hurry = true;
    } else if (reply instanceof Reply.Repeat repeat) {
      again = true;
      String why = repeat.reason().strip();
      whyAgain = why.isEmpty() ? "repeated" : "repeated, because " + why;
    } else if (reply instanceof Reply.End end) {
      hurry = true;
      early = ended(end.reason());
    }
    if (again) {
      powerFirst = Boolean.FALSE.equals(moment.step().deed().power());
      return Next.REPEAT;
    }
    return moment.reached() || moment.late() || hurry ? Next.GO_ON : Next.WAIT;
  }

  @Override
  public String observe(Step step, Idle idle) throws InstrumentTrouble {
    if (again) {
      return whyAgain;
    }
    if (!site.live() || step.listen().isEmpty()) {
      return "";
    }
    replies.clear();
    while (true) {
      List<Level> levels = idle.pass();
      now.set(new Now(Phase.LISTENED, step, number, of, levels, null, false));
      Reply reply = replies.poll();
      if (reply instanceof Reply.Observed said) {
        return bellwire.app.report.StepText.observed(step, said.said());
      } else if (reply instanceof Reply.End end) {
        early = ended(end.reason());
        return "nobody looked";
      }
    }
  }

  /** For a test's message. */
  @Override
  public String toString() {
    Now at = now.get();
    return at == null
        ? "before the first step"
        : at.phase().name().toLowerCase(Locale.ROOT) + " " + at.step().name();
  }
}
