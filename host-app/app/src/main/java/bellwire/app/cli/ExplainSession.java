package bellwire.app.cli;

import bellwire.analysis.landing.Cause;
import bellwire.analysis.landing.Dialogue;
import bellwire.analysis.landing.Measurement;
import bellwire.analysis.landing.Mistake;
import bellwire.app.report.Paragraph;
import java.io.PrintWriter;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/** The dialogue from symptoms to a cause, at the terminal. */
final class ExplainSession {
  private static final int SHOWN = 5;

  private final PrintWriter out;
  private final Dialogue dialogue;
  private final Interrupt interrupt;

  ExplainSession(PrintWriter out, Dialogue dialogue, Interrupt interrupt) {
    this.out = out;
    this.dialogue = dialogue;
    this.interrupt = interrupt;
  }

  /**
   * @param asking whether the person answers questions
   */
  ExitCode run(boolean asking) {
    causes();
    if (asking) {
      Answers answers = Answers.reading(System.in);
      while (dialogue.outcome() == Dialogue.Outcome.OPEN) {
        Dialogue.Question question = dialogue.next();
        if (question == null || !ask(question, answers)) {
          return interrupt.pressed() ? ExitCode.INTERRUPTED : ended();
        }
      }
    } else {
      Dialogue.Question question = dialogue.next();
      if (question != null) {
        out.println();
        out.println("NEXT");
        say("  ", question.measurement().caution());
        say("  ", question.measurement().words());
      }
    }
    return ended();
  }

  private boolean ask(Dialogue.Question question, Answers answers) {
    Measurement m = question.measurement();
    out.println();
    out.println(
        "NEXT   "
            + String.format(Locale.ROOT, "(worth %.1f bit)", question.bits())
            + (m.live() ? "   LIVE" : ""));
    say("  ", m.caution());
    say("  ", m.words());
    List<String> ways = m.answers();
    for (int i = 0; i < ways.size(); i++) {
      say("    " + (i + 1) + "  ", ways.get(i));
    }
    out.println("  [1 to " + ways.size() + ", '?' can't tell, 'back' undoes, 'end']");
    out.flush();
    while (true) {
      @Nullable String typed = answers.await(interrupt::pressed);
      if (typed == null || typed.equalsIgnoreCase("end")) {
        return false;
      }
      if (typed.equals("?")) {
        dialogue.dontKnow();
      } else if (typed.equalsIgnoreCase("back")) {
        dialogue.undo();
      } else if (typed.matches("[1-9]\\d?") && Integer.parseInt(typed) <= ways.size()) {
        dialogue.answer(Integer.parseInt(typed) - 1);
      } else {
        out.println(
            "  Not understood: '" + typed + "'. Type 1 to " + ways.size() + ", ?, back or end.");
        out.flush();
        continue;
      }
      causes();
      return true;
    }
  }

  private void causes() {
    out.println();
    out.println("CAUSES");
    List<Cause> causes = dialogue.causes();
    for (Cause cause : causes.subList(0, Math.min(SHOWN, causes.size()))) {
      say(String.format(Locale.ROOT, "  %4s  ", percent(cause.probability())), cause.words());
      if (!cause.alike().isEmpty()) {
        say("        or, just like it: ", alike(cause));
      }
    }
    if (causes.size() > SHOWN) {
      out.println("        and " + (causes.size() - SHOWN) + " less likely");
    }
    out.flush();
  }

  private static String alike(Cause cause) {
    return cause.alike().stream()
        .limit(3)
        .map(one -> one.stream().map(Mistake::words).collect(Collectors.joining(" and ")))
        .collect(Collectors.joining("; or "));
  }

  private static String percent(double share) {
    return share > 0.995 ? ">99 %" : share < 0.01 ? "<1 %" : Math.round(share * 100) + " %";
  }

  private ExitCode ended() {
    List<Cause> causes = dialogue.causes();
    out.println();
    switch (dialogue.outcome()) {
      case FOUND -> out.println("RESULT  one cause is left");
      case UNDECIDED ->
          out.println("RESULT  what is left can't be told apart by a look or a meter");
      case OPEN -> out.println("RESULT  not settled: the likeliest first");
    }
    if (!causes.isEmpty()) {
      say("  ", causes.get(0).words() + ".");
      out.println();
      out.println("WHAT TO DO");
      say("  - ", causes.get(0).remedy());
    }
    out.flush();
    return ExitCode.FAULT_FOUND;
  }

  private void say(String lead, String words) {
    if (!words.isEmpty()) {
      Paragraph.hanging(lead, words).forEach(out::println);
    }
  }
}
