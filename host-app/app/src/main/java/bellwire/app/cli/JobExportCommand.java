package bellwire.app.cli;

import bellwire.app.document.page.Paper;
import bellwire.app.export.JobExport;
import bellwire.app.export.JobFormat;
import bellwire.app.job.JobFileException;
import bellwire.app.report.ProgramVersion;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
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

  @Option(
      names = "--to",
      paramLabel = "DIR",
      required = true,
      description = "The directory for the files; made where it is not there. None is overwritten.")
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

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    Set<JobFormat> chosen = formats.isEmpty() ? EnumSet.allOf(JobFormat.class) : formats;
    Interrupt interrupt = new Interrupt();
    interrupt.arm();
    try {
      boolean made = makeDirectory();
      boolean written = false;
      try {
        tell(export(chosen, interrupt));
        written = true;
      } finally {
        if (made && !written) {
          Files.delete(to);
        }
      }
      return ExitCode.ALL_SOUND.ifPrinted(spec.commandLine().getOut(), spec.commandLine().getErr());
    } catch (CancellationException e) {
      spec.commandLine().getErr().println("bellwire: stopped; nothing was written");
      return ExitCode.INTERRUPTED.status();
    } catch (FileAlreadyExistsException e) {
      return Refusal.of(
          spec, e.getFile() + ": is there already; name another directory, or move it away");
    } catch (JobFileException e) {
      return Refusal.of(spec, e.getMessage());
    } catch (IOException e) {
      return Refusal.of(spec, to + ": cannot be written: " + e.getMessage());
    } finally {
      interrupt.done();
    }
  }

  private List<Path> export(Set<JobFormat> chosen, Interrupt interrupt) throws IOException {
    TerminalProgress progress = new TerminalProgress(spec.commandLine().getOut());
    progress.phase("writing the files");
    try {
      JobExport.Order order =
          new JobExport.Order(
              job, chosen, paper, Instant.now(), ZoneId.systemDefault(), ProgramVersion.text());
      return JobExport.write(order, to, interrupt::pressed);
    } finally {
      progress.end();
    }
  }

  private void tell(List<Path> files) throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    for (Path file : files) {
      out.println(file + ": " + Files.size(file) + " bytes");
    }
  }

  private boolean makeDirectory() throws IOException {
    if (Files.isDirectory(to)) {
      return false;
    }
    Path parent = to.toAbsolutePath().getParent();
    if (Files.exists(to) || parent == null || !Files.isDirectory(parent)) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "--to '" + to + "': no such directory, and none can be made there");
    }
    Files.createDirectory(to);
    return true;
  }
}
