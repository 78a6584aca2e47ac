package bellwire.app.export;

import bellwire.app.job.Gap;
import bellwire.app.job.Mark;
import bellwire.app.job.Overview.Unreadable;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilRow;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;
import java.util.function.DoubleConsumer;

/**
 * Writes a vigil as tables: the samples of each stream, events, marks, gaps, and what is known of
 * the vigil itself. Times are device time in µs, with the wall time beside.
 */
public final class VigilExport {
  /** So often is asked whether to go on. */
  private static final int ROWS_BETWEEN_LOOKS = 4096;

  /**
   * What was written.
   *
   * @param files each whole
   * @param unreadable damaged blocks, whose samples are left out and stand as gaps
   */
  public record Written(List<Path> files, long samples, List<Unreadable> unreadable) {
    public Written {
      files = List.copyOf(files);
      unreadable = List.copyOf(unreadable);
    }
  }

  private final VigilReader reader;
  private final VigilRow row;
  private final long fromMicros;
  private final long toMicros;
  private final ExportFormat format;
  private final DoubleConsumer progress;
  private final BooleanSupplier cancelled;
  private final Map<String, String> facts;
  private final List<Unreadable> unreadable = new ArrayList<>();
  private long samples;
  private long rows;

  private VigilExport(
      VigilReader reader,
      long fromMicros,
      long toMicros,
      ExportFormat format,
      DoubleConsumer progress,
      BooleanSupplier cancelled)
      throws IOException {
    this.reader = reader;
    this.fromMicros = fromMicros;
    this.toMicros = toMicros;
    this.format = format;
    this.progress = progress;
    this.cancelled = cancelled;
    row = reader.row();
    facts = VigilFacts.of(row, reader.watched(), fromMicros, toMicros);
  }

  /**
   * Writes all tables, or none: an existing file of the same name is refused, and nothing is left
   * of an export that fails or is cancelled.
   *
   * @param fromMicros device time of the first sample that may be in it
   * @param toMicros device time from which on nothing is in it
   * @param progress told the share that is done, 0 to 1
   * @param cancelled asked now and then whether to end
   * @throws CancellationException where it was to end
   * @throws java.nio.file.FileAlreadyExistsException where a file is there already
   */
  public static Written write(
      VigilReader reader,
      long fromMicros,
      long toMicros,
      ExportFormat format,
      Path directory,
      DoubleConsumer progress,
      BooleanSupplier cancelled)
      throws IOException {
    VigilExport export = new VigilExport(reader, fromMicros, toMicros, format, progress, cancelled);
    try (WholeFiles files = new WholeFiles(directory)) {
      return export.write(files);
    } catch (UncheckedIOException e) {
      throw e.getCause();
    }
  }

  private Written write(WholeFiles files) throws IOException {
    try (TableWriter gaps = open(files, "gaps", VigilTableShapes.GAPS)) {
      List<Stream> streams = reader.streams();
      for (int i = 0; i < streams.size(); i++) {
        int before = unreadable.size();
        samples(files, streams.get(i), (double) i / streams.size(), 1.0 / streams.size());
        List<Unreadable> blocks = unreadable.subList(before, unreadable.size());
        gaps(gaps, streams.get(i), blocks);
      }
    }
    events(files);
    marks(files);
    try (TableWriter known = open(files, "vigil", VigilTableShapes.FACTS)) {
      for (Map.Entry<String, String> fact : facts.entrySet()) {
        known.text(fact.getKey()).text(fact.getValue()).endRow();
      }
    }
    goOn();
    return new Written(files.keep(), samples, unreadable);
  }

  private TableWriter open(WholeFiles files, String name, List<Table.Column> columns)
      throws IOException {
    return open(files, VigilTableShapes.of(name, columns, facts));
  }

  private TableWriter open(WholeFiles files, Table table) throws IOException {
    return format.writer(files.part(format.fileName(table)), table);
  }

  private void samples(WholeFiles files, Stream stream, double done, double share)
      throws IOException {
    boolean words = stream.kind() == Stream.Kind.WORDS;
    boolean coded = stream.codes() > 1;
    long end = Math.min(toMicros, reader.lastMicros(stream).orElse(fromMicros));
    double length = Math.max(1.0, (double) end - fromMicros);
    try (TableWriter table = open(files, VigilTableShapes.samples(stream, facts))) {
      unreadable.addAll(
          reader.coded(
              stream,
              fromMicros,
              toMicros,
              (first, count, value, latches, code) -> {
                try {
                  table.utc(row.unixMicros(first)).number(first);
                  if (words) {
                    table.number(count).number(value).number(latches);
                  } else {
                    table.number(value);
                  }
                  (coded ? table.number(code) : table).endRow();
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
                samples += count;
                if (++rows % ROWS_BETWEEN_LOOKS == 0) {
                  goOn();
                  progress.accept(done + share * Math.min(1, (first - fromMicros) / length));
                }
              }));
    }
    goOn();
    progress.accept(done + share);
  }

  private void gaps(TableWriter table, Stream stream, List<Unreadable> blocks) throws IOException {
    List<Gap> all = new ArrayList<>(reader.gaps(stream, fromMicros, toMicros));
    for (Unreadable block : blocks) {
      long end = block.lastMicros() + stream.periodMicros();
      all.add(new Gap(block.firstMicros(), end, "damaged block: " + block.reason()));
    }
    all.sort(Comparator.comparingLong(Gap::fromMicros));
    for (Gap gap : all) {
      table.text(stream.name()).utc(row.unixMicros(gap.fromMicros())).number(gap.fromMicros());
      table.number(gap.toMicros()).text(gap.reason()).endRow();
    }
  }

  private void events(WholeFiles files) throws IOException {
    try (TableWriter table = open(files, "events", VigilTableShapes.EVENTS)) {
      for (VigilEvent event : reader.events()) {
        if (event.lastMicros() >= fromMicros && event.firstMicros() < toMicros) {
          table.text(VigilTableShapes.port(event.port()));
          table.text(VigilTableShapes.ports(event.others()));
          table.utc(row.unixMicros(event.firstMicros())).number(event.beforeMicros());
          table.number(event.firstMicros()).number(event.lastMicros()).number(event.afterMicros());
          table.number(event.times()).flag(event.latched());
          table.flag(event.cutBefore()).flag(event.cutAfter()).endRow();
        }
      }
    }
  }

  private void marks(WholeFiles files) throws IOException {
    try (TableWriter table = open(files, "marks", VigilTableShapes.MARKS)) {
      for (Mark mark : reader.marks()) {
        if (mark.micros() >= fromMicros && mark.micros() < toMicros) {
          table.utc(row.unixMicros(mark.micros())).number(mark.micros()).text(mark.text()).endRow();
        }
      }
    }
  }

  private void goOn() {
    if (cancelled.getAsBoolean()) {
      throw new CancellationException("cancelled");
    }
  }
}
