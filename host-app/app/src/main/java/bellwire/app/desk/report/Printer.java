package bellwire.app.desk.report;

import bellwire.app.document.ReportContents;
import bellwire.app.document.ReportPreview;
import bellwire.app.document.Undrawn;
import bellwire.app.document.page.Paper;
import bellwire.app.job.JobReader;
import bellwire.app.report.ProgramVersion;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.jspecify.annotations.Nullable;

/** Sets the report's pages, and makes pictures of them, on one thread in the background. */
final class Printer {
  /**
   * The pages, and what is missing from them.
   *
   * @param pages how many
   */
  record Proof(int pages, List<Missing.Gap> missing) {
    Proof {
      missing = List.copyOf(missing);
    }
  }

  private final Path job;
  private final Clock clock;
  private final ExecutorService press =
      Executors.newSingleThreadExecutor(
          work -> {
            Thread thread = new Thread(work, "bellwire-report");
            thread.setDaemon(true);
            return thread;
          });
  private @Nullable ReportPreview preview;
  private volatile boolean closed;

  Printer(Path job, Clock clock) {
    this.job = job;
    this.clock = clock;
  }

  /** Lets go of the pages and of the thread; a file that is being written is written to its end. */
  void close() {
    if (!closed) {
      closed = true;
      press.execute(
          () -> {
            try {
              drop();
            } catch (IOException e) {
              // Nobody looks at it any more.
            }
          });
      press.shutdown();
    }
  }

  /** Sets the pages anew, as the job stands now. */
  CompletableFuture<Proof> set(Paper paper) {
    return run(
        () -> {
          refuseClosed();
          List<Missing.Gap> missing;
          try (JobReader reader = JobReader.open(job)) {
            missing = new ArrayList<>(Missing.of(reader));
          }
          drop();
          ReportContents contents = contents();
          String undrawn = Undrawn.words(contents);
          if (!undrawn.isEmpty()) {
            missing.add(new Missing.Gap(undrawn, "visit"));
          }
          ReportPreview set = ReportPreview.of(contents, paper);
          preview = set;
          return new Proof(set.pages(), missing);
        });
  }

  /**
   * @param page from 0
   * @param scale pixels for each point of 1/72 inch
   */
  CompletableFuture<BufferedImage> page(int page, double scale) {
    return run(
        () -> {
          refuseClosed();
          ReportPreview set = preview;
          if (set == null) {
            throw new IOException("no pages are set yet");
          }
          return set.page(page, scale);
        });
  }

  /** The job as it stands now; on the thread of {@link #run} alone. */
  ReportContents contents() throws IOException {
    return ReportContents.gather(
        job, clock.instant(), ZoneId.systemDefault(), ProgramVersion.text());
  }

  private void refuseClosed() {
    if (closed) {
      throw new CancellationException("the report is looked at no more");
    }
  }

  /** After what was asked for before. */
  <T> CompletableFuture<T> run(Callable<T> work) {
    if (closed) {
      return CompletableFuture.failedFuture(
          new CancellationException("the report is looked at no more"));
    }
    CompletableFuture<T> result = new CompletableFuture<>();
    press.execute(
        () -> {
          try {
            result.complete(work.call());
          } catch (UncheckedIOException e) {
            result.completeExceptionally(e.getCause());
          } catch (Exception | Error e) {
            result.completeExceptionally(e);
          }
        });
    return result;
  }

  private void drop() throws IOException {
    ReportPreview old = preview;
    preview = null;
    if (old != null) {
      old.close();
    }
  }
}
