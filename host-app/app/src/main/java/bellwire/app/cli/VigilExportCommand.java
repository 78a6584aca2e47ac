package bellwire.app.cli;

import bellwire.app.export.ExportFormat;
import bellwire.app.export.VigilExport;
import bellwire.app.export.VigilExport.Written;
import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.vigil.StoredVigil.Part;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
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
      description = ExportDirectory.WORDS)
  private Path into = Path.of("");

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    Part part = choice.part();
    return new ExportDirectory(spec, into)
        .write(
            interrupt -> {
              VigilRow row = row();
              long start = row.startedMicros();
              try (VigilReader reader = VigilReader.open(choice.job, row.id())) {
                long end = part.toMicros();
                long last = end == Long.MAX_VALUE ? end : start + end;
                return told(export(reader, start + part.fromMicros(), last, interrupt));
              }
            });
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

  private static List<String> told(Written written) throws IOException {
    List<String> lines = new ArrayList<>(ExportDirectory.told(written.files()));
    if (!written.unreadable().isEmpty()) {
      lines.add(
          written.unreadable().size()
              + " damaged blocks are left out; they stand in the table of gaps");
    }
    return lines;
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

  private CommandLine.ParameterException wrong(String words) {
    return new CommandLine.ParameterException(spec.commandLine(), words);
  }
}
