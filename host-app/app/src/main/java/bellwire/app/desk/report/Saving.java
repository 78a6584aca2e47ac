package bellwire.app.desk.report;

import bellwire.app.desk.DeskContext;
import bellwire.app.desk.Notices;
import bellwire.app.desk.Progress;
import bellwire.app.document.ReportContents;
import bellwire.app.document.ReportFiles;
import bellwire.app.document.page.Paper;
import bellwire.app.export.JobExport;
import bellwire.app.export.JobFormat;
import bellwire.app.report.ProgramVersion;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CompletionException;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;

/** Writes the report's files in the background, and asks before one is replaced. */
final class Saving {
  private final DeskContext ctx;
  private final Printer printer;
  private final Clock clock;
  private final Consumer<SavedKind> saved;

  /**
   * @param saved told on the event thread of what was written
   */
  Saving(DeskContext ctx, Printer printer, Clock clock, Consumer<SavedKind> saved) {
    this.ctx = ctx;
    this.printer = printer;
    this.clock = clock;
    this.saved = saved;
  }

  /**
   * @param again asks for another name
   */
  void save(SavedKind kind, Path chosen, Paper paper, Runnable again) {
    Path file = withEnding(chosen, kind.ending());
    ctx.later(
        CompletableFuture.supplyAsync(() -> Files.exists(file)),
        there -> {
          if (!there) {
            write(kind, file, paper);
          } else if (kind == SavedKind.DATA) {
            ctx.notices()
                .ask(
                    file + " is there already, and nothing in it is replaced.",
                    new Notices.Choice("Another name", again));
          } else {
            ctx.notices()
                .ask(
                    file + " is there already.",
                    new Notices.Choice("Another name", again),
                    new Notices.Choice("Replace it", () -> write(kind, file, paper)));
          }
        });
  }

  private static Path withEnding(Path file, String ending) {
    String name = String.valueOf(file.getFileName());
    return name.toLowerCase(Locale.ROOT).endsWith(ending)
        ? file
        : file.resolveSibling(name + ending);
  }

  private void write(SavedKind kind, Path file, Paper paper) {
    AtomicBoolean cancelled = new AtomicBoolean();
    // The strip is the board's while that is at work.
    Progress.@Nullable Task task =
        ctx.progress().running() == null
            ? ctx.progress().begin("writing " + file.getFileName(), () -> cancelled.set(true))
            : null;
    ctx.later(
        printer.run(() -> written(kind, file, paper, cancelled)),
        bytes -> {
          end(task);
          ctx.notices().note(file + " is written" + size(bytes) + ".");
          saved.accept(kind);
        },
        failure -> {
          end(task);
          if (cause(failure) instanceof CancellationException) {
            ctx.notices().note("Stopped; " + file.getFileName() + " is not written.");
          } else {
            ctx.notices().trouble(failure);
          }
        });
  }

  private static Throwable cause(Throwable failure) {
    return failure instanceof CompletionException && failure.getCause() != null
        ? failure.getCause()
        : failure;
  }

  private static void end(Progress.@Nullable Task task) {
    if (task != null) {
      task.end();
    }
  }

  private static String size(long bytes) {
    return bytes < 0 ? "" : String.format(Locale.ROOT, ", %.0f kB", Math.ceil(bytes / 1e3));
  }

  /** Its length in bytes; −1 of a folder. */
  private long written(SavedKind kind, Path file, Paper paper, AtomicBoolean cancelled)
      throws IOException {
    if (kind == SavedKind.DATA) {
      data(file, paper, cancelled);
      return -1;
    }
    ReportContents contents = printer.contents();
    if (cancelled.get()) {
      throw new CancellationException();
    }
    switch (kind) {
      case PDF -> ReportFiles.pdf(file, contents, paper);
      case HTML -> ReportFiles.html(file, contents);
      case LABELS -> ReportFiles.labels(file, contents, paper);
      case CARD -> ReportFiles.panelCard(file, contents);
      case DATA -> throw new IllegalStateException("is a folder, kind=" + kind);
    }
    return Files.size(file);
  }

  private void data(Path folder, Paper paper, AtomicBoolean cancelled) throws IOException {
    Files.createDirectory(folder);
    List<Path> files = List.of();
    try {
      files =
          JobExport.write(
                  new JobExport.Order(
                      ctx.visit().file(),
                      Set.of(JobFormat.CSV, JobFormat.JSON),
                      paper,
                      Set.of(),
                      clock.instant(),
                      ZoneId.systemDefault(),
                      ProgramVersion.text()),
                  folder,
                  cancelled::get)
              .files();
    } finally {
      if (files.isEmpty()) {
        Files.delete(folder);
      }
    }
  }
}
