package bellwire.app.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import bellwire.app.sheet.SurveySheet.Conductor;
import bellwire.app.sheet.SurveySheet.Finding;
import bellwire.app.sheet.SurveySheet.Standing;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * {@code demo.json} is what {@code survey --bench demo.yaml --ports P1=red,... --gauge "18 AWG"
 * --json} wrote of the demo's bench, whose file says what is wrong with its cable.
 */
class SurveySheetTest {
  private static String json;
  private static SurveySheet sheet;

  @BeforeAll
  static void read() throws IOException {
    try (var in = SurveySheetTest.class.getResourceAsStream("demo.json")) {
      json = new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
    sheet = SurveySheet.of(json);
  }

  /** Against the bench file: white has 0.4 ohm too much, orange is cut at 62 % of 24.5 m. */
  @Test
  void conductorsAreThoseOfTheBench() {
    assertThat(sheet.conductors()).hasSize(8);
    assertThat(sheet.name("P2")).isEqualTo("P2 white");
    assertThat(sheet.name("M")).isEqualTo("M");
    Conductor red = sheet.conductor("P1");
    assertThat(red.position()).isEqualTo(4);
    assertThat(red.standing()).isEqualTo(Standing.SOUND);
    Conductor orange = sheet.conductor("P7");
    assertThat(orange.ohms()).isNull();
    assertThat(orange.openAt().decided()).isTrue();
    assertThat(orange.openAt().fraction().value())
        .isCloseTo(0.62, within(3 * orange.openAt().fraction().u()));
    assertThat(orange.openAt().metres().value())
        .isCloseTo(0.62 * 24.5, within(3 * orange.openAt().metres().u()));
    assertThat(sheet.length().value()).isCloseTo(24.5, within(3 * sheet.length().u()));
  }

  @Test
  void pairsAndFindings() {
    assertThat(sheet.pairs()).hasSize(9 * 8 / 2);
    assertThat(sheet.pair("P6", "P3").ohms().value()).isCloseTo(300e3, within(3e3));
    assertThat(sheet.pair("P1", "P2").ohms()).isNull();
    assertThat(sheet.pair("P1", "P2").aboveOhms()).isGreaterThan(1e8);
    assertThat(sheet.pair("P1", "P1")).isNull();
    assertThat(sheet.findings("P2").stream().map(Finding::kind)).containsExactly("joint");
    assertThat(sheet.findings("P8").get(0).at().fraction().value()).isCloseTo(0.01, within(0.02));
    assertThat(sheet.explanations().get(0).faults()).hasSize(4);
    assertThat(sheet.ports()).endsWith("P8", "M");
    assertThat(sheet.cautions()).isNotEmpty();
    assertThat(sheet.stopped()).isFalse();
    assertThat(sheet.ties()).isNull();
  }

  @Test
  void whatALaterProgramAddsIsPassedOver() throws IOException {
    String more = json.replaceFirst("\\{", "{\"added\": [1, {\"a\": null}], ");
    assertThat(SurveySheet.of(more)).isEqualTo(sheet);
  }

  @Test
  void aLaterVersionIsRefused() {
    String later = json.replaceFirst("\"bellwire-survey\" : 1", "\"bellwire-survey\" : 2");
    assertThatThrownBy(() -> SurveySheet.of(later))
        .isInstanceOf(IOException.class)
        .hasMessageContaining("version 2")
        .hasMessageContaining("open it with the program that wrote it");
  }

  @Test
  void whatIsDamagedIsRefusedInASentence() {
    for (String bad :
        new String[] {
          "",
          "null",
          "[]",
          "{",
          "{\"bellwire-survey\": \"x\"}",
          json.replaceFirst("\"P1\"", "\"P17\""),
          json.replaceFirst("\"standing\" : \"sound\"", "\"standing\" : \"fine\""),
          json.replaceFirst(
              "\"standard-uncertainty\" : [0-9.E-]+", "\"standard-uncertainty\" : -1"),
          json.replaceFirst("\"port\" : \"P2\"", "\"port\" : \"P1\"")
        }) {
      assertThatThrownBy(() -> SurveySheet.of(bad))
          .as(bad.substring(0, Math.min(40, bad.length())))
          .isInstanceOf(IOException.class)
          .hasMessageMatching("(?s).*[a-z]\\.");
    }
  }

  @Test
  void aSurveyThatVoltageEndedHasNoResult() throws IOException {
    SurveySheet stopped =
        SurveySheet.of(
            """
            {"bellwire-survey": 1, "cautions": ["c"], "board": {"revision": "A", "agent": "1"},
             "interlock": {"stopped-the-survey": true, "tripped": ["P3"], "voltage": {"between":
             ["P3"], "volts-rms": 26.1, "volts-rms-under-test-load": 25.9, "alternating": true,
             "driven": true, "joined-to-one-of-them": []}}, "times": []}
            """);
    assertThat(stopped.stopped()).isTrue();
    assertThat(stopped.conductors()).isEmpty();
    assertThat(stopped.tripped()).containsExactly("P3");
    assertThat(stopped.voltage().volts()).isEqualTo(26.1);
  }
}
