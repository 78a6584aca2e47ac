package bellwire.fuzz;

import bellwire.app.document.page.Paper;
import bellwire.app.export.JobExport;
import bellwire.app.export.JobFormat;
import bellwire.app.job.CableRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobFileException;
import bellwire.app.job.JobReader;
import bellwire.app.job.JobRecords;
import bellwire.app.job.Photo;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Set;

/** All that is done with a job that somebody sent: shown, read, exported, opened to go on. */
final class JobReading {
  private static final int COLUMNS = 50;

  private JobReading() {}

  /** What is in it, by the tables. */
  static void read(Path job) throws IOException {
    try (JobReader reader = JobReader.open(job)) {
      for (VigilRow vigil : reader.vigils()) {
        vigil(reader.vigil(vigil.id()));
      }
      records(reader.records());
    } catch (JobFileException e) {
      Refusals.check(e, job.toString());
    }
  }

  /**
   * The same as files. Whether it could be exported.
   *
   * @param into an empty directory
   */
  static boolean exported(Path job, Path into, Set<JobFormat> formats) throws IOException {
    try {
      JobExport.write(
          new JobExport.Order(
              job, formats, Paper.A4, Set.of(0), Instant.EPOCH, ZoneOffset.UTC, "0"),
          into,
          () -> false);
    } catch (JobFileException e) {
      Refusals.check(e, job.toString());
      return false;
    }
    return true;
  }

  private static void records(JobRecords records) throws IOException {
    for (Fact fact : Fact.values()) {
      records.fact(fact);
    }
    records.acts();
    for (CableRow cable : records.cables()) {
      records.conductors(cable.id());
    }
    records.surveys();
    records.landings();
    records.rehearsals();
    records.ticks();
    for (Photo photo : records.photos()) {
      records.photoBytes(photo.id());
    }
    records.left("page");
    records.digest();
  }

  private static void vigil(VigilReader vigil) throws IOException {
    vigil.row();
    vigil.watched();
    vigil.events();
    vigil.marks();
    vigil.sources();
    for (Stream stream : vigil.streams()) {
      long[] count = new long[1];
      vigil.samples(
          stream, Long.MIN_VALUE, Long.MAX_VALUE, (first, n, value, latches) -> count[0] += n);
      vigil.overview(stream, 0, 1_000_000_000_000L, COLUMNS);
      vigil.overview(stream, 0, 30_000_000, COLUMNS);
    }
  }

  /** As who goes on with it. */
  static void opened(Path job) throws IOException {
    try (JobFile open = JobFile.open(job)) {
      for (VigilRow vigil : VigilReader.vigils(job)) {
        open.resumeVigil(vigil.id(), () -> 0).close();
      }
      open.sources();
    } catch (JobFileException e) {
      Refusals.check(e, job.toString());
    }
    Finding.unless(Files.exists(job), "gone");
  }
}
