package bellwire.app.desk;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.drawing.Spot;
import bellwire.app.job.Checklist;
import bellwire.app.job.JobRecords;
import bellwire.app.job.RehearsalRow;
import bellwire.app.job.SurveyRow;
import bellwire.app.sheet.SurveySheet;
import bellwire.app.visit.Boards;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.Point;
import java.awt.Rectangle;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import javax.imageio.ImageIO;
import javax.swing.JComboBox;
import javax.swing.JComponent;
import javax.swing.JLabel;
import javax.swing.JList;
import javax.swing.JTable;
import javax.swing.JTextArea;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.assertj.swing.core.MouseButton;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A whole visit in a real window, by keyboard and pointer: from a new job to its PDF. */
@Tag("window")
class JourneyTest {
  private static final List<String> COLOURS =
      List.of("red", "white", "green", "blue", "yellow", "brown", "orange", "black");

  /** The terminals' letters of the old landing, at the equipment and at the control. */
  private static final Map<String, List<String>> OLD =
      Map.of(
          "red", List.of("R", "RC"),
          "white", List.of("W", "W1"),
          "green", List.of("G", "G"),
          "blue", List.of("C", ""),
          "brown", List.of("Y", "Y1"));

  private static final ObjectMapper MAPPER = new ObjectMapper();

  @TempDir Path directory;

  @BeforeAll
  static void display() {
    DeskRig.require();
  }

  @Test
  void aVisitGoesFromANewJobToItsReportAndIsFoundAgain() throws Exception {
    Path file = directory.resolve("mill-lane.bellwire");
    List<String> states;
    String digest;
    try (DeskRig rig = DeskRig.empty(directory)) {
      begun(rig, file);
      madeSafe(rig);
      surveyed(rig);
      landed(rig);
      rehearsed(rig);
      watched(rig);
      finished(rig);
      reported(rig);
      states = states(rig);
      digest = rig.visit().ask(JobRecords::digest).get(10, TimeUnit.SECONDS);
      assertThat(rig.notices()).doesNotContain("TROUBLE");
    }
    try (DeskRig rig = DeskRig.job(file)) {
      assertThat(rig.get(() -> rig.window().current().key())).isEqualTo("report");
      // What was saved where is of that window, not of the job.
      List<String> kept = states.subList(0, states.size() - 1);
      rig.until("the pages' states", 30, () -> stated(rig).subList(0, kept.size()).equals(kept));
      assertThat(rig.visit().ask(JobRecords::digest).get(10, TimeUnit.SECONDS)).isEqualTo(digest);
      rig.page("visit");
      assertThat(rig.text("visit.customer")).isEqualTo("A. Miller");
      rig.page("survey");
      assertThat(rig.text("survey.evidence")).startsWith("P3 green and P6 brown");
    }
    GuidePictures.checked();
  }

  private static List<String> states(DeskRig rig) {
    return rig.get(() -> stated(rig));
  }

  private static List<String> stated(DeskRig rig) {
    return rig.window().pages().stream().map(Page::state).toList();
  }

  private static void begun(DeskRig rig, Path file) {
    rig.press("F5");
    rig.type("files.name", file.toString());
    rig.press("ENTER");
    rig.until("the job is open", 20, () -> rig.window().pages().size() == 8);
    rig.type("visit.customer", "A. Miller");
    rig.type("visit.place", "14 Mill Lane, upstairs landing");
    rig.type("visit.technician", "Kim");
    rig.type("visit.system", "gas furnace with cooling, cellar");
    rig.type("visit.old-control", "one stage, on batteries");
    rig.type("visit.new-control", "one stage, fed from C");
    rig.type("visit.reason", "no heat on some mornings");
    JComboBox<?> board = rig.find("visit.board", JComboBox.class);
    choose(rig, board, "the demo's simulated bench");
    assertThat(rig.get(() -> rig.window().door().visit().orElseThrow().boards()))
        .isEqualTo(new Boards.Demo(true));
    // Nobody is to watch: as fast as it can be computed.
    rig.visit().boards(new Boards.Demo(false));
    rig.until("kept", 10, () -> rig.window().pages().get(0).state().equals("A. Miller"));
    shots(rig, "journey-visit");
  }

