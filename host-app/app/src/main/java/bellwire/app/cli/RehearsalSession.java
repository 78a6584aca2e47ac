package bellwire.app.cli;

import bellwire.app.link.AgentCalls;
import bellwire.app.link.Transport;
import bellwire.app.rehearsal.CallRecord;
import bellwire.app.rehearsal.CallSource;
import bellwire.app.rehearsal.Hands;
import bellwire.app.rehearsal.Operator;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalOutcome;
import bellwire.app.rehearsal.RehearsalRun;
import bellwire.app.rehearsal.RehearsalSite;
import bellwire.app.rehearsal.Replay;
import bellwire.app.rehearsal.TraceWriter;
import bellwire.app.rehearsal.TwoRecords;
import bellwire.app.report.Cautions;
import bellwire.app.report.Celsius;
import bellwire.app.report.Paragraph;
import bellwire.app.report.RehearsalCautions;
import bellwire.app.report.RehearsalJson;
import bellwire.app.report.RehearsalText;
import bellwire.app.report.StepText;
import bellwire.app.survey.Cancelled;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.LetGo;
import bellwire.app.visit.Filing;
import bellwire.board.BoardDescription;
import bellwire.link.HostEndpoint;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** One rehearsal at the terminal: cautions, questions, steps, outcome, exit status. */
final class RehearsalSession {
  private static final String[] WORDS = {"no", "n", "yes", "y"};

  /**
   * What was chosen on the command line.
   *
   * @param outdoorCelsius NaN where not given
   * @param filing the job that takes the outcome; null for none
   * @param file the rehearsal file's text
   */
  record Choices(
      Set<String> options,
      boolean live,
      double outdoorCelsius,
      boolean loads,
      @Nullable Path record,
      @Nullable Path json,
      @Nullable Filing filing,
      String file) {}

  private final PrintWriter out;
  private final PrintWriter err;
  private final Rehearsal rehearsal;
  private final Choices choices;
  private final Interrupt interrupt = new Interrupt();

  RehearsalSession(PrintWriter out, PrintWriter err, Rehearsal rehearsal, Choices choices) {
    this.out = out;
    this.err = err;
    this.rehearsal = rehearsal;
    this.choices = choices;
  }

  /** Outdoors, in degrees Celsius; NaN for what is no temperature. */
  static double celsius(String words) {
    return Celsius.parse(words, -60, 60).orElse(Double.NaN);
  }

  /**
   * @param hands of a simulation, null for a person at the control
   */
  int run(Transport transport, int baud, @Nullable Hands hands) {
    introduce();
    Answers answers = hands == null ? Answers.reading(System.in) : null;
    LiveLines live = new LiveLines(out, answers != null);
    Consumer<String> notes = notes(live);
    interrupt.arm();
    AgentCalls calls = null;
    ByteArrayOutputStream trace = new ByteArrayOutputStream();
    try (TraceWriter writer = writer(notes);
        TraceWriter filed = filed(trace, notes)) {
      RehearsalSite site = questions(answers);
      if (site == null) {
        transport.close();
        return notBegun();
      }
      CallRecord record =
          new TwoRecords(
              writer == null ? CallRecord.NONE : writer, filed == null ? CallRecord.NONE : filed);
      calls =
          new AgentCalls(
              transport,
              HostEndpoint.Timing.forBaud(baud),
              choices.loads(),
              record,
              interrupt::pressed,
              new SplittableRandom().nextLong(1L << 40),
              notes);
      ConsoleOperator operator = new ConsoleOperator(out, rehearsal, site, live, hands, answers);
      RehearsalOutcome outcome;
      try (CallSource source = calls) {
        outcome = new Run(source, operator, record).outcome();
      }
      if (!calls.letGo()) {
        complain(LetGo.OF_CONTROL.untold());
      }
      if (filed != null) {
        filed.close();
      }
      if (writer != null) {
        writer.close();
      }
      int status = report(outcome);
      if (!filed(outcome, trace.toByteArray())) {
        return ExitCode.WRONG_USAGE_OR_FILE.status();
      }
      return writer == null || writer.whole() ? status : recordNotWhole();
    } catch (InstrumentTrouble e) {
      live.clear();
      complain(e.getMessage());
      if (calls != null && !calls.letGo()) {
        complain(LetGo.OF_CONTROL.untold());
      }
      return ExitCode.BOARD_OR_LINK_TROUBLE.status();
    } catch (Cancelled e) {
      live.clear();
      out.println();
      out.flush();
      complain(LetGo.OF_CONTROL.stopped(calls == null || calls.letGo()));
      return ExitCode.INTERRUPTED.status();
    } catch (IOException e) {
      transport.close();
      complain(choices.record() + ": cannot be written: " + e.getMessage());
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    } finally {
      out.flush();
      interrupt.done();
    }
  }

  private @Nullable TraceWriter filed(OutputStream trace, Consumer<String> notes)
      throws IOException {
    return choices.filing() == null ? null : TraceWriter.packed(trace, rehearsal, notes);
  }

  private boolean filed(RehearsalOutcome outcome, byte[] trace) {
    Filing filing = choices.filing();
    if (filing == null) {
      return true;
    }
    try {
      String told =
          RehearsalJson.text(outcome, choices.options(), choices.live(), Cautions.lines());
      long key = filing.rehearsal(choices.live(), choices.file(), choices.options(), told, trace);
      say("  ", "rehearsal " + key + " of " + filing.job());
      return true;
    } catch (IOException e) {
      complain("the outcome above is not in the job: " + e.getMessage());
      return false;
    }
  }

