package bellwire.app.export;

import bellwire.app.document.ReportContents;
import bellwire.app.document.ReportFiles;
import bellwire.app.document.Undrawn;
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
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
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
   * @param labels ports whose labels are written by themselves too, 0 for P1; of every cable
   * @param zone of the times that are shown
   * @param program this program's version
   */
  public record Order(
      Path job,
      Set<JobFormat> formats,
      Paper paper,
      Set<Integer> labels,
      Instant now,
      ZoneId zone,
      String program) {
    public Order {
      formats = Set.copyOf(formats);
      labels = Set.copyOf(labels);
    }
  }

  /**
   * What was written.
   *
   * @param files in the order of the formats
   * @param remark of what a reader of the report will not see; empty where there is nothing
   */
  public record Written(List<Path> files, String remark) {
    public Written {
      files = List.copyOf(files);
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
   * @throws CancellationException where it was, and nothing is left
   * @throws java.nio.file.FileAlreadyExistsException where a file would be replaced, and nothing is
   *     written
   */
  public static Written write(Order order, Path into, BooleanSupplier cancelled)
      throws IOException {
    try (WholeFiles files = new WholeFiles(into)) {
      String remark = new JobExport(order, files, cancelled).all();
      return new Written(files.keep(), remark);
    }
  }

  /** From one state of the file, so that no two of them disagree. */
  private String all() throws IOException {
    Set<JobFormat> formats = order.formats();
    boolean report = formats.contains(JobFormat.PDF) || formats.contains(JobFormat.HTML);
    try (JobReader reader = JobReader.open(order.job())) {
      ReportContents contents =
          ReportContents.gather(
              reader, order.now(), order.zone(), order.program(), report, cancelled);
      goOn();
      data(contents, reader);
      documents(contents);
      labels(contents);
      return Collections.max(formats).compareTo(JobFormat.PDF) < 0 ? "" : Undrawn.words(contents);
    }
  }

  private void data(ReportContents contents, JobReader reader) throws IOException {
    Set<JobFormat> formats = order.formats();
    if (!formats.contains(JobFormat.CSV) && !formats.contains(JobFormat.JSON)) {
      return;
    }
    ObjectNode root = JobJson.of(contents);
    if (formats.contains(JobFormat.CSV)) {
      for (JobTables.Rows rows : JobTables.of(root)) {
        csv(rows);
      }
    }
    if (formats.contains(JobFormat.JSON)) {
      Files.writeString(files.part("job.json"), JobJson.text(root), StandardCharsets.UTF_8);
      for (ReportContents.Shot shot : contents.photos()) {
        goOn();
        Photo photo = shot.row();
        Files.write(files.part(JobJson.fileName(photo)), reader.records().photoBytes(photo.id()));
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

  private void labels(ReportContents contents) throws IOException {
    for (ReportContents.Cable cable : contents.cables()) {
      String which = contents.cables().size() == 1 ? "" : cable.row().id() + "-";
      for (int port : new TreeSet<>(order.labels())) {
        if (cable.conductors().stream().anyMatch(c -> c.port() == port)) {
          goOn();
          ReportFiles.label(
              files.part("label-" + which + "P" + (port + 1) + ".pdf"),
              contents,
              cable.row().id(),
              port);
        }
      }
    }
  }

  private void goOn() {
    if (cancelled.getAsBoolean()) {
      throw new CancellationException();
    }
  }
}
