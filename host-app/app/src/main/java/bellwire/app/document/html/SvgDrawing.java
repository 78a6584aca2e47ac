package bellwire.app.document.html;

import bellwire.app.drawing.Drawing;
import bellwire.app.drawing.Palette;
import java.awt.Dimension;
import java.io.IOException;
import java.io.StringWriter;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.apache.batik.svggen.SVGGeneratorContext;
import org.apache.batik.svggen.SVGGraphics2D;
import org.w3c.dom.Document;
import org.w3c.dom.Element;

/** A drawing as SVG within HTML, its text as text. */
final class SvgDrawing {
  private static final String SVG = "http://www.w3.org/2000/svg";

  /** Wide enough for its type to be read on paper, narrow enough for a phone held across. */
  private static final int WIDTH = 640;

  private SvgDrawing() {}

  /**
   * @param name that no other drawing of the page has
   */
  static String of(Drawing drawing, String name) throws IOException {
    Document document = document();
    SVGGeneratorContext context = SVGGeneratorContext.createDefault(document);
    context.setEmbeddedFontsOn(false);
    context.setPrecision(2);
    SVGGraphics2D g = new SVGGraphics2D(context, false);
    int height = (int) Math.ceil(drawing.height(WIDTH));
    g.setSVGCanvasSize(new Dimension(WIDTH, height));
    drawing.paint(g, WIDTH, Palette.PRINT);
    Element root = g.getRoot();
    g.dispose();
    root.setAttribute("viewBox", "0 0 " + WIDTH + " " + height);
    root.setAttribute("role", "img");
    root.setAttribute("aria-labelledby", name);
    Element title = document.createElementNS(SVG, "title");
    title.setAttribute("id", name);
    title.setTextContent(drawing.words());
    root.insertBefore(title, root.getFirstChild());
    StringWriter out = new StringWriter();
    g.stream(root, out, false, false);
    String text = out.toString();
    int start = text.indexOf("<svg");
    return own(start < 0 ? text : text.substring(start), name);
  }

  /** Names within one drawing must not be those of another. */
  private static String own(String svg, String name) {
    return svg.replaceAll("id=\"(?!" + name + "\")", "id=\"" + name + "-")
        .replaceAll("url\\(#", "url(#" + name + "-")
        .replaceAll("href=\"#", "href=\"#" + name + "-")
        .replace("&apos;", "'")
        .replaceAll("'(?:Dialog|DejaVu Sans[^']*|Droid Sans[^']*)'", "'DejaVu Sans', sans-serif")
        .strip();
  }

  private static Document document() throws IOException {
    try {
      return DocumentBuilderFactory.newInstance()
          .newDocumentBuilder()
          .getDOMImplementation()
          .createDocument(SVG, "svg", null);
    } catch (ParserConfigurationException e) {
      throw new IOException(e);
    }
  }
}
