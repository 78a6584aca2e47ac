package bellwire.app.cli;

import bellwire.app.bench.BenchTransport;
import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.link.Transport;
import bellwire.app.report.Paragraph;
import bellwire.app.report.PortList;
import bellwire.app.report.Span;
import bellwire.app.serial.SerialTransport;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.VigilOrder;
import bellwire.app.vigil.VigilPrompts;
import bellwire.app.vigil.VigilRun;
import bellwire.link.Message.KeepVigil;
import bellwire.link.Message.KeepVigil.Kind;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.SplittableRandom;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.ArgGroup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire vigil start}: hours of watching begun, or gone on with. */
@Command(
    name = "start",
    description =
        "Watches for hours for what comes and goes: openings, touches, rising resistance, calls"
            + " dropped. All goes into a job file.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class VigilStartCommand implements Callable<Integer> {
  private static final int MOST_LOADS = 8;
  private static final int MOST_LEADS = 16;

  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "PROGRAM",
      description =
          "calls: the control's calls, the equipment may run. continuity: openings, far ends tied or"
              + " in a plug. touch: conductors that touch, far ends open. trend: each conductor's"
              + " resistance, far ends tied.")
  private @Nullable String program;

  @ArgGroup(multiplicity = "1")
  private SurveyCommand.Source source = new SurveyCommand.Source();

  @Option(
      names = "--job",
      required = true,
      paramLabel = "FILE",
      description = "The job file that takes it all down; made where there is none.")
  private Path job = Path.of("");

  @Option(
      names = "--resume",
      description = "Goes on with the job's last vigil, and takes what the board recorded alone.")
  private boolean resume;

  @Option(
      names = "--ports",
      paramLabel = "LIST",
      description =
          "Ports with conductors, with their colours if you like: P1=red,P2=white or P1-P8.")
  private @Nullable String ports;

  @Option(
      names = "--return",
      paramLabel = "PORT",
      description =
          "continuity: the port that the others' current comes back through; behind a coded plug"
              + " that of its lowest arm, better take the tie plug. Default: the first.")
  private @Nullable String returned;

  @Option(
      names = "--plug",
      paramLabel = "PLUG",
      description = "trend: what is on the far ends, tie or coded. Default: tie.")
  private @Nullable String plug;

  @Option(
      names = "--leads",
      paramLabel = "LIST",
      description = "calls: the control's terminals on X1, X2 and so on, such as W,Y,G.")
  private @Nullable String leads;

  @Option(
      names = "--dry",
      description =
          "calls: dry contacts, fed with 5 V by the board. Without it the control's 24 V AC.")
  private boolean dry;

  @Option(
      names = "--loads",
      description = "calls: dummy loads on the first eight leads, for a control on the bench.")
  private boolean loads;

  @Option(
      names = "--for",
      paramLabel = "TIME",
      defaultValue = "8 h",
      description = "How long, such as '90 min', '8 h' or '2 d'. Default: ${DEFAULT-VALUE}.")
  private String length = "8 h";

  @Option(
      names = "--length",
      paramLabel = "LENGTH",
      description = "Of the run, such as '25 m': tells the shortest opening that can show.")
  private @Nullable String run;

  @Option(
      names = "--mains",
      paramLabel = "HZ",
      defaultValue = "60",
      description = "Mains frequency here, 50 or 60. Default: ${DEFAULT-VALUE}.")
  private int mains;

  @Mixin private VigilSiteOptions site = new VigilSiteOptions();

  @Mixin private LineOptions line = new LineOptions();

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    try {
      VigilSession session =
          new VigilSession(
              spec.commandLine().getOut(),
              spec.commandLine().getErr(),
              job,
              source.bench != null,
              source.bench != null ? "--bench " + source.bench : "--port " + source.port,
              site.said());
      Optional<VigilRow> unfinished = resume ? left() : Optional.empty();
      if (resume && unfinished.isEmpty()) {
        return session.handOver(transport(), line);
      }
      VigilRow left = unfinished.orElse(null);
      VigilOrder order = left == null ? order() : VigilRun.order(job, left);
      if (left == null) {
        sayUnfinished();
      }
      return session.run(transport(), line, order, left);
    } catch (InstrumentTrouble e) {
      spec.commandLine().getErr().println("bellwire: " + e.getMessage());
      return ExitCode.BOARD_OR_LINK_TROUBLE.status();
    } catch (BenchTransport.BadBench | BadVigil | JobFileException e) {
      return Refusal.of(spec, e.getMessage());
    }
  }

  /** Empty where all have ended, and only the board may not know that they are stored. */
  private Optional<VigilRow> left() throws JobFileException {
    if (program != null || ports != null || leads != null) {
      throw wrong("--resume goes on as it was begun: leave program, --ports and --leads out");
    }
    if (!Files.exists(job)) {
      throw wrong("--job '" + job + "': there is no such file, so nothing to go on with");
    }
    if (VigilRun.lastBegun(VigilReader.vigils(job)).isEmpty()) {
      throw wrong(job + ": has no vigil to go on with; leave --resume out to begin one");
    }
    return VigilRun.unfinished(job);
  }

  /** Once another is begun, nothing goes on with it any more. */
  private void sayUnfinished() throws JobFileException {
    Optional<VigilRow> unfinished =
        Files.isRegularFile(job) ? VigilRun.unfinished(job) : Optional.empty();
    if (unfinished.isPresent()) {
      Paragraph.hanging(
              "",
              "Vigil "
                  + unfinished.get().id()
                  + " of "
                  + job
                  + " was left, and has not ended: --resume goes on with it, but no more once"
                  + " another is begun in this file.")
          .forEach(spec.commandLine().getOut()::println);
      spec.commandLine().getOut().println();
    }
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

  private VigilOrder order() {
    if (program == null) {
      throw wrong("say what to watch: calls, continuity, touch or trend");
    }
    Kind kind = kind(program);
    if (mains != 50 && mains != 60) {
      throw wrong("--mains is 50 or 60, not " + mains);
    }
    site.check(kind == Kind.CALLS);
    if (plug != null && kind != Kind.TREND) {
      throw wrong("--plug goes with trend");
    }
    Map<Integer, String> names = new HashMap<>();
    int mask = kind == Kind.CALLS ? leads(names) : ports(kind, names);
    return new VigilOrder(
        new SplittableRandom().nextLong(VigilOrder.LEAST_NUMBER, Long.MAX_VALUE),
        kind,
        mask,
        names,
        kind == Kind.CONTINUITY ? returned(mask) : 0,
        kind == Kind.CALLS && dry,
        kind == Kind.CALLS && loads ? mask & (1 << MOST_LOADS) - 1 : 0,
        micros(),
        kind == Kind.CONTINUITY ? shortestOpening() : Double.NaN,
        kind == Kind.TREND ? expectedOhms() : 0,
        mains,
        "");
  }

  private Kind kind(String typed) {
    for (Kind kind : Kind.values()) {
      if (VigilOrder.name(kind).equals(typed.toLowerCase(Locale.ROOT))) {
        return kind;
      }
    }
    throw wrong("no such program: " + typed + "; use calls, continuity, touch or trend");
  }

  private int ports(Kind kind, Map<Integer, String> names) {
    if (leads != null || dry || loads) {
      throw wrong("--leads, --dry and --loads go with calls");
    }
    PortList list =
        PortList.parse(ports == null ? "" : ports)
            .filter(each -> Integer.bitCount(each.mask()) > 1)
            .orElseThrow(
                () ->
                    wrong(
                        "--ports takes two or more of P1 to P16, such as P1=red,P2=white or P1-P8,"
                            + " each once"
                            + (ports == null ? "" : ": '" + ports + "'")));
    names.putAll(list.colours());
    if (kind != Kind.CONTINUITY && (returned != null || run != null)) {
      throw wrong("--return and --length go with continuity");
    }
    return list.mask();
  }

  private int leads(Map<Integer, String> names) {
    if (ports != null || returned != null) {
      throw wrong("--ports and --return go with continuity, touch and trend; calls takes --leads");
    }
    if (dry && loads) {
      throw wrong("--loads are for a control with a supply of its own, --dry for dry contacts");
    }
    List<String> typed = leads == null ? List.of() : List.of(leads.split(",", -1));
    if (typed.isEmpty() || typed.size() > MOST_LEADS || typed.stream().anyMatch(String::isBlank)) {
      throw wrong("--leads takes the control's terminals on X1, X2 and so on, such as W,Y,G");
    }
    for (int i = 0; i < typed.size(); i++) {
      names.put(i, typed.get(i).strip());
    }
    return (1 << typed.size()) - 1;
  }

  private int returned(int mask) {
    if (returned == null) {
      return Integer.numberOfTrailingZeros(mask);
    }
    int bit = PortList.parse(returned).map(PortList::mask).orElse(0);
    if (Integer.bitCount(bit) != 1 || (bit & mask) == 0) {
      throw wrong("--return takes one of --ports, not '" + returned + "'");
    }
    return Integer.numberOfTrailingZeros(bit);
  }

  private double expectedOhms() {
    String typed = plug == null ? "tie" : plug;
    return switch (typed.toLowerCase(Locale.ROOT)) {
      case "tie" -> VigilPrompts.FarEnd.TIE.expectedOhms();
      case "coded" -> VigilPrompts.FarEnd.CODED.expectedOhms();
      default -> throw wrong("--plug takes tie or coded, not '" + typed + "'");
    };
  }

  private long micros() {
    OptionalLong micros = Span.parse(length, KeepVigil.MOST_MICROS);
    return micros.orElseThrow(
        () ->
            wrong(
                "--for takes up to 8 days, such as '90 min', '8 h' or '2 d', not '"
                    + length
                    + "'"));
  }

  private double shortestOpening() {
    if (run == null) {
      return Double.NaN;
    }
    String typed = run;
    double metres = Metres.parse(typed).orElseThrow(() -> wrong(Metres.wrong("--length", typed)));
    return VigilPrompts.shortestOpeningMicros(metres);
  }

  private CommandLine.ParameterException wrong(String words) {
    return new CommandLine.ParameterException(spec.commandLine(), words);
  }
}
