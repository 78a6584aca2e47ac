package bellwire.app.export;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import bellwire.app.export.VigilExport.Written;
import bellwire.app.job.JobFile;
import bellwire.app.job.Mark;
import bellwire.app.job.Stream;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilReader;
import bellwire.app.job.VigilStore;
import bellwire.app.job.Watched;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.concurrent.CancellationException;
import org.apache.parquet.ParquetReadOptions;
import org.apache.parquet.column.page.PageReadStore;
import org.apache.parquet.conf.PlainParquetConfiguration;
import org.apache.parquet.example.data.Group;
import org.apache.parquet.example.data.simple.convert.GroupRecordConverter;
import org.apache.parquet.hadoop.ParquetFileReader;
import org.apache.parquet.io.ColumnIOFactory;
import org.apache.parquet.io.LocalInputFile;
import org.apache.parquet.io.RecordReader;
import org.apache.parquet.schema.LogicalTypeAnnotation;
import org.apache.parquet.schema.MessageType;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Exported tables, the Parquet ones read back through the library's own reader. */
class VigilExportTest {
  private static final long START_MICROS = 7_000_000_000L;

  /** 2025-06-15T15:06:40Z, by GNU date. */
  private static final long UNIX_MICROS = 1_750_000_000_000_000L;

  @TempDir Path directory;
  private Path job;
  private Path into;

  @BeforeEach
  void name() throws Exception {
    job = directory.resolve("job.bellwire");
    into = Files.createDirectory(directory.resolve("out"));
  }

  private static Watched touch() {
    return new Watched(
        5,
        "touch",
        0x7,
        0,
        false,
        0,
        60_000_000,
        "A",
        "hall, \"up\"",
        Double.NaN,
        0,
        60,
        Map.of(1, "white"));
  }

  /** Two runs of words, the second with another code, two codes, an event, a mark, a gap. */
  private void fill() throws Exception {
    try (JobFile file = JobFile.open(job)) {
      VigilStore store = file.startVigil(touch(), UNIX_MICROS, START_MICROS, () -> 0);
      Stream ports = store.addWords("ports", 1000, 2);
      Stream p3 = store.addCodes("P3 to M", 50_000);
      store.appendTicks(ports, START_MICROS, 70, 0, 0, 1);
      store.appendTicks(ports, START_MICROS + 70_000, 2, 4, 1 << 16, 1);
      store.interrupted(START_MICROS, START_MICROS + 90_000, "ring overrun, \"full\"");
      store.appendTicks(ports, START_MICROS + 90_000, 1, 0, 0, 0);
      store.appendCode(p3, START_MICROS + 90_003, -8_388_608);
      store.appendCode(p3, START_MICROS + 140_003, 8_388_607);
      store.event(
          new VigilEvent(
              2,
              1 | 1 << 16,
              START_MICROS + 69_000,
              START_MICROS + 70_000,
              START_MICROS + 71_000,
              START_MICROS + 90_000,
              1,
              false,
              false,
              true));
      store.mark(new Mark(START_MICROS + 71_500, "shook the cable"));
      store.ended(START_MICROS + 150_000, "stopped");
      store.close();
    }
  }

  private Written export(ExportFormat format, long from, long to) throws Exception {
    try (VigilReader reader = VigilReader.open(job, 1)) {
      return VigilExport.write(reader, from, to, format, into, share -> {}, () -> false);
    }
  }

