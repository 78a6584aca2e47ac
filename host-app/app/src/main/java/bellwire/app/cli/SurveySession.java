package bellwire.app.cli;

import bellwire.analysis.survey.BoardModel;
import bellwire.analysis.survey.SurveyResult;
import bellwire.app.link.AgentInstrument;
import bellwire.app.link.Transport;
import bellwire.app.report.Cautions;
import bellwire.app.report.Paragraph;
import bellwire.app.report.ResultJson;
import bellwire.app.report.ResultText;
import bellwire.app.report.VoltageText;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.Cancelled;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.LetGo;
import bellwire.app.survey.ScanTranslation;
import bellwire.app.survey.SurveyOptions;
import bellwire.app.survey.SurveyOutcome;
import bellwire.app.survey.SurveyRun;
import bellwire.app.survey.SurveyTape;
import bellwire.app.visit.Filing;
import bellwire.board.BoardDescription;
import bellwire.link.HostEndpoint;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Map;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;

/** One survey in a terminal: cautions, progress, result, exit status. */
final class SurveySession {

  private final PrintWriter out;
  private final PrintWriter err;
  private final Map<Integer, String> colours;
  private final boolean feet;
  private final @Nullable Path json;
  private final Interrupt interrupt = new Interrupt();

  SurveySession(
      PrintWriter out,
      PrintWriter err,
      Map<Integer, String> colours,
      boolean feet,
      @Nullable Path json) {
    this.out = out;
    this.err = err;
    this.colours = colours;
    this.feet = feet;
    this.json = json;
  }

  void complain(@Nullable String words) {
    err.println("bellwire: " + words);
    err.flush();
  }

  int run(Transport transport, SurveyOptions options, int mainsHertz, int baud) {
    return run(transport, options, mainsHertz, baud, false, null);
  }

  /**
   * @param filing the job that takes the outcome; null for none
   */
  int run(
      Transport transport,
      SurveyOptions options,
      int mainsHertz,
      int baud,
      boolean inPlace,
      @Nullable Filing filing) {
    out.println("BEFORE ANYTHING IS CONNECTED");
    Cautions.lines().forEach(line -> Paragraph.hanging("  - ", line).forEach(out::println));
    out.println();
    out.flush();
    BoardModel board = BoardModels.of(BoardDescription.revisionA());
    ScanTranslation translation = new ScanTranslation(mainsHertz);
    TerminalProgress progress = new TerminalProgress(out);
    long firstRequest = new SplittableRandom().nextLong(1L << 40);
    interrupt.arm();
    AgentInstrument instrument =
        new AgentInstrument(
            transport,
            HostEndpoint.Timing.forBaud(baud),
            translation::step,
            board.converterVolts(),
            interrupt::pressed,
            firstRequest,
            progress::note);
    try (SurveyTape.Recorder taped = new SurveyTape.Recorder(instrument)) {
      SurveyRun run = new SurveyRun(taped, board, options, progress);
      SurveyOutcome outcome = (inPlace ? run.inPlace() : run).run();
      progress.end();
      int status = report(outcome);
      if (filing != null && !filed(filing, outcome, taped.tape(), inPlace, options)) {
        status = ExitCode.WRONG_USAGE_OR_FILE.status();
      }
      return printed(status);
    } catch (InstrumentTrouble e) {
      progress.end();
      complain(e.getMessage());
      return ExitCode.BOARD_OR_LINK_TROUBLE.status();
    } catch (Cancelled e) {
      progress.end();
      complain(
          instrument.letGo()
              ? "stopped; the board has let go of the cable"
              : "stopped, but " + LetGo.OF_CABLE.untold());
      return ExitCode.INTERRUPTED.status();
    } finally {
      out.flush();
      interrupt.done();
    }
  }

  private boolean filed(
      Filing filing, SurveyOutcome outcome, byte[] tape, boolean inPlace, SurveyOptions options) {
    try {
      String told = ResultJson.text(outcome, colours, Cautions.lines());
      long key = filing.survey(told, tape, inPlace, options, colours);
      out.println();
      say("survey " + key + " of " + filing.job());
      return true;
    } catch (IOException e) {
      complain("the result above is not in the job: " + e.getMessage());
      return false;
    }
  }

  /** A verdict that nobody could read is none: {@code status} only where all was printed. */
  private int printed(int status) {
    out.flush();
    // The writer does not notice; standard output remembers.
    if (System.out.checkError()) {
      complain("the result could not be printed: its output was closed, or its disk is full");
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    }
    return status;
  }

  private int report(SurveyOutcome outcome) {
    SurveyResult result = outcome.result();
    int status;
    if (result == null) {
      voltage(outcome);
      status = ExitCode.FOREIGN_VOLTAGE.status();
    } else {
      out.println();
      new ResultText(colours, feet).lines(result).forEach(out::println);
      status = result.allSound() ? ExitCode.ALL_SOUND.status() : ExitCode.FAULT_FOUND.status();
    }
    if (json != null) {
      try {
        ResultJson.write(json, outcome, colours, Cautions.lines());
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
    return status;
  }

  private void voltage(SurveyOutcome outcome) {
    out.println();
    out.println("*** " + VoltageText.HEADING + " ***");
    VoltageText.lines(outcome.foreign(), outcome.trippedFlags()).forEach(this::say);
  }

  private void say(String words) {
    Paragraph.hanging("  ", words).forEach(out::println);
  }
}
