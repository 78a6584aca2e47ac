package bellwire.app.document;

import bellwire.app.document.html.HtmlPage;
import bellwire.app.document.page.Composition;
import bellwire.app.document.page.Paper;
import bellwire.app.document.page.PdfBook;
import bellwire.app.document.page.Sheet;
import bellwire.app.document.type.Faces;
import bellwire.app.document.type.Typesetter;
import bellwire.app.report.WholeFile;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;

/**
 * The files made of a job: each is written whole or not at all. Slow, a second or more: never on
 * the event thread.
 */
public final class ReportFiles {
  private ReportFiles() {}

  /** The report, A4. */
  public static void pdf(Path out, ReportContents contents) throws IOException {
    pdf(out, contents, Paper.A4);
  }

  public static void pdf(Path out, ReportContents contents, Paper paper) throws IOException {
    WholeFile.write(out, pdf(contents, paper));
  }

  static byte[] pdf(ReportContents contents, Paper paper) throws IOException {
    try (Faces faces = new Faces()) {
      Typesetter type = new Typesetter(faces);
      Report report = new Report(contents, type);
      List<Sheet> sheets = new Composition(paper, type, report.running()).sheets(report.blocks());
      return PdfBook.write(sheets, faces, about(contents, report.title()));
    }
  }

  /** The pages as they are laid out, for tests. */
  static List<Sheet> sheets(ReportContents contents, Paper paper) throws IOException {
    try (Faces faces = new Faces()) {
      Typesetter type = new Typesetter(faces);
      Report report = new Report(contents, type);
      return new Composition(paper, type, report.running()).sheets(report.blocks());
    }
  }

  private static PdfBook.About about(ReportContents contents, String title) {
    return new PdfBook.About(
        title,
        "what was found, done and tested; job " + contents.digest(),
        "Bellwire " + contents.version(),
        "en",
        contents.madeAt());
  }

  /** The report as one HTML file that needs no script and no other file. */
  public static void html(Path out, ReportContents contents) throws IOException {
    try (Faces faces = new Faces()) {
      Report report = new Report(contents, new Typesetter(faces));
      WholeFile.write(
          out, HtmlPage.write(report.blocks(), report.title(), report.running().foot()));
    }
  }

  /** Labels for all conductors' ends, on sheets to be cut. */
  public static void labels(Path out, ReportContents contents, Paper paper) throws IOException {
    WholeFile.write(out, written(contents, new Labels(contents).sheets(paper), "Labels"));
  }

  /** The two labels of one conductor, a page each of the label's own size. */
  public static void label(Path out, ReportContents contents, long cable, int port)
      throws IOException {
    WholeFile.write(out, written(contents, new Labels(contents).single(cable, port), "Label"));
  }

  /** A card for inside the panel: equipment's terminal, conductor's colour, control's terminal. */
  public static void panelCard(Path out, ReportContents contents) throws IOException {
    WholeFile.write(out, written(contents, new PanelCard(contents).sheets(Paper.A4), "Panel card"));
  }

  /** Makes pages with the fonts that they are then written with. */
  interface Pages {
    List<Sheet> set(Typesetter type);
  }

  private static byte[] written(ReportContents contents, Pages pages, String title)
      throws IOException {
    try (Faces faces = new Faces()) {
      return PdfBook.write(pages.set(new Typesetter(faces)), faces, about(contents, title));
    }
  }
}
