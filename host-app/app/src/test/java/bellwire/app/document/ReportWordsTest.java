package bellwire.app.document;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.document.ReportContents.Landing;
import bellwire.app.document.page.Paper;
import bellwire.app.document.page.Placed;
import bellwire.app.document.page.Sheet;
import bellwire.app.job.CableRow;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobReader;
import bellwire.app.job.JobRecords;
import bellwire.app.job.LandingRow;
import bellwire.app.job.Photo;
import bellwire.app.job.RehearsalRow;
import bellwire.app.job.Stage;
import bellwire.app.job.SurveyRow;
import bellwire.app.report.LandingCheckJson;
import bellwire.app.vigil.VigilJson;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The report of the demo's house: every number and finding of its JSON is in the PDF's text. */
class ReportWordsTest {
  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir static Path directory;
  private static Path job = Path.of("");
  private static ReportContents contents = ReportJobs.none();
  private static byte[] pdf = {};
  private static String words = "";

  @BeforeAll
  static void report() throws Exception {
    job = ReportJobs.whole(directory);
    contents = ReportJobs.contents(job);
    pdf = ReportFiles.pdf(contents, Paper.A4);
    words = PdfWords.of(pdf);
  }

  private static List<String> missing(List<String> wanted) {
    return wanted.stream()
        .map(PdfWords::even)
        .filter(w -> !w.isEmpty() && !words.contains(w))
        .distinct()
        .toList();
  }

  /** GUM 7.2.6: two digits of U = 2·u, the value to the same place. Not the program's rounding. */
  private static String rounded(JsonNode quantity) {
    double value = quantity.path("value").asDouble();
    double expanded = 2 * quantity.path("standard-uncertainty").asDouble();
    String unit = quantity.path("unit").asText();
    String[] prefixes = {"", "k", "M", "G"};
    int k = 0;
    while (unit.equals("ohm") && value >= 1000 && k < 3) {
      value /= 1000;
      expanded /= 1000;
      k++;
    }
    BigDecimal u = new BigDecimal(expanded).round(new MathContext(2, RoundingMode.HALF_UP));
    int places = u.scale() + 2 - u.precision();
    return plain(value, places) + " \u00b1 " + plain(expanded, places) + " " + prefixes[k] + unit;
  }

  private static String plain(double x, int places) {
    return new BigDecimal(x)
        .setScale(places, RoundingMode.HALF_UP)
        .setScale(Math.max(0, places), RoundingMode.HALF_UP)
        .toPlainString();
  }

  @Test
  void everyFigureAndFindingOfTheSurveysIsThere() throws Exception {
    List<String> wanted = new ArrayList<>();
    int figures = 0;
    for (SurveyRow survey : surveys()) {
      JsonNode root = MAPPER.readTree(survey.json());
      for (JsonNode c : root.path("conductors")) {
        wanted.add(c.path("reason").asText());
        if (c.path("resistance").isObject()) {
          wanted.add(rounded(c.path("resistance")));
          figures++;
        }
        for (String at : List.of("open-at", "open-at-distance")) {
          if (c.path(at).isObject()) {
            wanted.add(rounded(c.path(at)));
            figures++;
          }
        }
      }
      for (JsonNode p : root.path("pairs")) {
        if (p.path("resistance").isObject()) {
          wanted.add(rounded(p.path("resistance")));
        } else {
          wanted.add(above(p.path("above-ohm").asDouble()));
        }
        figures++;
        if (!p.path("standing").asText().equals("sound")) {
          wanted.add(p.path("reason").asText());
        }
      }
      for (JsonNode f : root.path("findings")) {
        wanted.add(f.path("title").asText() + ": " + f.path("words").asText());
        wanted.add(f.path("remedy").asText());
      }
      wanted.add(root.path("board").path("agent").asText());
    }
    assertThat(figures).isGreaterThan(100);
    assertThat(missing(wanted)).isEmpty();
  }

