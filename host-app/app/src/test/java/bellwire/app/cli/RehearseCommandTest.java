package bellwire.app.cli;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.rehearsal.RehearsalFile;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** {@code bellwire rehearse} as it is typed: what it prints, what it refuses, how it ends. */
final class RehearseCommandTest {
  @TempDir Path directory;
  private final StringWriter out = new StringWriter();
  private final StringWriter err = new StringWriter();

  private int rehearse(String... arguments) {
    List<String> all = new ArrayList<>(List.of(arguments));
    all.add(0, "rehearse");
    out.getBuffer().setLength(0);
    err.getBuffer().setLength(0);
    return BellwireMain.commandLine()
        .setOut(new PrintWriter(out))
        .setErr(new PrintWriter(err))
        .execute(all.toArray(String[]::new));
  }

  private String file(String name, String text) throws IOException {
    return Files.writeString(directory.resolve(name), text).toString();
  }

  private String bench(String control) throws IOException {
    return file("bench.yaml", "bellwire-bench: 1\nseed: 11\ncontrol: {" + control + "}\n");
  }

  private String at(String name) {
    return directory.resolve(name).toString();
  }

  private JsonNode json(String name) throws IOException {
    return new ObjectMapper().readTree(directory.resolve(name).toFile());
  }

  private void refused(String... words) {
    assertThat(out.toString()).isEmpty();
    assertThat(err.toString()).contains(words);
  }

  @Test
  void listNamesEveryBuiltInRehearsalWithItsTitle() {
    assertThat(rehearse("--list")).isZero();
    assertThat(out.toString().lines()).hasSameSizeAs(RehearsalFile.BUILT_IN);
    assertThat(out.toString()).contains("boiler-dry        Boiler with a dry contact");
  }

  @Test
  void showPrintsAFileThatCanBeRehearsedWith() throws IOException {
    assertThat(rehearse("dual-fuel", "--show")).isZero();
    String shown = out.toString();
    String mine = file("mine.yaml", shown);
    assertThat(rehearse(mine, "--show")).isZero();
    assertThat(out.toString()).isEqualTo(shown);
    assertThat(rehearse("dual-fuel", "--rules")).isZero();
    String rules = out.toString();
    assertThat(rehearse(mine, "--rules")).isZero();
    assertThat(out.toString()).isEqualTo(rules);
  }

  @Test
  void rulesArePrintedWithTheirFormulasAndTheTimesThatWereSet() {
    assertThat(rehearse("heat-pump-o", "--rules", "--set", "restart=7 min")).isZero();
    assertThat(out.toString())
        .contains("comes-Y1-in-heat: Y1 (compressor) is called within 7 min.")
        .contains("G(\"step heat\" -> F[0,420 s](Y1 | !\"step heat\"))")
        .contains("auxiliary-not-in-cooling: No heat is called in cooling.")
        .contains("G(\"mode cool\" -> !W1)");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          ''                                     | say which rehearsal
          nonesuch                               | no such rehearsal: nonesuch
          ./nonesuch.yaml                        | is the name right
          heat-only                              | say where the control is: --port DEV
          heat-only --set call=3                 | unit missing in call: call=3
          heat-only --set call                   | option '--set'
          heat-only --set coil=3s                | no such time: coil; use one of call, drop-out
          heat-only --replay none                | cannot be read as a record
          heat-only --option x                   | this rehearsal has no options
          heat-pump-o --option x                 | no such option: x; use one of rest-in-outdoor-unit
          heat-only --outdoor 5C                 | --outdoor goes with --live
          heat-only --replay r --live --outdoor 99C | --outdoor takes -60 C to 60 C
          heat-only --replay r --record s        | --record goes with --port or --bench
          heat-only --replay r --json /no/such/x | no such directory
          heat-only --bench b --replay r         | mutually exclusive
          heat-only --bench none.yaml            | is the name right
          """)
  void wrongUsageIsToldBeforeAnythingIsTouched(String arguments, String words) {
    assertThat(rehearse(arguments.isBlank() ? new String[0] : arguments.split(" "))).isEqualTo(2);
    refused(words);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          asks: {W1: call} | asks: {W9: call}                      | unknown terminal: W9; use one of W1, Y1, G
          findings:        | 'rules: [{name: a, says: x., lasts: W1, at-least: 3 s, at-most: 2 s}]\nfindings:' | the wrong way round
          findings:        | 'rules: [{name: a, says: x., lasts: W1, at-least: 9 min}, {name: b, says: y., lasts: W1, at-most: 5 min}]\nfindings:' | no control can keep this
          findings:        | 'rules: [{name: releases-W1, says: x., never: G}]\nfindings:' | a rule that follows from the steps has this name
          W1: {role: heat} | W1: {role: heat, rest: closed}        | its rest is its call
          steps:           | 'steps: ['                            | not YAML
          """)
  void anErrorInAFileIsToldWithLineAndRemedyBeforeTheControlIsTouched(
      String what, String instead, String words) throws IOException {
    String text = RehearsalFile.text("heat-only");
    assertThat(text).contains(what);
    String bad = file("bad.yaml", text.replace(what, instead.replace("\\n", "\n")));
    assertThat(rehearse(bad, "--bench", bench("kind: heat-only"))).isEqualTo(2);
    refused("bellwire: " + bad + ":", words, "; ");
    assertThat(err.toString()).containsPattern("bad\\.yaml:\\d+: ");
  }

