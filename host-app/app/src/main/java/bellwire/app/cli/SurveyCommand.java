package bellwire.app.cli;

import bellwire.analysis.copper.Gauge;
import bellwire.analysis.survey.CableFacts;
import bellwire.analysis.survey.Criteria;
import bellwire.analysis.survey.FarEndKind;
import bellwire.app.bench.BenchTransport;
import bellwire.app.job.JobFileException;
import bellwire.app.job.Stage;
import bellwire.app.link.Transport;
import bellwire.app.report.Celsius;
import bellwire.app.report.Paragraph;
import bellwire.app.report.PortList;
import bellwire.app.serial.SerialTransport;
import bellwire.app.survey.BoardModels;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.survey.SurveyOptions;
import bellwire.app.survey.TieChoice;
import bellwire.app.visit.Filing;
import bellwire.board.CodedPlug;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bellwire survey}: the de-energised measurement of a cable. */
@Command(
    name = "survey",
    description =
        "Surveys a de-energised cable: which conductor is which, resistance, shorts, leakage, opens.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class SurveyCommand implements Callable<Integer> {
  private static final double BENCH_WAIT_SECONDS = 180;
  private static final double REAL_WAIT_SECONDS = 900;

  @ArgGroup(multiplicity = "1")
  private Source source = new Source();

  /** Where the board is. */
  static final class Source {
    @Option(
        names = "--port",
        paramLabel = "DEV",
        description = "Serial device of a real board; 'bellwire ports' lists them.")
    @Nullable String port;

    @Option(
        names = "--bench",
        paramLabel = "FILE",
        description = "Simulated bench described in FILE.")
    @Nullable Path bench;
  }

  @Mixin private LineOptions line = new LineOptions();

  @Option(
      names = "--ports",
      paramLabel = "LIST",
      defaultValue = "",
      description =
          "Ports with conductors, with their colours if you like: P1=red,P2=white,P3 or P1-P8. Without it the survey finds them; with it an empty one counts as broken.")
  private String ports = "";

  @Option(
      names = "--skip",
      paramLabel = "PLUG",
      description = "Plug not to wait for: coded or tie. May be given twice.")
  private List<String> skip = List.of();

  @Option(
      names = "--ties",
      arity = "0..1",
      fallbackValue = "fewest",
      paramLabel = "WHICH",
      description =
          "No plug at hand: far ends joined in pairs, in two rounds, tell which is which. --ties=all puts every conductor in a tie. 'bellwire ties N' prints the plan.")
  private @Nullable String ties;

  @Option(
      names = "--conductors",
      paramLabel = "N",
      description =
          "With --ties: how many conductors the far end shows. Default: as many as are found.")
  private @Nullable Integer conductors;

  @Option(
      names = "--dwell",
      paramLabel = "SECONDS",
      defaultValue = "2",
      description = "How long a plug must be still to count as settled. Default: ${DEFAULT-VALUE}.")
  private double dwell;

  @Option(
      names = "--wait",
      paramLabel = "SECONDS",
      description = "How long to wait for each plug. Default: 900, on a simulated bench 180.")
  private @Nullable Double wait;

  @Option(
      names = "--fixed",
      paramLabel = "SECONDS",
      defaultValue = "0",
      description =
          "Do not wait for a plug to settle: so many seconds after the phase before, measure whatever plug is on. Lets one walk serve all phases.")
  private double fixed;

  @Option(
      names = "--reseat",
      paramLabel = "SECONDS",
      defaultValue = "120",
      description =
          "How long to wait for a suspect contact to be seated afresh; 0 does not ask. Default: ${DEFAULT-VALUE}.")
  private double reseat;

  @Option(
      names = "--gauge",
      paramLabel = "GAUGE",
      description = "'18 AWG' or '0.75 mm2': gives the length of the run.")
  private @Nullable String gauge;

  @Option(
      names = "--length",
      paramLabel = "LENGTH",
      description =
          "'24.5 m' or '80 ft': gives the gauge of the conductors, where --gauge does not.")
  private @Nullable String length;

  @Option(
      names = "--temperature",
      paramLabel = "TEMP",
      defaultValue = "22 C",
      description = "Of the copper, such as '22 C' or '72 F'. Default: ${DEFAULT-VALUE}.")
  private String temperature = "";

  @Option(
      names = "--mains",
      paramLabel = "HZ",
      defaultValue = "60",
      description =
          "Mains frequency here, 50 or 60: quick readings reject its hum. Default: ${DEFAULT-VALUE}.")
  private int mains;

  @Option(names = "--feet", description = "Lengths in feet.")
  private boolean feet;

  @Option(
      names = "--in-place",
      description =
          "With the conductors still landed, the equipment off and dead: what it joins is part of it.")
  private boolean inPlace;

  @Option(names = "--json", paramLabel = "FILE", description = "Writes the result as JSON too.")
  private @Nullable Path json;

  @Mixin private JobOption job = new JobOption();

  @Option(
      names = "--cable",
      paramLabel = "NAME",
      defaultValue = "",
      description = "With --job: which cable of the job, such as 18-8. Default: its only one.")
  private String cable = "";

  @Option(
      names = "--as-left",
      description = "With --job: measured after the work. Without it: as found.")
  private boolean asLeft;

  private static final String IN_PLACE_FIRST =
      "Before anything is lifted at the equipment: 'survey --in-place' keeps what unlanding"
          + " destroys: loose clamps, touching copper, jumpers. Then survey with the conductors"
          + " lifted.";

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PortList list =
        PortList.parse(ports)
            .orElseThrow(
                () ->
                    wrong(
                        "--ports takes P1 to P16, such as P1=red,P2=white or P1-P8, each once: '"
                            + ports
                            + "'"));
    if (mains != 50 && mains != 60) {
      throw wrong("--mains is 50 or 60, not " + mains);
    }
    Refusal.whereNotWritable(spec, "--json", json);
    SurveyOptions options = options(list);
    Optional<Filing> filing = job.filing(cable, asLeft ? Stage.AS_LEFT : Stage.AS_FOUND);
    if (filing.isEmpty() && (asLeft || !cable.isEmpty())) {
      throw wrong((asLeft ? "--as-left" : "--cable") + " goes with --job");
    }
    SurveySession session =
        new SurveySession(
            spec.commandLine().getOut(), spec.commandLine().getErr(), list.colours(), feet, json);
    Transport transport;
    try {
      if (filing.isPresent()) {
        filing.get().check();
      }
      transport = transport();
    } catch (InstrumentTrouble e) {
      session.complain(e.getMessage());
      return ExitCode.BOARD_OR_LINK_TROUBLE.status();
    } catch (BenchTransport.BadBench | JobFileException e) {
      session.complain(e.getMessage());
      return ExitCode.WRONG_USAGE_OR_FILE.status();
    }
    if (!inPlace) {
      PrintWriter out = spec.commandLine().getOut();
      Paragraph.hanging("", IN_PLACE_FIRST).forEach(out::println);
      out.println();
    }
    return session.run(transport, options, mains, line.baud, inPlace, filing.orElse(null));
  }

  private Transport transport() throws InstrumentTrouble, BenchTransport.BadBench {
    if (source.bench != null) {
      return BenchTransport.open(source.bench, line.pace);
    }
    if (source.port == null) {
      throw wrong("say where the board is: --port DEV or --bench FILE");
    }
    return SerialTransport.open(source.port, line.baud);
  }

  private SurveyOptions options(PortList list) {
    Set<FarEndKind> plugs = EnumSet.of(FarEndKind.CODED, FarEndKind.TIE);
    for (String name : skip) {
      switch (name.toLowerCase(Locale.ROOT)) {
        case "coded" -> plugs.remove(FarEndKind.CODED);
        case "tie" -> plugs.remove(FarEndKind.TIE);
        default -> throw wrong("--skip takes coded or tie, not '" + name + "'");
      }
    }
    double waitSeconds =
        wait != null ? wait : source.bench != null ? BENCH_WAIT_SECONDS : REAL_WAIT_SECONDS;
    SurveyOptions plain = plain(list, plugs, waitSeconds);
    Optional<TieChoice> choice = tieChoice();
    return choice.map(plain::withTies).orElse(plain);
  }

  private Optional<TieChoice> tieChoice() {
    int n = conductors == null ? 0 : conductors;
    if (conductors != null && (n < 2 || n > 16)) {
      throw wrong("--conductors takes 2 to 16, not " + n);
    }
    if (ties == null) {
      if (conductors != null) {
        throw wrong("--conductors goes with --ties");
      }
      return Optional.empty();
    }
    if (!skip.isEmpty()) {
      throw wrong("--ties waits for no plug: leave --skip out");
    }
    return switch (ties.toLowerCase(Locale.ROOT)) {
      case "fewest" -> Optional.of(new TieChoice(n, false));
      case "all" -> Optional.of(new TieChoice(n, true));
      default -> throw wrong("--ties takes nothing, or =all, not '" + ties + "'");
    };
  }

  private SurveyOptions plain(PortList list, Set<FarEndKind> plugs, double waitSeconds) {
    return new SurveyOptions(
        list.mask(),
        plugs,
        micros("--dwell", dwell),
        micros("--wait", waitSeconds),
        micros("--fixed", fixed),
        micros("--reseat", reseat),
        BoardModels.plug(CodedPlug.nominal()),
        facts(),
        Criteria.standard());
  }

  private CableFacts facts() {
    CableFacts unknown = CableFacts.unknown();
    Gauge known = null;
    if (gauge != null) {
      String text = gauge;
      known =
          Gauge.parse(text)
              .orElseThrow(
                  () ->
                      wrong(
                          "--gauge takes 0 to 40 AWG or a cross-section such as 0.75 mm2, not '"
                              + text
                              + "'"));
    }
    return new CableFacts(known, metres(), celsius(), unknown.uCelsius());
  }

  private double metres() {
    if (length == null) {
      return Double.NaN;
    }
    String typed = length;
    return Metres.parse(typed).orElseThrow(() -> wrong(Metres.wrong("--length", typed)));
  }

  private double celsius() {
    return Celsius.parse(temperature, -40, 90)
        .orElseThrow(
            () ->
                wrong(
                    "--temperature takes -40 C to 90 C, such as '22 C' or '72 F', not '"
                        + temperature
                        + "'"));
  }

  private long micros(String option, double seconds) {
    if (!(seconds >= 0 && seconds <= 86_400)) {
      throw wrong(option + " takes 0 to 86400 seconds, not " + seconds);
    }
    return Math.round(seconds * 1e6);
  }

  private CommandLine.ParameterException wrong(String words) {
    return new CommandLine.ParameterException(spec.commandLine(), words);
  }
}
