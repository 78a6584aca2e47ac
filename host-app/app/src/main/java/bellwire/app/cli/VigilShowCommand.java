package bellwire.app.cli;

import bellwire.app.job.JobFileException;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import bellwire.app.report.Cautions;
import bellwire.app.report.WholeFile;
import bellwire.app.vigil.BadVigil;
import bellwire.app.vigil.Counting;
import bellwire.app.vigil.StoredVigil;
import bellwire.app.vigil.StoredVigil.Part;
import bellwire.app.vigil.VigilJson;
import bellwire.app.vigil.VigilLoader;
import bellwire.app.vigil.VigilRun;
import bellwire.app.vigil.VigilText;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bellwire vigil show}: what a vigil saw, in plain words. */
@Command(
    name = "show",
    description =
        "Says what a vigil saw: how often, how long, on which conductor, with what else at the same"
            + " time, and how sure that is. Also while the vigil goes on.",
    mixinStandardHelpOptions = true,
    sortOptions = false)
final class VigilShowCommand implements Callable<Integer> {
  @Mixin private VigilChoice choice = new VigilChoice();

  @Option(names = "--list", description = "Lists the vigils in the file, and nothing else.")
  private boolean list;

  @Option(
      names = "--count",
      paramLabel = "WHAT",
      defaultValue = "each",
      description =
          "Which events count. each: every reading and every latch. o62: from 0.3 ms on, by the"
              + " classes of ITU-T O.62. joined: within 10 ms of one another they are one, for a"
              + " contact that bounces. Default: ${DEFAULT-VALUE}.")
  private Counting counting = Counting.EACH;

  @Option(names = "--json", paramLabel = "FILE", description = "Writes the statement as JSON too.")
  private @Nullable Path json;

  @Spec private CommandSpec spec = CommandSpec.create();

  @Override
  public Integer call() {
    PrintWriter out = spec.commandLine().getOut();
    PrintWriter err = spec.commandLine().getErr();
    Refusal.whereNotWritable(spec, "--json", json);
    Part part = choice.part();
    try {
      List<VigilRow> rows = rows(choice.job);
      if (list) {
        rows.forEach(row -> out.println(VigilText.line(row, ZoneId.systemDefault())));
        return ExitCode.ALL_SOUND.ifPrinted(out, err);
      }
      Long vigil = choice.vigil;
      long number = vigil == null ? last(rows).id() : vigil;
      StoredVigil stored = load(choice.job, number, part, counting, out);
      VigilText.lines(stored, ZoneId.systemDefault(), counting == Counting.O62)
          .forEach(out::println);
      ExitCode code = stored.found() ? ExitCode.FAULT_FOUND : ExitCode.ALL_SOUND;
      if (json != null) {
        WholeFile.write(json, VigilJson.text(stored, ZoneId.systemDefault(), Cautions.lines()));
      }
      return code.ifPrinted(out, err);
    } catch (BadVigil | JobFileException e) {
      return Refusal.of(spec, e.getMessage());
    } catch (IOException e) {
      return Refusal.of(spec, json + ": cannot be written: " + e.getMessage());
    }
  }

  /** The vigils of a job file, one at least. */
  static List<VigilRow> rows(Path job) throws JobFileException, BadVigil {
    if (!Files.isRegularFile(job)) {
      throw new BadVigil(job + ": no such file; name a job file that 'bellwire vigil start' wrote");
    }
    List<VigilRow> rows = VigilReader.vigils(job);
    if (rows.isEmpty()) {
      throw new BadVigil(job + ": no vigil in it; 'bellwire vigil start' keeps one");
    }
    return rows;
  }

  /** Of those that a board has begun, where there is one. */
  static VigilRow last(List<VigilRow> rows) {
    return VigilRun.lastBegun(rows).orElse(rows.get(rows.size() - 1));
  }

  static StoredVigil load(Path job, long number, Part part, Counting counting, PrintWriter out)
      throws JobFileException, BadVigil {
    TerminalProgress progress = new TerminalProgress(out);
    try {
      return VigilLoader.load(job, number, part, counting, progress::progress);
    } finally {
      progress.end();
    }
  }
}
