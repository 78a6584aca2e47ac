package bellwire.app.cli;

import bellwire.app.document.page.Paper;
import bellwire.app.export.JobExport;
import bellwire.app.export.JobFormat;
import bellwire.app.report.PortList;
import bellwire.app.report.ProgramVersion;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code bellwire job export}: the report, the labels, and everything as CSV and JSON. */
@Command(
    name = "export",
    description =
        "Writes a job for others to read: the report, labels, and everything as CSV and JSON. Also"
            + " while a program has it open. All files are written, or none.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class JobExportCommand implements Callable<Integer> {
  @Parameters(index = "0", paramLabel = "JOB", description = "The job file.")
  private Path job = Path.of("");

  @Option(names = "--to", paramLabel = "DIR", required = true, description = ExportDirectory.WORDS)
  private Path to = Path.of("");

  @Option(
      names = "--format",
      paramLabel = "LIST",
      split = ",",
      description =
          "Of csv (tables), json (everything, with the photographs), pdf and html (the report) and"
              + " labels (with the card for the panel), parted by commas. Default: all.")
  private Set<JobFormat> formats = EnumSet.noneOf(JobFormat.class);

  @Option(
      names = "--paper",
      paramLabel = "a4|letter",
      defaultValue = "a4",
      description = "Of report and labels. Default: ${DEFAULT-VALUE}.")
  private Paper paper = Paper.A4;

  @Option(
      names = "--label",
      paramLabel = "LIST",
      description =
          "Also a label by itself for each end of these conductors, 62 mm x 27 mm a page: P3 or"
              + " P1-P4,P7. Of every cable that has them.")
  private @Nullable String labels;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    Set<JobFormat> chosen = formats.isEmpty() ? EnumSet.allOf(JobFormat.class) : formats;
    JobExport.Order order =
        new JobExport.Order(
            job,
            chosen,
            paper,
            ports(),
            Instant.now(),
            ZoneId.systemDefault(),
            ProgramVersion.text());
    return new ExportDirectory(spec, to).write(interrupt -> export(order, interrupt));
  }

  private Set<Integer> ports() {
    String list = labels;
    if (list == null) {
      return Set.of();
    }
    int mask =
        PortList.parse(list)
            .orElseThrow(
                () ->
                    new CommandLine.ParameterException(
                        spec.commandLine(),
                        "--label " + list + ": name ports, such as P3 or P1-P4,P7"))
            .mask();
    return IntStream.range(0, Integer.SIZE)
        .filter(port -> (mask >> port & 1) != 0)
        .boxed()
        .collect(Collectors.toSet());
  }

  private List<String> export(JobExport.Order order, Interrupt interrupt) throws IOException {
    TerminalProgress progress = new TerminalProgress(spec.commandLine().getOut());
    progress.phase("writing the files");
    JobExport.Written written;
    try {
      written = JobExport.write(order, to, interrupt::pressed);
    } finally {
      progress.end();
    }
    List<String> lines = new ArrayList<>(ExportDirectory.told(written.files()));
    if (!written.remark().isEmpty()) {
      lines.add(written.remark());
    }
    return lines;
  }
}