  @Test
  void aBenchWithoutAControlIsRefused() throws IOException {
    String bench =
        file(
            "bench.yaml",
            "bellwire-bench: 1\nseed: 1\ncable: {gauge: 18 AWG, length: 9 m, conductors:"
                + " [{port: P1, colour: red, far: 1}]}\n");
    assertThat(rehearse("heat-only", "--bench", bench)).isEqualTo(2);
    refused("no control on this bench");
  }

  @Test
  void aHealthyControlIsSoundAndItsRecordGivesTheSameOutcome() throws IOException {
    String record = at("job.jsonl.gz");
    String bench = bench("kind: boiler-dry");
    assertThat(rehearse("boiler-dry", "--bench", bench, "--record", record, "--json", at("a.json")))
        .isZero();
    assertThat(out.toString())
        .contains("Low voltage only", "NOT FOR THIS BOARD", "step 1 of 7: begin")
        .contains("The control kept every rule, every function was seen")
        .doesNotContain("FINDINGS", "NOT COVERED", "not exercised");
    JsonNode outcome = json("a.json");
    assertThat(outcome.path("bellwire-rehearsal-outcome").asInt()).isEqualTo(1);
    assertThat(outcome.path("good").asBoolean()).isTrue();
    assertThat(outcome.path("cautions")).isNotEmpty();
    assertThat(outcome.path("steps")).hasSize(7);

    assertThat(rehearse("boiler-dry", "--replay", record, "--json", at("b.json"))).isZero();
    assertThat(json("b.json")).isEqualTo(outcome);
    // Judged anew with a time that this control cannot keep.
    assertThat(rehearse("boiler-dry", "--replay", record, "--set", "call=100 ms")).isEqualTo(1);
    assertThat(out.toString()).contains("broken: W1 (heat) is called within 100 ms. At ");
    assertThat(rehearse("heat-only", "--replay", record)).isEqualTo(2);
    refused("made with other terminals", "replay it with the rehearsal boiler-dry");
    // Cut off as by a dead battery: what came before counts, and is said to be all.
    byte[] whole = Files.readAllBytes(directory.resolve("job.jsonl.gz"));
    Files.write(directory.resolve("cut.jsonl.gz"), Arrays.copyOf(whole, whole.length / 2));
    assertThat(rehearse("boiler-dry", "--replay", at("cut.jsonl.gz"))).isEqualTo(1);
    assertThat(out.toString()).contains("The rehearsal ended early: the record ends here");
  }

  @Test
  void aDefectIsNamedWithItsRemedyAndTheTraceAroundIt() throws IOException {
    String bench = bench("kind: heat-only, defects: [{defect: wrong-equipment}]");
    assertThat(rehearse("heat-only", "--bench", bench, "--json", at("a.json"))).isEqualTo(1);
    assertThat(out.toString())
        .contains("wrong-equipment: A call for heat closes Y1 instead of W1.")
        .contains("remedy: Set the control's equipment to heat only.")
        .contains("broken: Y1 (compressor) does not come when nothing asks for it. At ")
        .contains("heating: gone through, its goal not reached")
        .containsPattern("Y1 +_+#+")
        .doesNotContain("1440 min");
    JsonNode outcome = json("a.json");
    assertThat(outcome.path("good").asBoolean()).isFalse();
    assertThat(outcome.path("findings").path(0).path("finding").asText())
        .isEqualTo("wrong-equipment");
  }

  @Test
  void aRecordThatIsNotWholeIsSaidAfterTheOutcome() throws IOException {
    Path full = Path.of("/dev/full");
    Assumptions.assumeTrue(Files.exists(full), "needs /dev/full");
    assertThat(rehearse("heat-only", "--bench", bench("kind: heat-only"), "--record", "/dev/full"))
        .isEqualTo(2);
    assertThat(out.toString()).contains("The control kept every rule");
    assertThat(err.toString()).contains("the record is not whole, the outcome above is");
  }

  @Test
  void anOutputThatRestsOnIsToldSo() throws IOException {
    String mine =
        file(
            "mine.yaml",
            RehearsalFile.text("heat-only")
                .replace("  G: {role: fan}", "  DH: {role: dehumidify, active: open}"));
    String bench = bench("kind: heat-only, leads: {X1: W1, X2: Y1}");
    assertThat(rehearse(mine, "--bench", bench)).isEqualTo(1);
    assertThat(out.toString())
        .contains("expected: W1, Y1, DH (on) at rest")
        .contains("never-at-rest: DH (dehumidifier) stays off when nothing asks for it")
        .doesNotContain("welded");
  }

  @Test
  void aDeviceThatIsNotThereIsTroubleWithTheBoard() throws IOException {
    assertThat(rehearse("heat-only", "--port", at("none"))).isEqualTo(3);
    assertThat(err.toString()).contains("no serial device");
  }
}
