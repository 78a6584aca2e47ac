package bellwire.app.cli;

import bellwire.analysis.calls.Level;
import bellwire.app.rehearsal.Hands;
import bellwire.app.rehearsal.Operator;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalSite;
import bellwire.app.rehearsal.Step;
import bellwire.app.rehearsal.Times;
import bellwire.app.report.Paragraph;
import bellwire.app.report.StepText;
import bellwire.app.survey.InstrumentTrouble;
import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The operator at the terminal: told each step, with what is expected; asked for Enter when it is
 * done; shown the terminals meanwhile. With hands of a simulation it goes on by itself.
 */
final class ConsoleOperator implements Operator {

  static final String WHILE_WAITING =
      "While a step waits you may type 'go' to go on without waiting, 'again REASON' to repeat it"
          + " from the step before, or 'end' for an early end.";

  /** More terminals than this don't all fit a line. */
  private static final int ALL_NAMED = 6;

  private final PrintWriter out;
  private final Rehearsal rehearsal;
  private final RehearsalSite site;
  private final @Nullable Hands hands;
  private final @Nullable Answers answers;
  private final LiveLines live;
  private final TerminalLines terminals;
  private boolean begun;
  private boolean powerFirst;
  private boolean hurry;
  private boolean again;
  private String whyAgain = "";
  private @Nullable Answer early;

  /**
   * @param live where the terminals are shown meanwhile
   * @param hands of a simulation; null for a person
   * @param answers what the person types; null where nobody does
   */
  ConsoleOperator(
      PrintWriter out,
      Rehearsal rehearsal,
      RehearsalSite site,
      LiveLines live,
      @Nullable Hands hands,
      @Nullable Answers answers) {
    this.out = out;
    this.rehearsal = rehearsal;
    this.site = site;
    this.hands = hands;
    this.answers = answers;
    this.live = live;
    terminals = new TerminalLines(rehearsal);
  }

  @Override
  public Answer begin(Step step, int number, int of, Idle idle) throws InstrumentTrouble {
    if (early != null) {
      return early;
    }
    hurry = false;
    again = false;
    begun = true;
    terminals.step(null, 0);
    out.println();
    out.println("step " + number + " of " + of + ": " + step.name());
    if (powerFirst) {
      say("  ", StepText.POWER_FIRST);
      powerFirst = false;
    }
    say("  ", step.say());
    say("  expected: ", StepText.expected(rehearsal, step));
    if (hands != null) {
      idle.pass(); // nobody acts in the instant of the question
      hands.perform(step.deed());
      out.flush();
      return new Answer(Choice.DO, "");
    }
    String note = "";
    if (site.callOnly(step)) {
      say(
          "  ",
          "TOO COLD TO RUN THE COMPRESSOR. Switch off, lift the outdoor pair, switch on again and"
              + " type 'call' to see the call only; or 'skip' with the reason.");
      note = RehearsalSite.CALL_ONLY;
    }
    say(
        "  ",
        "["
            + (note.isEmpty() ? "Enter" : "call")
            + " when done, 'skip REASON', 'end' for an early end]");
    out.flush();
    while (true) {
      String typed = typed(idle);
      if (typed == null) {
        return new Answer(Choice.END, "the input has ended");
      }
      String word = typed.split(" ", 2)[0].toLowerCase(Locale.ROOT);
      String rest = typed.substring(Math.min(typed.length(), word.length())).strip();
      if (word.equals("end")) {
        return end(rest);
      } else if (word.equals("skip") && !rest.isEmpty()) {
        return new Answer(Choice.SKIP, "not tested, because " + rest);
      } else if (word.equals("skip")) {
        say("  ", "Say why as well, such as 'skip no outdoor unit here'.");
      } else if (note.isEmpty() && word.isEmpty()) {
        return new Answer(Choice.DO, "");
      } else if (!note.isEmpty() && word.equals("call")) {
        return new Answer(Choice.DO, note);
      } else {
        say("  ", "Type " + (note.isEmpty() ? "Enter" : "'call'") + ", 'skip REASON' or 'end'.");
      }
      out.flush();
    }
  }

  private static Answer end(String why) {
    return new Answer(Choice.END, why.isEmpty() ? "the operator ended it" : why);
  }

  /** The next line typed, time passing meanwhile; null when there will be none. */
  private @Nullable String typed(Idle idle) throws InstrumentTrouble {
    Answers from = answers;
    while (from != null) {
      String typed = from.poll();
      if (typed != null) {
        live.answered();
        return typed;
      } else if (from.over()) {
        return null;
      }
      live.show(terminals.lines(idle.pass(), System.nanoTime() / 1000));
    }
    return null;
  }

  @Override
  public Next look(Moment moment) {
    if (begun) {
      begun = false;
      terminals.step(moment.step(), System.nanoTime() / 1000);
    }
    if (hands == null) {
      listen();
    }
    String what =
        moment.reached()
            ? "done"
            : moment.goal()
                ? "as expected, " + Times.clock(moment.leftMicros()) + " more"
                : "waiting, at most " + Times.clock(moment.leftMicros());
    List<String> lines = new ArrayList<>();
    lines.add("  " + what);
    lines.addAll(terminals.lines(moment.levels(), System.nanoTime() / 1000));
    live.show(lines);
    if (again) {
      live.clear();
      powerFirst = Boolean.FALSE.equals(moment.step().deed().power());
      return Next.REPEAT;
    }
    if (moment.reached() || moment.late() || hurry) {
      live.clear();
      say(
          "  ",
          (moment.reached() ? "as expected: " : "NOT AS EXPECTED: ") + levels(moment.levels()));
      out.flush();
      return Next.GO_ON;
    }
    return Next.WAIT;
  }

  private void listen() {
    Answers from = answers;
    String typed = from == null ? null : from.poll();
    if (typed == null) {
      return;
    }
    live.answered();
    String word = typed.split(" ", 2)[0].toLowerCase(Locale.ROOT);
    String rest = typed.substring(Math.min(typed.length(), word.length())).strip();
    switch (word) {
      case "go" -> hurry = true;
      case "again" -> {
        again = true;
        whyAgain = rest.isEmpty() ? "repeated" : "repeated, because " + rest;
      }
      case "end" -> {
        hurry = true;
        early = end(rest);
      }
      default -> say("  ", WHILE_WAITING);
    }
    out.flush();
  }

  /** Every terminal; where there are many, those that are off only by their number. */
  private String levels(List<Level> levels) {
    List<String> words = new ArrayList<>();
    int off = 0;
    for (int i = 0; i < levels.size(); i++) {
      if (levels.get(i) == Level.OFF && levels.size() > ALL_NAMED) {
        off++;
      } else {
        words.add(rehearsal.terminals().get(i).name() + " " + StepText.level(levels.get(i)));
      }
    }
    if (off > 0) {
      words.add((words.isEmpty() ? "all " : "the other ") + off + " off");
    }
    return String.join("  ", words);
  }

  @Override
  public String observe(Step step, Idle idle) throws InstrumentTrouble {
    if (again) {
      return whyAgain;
    }
    if (!site.live() || hands != null || step.listen().isEmpty()) {
      return "";
    }
    say(
        "  ",
        StepText.listen(step) + " [yes, no, or what you saw or heard; Enter where nobody looked]");
    out.flush();
    String typed = typed(idle);
    String said = typed == null ? "" : typed;
    return StepText.observed(step, said);
  }

  private void say(String lead, String words) {
    Paragraph.hanging(lead, words).forEach(out::println);
  }
}
