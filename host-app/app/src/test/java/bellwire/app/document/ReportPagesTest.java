package bellwire.app.document;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.document.page.Paper;
import bellwire.app.document.page.Sheet;
import bellwire.app.document.type.Faces;
import bellwire.app.document.type.Typesetter;
import bellwire.app.job.Stage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Pages with few and many conductors, long names, other scripts: nothing overlaps, nothing is cut.
 */
class ReportPagesTest {
  private static final String SIXTY =
      "white/blue with an orange stripe and a label that says hall1";
  private static final String HEBREW =
      "\u05d0\u05d3\u05d5\u05dd \u05e2\u05dd \u05e4\u05e1 \u05dc\u05d1\u05df (\u05db\u05d1\u05dc"
          + " 12) \u05d5\u05e2\u05d5\u05d3 \u05d8\u05e7\u05e1\u05d8 \u05d0\u05e8\u05d5\u05da"
          + " \u05de\u05d0\u05d5\u05d3 \u05db\u05d0\u05df";
  private static final String JAPANESE =
      "\u8d64\u5730\u306b\u767d\u306e\u7e1e\u3001\u7d76\u7e01\u4f53\u306e\u6587\u5b57\u306f\u516d"
          + "\u5341\u6587\u5b57\u307e\u3067\u7d9a\u304f\u9577\u3044\u540d\u524d\u306e\u5c0e\u4f53";
  private static final String ARABIC =
      "\u0623\u062d\u0645\u0631 \u0645\u0639 \u062e\u0637 \u0623\u0628\u064a\u0636"
          + " \u0637\u0648\u064a\u0644";

  @TempDir Path directory;

  @ParameterizedTest
  @CsvSource({"2", "16"})
  void nothingOverlapsAndNothingIsCut(int conductors) throws Exception {
    List<String> pool = List.of(SIXTY, HEBREW, JAPANESE, ARABIC, "A" + "b".repeat(58) + "c", "red");
    List<String> names = new ArrayList<>();
    for (int i = 0; i < conductors; i++) {
      names.add(pool.get(i % pool.size()));
    }
    String faults =
        conductors < 4
            ? ""
            : "bridges: [{between: [P2, P3], at: 0.4, ohm: 0.3}]\n"
                + "opens: [{conductor: P5, at: 0.62}]\n";
    assertThat(SIXTY).hasSize(60);
    Path job = ReportJobs.named(directory, HEBREW, names, faults, Stage.AS_FOUND);
    ReportContents contents = ReportJobs.contents(job);
    for (Paper paper : Paper.values()) {
      PagesCheck.check(ReportFiles.sheets(contents, paper), 24);
    }
    try (Faces faces = new Faces()) {
      Typesetter type = new Typesetter(faces);
      PagesCheck.check(new Labels(contents).sheets(Paper.LETTER).set(type), 24);
      PagesCheck.check(new PanelCard(contents).sheets(Paper.A4).set(type), 24);
      List<Sheet> single = new Labels(contents).single(1, 0).set(type);
      assertThat(single).hasSize(2);
      PagesCheck.check(single, 0);
    }
    byte[] pdf = ReportFiles.pdf(contents, Paper.A4);
    assertThat(ReportFiles.pdf(contents, Paper.A4)).as("same contents, same bytes").isEqualTo(pdf);
    String words = PdfWords.of(pdf).replace(" ", "");
    for (String name : names) {
      assertThat(words).contains(PdfWords.even(name).replace(" ", ""));
    }
    Path html = directory.resolve("report.html");
    ReportFiles.html(html, contents);
    assertThat(Files.readString(html))
        .contains(names)
        .contains(HEBREW, "viewport", "prefers-color-scheme")
        .doesNotContain("<script", "src=\"http", "href=\"http");
  }
}
