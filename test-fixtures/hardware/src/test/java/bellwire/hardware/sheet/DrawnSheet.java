package bellwire.hardware.sheet;

import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/**
 * A sheet read back from its SVG alone, in millimetres: strokes, texts, and what kind each is of.
 */
final class DrawnSheet {
  /** Share of a font's size that its capitals are high (Helvetica, from memory). */
  private static final double CAPITAL = 0.72;

  /**
   * @param kind class of the group it stands in
   * @param owner the group's part; empty: none
   * @param pin null where it is none of a part's connections
   */
  record Stroke(
      String kind,
      String owner,
      String pin,
      double x1,
      double y1,
      double x2,
      double y2,
      double width) {
    boolean at(double x, double y) {
      return Line2D.ptSegDist(x1, y1, x2, y2, x, y) < 0.01;
    }

    boolean endsAt(double x, double y) {
      return near(x1, y1, x, y) || near(x2, y2, x, y);
    }
  }

  record Text(String kind, String owner, String words, Rectangle2D box, double size, int group) {
    double capitals() {
      return CAPITAL * size;
    }
  }

  record Dot(double x, double y) {}

  private final List<Stroke> strokes = new ArrayList<>();
  private final List<Text> texts = new ArrayList<>();
  private final List<Dot> dots = new ArrayList<>();
  private final List<List<Stroke>> groups = new ArrayList<>();

  DrawnSheet(String svg) {
    Element root = parsed(svg);
    NodeList all = root.getElementsByTagName("g");
    for (int i = 0; i < all.getLength(); i++) {
      group((Element) all.item(i));
    }
  }

  /** Fails on what is not well-formed. */
  private static Element parsed(String svg) {
    try {
      DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
      factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
      return factory
          .newDocumentBuilder()
          .parse(new InputSource(new StringReader(svg)))
          .getDocumentElement();
    } catch (ParserConfigurationException | SAXException | IOException e) {
      throw new AssertionError(e);
    }
  }

  static boolean near(double x1, double y1, double x2, double y2) {
    return Math.abs(x1 - x2) < 0.01 && Math.abs(y1 - y2) < 0.01;
  }

  List<Stroke> strokes() {
    return strokes;
  }

  List<Stroke> strokes(String kind) {
    return strokes.stream().filter(stroke -> stroke.kind().equals(kind)).toList();
  }

  List<Text> texts() {
    return texts;
  }

  List<Dot> dots() {
    return dots;
  }

  /** The strokes of the group that a text stands in. */
  List<Stroke> beside(Text text) {
    return groups.get(text.group());
  }

  private void group(Element group) {
    String kind = group.getAttribute("class");
    String owner = group.getAttribute("data-part");
    String width = group.getAttribute("stroke-width");
    double stroke = width.isEmpty() ? 0 : Double.parseDouble(width);
    List<Stroke> own = new ArrayList<>();
    NodeList children = group.getChildNodes();
    for (int i = 0; i < children.getLength(); i++) {
      if (children.item(i).getNodeType() == Node.ELEMENT_NODE) {
        element((Element) children.item(i), kind, owner, stroke, own);
      }
    }
    groups.add(own);
    strokes.addAll(own);
  }

  private void element(Element e, String kind, String owner, double width, List<Stroke> own) {
    switch (e.getTagName()) {
      case "line" ->
          own.add(
              new Stroke(
                  kind,
                  owner,
                  e.getAttribute("data-pin"),
                  number(e, "x1"),
                  number(e, "y1"),
                  number(e, "x2"),
                  number(e, "y2"),
                  width));
      case "polyline", "polygon" -> path(e, kind, owner, width, own);
      case "rect" ->
          rectangle(
              number(e, "x"),
              number(e, "y"),
              number(e, "width"),
              number(e, "height"),
              kind,
              owner,
              width,
              own);
      case "circle" -> {
        if (kind.equals("wires")) {
          dots.add(new Dot(number(e, "cx"), number(e, "cy")));
        } else {
          double r = number(e, "r");
          rectangle(
              number(e, "cx") - r, number(e, "cy") - r, 2 * r, 2 * r, kind, owner, width, own);
        }
      }
      case "text" -> texts.add(text(e, kind, owner));
      default -> throw new AssertionError("element=" + e.getTagName());
    }
  }

  private static void path(Element e, String kind, String owner, double width, List<Stroke> own) {
    String[] points = e.getAttribute("points").split("[ ,]", -1);
    int count = points.length / 2;
    for (int i = 0; i < (e.getTagName().equals("polygon") ? count : count - 1); i++) {
      int j = (i + 1) % count;
      own.add(
          new Stroke(
              kind,
              owner,
              "",
              Double.parseDouble(points[2 * i]),
              Double.parseDouble(points[2 * i + 1]),
              Double.parseDouble(points[2 * j]),
              Double.parseDouble(points[2 * j + 1]),
              width));
    }
  }

  private static void rectangle(
      double x,
      double y,
      double w,
      double h,
      String kind,
      String owner,
      double width,
      List<Stroke> own) {
    own.add(new Stroke(kind, owner, "", x, y, x + w, y, width));
    own.add(new Stroke(kind, owner, "", x + w, y, x + w, y + h, width));
    own.add(new Stroke(kind, owner, "", x + w, y + h, x, y + h, width));
    own.add(new Stroke(kind, owner, "", x, y + h, x, y, width));
  }

  private Text text(Element e, String kind, String owner) {
    double size = number(e, "font-size");
    double width = number(e, "textLength");
    double share =
        switch (e.getAttribute("text-anchor")) {
          case "start" -> 0;
          case "middle" -> 0.5;
          default -> 1;
        };
    double x = number(e, "x") - share * width;
    double top = number(e, "y") - CAPITAL * size;
    String words = e.getTextContent();
    // An underscore or a comma goes 0.15 of the size below the line, a bracket or a g 0.22.
    double depth = words.matches(".*[gjpqy(){}\\[\\]|Q].*") ? 0.22 : 0.15;
    return new Text(
        kind,
        owner,
        words,
        new Rectangle2D.Double(x, top, width, (CAPITAL + depth) * size),
        size,
        groups.size());
  }

  private static double number(Element e, String name) {
    return Double.parseDouble(e.getAttribute(name));
  }
}