  /** A record judged again. */
  int replay(Path file) {
    try (Replay replay = Replay.open(file, rehearsal)) {
      RehearsalOutcome outcome = new Run(replay, replay, CallRecord.NONE).outcome();
      int status = report(outcome);
      return outcome.trouble().isEmpty() ? status : ExitCode.WRONG_USAGE_OR_FILE.status();
    } catch (InstrumentTrouble e) {
      complain(e.getMessage());
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    } catch (IOException e) {
      complain(file + ": cannot be read as a record: " + e.getMessage());
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    }
  }

  /** A rehearsal ready to run. */
  private final class Run {
    private final RehearsalRun run;

    Run(CallSource source, Operator operator, CallRecord record) {
      double ppm = BoardDescription.revisionA().value("clock-ppm").tolerance();
      run = new RehearsalRun(rehearsal, choices.options(), source, operator, record, ppm);
    }

    RehearsalOutcome outcome() throws InstrumentTrouble {
      return run.run();
    }
  }

  /** Nothing was touched: the operator stopped it, said no, or there is nobody to ask. */
  private int notBegun() {
    if (interrupt.pressed()) {
      out.println();
      complain("stopped before it began");
      return ExitCode.INTERRUPTED.status();
    }
    complain("not begun: every question has to be answered first, and with yes");
    return ExitCode.WRONG_USAGE_OR_FILE.status();
  }

  private int recordNotWhole() {
    complain(choices.record() + ": the record is not whole, the outcome above is");
    return ExitCode.WRONG_USAGE_OR_FILE.status();
  }

  private @Nullable TraceWriter writer(Consumer<String> notes) throws IOException {
    Path file = choices.record();
    return file == null ? null : TraceWriter.open(file, rehearsal, notes);
  }

  private Consumer<String> notes(LiveLines live) {
    return words -> {
      live.clear();
      say("  ", words);
      out.flush();
    };
  }

  private void introduce() {
    out.println("BEFORE ANYTHING IS CONNECTED");
    Cautions.lines().forEach(line -> say("  - ", line));
    (choices.live() ? RehearsalCautions.LIVE : RehearsalCautions.BENCH)
        .forEach(line -> say("  - ", line));
    out.println();
    out.println("NOT FOR THIS BOARD");
    RehearsalCautions.UNSUITED.forEach(line -> say("  - ", line));
    out.println();
    out.println("REHEARSAL: " + rehearsal.title());
    rehearsal.assumes().forEach(line -> say("  assumes: ", line));
    for (Rehearsal.Choice option : rehearsal.options()) {
      boolean chosen = choices.options().contains(option.name());
      say("  option " + option.name() + (chosen ? " (chosen): " : ": "), option.says());
    }
    say("  leads: ", StepText.leads(rehearsal));
    out.flush();
  }

  /** Null where the answers say that nothing may begin. */
  private @Nullable RehearsalSite questions(@Nullable Answers answers) {
    if (answers == null) {
      return new RehearsalSite(choices.live(), false);
    }
    out.println();
    if (!yes(answers, RehearsalCautions.NO_SIGNS)
        || !yes(answers, RehearsalCautions.connected(choices.live()))) {
      return null;
    }
    double celsius = choices.outdoorCelsius();
    boolean runs = rehearsal.steps().stream().anyMatch(step -> step.runsCompressor());
    while (choices.live() && runs && Double.isNaN(celsius)) {
      out.print("  " + RehearsalCautions.HOW_WARM + " ");
      out.flush();
      String typed = wait(answers);
      if (typed == null) {
        return null;
      }
      celsius = celsius(typed);
    }
    say("  ", ConsoleOperator.WHILE_WAITING);
    boolean cold = choices.live() && celsius < RehearsalCautions.COLD_CELSIUS;
    return new RehearsalSite(choices.live(), cold);
  }

  private boolean yes(Answers answers, String question) {
    while (true) {
      say("  ", question + " [yes or no]");
      out.flush();
      String typed = wait(answers);
      String word = typed == null ? "no" : typed.toLowerCase(Locale.ROOT);
      for (int i = 0; i < WORDS.length; i++) {
        if (WORDS[i].equals(word)) {
          return i > 1;
        }
      }
    }
  }

  private @Nullable String wait(Answers answers) {
    return answers.await(interrupt::pressed);
  }

  private int report(RehearsalOutcome outcome) {
    out.println();
    RehearsalText.lines(outcome).forEach(out::println);
    out.flush();
    if (!outcome.trouble().isEmpty()) {
      complain(outcome.trouble());
    }
    int status =
        !outcome.trouble().isEmpty()
            ? ExitCode.BOARD_OR_LINK_TROUBLE.status()
            : outcome.good() ? ExitCode.ALL_SOUND.status() : ExitCode.FAULT_FOUND.status();
    Path json = choices.json();
    if (json != null) {
      try {
        RehearsalJson.write(json, outcome, choices.options(), choices.live(), Cautions.lines());
      } catch (IOException e) {
        complain(
            "cannot write "
                + json
                + ": "
                + e.getMessage()
                + "; name a file in a directory of your own with room on its disk");
        return ExitCode.WRONG_USAGE_OR_FILE.status();
      }
    }
    // The writer does not notice; standard output remembers.
    if (System.out.checkError()) {
      complain("the outcome could not be printed: its output was closed, or its disk is full");
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    }
    return status;
  }

  private void complain(@Nullable String words) {
    err.println("bellwire: " + words);
    err.flush();
  }

  private void say(String lead, String words) {
    Paragraph.hanging(lead, words).forEach(out::println);
  }
}
