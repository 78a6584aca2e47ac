package bellwire.app.export;

import bellwire.app.document.ReportContents;
import bellwire.app.document.ReportFiles;
import bellwire.app.document.page.Paper;
import bellwire.app.job.JobReader;
import bellwire.app.job.Photo;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;

/** Writes a job for others to read: all of the files or none. */
public final class JobExport {
  /**
   * What is to be written.
   *
   * @param job the job file
   * @param formats one at least
   * @param paper of report and labels
   * @param zone of the times that are shown
   * @param program this program's version
   */
  public record Order(
      Path job, Set<JobFormat> formats, Paper paper, Instant now, ZoneId zone, String program) {
    public Order {
      formats = Set.copyOf(formats);
    }
  }

  private final Order order;
  private final WholeFiles files;
  private final BooleanSupplier cancelled;

  private JobExport(Order order, WholeFiles files, BooleanSupplier cancelled) {
    this.order = order;
    this.files = files;
    this.cancelled = cancelled;
  }

  /**
   * Also while the job is being written: then as it stands now. Some seconds, with a day's vigil in
   * it.
   *
   * @param into a directory that is there
   * @return the files, in the order of the formats
   * @throws CancellationException where it was, and nothing is left
   * @throws java.nio.file.FileAlreadyExistsException where a file would be replaced, and nothing is
   *     written
   */
  public static List<Path> write(Order order, Path into, BooleanSupplier cancelled)
      throws IOException {
    try (WholeFiles files = new WholeFiles(into)) {
      new JobExport(order, files, cancelled).all();
      return files.keep();
    }
  }

  private void all() throws IOException {
    Set<JobFormat> formats = order.formats();
    if (formats.contains(JobFormat.CSV) || formats.contains(JobFormat.JSON)) {
      data();
    }
    if (formats.stream().anyMatch(f -> f.compareTo(JobFormat.PDF) >= 0)) {
      goOn();
      documents(ReportContents.gather(order.job(), order.now(), order.zone(), order.program()));
    }
  }

  private void data() throws IOException {
    try (JobReader reader = JobReader.open(order.job())) {
      ObjectNode root =
          JobJson.of(order.job(), reader, order.now(), order.zone(), order.program(), cancelled);
      if (order.formats().contains(JobFormat.CSV)) {
        for (JobTables.Rows rows : JobTables.of(root)) {
          csv(rows);
        }
      }
      if (order.formats().contains(JobFormat.JSON)) {
        Files.writeString(files.part("job.json"), JobJson.text(root), StandardCharsets.UTF_8);
        for (Photo photo : reader.records().photos()) {
          goOn();
          Files.write(files.part(JobJson.fileName(photo)), reader.records().photoBytes(photo.id()));
        }
      }
    }
  }

  private void csv(JobTables.Rows rows) throws IOException {
    List<Table.Column> columns = new ArrayList<>();
    rows.columns().forEach(name -> columns.add(new Table.Column(name, Table.Type.TEXT, "")));
    Table table = new Table(rows.name(), columns, Map.of());
    try (CsvTable out = new CsvTable(files.part(rows.name() + ".csv"), table)) {
      for (List<String> row : rows.rows()) {
        for (String value : row) {
          out.text(value);
        }
        out.endRow();
      }
    }
  }

  private void documents(ReportContents contents) throws IOException {
    Set<JobFormat> formats = order.formats();
    if (formats.contains(JobFormat.PDF)) {
      goOn();
      ReportFiles.pdf(files.part("report.pdf"), contents, order.paper());
    }
    if (formats.contains(JobFormat.HTML)) {
      goOn();
      ReportFiles.html(files.part("report.html"), contents);
    }
    if (formats.contains(JobFormat.LABELS)) {
      goOn();
      ReportFiles.labels(files.part("labels.pdf"), contents, order.paper());
      ReportFiles.panelCard(files.part("panel-card.pdf"), contents);
    }
  }

  private void goOn() {
    if (cancelled.getAsBoolean()) {
      throw new CancellationException();
    }
  }
}
