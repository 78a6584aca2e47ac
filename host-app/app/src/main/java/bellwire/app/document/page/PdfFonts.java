package bellwire.app.document.page;

import bellwire.app.document.type.Face;
import bellwire.app.document.type.Faces;
import java.io.IOException;
import java.util.EnumMap;
import java.util.Map;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.font.PDType0Font;

/** The fonts in one PDF, embedded with the letters that are used. */
final class PdfFonts {
  private final PDDocument document;
  private final Faces faces;
  private final Map<Face, PDType0Font> fonts = new EnumMap<>(Face.class);

  PdfFonts(PDDocument document, Faces faces) {
    this.document = document;
    this.faces = faces;
  }

  PDType0Font font(Face face) throws IOException {
    PDType0Font font = fonts.get(face);
    if (font == null) {
      font = PDType0Font.load(document, faces.font(face), true);
      fonts.put(face, font);
    }
    return font;
  }

  Faces faces() {
    return faces;
  }
}