  /** By the arrow keys. */
  private static void choose(DeskRig rig, JComboBox<?> box, String item) {
    rig.robot().focusAndWaitForFocusGain(box);
    rig.press("HOME");
    int items = rig.get(box::getItemCount);
    for (int i = 0; i < items && !is(rig, box, item); i++) {
      rig.press("DOWN");
    }
    rig.press("ENTER");
    assertThat(is(rig, box, item)).as("%s in %s", item, box.getName()).isTrue();
  }

  private static boolean is(DeskRig rig, JComboBox<?> box, String item) {
    return rig.get(() -> String.valueOf(box.getSelectedItem()).equals(item));
  }

  private static void madeSafe(DeskRig rig) {
    rig.press("F5");
    rig.press("F5");
    rig.until("read", 10, () -> safe(rig).equals("1 of 4 recorded"));
    rig.type("safe.supplies", "furnace switch, breaker 7");
    rig.press("F5");
    rig.until("off", 10, () -> safe(rig).equals("2 of 4 recorded"));
    rig.type("safe.live", "24.6");
    rig.type("safe.dead", "0.0");
    rig.type("safe.again", "24.5");
    rig.press("F5");
    rig.until("dead", 10, () -> safe(rig).equals("3 of 4 recorded"));
    rig.type("safe.metal", "the cabinet's earth screw");
    rig.click("safe.clip");
    rig.until("clipped", 10, () -> safe(rig).startsWith("dead "));
    shots(rig, "journey-safe");
  }

  /** Without notices: one has the name of a directory of this run. Troubles stay. */
  private static void shots(DeskRig rig, String name) {
    rig.run(
        w ->
            w.notices().shown().stream()
                .filter(n -> n.kind() == Notices.Kind.NOTE)
                .forEach(w.notices()::dismiss));
    rig.shots(name);
  }

  private static String safe(DeskRig rig) {
    return rig.window().pages().get(1).state();
  }

  private static void surveyed(DeskRig rig) throws Exception {
    rig.press("F5");
    rig.type("survey.name", "18-8");
    rig.press("TAB");
    JTable table = rig.find("survey.conductors", JTable.class);
    rig.until("a cable to name colours of", 10, () -> table.isCellEditable(0, 1));
    rig.type("survey.gauge", "18 AWG");
    rig.type("survey.temperature", "21 C");
    rig.type("survey.near", "furnace, cellar");
    rig.type("survey.far", "upstairs landing");
    for (int port = 0; port < COLOURS.size(); port++) {
      colour(rig, table, port, COLOURS.get(port));
    }
    rig.shot("journey-survey-form");
    assertThat(rig.next()).startsWith("Survey the cable in place");
    rig.press("F5");
    surveys(rig, 1);
    assertThat(rig.next()).startsWith("Lift the conductors");
    rig.press("F5");
    assertThat(rig.next()).startsWith("Survey the lifted cable");
    rig.press("F5");
    surveys(rig, 2);
    DrawingPanel route = rig.find("survey.route", DrawingPanel.class);
    spot(rig, route, "conductor:P2");
    assertThat(rig.text("survey.evidence")).contains("P2").contains("white");
    DrawingPanel matrix = rig.find("survey.matrix", DrawingPanel.class);
    spot(rig, matrix, "pair:P3-P6");
    assertThat(rig.text("survey.evidence")).contains("P3").contains("P6");
    shots(rig, "journey-survey");
  }

  private static void colour(DeskRig rig, JTable table, int port, String colour) {
    Rectangle cell = rig.get(() -> table.getCellRect(port, 1, true));
    rig.run(w -> table.scrollRectToVisible(cell));
    rig.robot().click(table, new Point((int) cell.getCenterX(), (int) cell.getCenterY()));
    rig.robot().waitForIdle();
    rig.press("ctrl A");
    rig.robot().enterText(colour);
    rig.press("ENTER");
    rig.until(
        colour + " at P" + (port + 1),
        5,
        () -> table.getValueAt(port, 1).equals(colour) && table.getValueAt(port, 2).equals(colour));
  }

