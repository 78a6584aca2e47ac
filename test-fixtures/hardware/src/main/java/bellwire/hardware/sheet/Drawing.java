package bellwire.hardware.sheet;

import java.util.List;
import java.util.Locale;

/** An A4 sheet, landscape, as SVG in millimetres. */
final class Drawing {
  static final double UNIT_MM = 1.27;
  static final double MARGIN_MM = 10;
  private static final String HEAD =
      """
      <svg xmlns="http://www.w3.org/2000/svg" width="297mm" height="210mm" viewBox="0 0 297 210" \
      font-family="Helvetica, Arial, 'Liberation Sans', 'Nimbus Sans', sans-serif" \
      fill="none" stroke="none" stroke-linecap="round" stroke-linejoin="round">
      """;

  private final StringBuilder svg = new StringBuilder(HEAD);

  Drawing(String title) {
    svg.append("<title>").append(escaped(title)).append("</title>\n");
    svg.append("<rect width=\"297\" height=\"210\" fill=\"white\"/>\n");
  }

  /**
   * Opens a group; the attributes are plain words.
   *
   * @param attributes names and values in turn
   */
  void open(String kind, String... attributes) {
    svg.append("<g class=\"").append(kind).append('"');
    for (int i = 0; i < attributes.length; i += 2) {
      svg.append(' ').append(attributes[i]).append("=\"");
      svg.append(escaped(attributes[i + 1])).append('"');
    }
    svg.append(">\n");
  }

  void close() {
    svg.append("</g>\n");
  }

  void mark(Mark mark) {
    if (mark instanceof Mark.Strokes strokes) {
      svg.append(strokes.closed() ? "<polygon points=\"" : "<polyline points=\"");
      List<Double> points = strokes.points();
      for (int i = 0; i < points.size(); i += 2) {
        svg.append(i > 0 ? " " : "").append(mm(points.get(i)));
        svg.append(',').append(mm(points.get(i + 1)));
      }
      svg.append(strokes.filled() ? "\" fill=\"black\"/>\n" : "\"/>\n");
    } else if (mark instanceof Mark.Circle circle) {
      circle(circle.x(), circle.y(), circle.radius(), "");
    } else if (mark instanceof Mark.Word word) {
      text(word.text(), word.x(), word.y(), word.anchor(), Lettering.SIZE);
    }
  }

  void circle(double x, double y, double radius, String more) {
    svg.append("<circle cx=\"").append(mm(x)).append("\" cy=\"").append(mm(y));
    svg.append("\" r=\"").append(length(radius)).append('"').append(more).append("/>\n");
  }

  /**
   * @param more attributes, each with a space before it
   */
  void line(double x1, double y1, double x2, double y2, String more) {
    svg.append("<line x1=\"").append(mm(x1)).append("\" y1=\"").append(mm(y1));
    svg.append("\" x2=\"").append(mm(x2)).append("\" y2=\"").append(mm(y2));
    svg.append('"').append(more).append("/>\n");
  }

  void box(Box box) {
    svg.append("<rect x=\"").append(mm(box.x())).append("\" y=\"").append(mm(box.y()));
    svg.append("\" width=\"").append(length(box.width())).append("\" height=\"");
    svg.append(length(box.height())).append("\"/>\n");
  }

  /**
   * @param y the middle of its capitals
   * @param anchor as in {@link Lettering#box}
   */
  void text(String text, double x, double y, int anchor, double size) {
    String where = anchor < 0 ? "start" : anchor == 0 ? "middle" : "end";
    svg.append("<text x=\"")
        .append(mm(x))
        .append("\" y=\"")
        .append(mm(y + size * Lettering.CAPITAL / 2));
    svg.append("\" font-size=\"").append(length(size)).append("\" text-anchor=\"").append(where);
    svg.append("\" textLength=\"").append(length(Lettering.width(text, size)));
    svg.append("\" lengthAdjust=\"spacingAndGlyphs\" fill=\"black\" stroke=\"none\">");
    svg.append(escaped(text)).append("</text>\n");
  }

  void text(PartTexts.Line line) {
    text(line.text(), line.x(), line.y(), line.anchor(), Lettering.SIZE);
  }

  String svg() {
    return svg + "</svg>\n";
  }

  private static String mm(double units) {
    return number(units * UNIT_MM + MARGIN_MM);
  }

  private static String length(double units) {
    return number(units * UNIT_MM);
  }

  private static String number(double value) {
    String text = String.format(Locale.ROOT, "%.2f", value);
    return text.replaceAll("\\.?0+$", "");
  }

  private static String escaped(String text) {
    return text.replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;")
        .replace("\"", "&quot;");
  }
}