  private static String above(double ohms) {
    String[] units = {"ohm", "kohm", "Mohm", "Gohm"};
    int k = 0;
    while (ohms >= 1000 && k < 3) {
      ohms /= 1000;
      k++;
    }
    BigDecimal down = new BigDecimal(ohms).setScale(ohms >= 100 ? 0 : 1, RoundingMode.FLOOR);
    return "above " + down.toPlainString() + " " + units[k];
  }

  private static List<SurveyRow> surveys() throws Exception {
    try (JobReader reader = JobReader.open(job)) {
      return reader.records().surveys();
    }
  }

  @Test
  void everyFigureAndFindingOfTheLandingIsThere() throws Exception {
    List<String> wanted = new ArrayList<>();
    Landing landing = contents.landings().get(0);
    assertThat(landing.trouble()).isEmpty();
    for (ReportContents.Checked checked :
        List.of(landing.found().orElseThrow(), landing.planned().orElseThrow())) {
      JsonNode root =
          MAPPER.readTree(
              LandingCheckJson.text(
                  "", false, checked.installation(), checked.states(), checked.found(), List.of()));
      for (JsonNode f : root.path("findings")) {
        wanted.add(f.path("title").asText() + ": " + f.path("words").asText());
        wanted.add(f.path("remedy").asText());
      }
      for (JsonNode state : root.path("states")) {
        wanted.add(state.path("state").asText());
        for (JsonNode load : state.path("loads")) {
          if (load.path("energised").asText().equals("on")) {
            double volts = load.path("volt").asDouble();
            String format = volts >= 100 ? "%s %.0f V" : volts >= 10 ? "%s %.1f V" : "%s %.2f V";
            wanted.add(String.format(Locale.ROOT, format, load.path("load").asText(), volts));
          }
        }
      }
    }
    assertThat(wanted).hasSizeGreaterThan(20);
    assertThat(missing(wanted)).isEmpty();
  }

  @Test
  void everyRuleAndFindingOfTheRehearsalIsThere() throws Exception {
    List<String> wanted = new ArrayList<>();
    try (JobReader reader = JobReader.open(job)) {
      JsonNode root = MAPPER.readTree(reader.records().rehearsals().get(0).json());
      assertThat(root.path("findings")).isNotEmpty();
      for (JsonNode f : root.path("findings")) {
        wanted.add(f.path("says").asText());
        wanted.add(f.path("remedy").asText());
      }
      for (JsonNode r : root.path("rules")) {
        String sign = r.path("verdict").asText().equals("kept") ? "\u2713 " : "\u2717 ";
        boolean decided = !r.path("verdict").asText().equals("undecided");
        wanted.add(
            r.path("says").asText()
                + " "
                + (decided ? sign : "? ")
                + r.path("verdict").asText()
                + " "
                + r.path("occasions").asText());
      }
      for (JsonNode f : root.path("functions")) {
        wanted.add(f.path("function").asText());
      }
      for (JsonNode s : root.path("steps")) {
        wanted.add(s.path("step").asText());
      }
      wanted.add(root.path("sampling").path("samples").asText() + " samples");
    }
    assertThat(wanted).hasSizeGreaterThan(40);
    assertThat(missing(wanted)).isEmpty();
  }

  @Test
  void whatTheVigilCountedIsThere() throws Exception {
    JsonNode root =
        MAPPER.readTree(
            VigilJson.text(
                contents.vigils().get(0).stored().orElseThrow(), contents.zone(), List.of()));
    long counted =
        contents.vigils().get(0).stored().orElseThrow().events().orElseThrow().conductors().stream()
            .filter(c -> c.count() > 0)
            .peek(c -> assertThat(words).contains("opened " + c.count() + " times"))
            .count();
    assertThat(counted).isPositive();
    assertThat(root.toString()).contains("shook the cable at the landing");
    assertThat(words).contains("shook the cable at the landing");
  }

  @Test
  void whatASimulatedBenchGaveIsNamedAndNoBrokenFunctionWorks() throws Exception {
    assertThat(words)
        .contains("THE REAL CABLE: a survey and a vigil in this job: made on a simulated bench")
        .contains("THE REAL CONTROL: a rehearsal in this job: made on a simulated bench")
        .contains(
            "seen at its terminals, without a rule broken: heating, fan. In all, rules kept 50,"
                + " broken 2, undecided 0")
        .contains("its self-check passed, as the board said when it was armed")
        .contains("its self-check the board said: not yet run");
  }

