package bellwire.app.cli;

import bellwire.app.job.JobFileException;
import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/** Where an export's files go; it is left as it was where they are not all written. */
final class ExportDirectory {
  /** Writes files, and gives lines that say so. */
  interface Work {
    List<String> write(Interrupt interrupt) throws IOException;
  }

  /** What an option for it says. */
  static final String WORDS =
      "The directory for the files; made where it is not there. None is overwritten.";

  private final CommandSpec spec;
  private final Path directory;

  ExportDirectory(CommandSpec spec, Path directory) {
    this.spec = spec;
    this.directory = directory;
  }

  /** The exit code. */
  int write(Work work) {
    PrintWriter err = spec.commandLine().getErr();
    Interrupt interrupt = new Interrupt();
    interrupt.arm();
    try {
      boolean made = make();
      boolean written = false;
      try {
        work.write(interrupt).forEach(spec.commandLine().getOut()::println);
        written = true;
      } finally {
        if (made && !written) {
          Files.delete(directory);
        }
      }
      return ExitCode.ALL_SOUND.ifPrinted(spec.commandLine().getOut(), err);
    } catch (CancellationException e) {
      err.println("bellwire: stopped; nothing was written");
      return ExitCode.INTERRUPTED.status();
    } catch (FileAlreadyExistsException e) {
      return Refusal.of(
          spec, e.getFile() + ": is there already; name another directory, or move it away");
    } catch (JobFileException e) {
      return Refusal.of(spec, e.getMessage());
    } catch (IOException e) {
      return Refusal.of(spec, directory + ": cannot be written: " + e.getMessage());
    } finally {
      interrupt.done();
    }
  }

  /** A line for each file. */
  static List<String> told(List<Path> files) throws IOException {
    List<String> lines = new ArrayList<>();
    for (Path file : files) {
      lines.add(file + ": " + Files.size(file) + " bytes");
    }
    return lines;
  }

  private boolean make() throws IOException {
    if (Files.isDirectory(directory)) {
      return false;
    }
    Path parent = directory.toAbsolutePath().getParent();
    if (Files.exists(directory) || parent == null || !Files.isDirectory(parent)) {
      throw new CommandLine.ParameterException(
          spec.commandLine(), "'" + directory + "': no such directory, and none can be made there");
    }
    Files.createDirectory(directory);
    return true;
  }
}
