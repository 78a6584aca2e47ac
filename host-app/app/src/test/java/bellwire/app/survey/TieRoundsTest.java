package bellwire.app.survey;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.analysis.findings.CableFinding;
import bellwire.analysis.survey.FarEndKind;
import bellwire.analysis.survey.Finding;
import bellwire.analysis.survey.Standing;
import bellwire.analysis.survey.SurveyResult;
import bellwire.analysis.survey.SurveyResult.ConductorResult;
import bellwire.analysis.survey.TieRun;
import bellwire.analysis.ties.TieReading.Explanation;
import bellwire.app.report.ResultJson;
import bellwire.app.report.ResultText;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** What one person with clips does at the far end: too slowly, wrongly, with cold fingers. */
class TieRoundsTest {
  private static final String HEAD =
      """
      bellwire-bench: 1
      seed: 77
      cable:
        gauge: 18 AWG
        length: 20 m
        temperature: 22 C
        conductors:
          - {port: P1, colour: red, far: 3}
          - {port: P2, colour: white, far: 1}
      """;

  private static final String FIVE =
      HEAD
          + "    - {port: P3, colour: green, far: 5}\n"
          + "    - {port: P7, colour: blue, far: 2}\n"
          + "    - {port: P8, colour: yellow, far: 4}\n";

  private static final String FIRST = "ties: [[1, 2], [3, 4]]}";
  private static final String SECOND = "ties: [[2, 3], [4, 5]]}";

  private static SurveyOutcome survey(String yaml, TieChoice choice) throws Exception {
    SurveyOptions options =
        SimulatedSurvey.options(EnumSet.noneOf(FarEndKind.class), 90).withTies(choice);
    return SimulatedSurvey.run(yaml, options).outcome;
  }

  private static SurveyResult result(String yaml) throws Exception {
    SurveyResult result = survey(yaml, new TieChoice(0, false)).result();
    assertThat(result).isNotNull();
    return result;
  }

  private static String farEnd(String... entries) {
    return "far-end: [{from: 0 s, plug: open}, {from: " + String.join(", {from: ", entries) + "]\n";
  }

  private static TieRun ties(SurveyResult result) {
    TieRun ties = result.ties();
    assertThat(ties).isNotNull();
    return ties;
  }

  private static List<Integer> numbers(SurveyResult result) {
    return result.conductors().stream().map(ConductorResult::position).toList();
  }

  private static void assertAllFound(SurveyResult result) {
    assertThat(numbers(result)).containsExactly(3, 1, 5, 2, 4);
    assertThat(result.allSound()).as(result.toString()).isTrue();
  }

  @Test
  void fingersAndClipsOneByOneAreWaitedFor() throws Exception {
    assertAllFound(
        result(
            FIVE
                + farEnd(
                    "20 s, plug: open, fingers: {positions: [1, 2], ohm: 200 kohm}}",
                    "24 s, plug: open, ties: [[1, 2]]}",
                    "36 s, plug: open, " + FIRST,
                    "55 s, plug: open, ties: [[3, 4]]}",
                    "58 s, plug: open}",
                    "65 s, plug: open, fingers: {positions: [4, 5], ohm: 300 kohm}, ties: [[2, 3]]}",
                    "75 s, plug: open, " + SECOND)));
  }

  @Test
  void threeInOneClipAreSaidAndMadeAgain() throws Exception {
    assertAllFound(
        result(
            FIVE
                + farEnd(
                    "20 s, plug: open, ties: [[1, 2, 3], [4, 5]]}",
                    "60 s, plug: open, " + FIRST,
                    "80 s, plug: open}",
                    "90 s, plug: open, " + SECOND)));
  }

  @Test
  void roundsThatFitNoPlanAreAskedForAgain() throws Exception {
    assertAllFound(
        result(
            FIVE
                + farEnd(
                    "20 s, plug: open, " + FIRST,
                    "35 s, plug: open}",
                    "40 s, plug: open, ties: [[1, 2], [4, 5]]}",
                    "60 s, plug: open}",
                    "65 s, plug: open, " + FIRST,
                    "80 s, plug: open}",
                    "90 s, plug: open, " + SECOND)));
  }

