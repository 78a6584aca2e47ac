package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.Act;
import bellwire.app.job.CableRow;
import bellwire.app.job.ConductorRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobRecords;
import bellwire.app.job.Photo;
import bellwire.app.job.Stage;
import bellwire.app.job.Stream;
import bellwire.app.job.Tick;
import bellwire.app.job.VigilEvent;
import bellwire.app.job.VigilStore;
import bellwire.app.job.Watched;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** {@code bellwire job} on a job that has something of everything. */
class JobCommandTest {
  private static final String BENCHES = "../../test-fixtures/simbench/src/main/resources/benches/";
  private static final byte[] PNG = {(byte) 0x89, 'P', 'N', 'G', 13, 10, 26, 10, 1, 2, 3};

  @TempDir Path directory;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();
  private final CommandLine line =
      BellwireMain.commandLine().setOut(new PrintWriter(out)).setErr(new PrintWriter(err));
  private String job = "";
  private Path into = Path.of("");

  @BeforeEach
  void name() {
    job = directory.resolve("job.bellwire").toString();
    into = directory.resolve("out");
  }

  private int run(String... words) {
    out.getBuffer().setLength(0);
    err.getBuffer().setLength(0);
    return line.execute(words);
  }

  private void begin() {
    assertThat(run("job", "new", job, "--customer", "Ada \"the\" Byron, Ltd", "--place", "客厅"))
        .as(err.toString())
        .isZero();
  }

  private void fill() throws Exception {
    begin();
    assertThat(
            run(
                "survey",
                "--bench",
                BENCHES + "demo.yaml",
                "--ports",
                "P1=red,P2-P8",
                "--job",
                job))
        .as(err.toString())
        .isEqualTo(1);
    try (JobFile file = JobFile.open(Path.of(job))) {
      JobRecords records = file.records();
      records.add(new Act(0, Act.Kind.PROVED_DEAD, "R to C", "0.0 V", "Ada", 1, false));
      records.put(new Tick("level", Tick.State.DONE, Tick.Basis.MEASURED, "Ada", 1, "0.3°"));
      records.add(new Photo(0, Stage.AS_FOUND, "old, wall", 1, "", 0), PNG);
      vigil(file);
    }
  }

  private static void vigil(JobFile file) throws Exception {
    Watched asked =
        new Watched(5, "continuity", 0x7, 0, false, 0, 180_000_000, "A", "", 20, 0, 60, Map.of());
    VigilStore store = file.startVigil(asked, 1_750_000_000_000_000L, 7_000_000, () -> 0);
    Stream ports = store.addWords("ports", 1000);
    store.appendTicks(ports, 7_000_000, 90_000, 0, 0);
    store.appendTicks(ports, 97_000_000, 10, 2, 2);
    store.appendTicks(ports, 97_010_000, 90_000, 0, 0);
    store.event(
        new VigilEvent(
            1, 0, 96_999_000, 97_000_000, 97_009_000, 97_010_000, 1, false, false, false));
    store.ended(187_010_000, "its time was over");
    store.close();
  }

  private int export(String formats) {
    return run("job", "export", job, "--to", into.toString(), "--format", formats);
  }

  @Test
  void aNewJobIsBegunOnceAndShown() throws Exception {
    begin();
    assertThat(run("job", "new", job)).isEqualTo(2);
    assertThat(err.toString()).contains("is there already");
    assertThat(run("job", "show", job)).isZero();
    assertThat(out.toString())
        .contains("customer: Ada \"the\" Byron, Ltd", "place: 客厅", "none recorded", "nothing yet")
        .contains("Wall-plate level: open")
        .containsPattern("SHA-256 [0-9a-f]{64}");
    assertThat(run("job", "new", directory + "/x.bellwire", "--mains", "55")).isEqualTo(2);
    assertThat(run("job", "new", directory + "/y", "--reason", "x".repeat(10_001))).isEqualTo(2);
    assertThat(err.toString()).contains("shorten it");
    assertThat(directory.resolve("y")).doesNotExist();
    assertThat(run("job", "show", directory + "/none")).isEqualTo(2);
    assertThat(err.toString()).contains("no such file").contains("job new");
    try (JobFile open = JobFile.open(Path.of(job))) {
      assertThat(run("job", "show", job)).as(open.path() + " is read beside its writer").isZero();
      assertThat(run("survey", "--bench", BENCHES + "healthy-5.yaml", "--job", job)).isEqualTo(2);
      assertThat(err.toString()).contains("close that one");
    }
  }

