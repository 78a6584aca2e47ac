package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.job.JobReader;
import bellwire.app.landing.Described;
import bellwire.app.landing.LandingDraft;
import bellwire.app.sheet.SurveySheet;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** {@code bellwire landing} as a person runs it. */
class LandingCommandTest {
  @TempDir Path directory = Path.of("");

  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int run(String... args) {
    return BellwireMain.commandLine()
        .setOut(new PrintWriter(out))
        .setErr(new PrintWriter(err))
        .execute(args);
  }

  static Stream<String> healthy() {
    return Described.EXAMPLES.stream().limit(Described.EXAMPLES.size() - 1L);
  }

  @ParameterizedTest
  @MethodSource("healthy")
  void everyHealthyExampleIsFreeOfFindings(String example) {
    int exit = run("landing", "check", example);
    assertThat(out.toString())
        .contains("FINDINGS   none", "RESULT  every call does what it should");
    assertThat(exit).isZero();
  }

  @Test
  void theCautionsComeFirst() {
    run("landing", "check", "example-boiler");
    assertThat(out.toString())
        .containsSubsequence(
            "Leave the power off",
            "Low voltage only",
            "prove the",
            "local codes",
            "WHAT EACH CALL");
  }

  @Test
  void aForgottenJumperAndExchangedConductorsAreFoundAndToldInJson() throws Exception {
    Path json = directory.resolve("check.json");
    int exit = run("landing", "check", "example-before-power", "--json", json.toString());
    assertThat(exit).isEqualTo(ExitCode.FAULT_FOUND.status());
    assertThat(out.toString()).contains("jumper RC-RH", "not ready for power");
    JsonNode root = new ObjectMapper().readTree(Files.readString(json));
    assertThat(root.path("bellwire-landing-check").asInt()).isEqualTo(1);
    assertThat(root.path("free-of-findings").asBoolean(true)).isFalse();
    assertThat(root.path("findings").findValuesAsText("kind"))
        .contains("supplies-meet", "wrong-load");
  }

  @Test
  void whatIsStartedCanBePlannedWrittenAndChecked() throws Exception {
    assertThat(
            run(
                "landing",
                "start",
                "--equipment",
                "furnace-cooling",
                "--control",
                "one-stage",
                "--conductors",
                "red,white,yellow,green,blue"))
        .isZero();
    String started =
        out.toString()
            .replace("red: [free, free]", "red: [R, R4]")
            .replace("white: [free, free]", "white: [W, W]")
            .replace("yellow: [free, free]", "yellow: [Y, Y]")
            .replace("green: [free, free]", "green: [G, G]");
    Path job = Files.writeString(directory.resolve("job.yaml"), started);
    Path planned = directory.resolve("planned.yaml");
    out.getBuffer().setLength(0);
    int exit = run("landing", "plan", job.toString(), "--write", planned.toString());
    assertThat(err.toString()).isEmpty();
    assertThat(exit).as(out.toString()).isZero();
    // Blue was free and is the only one that can be the C.
    assertThat(Files.readString(planned)).contains("blue: [C, C]");
    out.getBuffer().setLength(0);
    assertThat(run("landing", "check", planned.toString())).as(out.toString()).isZero();
  }

  /** A job keeps the landing with the survey's figures in it; the survey is named from anywhere. */
  @Test
  void aLandingOnASurveyOfItsOwnFileIsKeptInAJob() throws Exception {
    Path survey = Files.createDirectory(directory.resolve("surveys")).resolve("house.json");
    try (var demo = SurveySheet.class.getResourceAsStream("demo.json")) {
      Files.write(survey, demo.readAllBytes());
    }
    assertThat(
            run(
                "landing",
                "start",
                "--equipment",
                "furnace-cooling",
                "--control",
                "one-stage",
                "--survey",
                survey.toString()))
        .as(err.toString())
        .isZero();
    String planned = out + "as-planned: {landed: {red: [R, RC], white: [W, W1]}}\n";
    Path landing = Files.writeString(directory.resolve("landing.yaml"), planned);
    Path job = directory.resolve("job.bellwire");
    out.getBuffer().setLength(0);
    int exit = run("landing", "check", landing.toString(), "--job", job.toString());
    assertThat(err.toString()).isEmpty();
    assertThat(exit).isIn(0, 1);
    assertThat(out.toString()).contains("landing 1 of " + job);
    Files.delete(survey);
    try (JobReader reader = JobReader.open(job)) {
      String kept = reader.records().landings().get(0).text();
      assertThat(kept).doesNotContain("survey:").contains("uncertainty:", "port: P1");
      assertThat(LandingDraft.read("kept", kept).text()).isEqualTo(kept);
    }
  }

