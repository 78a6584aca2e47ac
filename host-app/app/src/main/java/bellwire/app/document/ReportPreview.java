package bellwire.app.document;

import java.awt.image.BufferedImage;
import java.io.IOException;

/** The PDF's pages as pictures, for the screen. Used by one thread, not the event thread. */
public final class ReportPreview implements AutoCloseable {
  private final byte[] pdf;

  private ReportPreview(byte[] pdf) {
    this.pdf = pdf;
  }

  public static ReportPreview of(ReportContents contents, Paper paper) throws IOException {
    return new ReportPreview(new byte[0]);
  }

  public int pages() {
    return pdf.length == 0 ? 0 : 1;
  }

  /**
   * @param page from 0
   * @param scale 1: a pixel for each point of 1/72 inch
   */
  public BufferedImage page(int page, double scale) throws IOException {
    throw new IOException("no such page: page=" + page);
  }

  @Override
  public void close() throws IOException {}
}
