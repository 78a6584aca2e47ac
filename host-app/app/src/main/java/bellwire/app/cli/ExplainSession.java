package bellwire.app.cli;

import bellwire.analysis.landing.Cause;
import bellwire.analysis.landing.Dialogue;
import bellwire.analysis.landing.Measurement;
import bellwire.app.report.CauseGroups;
import bellwire.app.report.Paragraph;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** The dialogue from symptoms to a cause, at the terminal. */
final class ExplainSession {
  /** Causes less likely than this get no remedy in the end. */
  private static final double WORTH_DOING = 0.05;

  private static final int GROUPS = 3;

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
        out.println(question.measurement().live() ? "NEXT   LIVE" : "NEXT");
        say("  ", question.measurement().caution());
        say("  ", question.measurement().words());
      }
    }
    return ended();
  }

  private boolean ask(Dialogue.Question question, Answers answers) {
    Measurement m = question.measurement();
    out.println();
    out.println(m.live() ? "NEXT   LIVE" : "NEXT");
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

  /** By what they show: of those that show the same, only the next steps tell which it is. */
  private void causes() {
    out.println();
    out.println("CAUSES   by what they show");
    CauseGroups told = CauseGroups.of(dialogue);
    for (CauseGroups.Group group : told.groups()) {
      String lead = String.format(Locale.ROOT, "  %5s  ", group.share());
      for (Cause cause : group.shown()) {
        say(lead, cause.words());
        lead = "      or ";
        if (!cause.alike().isEmpty()) {
          say("         or, with no measurement that tells: ", CauseGroups.alike(cause));
        }
      }
      if (group.more() > 0) {
        out.println("      " + group.moreWords());
      }
    }
    if (told.lessLikely() > 0) {
      out.println("         and " + told.lessLikely() + " less likely");
    }
    if (!told.unexplained().isEmpty()) {
      say(
          String.format(Locale.ROOT, "  %5s  ", told.unexplained()),
          "nothing in the low-voltage loop explains it");
    }
    out.flush();
  }

  private ExitCode ended() {
    List<Cause> causes = dialogue.causes();
    out.println();
    switch (dialogue.outcome()) {
      case FOUND -> out.println("RESULT  one cause is left, as good as certain");
      case UNDECIDED ->
          out.println("RESULT  what is left can't be told apart by a look or a meter");
      case OPEN -> out.println("RESULT  not settled: the likeliest first");
    }
    List<Cause> left = dialogue.outcome() == Dialogue.Outcome.FOUND ? causes.subList(0, 1) : left();
    left.forEach(cause -> say("  - ", cause.words() + "."));
    if (!left.isEmpty()) {
      out.println();
      out.println("WHAT TO DO");
      left.stream().map(Cause::remedy).distinct().forEach(remedy -> say("  - ", remedy));
    }
    out.flush();
    return ExitCode.FAULT_FOUND;
  }

  /**
   * The likeliest of each way of showing; that nothing in the loop explains it, where that is the
   * likeliest of all, comes last: what was seen had a cause, and a fuse that opened above all.
   */
  private List<Cause> left() {
    List<List<Cause>> groups = dialogue.bySymptoms();
    List<Cause> left = new ArrayList<>();
    groups.stream()
        .limit(GROUPS)
        .filter(group -> CauseGroups.share(group) >= WORTH_DOING)
        .forEach(group -> left.add(group.get(0)));
    List<Cause> causes = dialogue.causes();
    if (!causes.isEmpty() && groups.stream().noneMatch(g -> g.contains(causes.get(0)))) {
      left.add(causes.get(0));
    }
    return left;
  }

  private void say(String lead, String words) {
    if (!words.isEmpty()) {
      Paragraph.hanging(lead, words).forEach(out::println);
    }
  }
}