  @Test
  void aStartedFileThatWasNotFilledInIsNotPlanned() throws Exception {
    run(
        "landing",
        "start",
        "--equipment",
        "boiler",
        "--control",
        "one-stage",
        "--conductors",
        "red,white");
    Path job = Files.writeString(directory.resolve("job.yaml"), out.toString());
    assertThat(run("landing", "plan", job.toString()))
        .isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(err.toString()).contains("nothing is landed under 'as-found'; write down");
  }

  @Test
  void withoutASpareItSaysThatItCannotBeDone() throws Exception {
    String job =
        """
        bellwire-landing: 1
        equipment: furnace-cooling
        control: one-stage
        old-control: one-stage-battery
        cable: {gauge: 18 AWG, length: 20 m, conductors: [red, white, yellow, green]}
        as-found:
          landed: {red: [R, RH], white: [W, W1], yellow: [Y, Y1], green: [G, G]}
          jumpers: [[RC, RH]]
        """;
    Path file = Files.writeString(directory.resolve("job.yaml"), job);
    assertThat(run("landing", "plan", file.toString())).isEqualTo(ExitCode.FAULT_FOUND.status());
    assertThat(out.toString()).contains("four sound conductors, five needed");
  }

  @Test
  void aPlanWrittenWhereItsFilesAreNotIsNotSaidToBeReady() throws Exception {
    run("landing", "show", "furnace-cooling");
    Files.writeString(directory.resolve("mine.yaml"), out.toString());
    String job =
        """
        bellwire-landing: 1
        equipment: mine.yaml
        control: one-stage-battery
        cable: {length: 20 m, conductors: [red, white, yellow, green]}
        as-found: {landed: {red: [R, RH], white: [W, W1], yellow: [Y, Y1], green: [G, G]}}
        """;
    Path file = Files.writeString(directory.resolve("job.yaml"), job);
    Path beside = directory.resolve("planned.yaml");
    Path elsewhere = Files.createDirectory(directory.resolve("out")).resolve("planned.yaml");
    assertThat(run("landing", "plan", file.toString(), "--write", beside.toString())).isZero();
    assertThat(run("landing", "plan", file.toString(), "--write", elsewhere.toString()))
        .isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(err.toString()).contains("mine.yaml", "write it beside the landing file");
  }

  @Test
  void aControlOfManySettingsIsAnsweredWithARemedyAndNotAsAFaultOfTheProgram() throws Exception {
    StringBuilder settings = new StringBuilder("settings:\n");
    for (int i = 0; i < 5; i++) {
      settings.append("  s" + i + ": [a, b, c, d, e, f, g, h]\n");
    }
    Files.writeString(
        directory.resolve("mine.yaml"),
        Described.text("heat-only-battery").replace("states:", settings + "states:"));
    String job =
        """
        bellwire-landing: 1
        equipment: heat-only
        control: mine.yaml
        cable: {length: 20 m, conductors: [red, white]}
        as-found: {landed: {red: [R, R], white: [W, W1]}}
        """;
    Path file = Files.writeString(directory.resolve("job.yaml"), job);
    assertThat(run("landing", "plan", file.toString()))
        .isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(err.toString()).contains("too many ways", "leave out of its file");
  }

  @Test
  void aLongColourDoesNotRunIntoItsTerminal() throws Exception {
    String job = Described.text("example-boiler").replace("white", "white with orange stripe");
    Path file = Files.writeString(directory.resolve("job.yaml"), job);
    assertThat(run("landing", "check", file.toString())).as(err.toString()).isZero();
    assertThat(out.toString()).contains("white with orange stripe W ");
  }

  @Test
  void anUnknownSymptomIsAnsweredWithThoseLikeIt() {
    int exit = run("landing", "explain", "example-boiler", "--seen", "heat never stop");
    assertThat(exit).isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(err.toString()).contains("did you mean", "'heat never stops'");
  }

  @Test
  void whatIsNotThereIsToldWithARemedy() {
    assertThat(run("landing", "check", directory.resolve("none.yaml").toString()))
        .isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(run("landing", "check", directory.toString()))
        .isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(run("landing", "check", "example-boiler", "--as-found"))
        .isEqualTo(ExitCode.WRONG_USAGE_OR_FILE.status());
    assertThat(err.toString())
        .contains(
            "none.yaml: no such file; 'bellwire landing start'",
            "is a directory; name a file in it",
            "nothing under 'as-found'; write down");
  }
}
