package bellwire.app.document;

import java.io.IOException;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;

/** A PDF's text as a reader of it gets it, without running heads, white space made even. */
final class PdfWords {
  private PdfWords() {}

  static String of(byte[] pdf) throws IOException {
    StringBuilder all = new StringBuilder();
    try (PDDocument document = Loader.loadPDF(pdf)) {
      for (int page = 1; page <= document.getNumberOfPages(); page++) {
        PDFTextStripper stripper = new PDFTextStripper();
        stripper.setStartPage(page);
        stripper.setEndPage(page);
        List<String> lines = new ArrayList<>(stripper.getText(document).lines().toList());
        // The edges of a page are written last: head with date, foot with number.
        int edges = lines.size();
        while (edges > 0
            && lines.size() - edges < 3
            && !lines.get(edges - 1).matches(".*20\\d\\d")) {
          edges--;
        }
        all.append(String.join(" ", lines.subList(0, Math.max(0, edges - 1)))).append(' ');
      }
    }
    return even(all.toString());
  }

  static String even(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFC)
        .replace('\u00a0', ' ')
        .replaceAll("\\s+", " ")
        .strip();
  }
}
