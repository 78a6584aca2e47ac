package bellwire.app.export;

import bellwire.app.export.Table.Column;
import bellwire.app.export.Table.Type;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilReader;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import org.apache.parquet.ParquetReadOptions;
import org.apache.parquet.column.page.PageReadStore;
import org.apache.parquet.conf.PlainParquetConfiguration;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.io.ColumnIOFactory;
import org.apache.parquet.io.LocalInputFile;
import org.apache.parquet.io.RecordReader;
import org.apache.parquet.io.api.Converter;
import org.apache.parquet.io.api.GroupConverter;
import org.apache.parquet.io.api.PrimitiveConverter;
import org.apache.parquet.io.api.RecordMaterializer;
import org.apache.parquet.schema.MessageType;

/**
 * The same samples with a row each, as the job file's store is compared with: a time, a value
 * (word, or converter's code) and a second one (latches, or the stream's number).
 */
public final class RowPerSample {
  private static final int COLUMNS = 1000;
  private static final int TRIES = 2;

  /** What holds the rows. */
  public enum Form {
    CSV,
    SQLITE,
    PARQUET
  }

  /** Size and the time from opening it to 1000 columns of least and greatest, from memory. */
  public record Cost(double bytesPerRow, double nanosPerRow) {}

  private interface Rows {
    void row(long micros, int value, int second) throws IOException;
  }

  private RowPerSample() {}

  /** Writes the first samples of all streams, and draws them. */
  public static Cost cost(Form form, VigilReader reader, int most, Path directory)
      throws Exception {
    Path file = Files.createTempFile(directory, "rows", "." + form);
    long[] written = new long[1];
    switch (form) {
      case CSV, PARQUET -> {
        ExportFormat format = form == Form.CSV ? ExportFormat.CSV : ExportFormat.PARQUET;
        try (TableWriter table = format.writer(file, table())) {
          written[0] =
              feed(reader, most, (m, a, b) -> table.number(m).number(a).number(b).endRow());
        }
      }
      case SQLITE -> {
        Files.delete(file);
        written[0] = sqlite(file, reader, most);
      }
    }
    double bytes = (double) Files.size(file) / written[0];
    double nanos = Double.POSITIVE_INFINITY;
    for (int i = 0; i < TRIES; i++) {
      long begin = System.nanoTime();
      long drawn = draw(form, file);
      nanos = Math.min(nanos, (double) (System.nanoTime() - begin) / written[0]);
      if (drawn == 0) {
        throw new AssertionError("nothing drawn");
      }
    }
    Files.delete(file);
    return new Cost(bytes, nanos);
  }

  private static Table table() {
    return new Table(
        "rows",
        List.of(
            new Column("micros", Type.LONG, "time"),
            new Column("value", Type.SHORT, "value"),
            new Column("second", Type.SHORT, "latches or stream")),
        Map.of());
  }

  private static long feed(VigilReader reader, int most, Rows rows) throws IOException {
    List<Stream> streams = reader.streams();
    long[] fed = new long[1];
    for (int i = 0; i < streams.size(); i++) {
      Stream stream = streams.get(i);
      int index = i;
      long end = (long) (i + 1) * most / streams.size();
      reader.samples(
          stream,
          0,
          (long) most / streams.size() * stream.periodMicros(),
          (first, count, value, latches) -> {
            boolean words = stream.kind() == Stream.Kind.WORDS;
            try {
              for (int k = 0; k < count && fed[0] < end; k++) {
                rows.row(first + k * stream.periodMicros(), value, words ? latches : index);
                fed[0]++;
              }
            } catch (IOException e) {
              throw new UncheckedIOException(e);
            }
          });
    }
    return fed[0];
  }

  private static long sqlite(Path file, VigilReader reader, int most) throws Exception {
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement()) {
      statement.execute("CREATE TABLE sample (micros INTEGER, value INTEGER, second INTEGER)");
      connection.setAutoCommit(false);
      long written;
      try (PreparedStatement insert =
          connection.prepareStatement("INSERT INTO sample VALUES (?, ?, ?)")) {
        written =
            feed(
                reader,
                most,
                (micros, value, second) -> {
                  try {
                    insert.setLong(1, micros);
                    insert.setInt(2, value);
                    insert.setInt(3, second);
                    insert.execute();
                  } catch (java.sql.SQLException e) {
                    throw new IOException(e);
                  }
                });
      }
      connection.commit();
      return written;
    }
  }

  private static long draw(Form form, Path file) throws Exception {
    return switch (form) {
      case CSV -> drawCsv(file);
      case SQLITE -> drawSqlite(file);
      case PARQUET -> drawParquet(file);
    };
  }

  private static long drawCsv(Path file) throws IOException {
    Drawing drawing = new Drawing();
    try (BufferedReader lines = Files.newBufferedReader(file)) {
      String line = lines.readLine();
      for (line = lines.readLine(); line != null; line = lines.readLine()) {
        int first = line.indexOf(',');
        int second = line.indexOf(',', first + 1);
        drawing.take(
            Long.parseLong(line, 0, first, 10), Integer.parseInt(line, first + 1, second, 10));
      }
    }
    return drawing.taken;
  }

  private static long drawSqlite(Path file) throws Exception {
    long rows = 0;
    try (Connection connection = DriverManager.getConnection("jdbc:sqlite:" + file);
        Statement statement = connection.createStatement();
        ResultSet row =
            statement.executeQuery(
                "SELECT micros / "
                    + Drawing.COLUMN_MICROS
                    + " AS c, second, min(value), max(value) FROM sample GROUP BY c")) {
      while (row.next()) {
        rows++;
      }
    }
    return rows;
  }

  private static long drawParquet(Path file) throws IOException {
    Drawing drawing = new Drawing();
    try (ParquetFileReader reader =
        new ParquetFileReader(
            new LocalInputFile(file),
            ParquetReadOptions.builder(new PlainParquetConfiguration())
                .withCodecFactory(new GzipPages())
                .build())) {
      MessageType schema = reader.getFileMetaData().getSchema();
      for (PageReadStore pages = reader.readNextRowGroup();
          pages != null;
          pages = reader.readNextRowGroup()) {
        RecordReader<Drawing> records =
            new ColumnIOFactory().getColumnIO(schema).getRecordReader(pages, drawing);
        for (long i = 0; i < pages.getRowCount(); i++) {
          records.read();
        }
      }
    }
    return drawing.taken;
  }

  /** Least and greatest in each column; also what Parquet's reader hands its values to. */
  private static final class Drawing extends RecordMaterializer<Drawing> {
    static final long COLUMN_MICROS = 1_000_000;

    private final int[] low = new int[COLUMNS];
    private final int[] high = new int[COLUMNS];
    private long micros;
    private int value;
    private long taken;

    void take(long at, int of) {
      int column = (int) (at / COLUMN_MICROS % COLUMNS);
      low[column] = Math.min(low[column], of);
      high[column] = Math.max(high[column], of);
      taken++;
    }

    @Override
    public Drawing getCurrentRecord() {
      return this;
    }

    @Override
    public GroupConverter getRootConverter() {
      return new GroupConverter() {
        @Override
        public Converter getConverter(int field) {
          return new PrimitiveConverter() {
            @Override
            public void addLong(long read) {
              micros = read;
            }

            @Override
            public void addInt(int read) {
              if (field == 1) {
                value = read;
              }
            }
          };
        }

        @Override
        public void start() {}

        @Override
        public void end() {
          take(micros, value);
        }
      };
    }
  }
}
