package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.JobFile;
import bellwire.app.job.JobReader;
import bellwire.app.job.Stage;
import bellwire.app.job.SurveyRow;
import bellwire.app.landing.Described;
import bellwire.app.landing.LandingDraft;
import bellwire.app.visit.StoredRehearsal;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code --job}: what was done at the command line is in the job, as it was printed. */
final class FilingCommandsTest {
  private static final String BENCHES = "../../test-fixtures/simbench/src/main/resources/benches/";

  @TempDir Path directory;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int bellwire(String... arguments) {
    out.getBuffer().setLength(0);
    err.getBuffer().setLength(0);
    return BellwireMain.commandLine()
        .setOut(new PrintWriter(out))
        .setErr(new PrintWriter(err))
        .execute(arguments);
  }

  @Test
  void surveysAreFiledUnderTheirCableBeforeAndAfter() throws Exception {
    Path job = directory.resolve("house.bellwire");
    Path json = directory.resolve("survey.json");
    String[] survey = {
      "survey",
      "--bench",
      BENCHES + "healthy-5.yaml",
      "--job",
      job.toString(),
      "--cable",
      "18-5",
      "--ports",
      "P1=red,P2,P3,P4,P5",
      "--gauge",
      "18 AWG",
      "--json",
      json.toString()
    };
    assertThat(bellwire(survey)).as("%s%s", out, err).isZero();
    assertThat(out.toString()).contains("survey 1 of " + job);
    String[] after = java.util.Arrays.copyOf(survey, survey.length + 1);
    after[survey.length] = "--as-left";
    assertThat(bellwire(after)).isZero();
    try (JobReader reader = JobReader.open(job)) {
      assertThat(reader.records().cables())
          .singleElement()
          .satisfies(
              cable -> {
                assertThat(cable.name()).isEqualTo("18-5");
                assertThat(cable.gauge()).isEqualTo("18 AWG");
              });
      assertThat(reader.records().conductors(1))
          .extracting(row -> row.nearColour())
          .containsExactly("red");
      List<SurveyRow> surveys = reader.records().surveys();
      assertThat(surveys)
          .extracting(SurveyRow::stage)
          .containsExactly(Stage.AS_FOUND, Stage.AS_LEFT);
      ObjectMapper mapper = new ObjectMapper();
      assertThat(mapper.readTree(surveys.get(1).json())).isEqualTo(mapper.readTree(json.toFile()));
    }
  }

  @Test
  void aRehearsalIsFiledWithItsRecord() throws Exception {
    Path job = directory.resolve("house.bellwire");
    assertThat(
            bellwire(
                "rehearse",
                "furnace-cooling",
                "--bench",
                BENCHES + "demo-control.yaml",
                "--job",
                job.toString()))
        .as("%s%s", out, err)
        .isEqualTo(ExitCode.FAULT_FOUND.status());
    try (JobReader reader = JobReader.open(job)) {
      var row = reader.records().rehearsals().get(0);
      assertThat(row.json()).contains("no-rest");
      assertThat(StoredRehearsal.outcome(row).findings())
          .extracting(finding -> finding.name())
          .containsExactly("no-rest");
    }
  }

  @Test
  void aLandingIsFiledSoThatItNeedsNoOtherFile() throws Exception {
    Path job = directory.resolve("house.bellwire");
    assertThat(bellwire("landing", "check", "example-before-power", "--job", job.toString()))
        .as("%s%s", out, err)
        .isEqualTo(ExitCode.FAULT_FOUND.status());
    assertThat(out.toString()).contains("landing 1 of " + job);
    try (JobReader reader = JobReader.open(job)) {
      String text = reader.records().landings().get(0).text();
      assertThat(LandingDraft.read("job", text).landing().asPlanned())
          .isEqualTo(Described.example("example-before-power").asPlanned());
    }
  }

  @Test
  void aJobInUseIsRefusedBeforeAnythingIsMeasured() throws Exception {
    Path job = directory.resolve("house.bellwire");
    try (JobFile open = JobFile.open(job)) {
      assertThat(open.records().surveys()).isEmpty();
      assertThat(bellwire("survey", "--bench", BENCHES + "healthy-5.yaml", "--job", job.toString()))
          .isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    }
    assertThat(out.toString()).isEmpty();
    assertThat(err.toString()).contains("another program or window");
  }

  @Test
  void whatGoesWithAJobIsRefusedWithoutOne() {
    for (String option : List.of("--as-left", "--cable=18-5")) {
      assertThat(bellwire("survey", "--bench", BENCHES + "healthy-5.yaml", option))
          .isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
      assertThat(err.toString()).contains("goes with --job");
    }
  }
}