  private List<String> names() throws Exception {
    try (java.util.stream.Stream<Path> files = Files.list(into)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  private String csv(String name) throws Exception {
    return Files.readString(into.resolve(name));
  }

  private static String lines(String... lines) {
    return String.join("\r\n", lines) + "\r\n";
  }

  @Test
  void csvHasEveryTableWithItsUnits() throws Exception {
    fill();
    Written written = export(ExportFormat.CSV, Long.MIN_VALUE, Long.MAX_VALUE);
    assertThat(written.samples()).isEqualTo(75);
    assertThat(written.files()).hasSize(6);
    assertThat(names())
        .containsExactly(
            "events.csv",
            "gaps.csv",
            "marks.csv",
            "samples-p3-to-m.csv",
            "samples-ports.csv",
            "vigil.csv");
    assertThat(csv("samples-ports.csv"))
        .isEqualTo(
            lines(
                "first_utc,first_micros,ticks,word,latches,group_code",
                "2025-06-15T15:06:40.000000Z,7000000000,70,0,0,1",
                "2025-06-15T15:06:40.070000Z,7000070000,2,4,65536,1",
                "2025-06-15T15:06:40.090000Z,7000090000,1,0,0,0"));
    assertThat(csv("samples-p3-to-m.csv"))
        .isEqualTo(
            lines(
                "utc,micros,code",
                "2025-06-15T15:06:40.090003Z,7000090003,-8388608",
                "2025-06-15T15:06:40.140003Z,7000140003,8388607"));
    assertThat(csv("events.csv"))
        .isEqualTo(
            lines(
                "port,others,first_utc,before_micros,first_micros,last_micros,after_micros,times,"
                    + "latched,cut_before,cut_after",
                "P3,P1 M,2025-06-15T15:06:40.070000Z,7000069000,7000070000,7000071000,7000090000,"
                    + "1,false,false,true"));
    assertThat(csv("marks.csv"))
        .isEqualTo(
            lines("utc,micros,text", "2025-06-15T15:06:40.071500Z,7000071500,shook the cable"));
    assertThat(csv("gaps.csv"))
        .isEqualTo(
            lines(
                "stream,from_utc,from_micros,to_micros,reason",
                "ports,2025-06-15T15:06:40.072000Z,7000072000,7000090000,"
                    + "\"ring overrun, \"\"full\"\"\"",
                "P3 to M,2025-06-15T15:06:40.000000Z,7000000000,7000090000,"
                    + "\"ring overrun, \"\"full\"\"\""));
    assertThat(csv("vigil.csv"))
        .startsWith("fact,value\r\nvigil,1\r\nprogram,touch\r\nstarted_utc,2025-06-15T15:06:40Z")
        .contains("\r\noutcome,stopped\r\n", "\r\nports,P1 P2 P3\r\n", "\r\nname_p2,white\r\n")
        .contains("\r\nnote,\"hall, \"\"up\"\"\"\r\n");
  }

  @Test
  void aStretchHoldsOnlyWhatFallsIntoIt() throws Exception {
    fill();
    export(ExportFormat.CSV, START_MICROS + 69_500, START_MICROS + 71_000);
    assertThat(csv("samples-ports.csv").lines().skip(1))
        .containsExactly("2025-06-15T15:06:40.070000Z,7000070000,1,4,65536,1");
    assertThat(csv("events.csv").lines()).hasSize(2);
    assertThat(csv("marks.csv").lines()).hasSize(1);
    assertThat(csv("vigil.csv")).contains("exported_from_micros,7000069500");
  }

  @Test
  void parquetHoldsTheSameAsCsvWithTypesAndMeanings() throws Exception {
    fill();
    export(ExportFormat.CSV, Long.MIN_VALUE, Long.MAX_VALUE);
    export(ExportFormat.PARQUET, Long.MIN_VALUE, Long.MAX_VALUE);
    for (String name :
        List.of("events", "gaps", "marks", "samples-p3-to-m", "samples-ports", "vigil")) {
      // Quotes aside: none of the values has a comma but the gap's reason and the note.
      List<String> expected =
          csv(name + ".csv").lines().skip(1).map(VigilExportTest::unquoted).toList();
      assertThat(expected).as(name).isNotEmpty();
      assertThat(parquet(into.resolve(name + ".parquet"))).as(name).isEqualTo(expected);
    }
    try (ParquetFileReader reader = reader(into.resolve("samples-ports.parquet"))) {
      MessageType schema = reader.getFileMetaData().getSchema();
      assertThat(schema.getType("first_utc").getLogicalTypeAnnotation())
          .isEqualTo(
              LogicalTypeAnnotation.timestampType(true, LogicalTypeAnnotation.TimeUnit.MICROS));
      assertThat(reader.getFileMetaData().getKeyValueMetaData())
          .containsEntry("bellwire.program", "touch")
          .containsEntry("bellwire.period_micros", "1000")
          .containsKey("bellwire.column.word");
    }
  }

  @Test
  void manyRowsComeBackFromParquet() throws Exception {
    long seed = 63;
    System.out.println("VigilExportTest: seed=" + seed);
    Random random = new Random(seed);
    List<String> expected = new ArrayList<>();
    try (JobFile file = JobFile.open(job)) {
      VigilStore store = file.startVigil(touch(), UNIX_MICROS, START_MICROS, () -> 0);
      Stream p1 = store.addCodes("P1", 10_000);
      for (int i = 0; i < 200_000; i++) {
        long micros = START_MICROS + i * 10_000L + random.nextInt(300);
        int code = random.nextInt(1 << 24) - (1 << 23);
        store.appendCode(p1, micros, code);
        expected.add((UNIX_MICROS - START_MICROS + micros) + "," + micros + "," + code);
      }
      store.close();
    }
    List<Double> shares = new ArrayList<>();
    try (VigilReader reader = VigilReader.open(job, 1)) {
      VigilExport.write(
          reader, 0, Long.MAX_VALUE, ExportFormat.PARQUET, into, shares::add, () -> false);
    }
    assertThat(shares).isSorted().hasSizeGreaterThan(20).endsWith(1.0);
    List<String> read = new ArrayList<>();
    try (ParquetFileReader file = reader(into.resolve("samples-p1.parquet"))) {
      rows(file, g -> read.add(g.getLong(0, 0) + "," + g.getLong(1, 0) + "," + g.getInteger(2, 0)));
    }
    assertThat(read.equals(expected)).isTrue();
  }

  @Test
  void anExistingFileIsRefusedAndNothingIsLeft() throws Exception {
    fill();
    Files.writeString(into.resolve("marks.csv"), "mine");
    assertThatThrownBy(() -> export(ExportFormat.CSV, 0, Long.MAX_VALUE))
        .isInstanceOf(FileAlreadyExistsException.class)
        .hasMessageEndingWith("marks.csv");
    assertThat(names()).containsExactly("marks.csv");
    assertThat(csv("marks.csv")).isEqualTo("mine");
  }

  @Test
  void aCancelledExportLeavesNothing() throws Exception {
    fill();
    for (ExportFormat format : ExportFormat.values()) {
      int[] looks = new int[1];
      try (VigilReader reader = VigilReader.open(job, 1)) {
        assertThatThrownBy(
                () ->
                    VigilExport.write(
                        reader, 0, Long.MAX_VALUE, format, into, s -> {}, () -> ++looks[0] > 1))
            .isInstanceOf(CancellationException.class);
      }
      assertThat(looks[0]).isEqualTo(2);
      assertThat(names()).isEmpty();
    }
  }

  private static String unquoted(String line) {
    return line.replace("\"\"", "'").replace("\"", "").replace("'", "\"");
  }

  private static ParquetFileReader reader(Path file) throws Exception {
    return new ParquetFileReader(
        new LocalInputFile(file),
        ParquetReadOptions.builder(new PlainParquetConfiguration())
            .withCodecFactory(new GzipPages())
            .build());
  }

  private static void rows(ParquetFileReader file, java.util.function.Consumer<Group> sink)
      throws Exception {
    MessageType schema = file.getFileMetaData().getSchema();
    for (PageReadStore pages = file.readNextRowGroup();
        pages != null;
        pages = file.readNextRowGroup()) {
      RecordReader<Group> records =
          new ColumnIOFactory()
              .getColumnIO(schema)
              .getRecordReader(pages, new GroupRecordConverter(schema));
      for (long i = 0; i < pages.getRowCount(); i++) {
        sink.accept(records.read());
      }
    }
  }

  /** As CSV has it. */
  private static List<String> parquet(Path path) throws Exception {
    List<String> lines = new ArrayList<>();
    try (ParquetFileReader file = reader(path)) {
      MessageType schema = file.getFileMetaData().getSchema();
      rows(
          file,
          group -> {
            List<String> values = new ArrayList<>();
            for (int i = 0; i < schema.getFieldCount(); i++) {
              boolean utc =
                  schema.getType(i).getLogicalTypeAnnotation()
                      instanceof LogicalTypeAnnotation.TimestampLogicalTypeAnnotation;
              values.add(utc ? csvTime(group.getLong(i, 0)) : group.getValueToString(i, 0));
            }
            lines.add(String.join(",", values));
          });
    }
    return lines;
  }

  private static String csvTime(long unixMicros) {
    return java.time.format.DateTimeFormatter.ofPattern("yyyy-MM-dd'T'HH:mm:ss.SSSSSS'Z'")
        .withZone(java.time.ZoneOffset.UTC)
        .format(java.time.Instant.EPOCH.plus(unixMicros, java.time.temporal.ChronoUnit.MICROS));
  }
}
