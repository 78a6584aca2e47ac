package bellwire.app.cli;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.survey.CableFacts;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndKind;
import bellwire.app.bench.BenchTransport;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.SurveyOptions;
import bellwire.board.CodedPlug;
import java.io.PrintWriter;
import java.util.EnumSet;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bellwire demo}: a whole survey with nothing connected. */
@Command(
    name = "demo",
    description = "Surveys a faulty demo cable on the simulated bench, in plain words.",
    mixinStandardHelpOptions = true)
final class DemoCommand implements Callable<Integer> {
  @Option(
      names = "--pace",
      paramLabel = "PACE",
      defaultValue = "fast",
      description = "'real' keeps wall-clock time. Default: ${DEFAULT-VALUE}.")
  private BenchTransport.Pace pace = BenchTransport.Pace.FAST;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() throws Exception {
    PrintWriter out = spec.commandLine().getOut();
    out.println("A demonstration. Nothing is connected: cable, faults and board are simulated.");
    out.println("An eight-conductor cable to the landing of a house; the control there works on");
    out.println("some days only.");
    out.println("A person walks up, waits, puts the coded plug on, then the tie plug.");
    out.println();
    Map<Integer, String> colours = new TreeMap<>();
    String[] names = {"red", "white", "green", "blue", "yellow", "brown", "orange", "black"};
    for (int port = 0; port < names.length; port++) {
      colours.put(port, names[port]);
    }
    SurveyOptions options =
        new SurveyOptions(
            0,
            EnumSet.of(FarEndKind.CODED, FarEndKind.TIE),
            2_000_000,
            180_000_000,
            0,
            60_000_000,
            BoardModels.plug(CodedPlug.nominal()),
            new CableFacts(Gauge.awg(18), Double.NaN, 21, 3),
            Criteria.standard());
    SurveySession session =
        new SurveySession(out, spec.commandLine().getErr(), colours, false, null);
    return session.run(BenchTransport.demo(pace), options, 60, 921_600);
  }
}
