package bellwire.app.cli;

import bellwire.app.export.ExportFormat;
import bellwire.app.export.VigilExport;
import bellwire.app.export.VigilExport.Written;
import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.vigil.StoredVigil.Part;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bellwire vigil export}: a vigil's samples, events, marks and gaps for a notebook. */
@Command(
    name = "export",
    description =
        "Writes a vigil's samples, events, marks and gaps as tables that a notebook opens. Also"
            + " while the vigil goes on.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class VigilExportCommand implements Callable<Integer> {
  @Mixin private VigilChoice choice = new VigilChoice();

  @Option(
      names = "--format",
      paramLabel = "csv|parquet",
      required = true,
      description =
          "csv: text, for anything. parquet: smaller, with types and the columns' meanings, for"
              + " notebooks.")
  private ExportFormat format = ExportFormat.CSV;

  @Option(
      names = "--into",
      paramLabel = "DIR",
      required = true,
      description = "The directory for the files; made where it is not there. None is overwritten.")
  private Path into = Path.of("");

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    Part part = choice.part();
    Interrupt interrupt = new Interrupt();
    interrupt.arm();
    try {
      VigilRow row = row();
      long start = row.startedMicros();
      boolean made = makeDirectory();
      boolean written = false;
      try (VigilReader reader = VigilReader.open(choice.job, row.id())) {
        long end = part.toMicros();
        long last = end == Long.MAX_VALUE ? end : start + end;
        tell(export(reader, start + part.fromMicros(), last, interrupt));
        written = true;
      } finally {
        if (made && !written) {
          Files.delete(into);
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
      return Refusal.of(spec, into + ": cannot be written: " + e.getMessage());
    } finally {
      interrupt.done();
    }
  }

  private Written export(VigilReader reader, long first, long last, Interrupt interrupt)
      throws IOException {
    TerminalProgress progress = new TerminalProgress(spec.commandLine().getOut());
    progress.phase("writing the tables");
    try {
      return VigilExport.write(
          reader, first, last, format, into, progress::progress, interrupt::pressed);
    } finally {
      progress.end();
    }
  }

  private void tell(Written written) throws IOException {
    PrintWriter out = spec.commandLine().getOut();
    for (Path file : written.files()) {
      out.println(file + ": " + Files.size(file) + " bytes");
    }
    if (!written.unreadable().isEmpty()) {
      out.println(
          written.unreadable().size()
              + " damaged blocks are left out; they stand in the table of gaps");
    }
  }

  private VigilRow row() throws JobFileException {
    Path job = choice.job;
    Long vigil = choice.vigil;
    if (!Files.isRegularFile(job)) {
      throw wrong(job + ": no such file; name a job file that 'bellwire vigil start' wrote");
    }
    List<VigilRow> rows = VigilReader.vigils(job);
    if (rows.isEmpty()) {
      throw wrong(job + ": no vigil in it; 'bellwire vigil start' keeps one");
    }
    long number = vigil == null ? VigilShowCommand.last(rows).id() : vigil;
    Optional<VigilRow> row = rows.stream().filter(r -> r.id() == number).findFirst();
    return row.orElseThrow(
        () ->
            wrong(job + ": has no vigil " + number + "; 'bellwire vigil show --list' names them"));
  }

  private boolean makeDirectory() throws IOException {
    if (Files.isDirectory(into)) {
      return false;
    }
    Path parent = into.toAbsolutePath().getParent();
    if (Files.exists(into) || parent == null || !Files.isDirectory(parent)) {
      throw wrong("--into '" + into + "': no such directory, and none can be made there");
    }
    Files.createDirectory(into);
    return true;
  }

  private CommandLine.ParameterException wrong(String words) {
    return new CommandLine.ParameterException(spec.commandLine(), words);
  }
}
