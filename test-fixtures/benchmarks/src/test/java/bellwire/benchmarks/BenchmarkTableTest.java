package bellwire.benchmarks;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.circuit.Ngspice;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The table of docs/benchmarks.md. {@code -Dbellwire.benchmarks=all} measures, and with {@code
 * -Dbellwire.write=true} writes it; without, all but the starts are done once, briefly, to see that
 * they run and agree, and no time is judged.
 */
class BenchmarkTableTest {
  private static final boolean ALL = "all".equals(System.getProperty("bellwire.benchmarks"));
  private static final Path PAGE = Path.of("..", "..", "docs", "benchmarks.md");

  /** What a start of the command line may take, seconds. */
  private static final double HELP_SECONDS = 0.3;

  private static final double SURVEY_SECONDS = 3;

  @TempDir Path directory;

  @Test
  void oursBesidePeers() throws Exception {
    Ngspice.require();
    String before = load();
    List<Row> rows = new ArrayList<>(JmhRows.rows(!ALL));
    rows.addAll(SpiceRows.rows(!ALL, directory));
    rows.addAll(StoreRows.rows(!ALL, directory));
    if (ALL) {
      assertThat(StartRows.jar()).as("mvn package first").exists();
      rows.addAll(StartRows.rows(directory));
    }
    StringBuilder table =
        new StringBuilder("| work | who | median (least to greatest) | times ours |\n");
    table.append("|---|---|---|---|\n");
    rows.forEach(row -> table.append(row.markdown()));
    System.out.print(table);
    assertThat(rows).hasSizeGreaterThanOrEqualTo(7).allSatisfy(BenchmarkTableTest::sane);
    if (ALL && Boolean.getBoolean("bellwire.write")) {
      Files.writeString(PAGE, page(table.toString(), before, load()));
    }
    if (ALL) {
      assertThat(figure(rows, "`bellwire --help`, processor time")).isLessThan(HELP_SECONDS);
      assertThat(figure(rows, "`bellwire survey --bench healthy-5.yaml`, wall time"))
          .isLessThan(SURVEY_SECONDS);
    }
  }

  private static void sane(Row row) {
    assertThat(row.figure().median()).as(row.work()).isPositive();
    assertThat(row.peers()).as(row.work()).isNotEmpty();
    // The shell's clock counts hundredths of a second: a short run of a peer may take none.
    row.peers().forEach(peer -> assertThat(peer.figure().median()).as(peer.name()).isNotNegative());
  }

  private static double figure(List<Row> rows, String work) {
    return rows.stream()
        .filter(row -> row.work().equals(work))
        .findFirst()
        .orElseThrow()
        .figure()
        .median();
  }

  private static String page(String table, String before, String after) throws IOException {
    String text =
        """
        # Benchmarks

        Written by the command that [DEVELOPERS.md](../DEVELOPERS.md) names, in one run. Each peer does the same work on the same data, and every
        result is compared with ours before a time counts. Less is better; the last column is the peer's median over ours.

        %s, %s, Java %s (%s); load before and after: %s, %s (of %d processors).

        %s
        - **Frames.** Ours includes stuffing, CRC-32C and the check of every field; the peers get the bytes in between and check nothing.
        - **Rules.** No general library for temporal logic was found that runs on Java 17, so the peer is the definitions of
          [temporal-logic.md](temporal-logic.md) as the tests evaluate them.
        - **Circuits.** Both sides in processor time; ngspice's includes its start and the reading of its netlist, shared by the circuits of one process. It
          solves any circuit; ours only these.
        - **Starts.** Processor time is user and system of the whole process, the launcher's search for changed sources included.
          Where it goes: [decision 0044](decisions/0044-start-up.md).
        """;
    return text.formatted(
        LocalDate.now(),
        processor(),
        System.getProperty("java.version"),
        System.getProperty("java.vendor"),
        before,
        after,
        Runtime.getRuntime().availableProcessors(),
        table);
  }

  private static String processor() throws IOException {
    return Files.readAllLines(Path.of("/proc/cpuinfo")).stream()
        .filter(line -> line.startsWith("model name"))
        .findFirst()
        .map(line -> line.substring(line.indexOf(':') + 1).strip())
        .orElse(System.getProperty("os.arch"));
  }

  /** The mean number of programs that wanted a processor in the last minute. */
  private static String load() throws IOException {
    return Files.readString(Path.of("/proc/loadavg")).split(" ")[0];
  }
}