  @Test
  void wrongRoundsIdentifyNobody() throws Exception {
    SurveyResult result =
        result(
            FIVE
                + farEnd(
                    "20 s, plug: open, " + FIRST,
                    "35 s, plug: open}",
                    "40 s, plug: open, ties: [[1, 2], [4, 5]]}"));
    assertThat(ties(result).reading().explanation()).isEqualTo(Explanation.UNEXPLAINED);
    assertThat(numbers(result)).containsOnly(0);
    assertThat(result.conductors()).allMatch(c -> c.standing() == Standing.UNDECIDED);
    assertThat(result.findings()).extracting(Finding::kind).contains(CableFinding.MISTIED);
  }

  @Test
  void aClipThatFallsOffDuringTheMeasurementIsMeasuredAgain() throws Exception {
    for (String moment : List.of("22.5", "23", "23.5", "24")) {
      assertAllFound(
          result(
              FIVE
                  + farEnd(
                      "20 s, plug: open, " + FIRST,
                      moment + " s, plug: open, ties: [[1, 2]]}",
                      "30 s, plug: open, " + FIRST,
                      "50 s, plug: open}",
                      "60 s, plug: open, " + SECOND)));
    }
  }

  /** After half a minute of one clip the round is taken as it is; the second clip still counts. */
  @Test
  void aClipThatComesLateIsTakenIn() throws Exception {
    assertAllFound(
        result(
            FIVE
                + farEnd(
                    "20 s, plug: open, ties: [[1, 2]]}",
                    "70 s, plug: open, " + FIRST,
                    "90 s, plug: open}",
                    "100 s, plug: open, " + SECOND)));
  }

  /** The two rounds have as many clips: without all off in between nothing tells them apart. */
  @Test
  void theSecondRoundCountsOnceAllClipsWereOff() throws Exception {
    assertAllFound(
        result(
            FIVE
                + farEnd(
                    "20 s, plug: open, " + FIRST,
                    "35 s, plug: open, ties: [[3, 4]]}",
                    "40 s, plug: open, ties: [[2, 1], [4, 5]]}",
                    "55 s, plug: open}",
                    "62 s, plug: open, " + SECOND)));
  }

  @Test
  void oneRoundAloneLeavesOpenWhichOfTheTwoItWas() throws Exception {
    SurveyResult result = result(FIVE + farEnd("20 s, plug: open, " + FIRST));
    assertThat(ties(result).complete()).isFalse();
    assertThat(numbers(result)).containsOnly(0);
    // P3 is number 5 and was in no tie; had it been round 2, that would be number 1.
    assertThat(ties(result).reading().possible().get(2)).containsExactly(1, 5);
    assertThat(result.conductors()).noneMatch(c -> c.standing() == Standing.SOUND);
  }

  @Test
  void nobodyAtTheFarEndLeavesEverythingOpen() throws Exception {
    SurveyResult result = result(FIVE + "far-end: [{from: 0 s, plug: open}]\n");
    assertThat(numbers(result)).containsOnly(0);
    assertThat(result.conductors()).allMatch(c -> c.standing() == Standing.UNDECIDED);
  }

  @Test
  void ofTwoConductorsTheOneThatBareMetalJoinsIsKnown() throws Exception {
    SurveyResult result =
        result(
            HEAD.replace("far: 3", "far: 2")
                + farEnd(
                    "20 s, plug: open, ties: [[1, M]]}",
                    "35 s, plug: open}",
                    "45 s, plug: open, ties: [[2, M]]}"));
    assertThat(numbers(result)).containsExactly(2, 1);
    assertThat(ties(result).plan().usesMetal()).isTrue();
  }

  @Test
  void twoConductorsWithoutTheClipAreNotIdentified() throws Exception {
    SurveyResult result =
        result(HEAD + "metal: {clipped: false}\n" + farEnd("20 s, plug: open, ties: [[1, 3]]}"));
    assertThat(numbers(result)).containsOnly(0);
    assertThat(result.findings()).extracting(Finding::kind).contains(CableFinding.TWO_CONDUCTORS);
  }

