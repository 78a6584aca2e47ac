package bellwire.app.document;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.document.page.Paper;
import bellwire.app.export.JobJson;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.MissingNode;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * A vigil's figures are the same in the report and in the JSON: each field of the JSON is in the
 * PDF's text, and no digit of the PDF's statistics is without its field.
 */
class ReportVigilTest {
  private static final long SEED = 20261126;

  private static JsonNode json = MissingNode.getInstance();
  private static String words = "";

  @BeforeAll
  static void report() throws Exception {
    System.out.println("ReportVigilTest: seed=" + SEED);
    ReportContents none = ReportJobs.none();
    ReportContents contents =
        new ReportContents(
            none.job(),
            none.madeAt(),
            none.zone(),
            "0.7-test",
            none.facts(),
            none.acts(),
            none.cables(),
            none.landings(),
            none.rehearsals(),
            new MadeVigils(SEED).all(),
            none.ticks(),
            none.photos(),
            none.digest(),
            none.troubles());
    json = JobJson.of(contents).path("vigils");
    words = PdfWords.of(ReportFiles.pdf(contents, Paper.A4));
  }

  @Test
  void everyFieldOfEachVigilIsInTheReport() {
    assertThat(json).hasSize(4);
    for (JsonNode vigil : json) {
      VigilFiguresInReport figures = new VigilFiguresInReport(vigil);
      List<String> wanted = figures.wanted();
      assertThat(wanted).hasSizeGreaterThan(15);
      assertThat(wanted.stream().filter(w -> !words.contains(w)))
          .as(vigil.path("program").asText())
          .isEmpty();
      assertThat(figures.unruled()).as(vigil.path("program").asText()).isEmpty();
    }
  }

  @Test
  void noDigitOfTheStatisticsIsWithoutItsField() {
    int from = words.lastIndexOf("Vigil Of ");
    int to = words.lastIndexOf("Instrument and software");
    assertThat(from).isPositive();
    String left = words.substring(from, to);
    List<String> known = new ArrayList<>();
    json.forEach(vigil -> known.addAll(new VigilFiguresInReport(vigil).wanted()));
    known.sort((a, b) -> b.length() - a.length());
    for (String each : known) {
      left = left.replace(each, " ");
    }
    // What is left are heads, and the drawings' names, axes and notes.
    String digits =
        left.replaceAll("shook it, number \\d+|and \\d+ more notes", "")
            .replaceAll("\\(95 %\\)|under 1 ms|within 2 s", "")
            .replaceAll("\\b\\d\\d:\\d\\d(:\\d\\d)?\\b|\\b[PX]\\d+\\b", "");
    assertThat(digits)
        .doesNotContainPattern("\\d+ ?(times|of \\d|ms|us|s\\b|min|h\\b|an hour|a day|%)");
  }
}