  private static void surveys(DeskRig rig, int count) throws Exception {
    Page page = rig.window().pages().get(2);
    rig.until("survey " + count, 60, () -> page.state().matches(".*(finding|sound|done|clear).*"));
    rig.until(
        "survey " + count + " is in view", 60, () -> !page.next().words().startsWith("Hands"));
    assertThat(rig.visit().ask(JobRecords::surveys).get(10, TimeUnit.SECONDS)).hasSize(count);
    rig.find("survey.route", DrawingPanel.class);
  }

  private static void spot(DeskRig rig, DrawingPanel panel, String key) {
    Point place =
        rig.get(
            () -> {
              Spot spot =
                  panel.spots().stream().filter(s -> s.key().equals(key)).findFirst().orElseThrow();
              Rectangle2D box = panel.onScreen(spot);
              panel.scrollRectToVisible(box.getBounds());
              return new Point((int) box.getCenterX(), (int) box.getCenterY());
            });
    rig.robot().click(panel, place, MouseButton.LEFT_BUTTON, 1);
    rig.robot().waitForIdle();
  }

  private static void landed(DeskRig rig) {
    rig.press("F5");
    rig.press("F5");
    choose(rig, rig.find("landing.control", JComboBox.class), "one-stage-battery");
    JComponent strips = rig.find("landing.strips", JComponent.class);
    rig.robot().focusAndWaitForFocusGain(strips);
    rig.press("HOME");
    for (int i = 0; i < COLOURS.size(); i++) {
      land(rig, OLD.getOrDefault(rig.text("landing.say").split(" ")[0], List.of()));
      rig.press("DOWN");
    }
    rig.click("landing.jumper.RC-RH");
    assertThat(rig.next()).startsWith("Propose a landing");
    rig.press("F5");
    JComponent take = rig.find("landing.take", JComponent.class);
    rig.until("a proposal", 60, take::isEnabled);
    rig.click("landing.take");
    rig.until("checked", 20, () -> rig.window().pages().get(3).state().contains("finding"));
    String planned = rig.state("landing");
    rig.robot().focusAndWaitForFocusGain(strips);
    rig.press("HOME");
    while (!rig.text("landing.say").startsWith("white")) {
      rig.press("DOWN");
    }
    rig.press("RIGHT");
    land(rig, "Y1");
    rig.until(
        "a finding", 20, () -> rig.window().pages().get(3).next().words().startsWith("Clear"));
    rig.press("F5");
    JList<?> findings = rig.find("landing.findings", JList.class);
    rig.until("one chosen", 5, () -> findings.getSelectedIndex() == 0);
    assertThat(rig.text("landing.finding")).contains("What to do:");
    shots(rig, "journey-landing");
    rig.press("ctrl Z");
    rig.until("put right", 20, () -> rig.window().pages().get(3).state().equals(planned));
  }

  private static void land(DeskRig rig, List<String> ends) {
    if (!ends.isEmpty()) {
      rig.press("LEFT");
      land(rig, ends.get(0));
      rig.press("RIGHT");
      land(rig, ends.get(1));
    }
  }

  private static void land(DeskRig rig, String terminal) {
    if (!terminal.isEmpty()) {
      rig.robot().enterText(terminal);
      rig.press("ENTER");
      assertThat(rig.text("landing.say")).contains("under " + terminal + ".");
    }
  }

  private static void rehearsed(DeskRig rig) {
    rig.page("rehearsal");
    rig.until("read", 20, () -> rig.window().pages().get(4).next().words().startsWith("Begin"));
    rig.press("F5");
    rig.until("it is over", 120, () -> rig.window().pages().get(4).state().endsWith("finding"));
    JTextArea outcome = rig.find("rehearsal.outcome", JTextArea.class);
    rig.until("its outcome", 60, () -> outcome.getText().contains("no-rest"));
    shots(rig, "journey-rehearsal");
  }

  private static void watched(DeskRig rig) {
    rig.page("vigil");
    rig.type("vigil.ports", "P1=red,P2=white,P3=green");
    rig.type("vigil.return", "P1");
    rig.type("vigil.length", "2 h");
    rig.press("F5");
    rig.until("under way", 30, () -> rig.window().pages().get(5).state().endsWith(" to go"));
    rig.press("SPACE");
    rig.until("it is over", 120, () -> rig.window().pages().get(5).state().startsWith("1 vigil, "));
    JTextArea statement = rig.find("vigil.statement", JTextArea.class);
    rig.until("its statement", 60, () -> statement.getText().contains("STATEMENT"));
    shots(rig, "journey-vigil");
  }