  /** A conductor without copper at the near end: its number is missed, and said. */
  @Test
  void aConductorOnNoPortIsCounted() throws Exception {
    String yaml =
        FIVE
            + "opens: [{conductor: P8, at: 0.001}]\n"
            + farEnd(
                "20 s, plug: open, " + FIRST, "70 s, plug: open}", "80 s, plug: open, " + SECOND);
    SurveyResult result = survey(yaml, new TieChoice(5, false)).result();
    assertThat(result).isNotNull();
    assertThat(ties(result).reading().broken()).containsExactly(2, 4);
    Map<Integer, Set<Integer>> allowed =
        Map.of(0, Set.of(3), 1, Set.of(1), 2, Set.of(5), 6, Set.of(2));
    allowed.forEach(
        (port, truth) ->
            assertThat(ties(result).reading().possible().get(port)).containsAll(truth));
    assertThat(result.findings()).extracting(Finding::kind).contains(CableFinding.UNTIED);
  }

  /** One walk, by the clock: each round is measured when its time is up. */
  @Test
  void roundsAreMeasuredByATimetable() throws Exception {
    SurveyOptions o = SimulatedSurvey.options(EnumSet.noneOf(FarEndKind.class), 90);
    SurveyOptions timed =
        new SurveyOptions(
            0,
            o.plugs(),
            o.dwellMicros(),
            o.waitMicros(),
            30_000_000,
            0,
            o.plug(),
            o.facts(),
            o.criteria(),
            new TieChoice(0, false));
    String yaml =
        FIVE
            + farEnd(
                "20 s, plug: open, " + FIRST, "50 s, plug: open}", "56 s, plug: open, " + SECOND);
    SurveyResult result = SimulatedSurvey.run(yaml, timed).outcome.result();
    assertThat(result).isNotNull();
    assertAllFound(result);
  }

  /** A joint raises both loops of its conductor; which is said, for none is in three. */
  @Test
  void aJointIsFoundByTheLoopsItIsIn() throws Exception {
    String ties =
        farEnd("20 s, plug: open, " + FIRST, "35 s, plug: open}", "45 s, plug: open, " + SECOND);
    SurveyResult inner = result(FIVE + "joints: [{conductor: P7, at: 0.5, ohm: 0.4}]\n" + ties);
    assertThat(standing(inner, 6)).isEqualTo(Standing.FAULTY);
    assertThat(standing(inner, 0)).isEqualTo(Standing.SOUND);
    SurveyResult end = result(FIVE + "joints: [{conductor: P3, at: 0.5, ohm: 0.4}]\n" + ties);
    assertThat(standing(end, 2)).isEqualTo(Standing.UNDECIDED);
    assertThat(standing(end, 7)).isEqualTo(Standing.SOUND);
    assertThat(numbers(end)).containsExactly(3, 1, 5, 2, 4);
  }

  private static Standing standing(SurveyResult result, int port) {
    return result.conductors().stream()
        .filter(c -> c.port() == port)
        .findFirst()
        .orElseThrow()
        .standing();
  }

  @Test
  void textAndJsonSayWhatWasTied() throws Exception {
    SurveyOutcome outcome =
        survey(
            FIVE
                + farEnd(
                    "20 s, plug: open, " + FIRST,
                    "35 s, plug: open}",
                    "45 s, plug: open, " + SECOND),
            new TieChoice(0, false));
    SurveyResult result = outcome.result();
    assertThat(result).isNotNull();
    assertThat(result.phases()).containsExactly("open", "ties 1", "ties 2");
    assertThat(String.join("\n", new ResultText(Map.of(), false).lines(result)))
        .contains("number 5", "round 1: P1-P8, P2-P7", "round 2: P1-P7, P3-P8", "P1 + P8  0.8");
    JsonNode json = new ObjectMapper().readTree(ResultJson.text(outcome, Map.of(), List.of()));
    assertThat(json.at("/ties/explanation").asText()).isEqualTo("as-planned");
    assertThat(json.at("/ties/plan/rounds/0").toString()).isEqualTo("[[1,2],[3,4]]");
    assertThat(json.at("/ties/rounds/1/joined").toString())
        .isEqualTo("[[\"P1\",\"P7\"],[\"P3\",\"P8\"]]");
    assertThat(json.at("/ties/rounds/0/loops/0/resistance/value").asDouble()).isBetween(0.8, 0.9);
    assertThat(json.at("/conductors/2/far-position").asInt()).isEqualTo(5);
    assertThat(json.at("/conductors/2/far-possible").toString()).isEqualTo("[5]");
  }
}
