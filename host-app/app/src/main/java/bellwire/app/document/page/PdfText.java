package bellwire.app.document.page;

import bellwire.app.document.type.Piece;
import bellwire.app.document.type.TextLine;
import java.awt.Color;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.PathIterator;
import java.io.IOException;
import java.util.Locale;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.graphics.state.RenderingMode;
import org.apache.pdfbox.util.Matrix;

/** Draws lines of text on a PDF's page, whose y goes up. */
final class PdfText {
  private final PDPageContentStream out;
  private final PdfFonts fonts;

  PdfText(PDPageContentStream out, PdfFonts fonts) {
    this.out = out;
    this.fonts = fonts;
  }

  /**
   * @param base of the line, from the page's bottom
   */
  void draw(TextLine line, double x, double base) throws IOException {
    for (Piece piece : line.pieces()) {
      Color ink = Ink.of(piece.look().tone());
      double left = x + piece.x();
      if (piece instanceof Piece.Letters letters) {
        letters(letters, ink, left, base);
      } else if (piece instanceof Piece.Outline outline) {
        out.setNonStrokingColor(ink);
        fill(outline.outline(), left, base);
        invisible(outline, left, base);
      } else if (piece instanceof Piece.Missing missing) {
        missing(missing, ink, left, base);
      }
      if (piece.look().struck()) {
        double size = piece.look().size();
        rule(ink, left, base + 0.27 * size, piece.width(), 0.07 * size);
      }
    }
  }

  private void letters(Piece.Letters letters, Color ink, double x, double base) throws IOException {
    out.setNonStrokingColor(ink);
    out.beginText();
    out.setFont(fonts.font(letters.face()), (float) letters.look().size());
    out.newLineAtOffset((float) x, (float) base);
    out.showText(letters.text());
    out.endText();
  }

  /** So that outlines are found and copied as the text they are. */
  private void invisible(Piece.Outline outline, double x, double base) throws IOException {
    PDType0Font font = fonts.font(outline.face());
    float size = (float) outline.look().size();
    double natural = font.getStringWidth(outline.text()) / 1000 * size;
    if (natural <= 0) {
      return;
    }
    out.beginText();
    out.setRenderingMode(RenderingMode.NEITHER);
    out.setFont(font, size);
    out.setHorizontalScaling((float) (100 * outline.width() / natural));
    out.newLineAtOffset((float) x, (float) base);
    out.showText(outline.text());
    out.setHorizontalScaling(100);
    out.setRenderingMode(RenderingMode.FILL);
    out.endText();
  }

  /** A box with the character's number. */
  private void missing(Piece.Missing missing, Color ink, double x, double base) throws IOException {
    double size = missing.look().size();
    double w = missing.width() - 0.1 * size;
    out.setStrokingColor(ink);
    out.setLineWidth((float) (0.05 * size));
    out.addRect((float) x, (float) (base - 0.14 * size), (float) w, (float) (0.86 * size));
    out.stroke();
    String digits = String.format(Locale.ROOT, "%04X", missing.codePoint());
    PDType0Font font = fonts.font(missing.look().face());
    double natural = font.getStringWidth(digits) / 1000;
    double small = Math.min(0.5 * size, 0.9 * w / natural);
    out.setNonStrokingColor(ink);
    out.beginText();
    out.setFont(font, (float) small);
    out.newLineAtOffset((float) (x + (w - natural * small) / 2), (float) (base + 0.12 * size));
    out.showText(digits);
    out.endText();
  }

  void rule(Color color, double x, double y, double width, double height) throws IOException {
    out.setNonStrokingColor(color);
    out.addRect((float) x, (float) y, (float) width, (float) height);
    out.fill();
  }

  private void fill(Shape shape, double x, double base) throws IOException {
    out.saveGraphicsState();
    out.transform(new Matrix(1, 0, 0, -1, (float) x, (float) base));
    float[] p = new float[6];
    float lastX = 0;
    float lastY = 0;
    PathIterator path = shape.getPathIterator(new AffineTransform());
    boolean any = false;
    for (; !path.isDone(); path.next()) {
      any = true;
      switch (path.currentSegment(p)) {
        case PathIterator.SEG_MOVETO -> out.moveTo(p[0], p[1]);
        case PathIterator.SEG_LINETO -> out.lineTo(p[0], p[1]);
        case PathIterator.SEG_QUADTO ->
            out.curveTo(
                lastX + (p[0] - lastX) * 2 / 3,
                lastY + (p[1] - lastY) * 2 / 3,
                p[2] + (p[0] - p[2]) * 2 / 3,
                p[3] + (p[1] - p[3]) * 2 / 3,
                p[2],
                p[3]);
        case PathIterator.SEG_CUBICTO -> out.curveTo(p[0], p[1], p[2], p[3], p[4], p[5]);
        default -> out.closePath();
      }
      int end =
          switch (path.currentSegment(p)) {
            case PathIterator.SEG_CUBICTO -> 4;
            case PathIterator.SEG_QUADTO -> 2;
            case PathIterator.SEG_CLOSE -> -1;
            default -> 0;
          };
      if (end >= 0) {
        lastX = p[end];
        lastY = p[end + 1];
      }
    }
    if (any) {
      out.fill();
    }
    out.restoreGraphicsState();
  }
}