  @Test
  void theFirstPageAndTheEndSayWhatTheyMust() throws Exception {
    assertThat(words)
        .contains("The visit in short", "What was found", "What works", "not tested, and why")
        .contains("LANDING AS WRITTEN DOWN NOW")
        .contains("withdrawn", "24.3 V", "230.4 V, 0.0 V, 230.3 V", "no sealant at hand")
        .contains("Low voltage only", "Follow the local codes", "licence")
        .contains(contents.digest(), "Bellwire 0.7-test", "k = 2");
    assertThat(contents.digest()).matches("[0-9a-f]{64}");
    try (PDDocument document = Loader.loadPDF(pdf)) {
      assertThat(document.getDocumentCatalog().getLanguage()).isEqualTo("en");
      assertThat(document.getDocumentInformation().getTitle()).contains("A. Householder");
      assertThat(document.getDocumentCatalog().getDocumentOutline().children())
          .hasSizeGreaterThan(9);
    }
    for (Paper paper : Paper.values()) {
      List<Sheet> sheets = ReportFiles.sheets(contents, paper);
      PagesCheck.check(sheets, 24);
      assertThat(firstTitle(sheets.get(0))).isEqualTo("The visit in short");
      assertThat(firstTitle(sheets.get(1))).as("one page in short").isEqualTo("Cautions");
    }
    assertThat(ReportFiles.pdf(contents, Paper.A4)).isEqualTo(pdf);
  }

  private static String firstTitle(Sheet sheet) {
    return sheet.placed().stream()
        .filter(p -> p instanceof Placed.Bookmark)
        .map(p -> ((Placed.Bookmark) p).title())
        .findFirst()
        .orElse("");
  }

  @Test
  void labelsAndCardSayWhoGoesWhere() throws Exception {
    Path file = directory.resolve("labels.pdf");
    ReportFiles.labels(file, contents, Paper.A4);
    assertThat(PdfWords.even(all(file)))
        .contains("RH red at the wall: RH", "Y1 white at the equipment: W")
        .contains("violet, at the equipment brown");
    ReportFiles.panelCard(file, contents);
    assertThat(PdfWords.even(all(file))).contains("W white Y1", "jumper RC \u2013 RH");
  }

  @Test
  void whatCannotBeReadIsToldInItsPlace() throws Exception {
    Path broken = directory.resolve("broken.bellwire");
    try (JobFile file = JobFile.open(broken)) {
      JobRecords r = file.records();
      long cable = r.put(new CableRow(0, "18-5", "", Double.NaN, Double.NaN, "", "", ""));
      r.add(new SurveyRow(0, cable, false, Stage.AS_LEFT, 0, "{\"no\": 1}", new byte[0]));
      r.put(new LandingRow(0, cable, 0, "bellwire-landing: 1\ntitle: half a"));
      r.add(new RehearsalRow(0, 0, false, "no rehearsal", List.of(), "{}", new byte[] {1, 2}));
      byte[] picture = ReportJobs.photo(20, 20);
      r.add(new Photo(0, Stage.AS_LEFT, "a spoilt one", 0, "", 0), cut(picture));
    }
    ReportContents gathered = ReportJobs.contents(broken);
    String told = PdfWords.of(ReportFiles.pdf(gathered, Paper.A4));
    assertThat(told)
        .contains("Its result can't be read:", "A landing can't be read:", "can't be judged again:")
        .contains("Not shown: a spoilt one", gathered.digest());
    Path html = directory.resolve("broken.html");
    ReportFiles.html(html, gathered);
    assertThat(Files.readString(html)).contains("A landing can't be read:");
  }

  private static String all(Path file) throws Exception {
    try (PDDocument document = Loader.loadPDF(file.toFile())) {
      return new PDFTextStripper().getText(document);
    }
  }

  private static byte[] cut(byte[] picture) {
    return Arrays.copyOf(picture, 60);
  }
}
