package bellwire.app.document;

import java.io.IOException;
import java.nio.file.Path;

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
    throw new IOException(out + ": reports are not made yet");
  }

  /** The report as one HTML file that needs no script and no other file. */
  public static void html(Path out, ReportContents contents) throws IOException {
    throw new IOException(out + ": reports are not made yet");
  }

  /** Labels for all conductors' ends, on sheets to be cut. */
  public static void labels(Path out, ReportContents contents, Paper paper) throws IOException {
    throw new IOException(out + ": labels are not made yet");
  }

  /** The two labels of one conductor, a page each of the label's own size. */
  public static void label(Path out, ReportContents contents, long cable, int port)
      throws IOException {
    throw new IOException(out + ": labels are not made yet");
  }

  /** A card for inside the panel: equipment's terminal, conductor's colour, control's terminal. */
  public static void panelCard(Path out, ReportContents contents) throws IOException {
    throw new IOException(out + ": cards are not made yet");
  }
}