  private void finished(DeskRig rig) throws Exception {
    rig.page("finish");
    for (int i = 0; i < Checklist.items().size(); i++) {
      rig.press("F5");
      rig.press("D");
    }
    rig.until("all looked at", 30, () -> rig.window().pages().get(6).state().startsWith("done"));
    shots(rig, "journey-finish");
    rig.press("alt P");
    rig.click("finish.add-as-left");
    rig.type("files.name", picture().toString());
    rig.press("ENTER");
    rig.type("finish.caption", "the new control on its plate");
    rig.press("ENTER");
    rig.until(
        "the photograph", 20, () -> rig.window().pages().get(6).next().words().startsWith("Go on"));
    rig.shot("journey-photograph");
  }

  private Path picture() throws Exception {
    BufferedImage image = new BufferedImage(1200, 900, BufferedImage.TYPE_INT_RGB);
    Graphics2D g = image.createGraphics();
    g.setColor(new Color(205, 200, 190));
    g.fillRect(0, 0, 1200, 900);
    g.setColor(new Color(80, 90, 110));
    g.fillRect(400, 300, 400, 300);
    g.dispose();
    Path file = directory.resolve("left.png");
    ImageIO.write(image, "png", file.toFile());
    return file;
  }

  private void reported(DeskRig rig) throws Exception {
    rig.press("F5");
    JLabel at = rig.find("report.at", JLabel.class);
    rig.until("the pages are set", 90, () -> at.getText().startsWith("page 1 of"));
    Path out = Files.createDirectory(directory.resolve("out"));
    save(rig, "pdf", out.resolve("report.pdf"));
    save(rig, "html", out.resolve("report.html"));
    save(rig, "labels", out.resolve("labels.pdf"));
    shots(rig, "journey-report");
    assertThat(out.resolve("labels.pdf")).isNotEmptyFile();
    String pdf = words(out.resolve("report.pdf"));
    String html = squeezed(Files.readString(out.resolve("report.html")));
    assertThat(said(rig)).allSatisfy(said -> assertThat(pdf).contains(squeezed(said)));
    assertThat(html)
        .contains(squeezed("A. Miller"), squeezed("live 24.6 V, cable 0.0 V, live 24.5 V"));
  }

  private static void save(DeskRig rig, String kind, Path file) {
    rig.click("report.save-" + kind);
    rig.type("files.name", file.toString());
    rig.press("ENTER");
    rig.until(
        kind + " is written",
        60,
        () ->
            rig.window().notices().shown().stream()
                .anyMatch(n -> n.words().contains(file + " is written")));
  }

  /** What was typed, measured and found, as the job has it. */
  private static List<String> said(DeskRig rig) throws Exception {
    List<String> said =
        new ArrayList<>(List.of("A. Miller", "Kim", "live 24.6 V, cable 0.0 V, live 24.5 V"));
    said.add("the new control on its plate");
    Checklist.items().forEach(item -> said.add(item.words()));
    List<SurveyRow> surveys = rig.visit().ask(JobRecords::surveys).get(10, TimeUnit.SECONDS);
    List<SurveySheet.Finding> found = SurveySheet.of(surveys.get(1).json()).findings();
    assertThat(found).hasSizeGreaterThan(2);
    found.forEach(f -> said.add(f.title()));
    List<RehearsalRow> rehearsals =
        rig.visit().ask(JobRecords::rehearsals).get(10, TimeUnit.SECONDS);
    JsonNode findings = MAPPER.readTree(rehearsals.get(0).json()).path("findings");
    assertThat(findings).hasSize(1);
    findings.forEach(f -> said.add(f.path("says").asText()));
    return said;
  }

  private static String words(Path file) throws Exception {
    try (PDDocument document = Loader.loadPDF(file.toFile())) {
      return squeezed(new PDFTextStripper().getText(document));
    }
  }

  /** Lines are broken where the paper's width asks for it. */
  private static String squeezed(String text) {
    return text.replaceAll("[\\s\\h\\u00ad]+", "");
  }
}
