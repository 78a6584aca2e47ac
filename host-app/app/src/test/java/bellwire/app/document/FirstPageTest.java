package bellwire.app.document;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.document.block.Block.Statement;
import bellwire.app.document.block.Mark;
import bellwire.app.document.block.Span;
import bellwire.app.document.page.Paper;
import bellwire.app.job.Act;
import bellwire.app.job.CableRow;
import bellwire.app.job.Fact;
import bellwire.app.job.JobFile;
import bellwire.app.job.JobRecords;
import bellwire.app.job.Stage;
import bellwire.app.job.SurveyRow;
import bellwire.app.job.Tick;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.survey.BoardSaid;
import bellwire.app.survey.SurveyTape;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the first page says, and how it says that it is known, of jobs that are half done. */
class FirstPageTest {
  /** Has 'metal-checked' and faults; see SurveySheetTest for where it comes from. */
  private static final String FAULTY = demo();

  @TempDir Path directory;

  private static String demo() {
    try (var in = SurveySheet.class.getResourceAsStream("demo.json")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (Exception e) {
      throw new IllegalStateException("demo.json", e);
    }
  }

  private interface Told {
    void in(JobRecords records) throws Exception;
  }

  private Summary summary(Told told) throws Exception {
    return new Summary(contents(told), new Figures(ReportJobs.none().zone(), false));
  }

  private ReportContents contents(Told told) throws Exception {
    Path file = directory.resolve("half.bellwire");
    try (JobFile job = JobFile.open(file)) {
      told.in(job.records());
    }
    return ReportJobs.contents(file);
  }

  private static long cable(JobRecords r) throws Exception {
    return r.put(new CableRow(0, "18-8", "", Double.NaN, Double.NaN, "", "", ""));
  }

  private static void survey(JobRecords r, long cable, Stage stage, boolean inPlace, String json)
      throws Exception {
    r.add(new SurveyRow(0, cable, inPlace, stage, 0, json, new byte[0]));
  }

  private static List<String> lines(List<Statement> statements) {
    return statements.stream().map(s -> s.mark().word() + ", " + Span.words(s.spans())).toList();
  }

  @Test
  void aFaultThatIsThereAfterTheWorkStandsFirst() throws Exception {
    Summary summary =
        summary(
            r -> {
              long cable = cable(r);
              survey(r, cable, Stage.AS_FOUND, false, FAULTY);
              survey(r, cable, Stage.AS_LEFT, false, FAULTY);
            });
    assertThat(lines(summary.found()).get(0))
        .startsWith("measured, Cable 18-8, AFTER THE WORK: ")
        .contains("leakage (P3, P6)", "no path to the far end (P7)");
    assertThat(lines(summary.done())).noneMatch(l -> l.contains("no longer found"));
  }

  @Test
  void nothingIsGoneThatTheLaterSurveyCouldNotHaveSeen() throws Exception {
    String sound =
        FAULTY.replaceFirst("(?s)\"findings\" : \\[.*?\\n  \\} \\]", "\"findings\" : [ ]");
    assertThat(SurveySheet.of(sound).findings()).isEmpty();
    String noClip = sound.replace("\"metal-checked\" : true", "\"metal-checked\" : false");
    for (boolean inPlace : new boolean[] {false, true}) {
      directory.resolve("half.bellwire").toFile().delete();
      Summary blind =
          summary(
              r -> {
                long cable = cable(r);
                survey(r, cable, Stage.AS_FOUND, false, FAULTY);
                survey(r, cable, Stage.AS_LEFT, inPlace, noClip);
              });
      assertThat(lines(blind.done())).noneMatch(l -> l.contains("no longer found"));
    }
    directory.resolve("half.bellwire").toFile().delete();
    Summary seen =
        summary(
            r -> {
              long cable = cable(r);
              survey(r, cable, Stage.AS_FOUND, false, FAULTY);
              survey(r, cable, Stage.AS_LEFT, false, sound);
            });
    assertThat(lines(seen.done())).anyMatch(l -> l.contains("no longer found: "));
  }

  @Test
  void aControlIsFittedOnceItIsTickedAndKnownAsThatIs() throws Exception {
    Summary before = summary(r -> r.fact(Fact.NEW_CONTROL, "fed from C"));
    assertThat(lines(before.done()))
        .containsExactly("assumed, Control: to be fitted, not ticked as mounted: fed from C");
    Summary after =
        summary(
            r -> r.put(new Tick("mounting", Tick.State.DONE, Tick.Basis.WITNESSED, "Kim", 0, "")));
    assertThat(lines(after.done())).contains("witnessed, Control: fitted: fed from C");
  }

  @Test
  void figuresSayWhichUncertaintyTheyHave() throws Exception {
    Summary summary = summary(r -> survey(r, cable(r), Stage.AS_FOUND, false, FAULTY));
    assertThat(lines(summary.found()))
        .filteredOn(l -> l.contains("\u00b1"))
        .isNotEmpty()
        .allMatch(l -> l.replace('\u00a0', ' ').contains("(k = "));
  }

  @Test
  void aWithdrawnProofIsNoneAndASimulatedCableIsNoCable() throws Exception {
    ReportContents contents =
        contents(
            r -> {
              survey(r, cable(r), Stage.AS_FOUND, false, FAULTY);
              long id =
                  r.add(new Act(0, Act.Kind.PROVED_DEAD, "", "24 V, 0 V, 24 V", "Kim", 0, false));
              r.withdrawAct(id);
            });
    List<Statement> not = new NotTested(contents).lines();
    assertThat(not).extracting(Statement::mark).containsOnly(Mark.NOT_TESTED);
    assertThat(lines(not))
        .anyMatch(l -> l.contains("Proved dead: nobody recorded a meter's reading"))
        .anyMatch(l -> l.contains("made on a simulated bench"));
  }

  @Test
  void whatABoardDidNotSayIsNotTold() throws Exception {
    ReportContents contents =
        contents(
            r -> {
              long cable = cable(r);
              survey(r, cable, Stage.AS_FOUND, false, FAULTY);
              byte[] refused = tape("{\"armed\":\"self-check: the low range\"}");
              r.add(new SurveyRow(0, cable, false, Stage.AS_LEFT, 0, FAULTY, refused));
            });
    assertThat(new Instruments(contents).surveys())
        .extracting(BoardSaid::selfCheck)
        .containsExactly("", "self-check: the low range");
    String words = PdfWords.of(ReportFiles.pdf(contents, Paper.A4));
    assertThat(words)
        .contains("its self-check not told")
        .contains("its self-check the board said: self-check: the low range");
    assertThat(SurveyTape.selfCheck(tape("{\"armed\":\"busy\"}\n{\"armed\":\"\"}")))
        .isEqualTo(BoardSaid.PASSED);
    assertThat(SurveyTape.selfCheck(new byte[] {1, 2, 3})).isEmpty();
  }

  private static byte[] tape(String lines) throws Exception {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(bytes)) {
      out.write(lines.getBytes(StandardCharsets.UTF_8));
    }
    return bytes.toByteArray();
  }
}
