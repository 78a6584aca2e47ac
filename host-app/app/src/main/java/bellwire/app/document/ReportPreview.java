package bellwire.app.document;

import bellwire.app.document.page.Paper;
import java.awt.image.BufferedImage;
import java.io.IOException;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.ImageType;
import org.apache.pdfbox.rendering.PDFRenderer;

/** The PDF's pages as pictures, for the screen. Used by one thread, not the event thread. */
public final class ReportPreview implements AutoCloseable {
  private final PDDocument document;
  private final PDFRenderer renderer;

  private ReportPreview(PDDocument document) {
    this.document = document;
    renderer = new PDFRenderer(document);
  }

  /** The report as {@link ReportFiles#pdf} writes it. */
  public static ReportPreview of(ReportContents contents, Paper paper) throws IOException {
    return new ReportPreview(Loader.loadPDF(ReportFiles.pdf(contents, paper)));
  }

  public int pages() {
    return document.getNumberOfPages();
  }

  /**
   * @param page from 0
   * @param scale 1: a pixel for each point of 1/72 inch
   */
  public BufferedImage page(int page, double scale) throws IOException {
    return renderer.renderImage(page, (float) scale, ImageType.RGB);
  }

  @Override
  public void close() throws IOException {
    document.close();
  }
}