  @Test
  void everythingIsInTheJsonAndInTheTables() throws Exception {
    fill();
    assertThat(run("job", "show", job)).isZero();
    String shown = out.toString();
    assertThat(shown).contains("proved dead: R to C, meter: 0.0 V, by Ada");
    assertThat(shown).contains("vigil 1, continuity: its time was over");
    assertThat(shown).contains("level: done, measured, by Ada");

    assertThat(export("json,csv")).as(err.toString()).isZero();
    JsonNode json = new ObjectMapper().readTree(into.resolve("job.json").toFile());
    assertThat(json.path("bellwire-job").asInt()).isEqualTo(1);
    assertThat(shown).contains(json.path("sha-256").asText());
    assertThat(json.path("facts").path("place").asText()).isEqualTo("客厅");
    assertThat(json.path("acts").get(0).path("at").asText())
        .isEqualTo("1970-01-01T00:00:00.000001Z");
    JsonNode survey = json.path("surveys").get(0);
    assertThat(survey.path("result").path("bellwire-survey").asInt()).isEqualTo(1);
    assertThat(json.path("vigils").get(0).path("bellwire-vigil").asInt()).isEqualTo(1);
    assertThat(json.path("checklist")).hasSize(14);
    assertThat(Files.readAllBytes(into.resolve("photograph-1.png"))).isEqualTo(PNG);

    assertThat(rows("facts")).contains("customer,\"Ada \"\"the\"\" Byron, Ltd\"", "place,客厅");
    assertThat(rows("conductors")).hasSameSizeAs(survey.path("result").path("conductors"));
    assertThat(rows("pairs")).hasSameSizeAs(survey.path("result").path("pairs"));
    assertThat(rows("findings"))
        .hasSize(
            survey.path("result").path("findings").size()
                + json.path("vigils").get(0).path("findings").size())
        .anyMatch(row -> row.startsWith("survey,1,as-found,false,open,,P7,"))
        .anyMatch(row -> row.startsWith("vigil,1,,,opening,,P2,"));
    JsonNode first = survey.path("result").path("conductors").get(0);
    assertThat(rows("conductors").get(0))
        .startsWith("1,1,")
        .contains(",P1,red,,")
        .contains(
            first.path("resistance").path("value").asText()
                + ","
                + first.path("resistance").path("standard-uncertainty").asText());
    assertThat(rows("checklist")).hasSize(14);
    assertThat(rows("vigil-figures")).isNotEmpty();
    assertThat(rows("acts"))
        .containsExactly("proved-dead,R to C,0.0 V,Ada,1970-01-01T00:00:00.000001Z,false");
    assertThat(rows("photographs")).hasSize(1);
  }

  @Test
  void labelsAreWrittenOneByOneAndReadableByWhomTheUmaskSays() throws Exception {
    begin();
    try (JobFile file = JobFile.open(Path.of(job))) {
      JobRecords records = file.records();
      long cable = records.put(new CableRow(0, "18-5", "", 7.62, 20, "", "", ""));
      records.put(new ConductorRow(cable, 2, "green", "", "\ud55c\uad6d"));
      records.fact(Fact.UNITS, "feet");
    }
    assertThat(run("job", "show", job)).isZero();
    assertThat(out.toString()).contains("CABLE 18-5, 25 ft");
    int exit =
        run(
            "job",
            "export",
            job,
            "--to",
            into.toString(),
            "--format",
            "labels",
            "--label",
            "P1-P3");
    assertThat(exit).as(err.toString()).isZero();
    assertThat(names()).containsExactlyInAnyOrder("labels.pdf", "panel-card.pdf", "label-P3.pdf");
    assertThat(out.toString()).contains("On paper these are boxes", "\ud55c (U+D55C)");
    Path other = Files.createFile(directory.resolve("other"));
    assertThat(Files.getPosixFilePermissions(into.resolve("label-P3.pdf")))
        .isEqualTo(Files.getPosixFilePermissions(other));
    assertThat(run("job", "export", job, "--to", into.toString(), "--label", "P17")).isEqualTo(2);
    assertThat(err.toString()).contains("--label P17: name ports");
  }

  @Test
  void theDocumentNamesEveryFieldAndEveryTablesColumnsInOrder() throws Exception {
    fill();
    assertThat(export("json,csv")).isZero();
    String document = Files.readString(Path.of("../../docs/job-json.md"));
    JsonNode json = new ObjectMapper().readTree(into.resolve("job.json").toFile());
    json.fieldNames().forEachRemaining(f -> assertThat(document).contains("`" + f + "`"));
    for (String name : names()) {
      if (name.endsWith(".csv")) {
        String columns =
            Files.readAllLines(into.resolve(name)).get(0).replaceAll("([a-z0-9_]+)", "`$1`");
        assertThat(document.replaceAll(" \\([^)]*\\)", ""))
            .containsPattern(
                "\\| `" + name + "` \\| [^|]*\\| " + columns.replace(",", ", ") + " \\|");
      }
    }
  }

  private List<String> rows(String table) throws Exception {
    return Files.readAllLines(into.resolve(table + ".csv")).stream().skip(1).toList();
  }

  @Test
  void allFilesAreWrittenOrNone() throws Exception {
    begin();
    Files.createDirectory(into);
    Files.writeString(into.resolve("pairs.csv"), "somebody else's");
    assertThat(export("csv,json")).isEqualTo(2);
    assertThat(err.toString()).contains("pairs.csv: is there already");
    assertThat(names()).containsExactly("pairs.csv");
    assertThat(Files.readString(into.resolve("pairs.csv"))).isEqualTo("somebody else's");

    into = directory.resolve("made");
    job = directory.resolve("none").toString();
    assertThat(export("json")).isEqualTo(2);
    assertThat(into).doesNotExist();
    assertThat(run("job", "export", job, "--to", into.toString(), "--format", "docx")).isEqualTo(2);
  }

  private List<String> names() throws Exception {
    try (java.util.stream.Stream<Path> files = Files.list(into)) {
      return files.map(f -> f.getFileName().toString()).toList();
    }
  }
}
