package bellwire.app.desk.report;

import static org.assertj.core.api.Assertions.assertThat;

import bellwire.app.desk.DeskRig;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.swing.JLabel;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The report's pages and its files, in a real window. */
@Tag("window")
class ReportPageTest {
  @TempDir Path directory;

  @Test
  void pagesAreTurnedAndEveryFileIsSaved() throws Exception {
    Path out = Files.createDirectory(directory.resolve("out"));
    try (DeskRig rig = DeskRig.job(directory.resolve("visit.bellwire"))) {
      rig.page("report");
      rig.until("the pages are set", 60, () -> rig.shows("report.missing0"));
      assertThat(rig.state("report")).isEqualTo("not saved");
      JLabel at = rig.find("report.at", JLabel.class);
      rig.until("page 1", 20, () -> at.getText().startsWith("page 1 of"));
      // Going to a page by its key leaves the keyboard on the rail.
      rig.robot().focusAndWaitForFocusGain(rig.find("report.page", java.awt.Component.class));
      rig.press("RIGHT");
      rig.until("page 2", 20, () -> at.getText().startsWith("page 2 of"));
      rig.press("EQUALS");
      rig.press("0");
      rig.shot("report");
      save(rig, "pdf", out.resolve("a.pdf"));
      assertThat(Files.readString(out.resolve("a.pdf"), StandardCharsets.ISO_8859_1))
          .startsWith("%PDF-");
      assertThat(rig.state("report")).startsWith("saved ");
      save(rig, "html", out.resolve("a.html"));
      save(rig, "labels", out.resolve("l.pdf"));
      save(rig, "card", out.resolve("c.pdf"));
      save(rig, "data", out.resolve("data"));
      assertThat(out.resolve("data/job.json")).exists();
      assertThat(out.resolve("data/pairs.csv")).exists();

      byte[] before = Files.readAllBytes(out.resolve("a.html"));
      rig.click("report.save-html");
      rig.type("files.name", out.resolve("a.html").toString());
      rig.press("ENTER");
      rig.until("the question", 20, () -> shown(rig, "is there already"));
      assertThat(Files.readAllBytes(out.resolve("a.html"))).isEqualTo(before);
    }
  }

  private static boolean shown(DeskRig rig, String words) {
    return rig.notices().contains(words);
  }

  private static void save(DeskRig rig, String kind, Path file) {
    rig.click("report.save-" + kind);
    rig.type("files.name", file.toString());
    rig.press("ENTER");
    rig.until(kind + " is written", 60, () -> shown(rig, file + " is written"));
  }
}
