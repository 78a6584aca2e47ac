package bellwire.app.cli;

import bellwire.app.bench.BenchTransport;
import bellwire.app.job.JobFileException;
import bellwire.app.rehearsal.ExpectationRules;
import bellwire.app.rehearsal.Rehearsal;
import bellwire.app.rehearsal.RehearsalFile;
import bellwire.app.report.Paragraph;
import bellwire.app.serial.SerialTransport;
import bellwire.app.survey.InstrumentTrouble;
import bellwire.app.visit.Filing;
import bellwire.yaml.FileException;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
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
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire rehearse}: a control taken through every function. */
@Command(
    name = "rehearse",
    description =
        "Takes a room control through every function and judges its calls, drop-outs and rests.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class RehearseCommand implements Callable<Integer> {
  @Parameters(
      index = "0",
      arity = "0..1",
      paramLabel = "REHEARSAL",
      description = "A built-in rehearsal, or a file of your own; --list names the built-in ones.")
  private @Nullable String name;

  @ArgGroup private Source source = new Source();

  /** Where the terminals are seen. */
  static final class Source {
    @Option(
        names = "--port",
        paramLabel = "DEV",
        description = "Serial device of a real board; 'bellwire ports' lists them.")
    private @Nullable String port;

    @Option(
        names = "--bench",
        paramLabel = "FILE",
        description = "Simulated bench with a control, described in FILE.")
    private @Nullable Path bench;

    @Option(
        names = "--replay",
        paramLabel = "FILE",
        description = "A record made with --record, judged again.")
    private @Nullable Path replay;
  }

  @Option(names = "--list", description = "Lists the built-in rehearsals.")
  private boolean list;

  @Option(
      names = "--show",
      description = "Prints the rehearsal's file, to be copied and changed, and nothing else.")
  private boolean show;

  @Option(
      names = "--rules",
      description = "Prints every rule, also those that follow from the steps, with its formula.")
  private boolean rules;

  @Option(
      names = "--set",
      paramLabel = "TIME=VALUE",
      description = "Another value for one of its times, such as 'rest=4 min'. Repeatable.")
  private Map<String, String> times = new LinkedHashMap<>();

  @Option(
      names = "--option",
      paramLabel = "NAME",
      description = "One of its options that holds here. Repeatable.")
  private List<String> options = List.of();

  @Option(
      names = "--live",
      description = "The control is on its wall and the equipment connected: it will run.")
  private boolean live;

  @Option(
      names = "--outdoor",
      paramLabel = "TEMP",
      description = "With --live: outdoors, such as '8 C' or '46 F'; asked for where not given.")
  private @Nullable String outdoor;

  @Option(
      names = "--no-loads",
      description = "Leave the dummy loads off: for a control that has loads of its own connected.")
  private boolean noLoads;

  @Option(
      names = "--record",
      paramLabel = "FILE",
      description = "Takes everything down for --replay; compressed where the name ends in .gz.")
  private @Nullable Path record;

  @Option(names = "--json", paramLabel = "FILE", description = "Writes the outcome as JSON too.")
  private @Nullable Path json;

  @Mixin private JobOption job = new JobOption();

  @Mixin private LineOptions line = new LineOptions();

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    if (list) {
      listThem(out);
      return ExitCode.ALL_SOUND.ifPrinted(out, spec.commandLine().getErr());
    }
    String wanted = name;
    if (wanted == null) {
      throw wrong("say which rehearsal: a name of 'bellwire rehearse --list', or a file");
    }
    Rehearsal rehearsal;
    String text;
    try {
      rehearsal = read(wanted);
      boolean builtIn = RehearsalFile.BUILT_IN.contains(wanted);
      text = builtIn ? RehearsalFile.text(wanted) : Files.readString(Path.of(wanted));
      if (show) {
        out.print(text);
        out.flush();
        return ExitCode.ALL_SOUND.ifPrinted(out, spec.commandLine().getErr());
      }
    } catch (FileException e) {
      return Refusal.of(spec, e.getMessage());
    } catch (IOException e) {
      return Refusal.of(spec, wanted + ": cannot be read: is the name right, and may you read it?");
    }
    if (rules) {
      printRules(out, rehearsal);
      return ExitCode.ALL_SOUND.ifPrinted(out, spec.commandLine().getErr());
    }
    check(rehearsal);
    Optional<Filing> filing = job.filing();
    if (filing.isPresent()) {
      try {
        filing.get().check();
      } catch (JobFileException e) {
        return Refusal.of(spec, e.getMessage());
      }
    }
    return rehearse(rehearsal, text, filing.orElse(null));
  }

  private Rehearsal read(String wanted) throws FileException, IOException {
    if (RehearsalFile.BUILT_IN.contains(wanted)) {
      return RehearsalFile.builtIn(wanted, times);
    }
    Path file = Path.of(wanted);
    if (!Files.exists(file) && !wanted.contains(".") && !wanted.contains("/")) {
      throw wrong(
          "no such rehearsal: "
              + wanted
              + "; 'bellwire rehearse --list' names the built-in ones, and a file of your own is"
              + " given with its path");
    }
    return RehearsalFile.read(file, times);
  }

  private void check(Rehearsal rehearsal) {
    Set<String> known = new LinkedHashSet<>();
    rehearsal.options().forEach(option -> known.add(option.name()));
    for (String option : options) {
      if (!known.contains(option)) {
        throw wrong(
            known.isEmpty()
                ? "this rehearsal has no options: --option " + option
                : "no such option: " + option + "; use one of " + String.join(", ", known));
      }
    }
    if (outdoor != null && !live) {
      throw wrong("--outdoor goes with --live");
    }
    Refusal.whereNotWritable(spec, "--json", json);
    Refusal.whereNotWritable(spec, "--record", record);
    if (record != null && source.replay != null) {
      throw wrong("--record goes with --port or --bench: a replay has its record already");
    }
    if (source.replay != null && job.filing().isPresent()) {
      throw wrong("--job goes with --port or --bench");
    }
  }

  private int rehearse(Rehearsal rehearsal, String text, @Nullable Filing filing) {
    RehearsalSession session =
        new RehearsalSession(
            spec.commandLine().getOut(),
            spec.commandLine().getErr(),
            rehearsal,
            new RehearsalSession.Choices(
                new LinkedHashSet<>(options),
                live,
                celsius(),
                !noLoads,
                record,
                json,
                filing,
                text));
    try {
      if (source.replay != null) {
        return session.replay(source.replay);
      } else if (source.bench != null) {
        BenchTransport bench = BenchTransport.open(source.bench, line.pace);
        if (!bench.hasControl()) {
          bench.close();
          return Refusal.of(
              spec,
              source.bench + ": no control on this bench; add 'control: ...', see bench-files.md");
        }
        return session.run(bench, line.baud, bench);
      } else if (source.port != null) {
        return session.run(SerialTransport.open(source.port, line.baud), line.baud, null);
      }
    } catch (InstrumentTrouble e) {
      spec.commandLine().getErr().println("bellwire: " + e.getMessage());
      return ExitCode.BOARD_OR_LINK_TROUBLE.status();
    } catch (BenchTransport.BadBench e) {
      return Refusal.of(spec, e.getMessage());
    }
    throw wrong("say where the control is: --port DEV, --bench FILE or --replay FILE");
  }

  private void listThem(PrintWriter out) {
    for (String builtIn : RehearsalFile.BUILT_IN) {
      try {
        out.println(
            "  "
                + builtIn
                + " ".repeat(18 - builtIn.length())
                + RehearsalFile.builtIn(builtIn, Map.of()).title());
      } catch (FileException e) {
        throw new IllegalStateException(e);
      }
    }
    out.flush();
  }

  private static void printRules(PrintWriter out, Rehearsal rehearsal) {
    for (var rule : ExpectationRules.all(rehearsal)) {
      Paragraph.hanging(rule.name() + ": ", rule.says()).forEach(out::println);
      out.println("    " + bellwire.analysis.rules.RuleFormula.of(rule));
    }
    out.flush();
  }

  private double celsius() {
    if (outdoor == null) {
      return Double.NaN;
    }
    double celsius = RehearsalSession.celsius(outdoor);
    if (Double.isNaN(celsius)) {
      throw wrong("--outdoor takes -60 C to 60 C, such as '8 C' or '46 F', not '" + outdoor + "'");
    }
    return celsius;
  }

  private CommandLine.ParameterException wrong(String words) {
    return new CommandLine.ParameterException(spec.commandLine(), words);
  }
}
